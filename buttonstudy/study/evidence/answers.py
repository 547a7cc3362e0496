"""What each button answers to one question: which terms it has, or why there is no answer.

Not seen is not absent. Every share in the kit starts here, where a field's values are parted
into clear answers ("bone", "bone; wood", "absent") and three kinds of no answer: nobody looked
(not examined), somebody looked and could not tell (unclear), nothing was written (not recorded).
Counts and lengths answer in groups of their own: "2 or more" is no "2", and a reading that lies
across the edge of two bands, more than a little, is in neither.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import fields, limit, rows, vocabulary
from buttonstudy.study.evidence.columns import Floats, column, floats, length_bounds, texts
from buttonstudy.study.evidence.keys import set_keys, shared_weights

__all__ = [
    "ABSENT",
    "ANSWERED",
    "BETWEEN",
    "NOT_EXAMINED",
    "NOT_RECORDED",
    "PIERCED",
    "STATES",
    "UNCLEAR",
    "Answers",
    "above_edge",
    "answers",
    "band_edges",
    "held_by_band",
]

ANSWERED = "examined"
UNCLEAR = "unclear"
NOT_EXAMINED = "not examined"
NOT_RECORDED = "not recorded"
STATES = (ANSWERED, UNCLEAR, NOT_EXAMINED, NOT_RECORDED)
ABSENT = "absent"
BETWEEN = "across two bands"
PIERCED = "pierced"

_TOUCH = 1e-9


@dataclass(frozen=True, slots=True)
class Answers:
    """The answers of ``n`` buttons to one question.

    Attributes
    ----------
    state
        ``n`` codes into :data:`STATES`.
    has
        ``n`` rows by one true-or-false column for each term, in reading order. A button with
        "bone; wood" has both. Rows without a clear answer are false throughout.
    """

    state: NDArray[np.int8]
    has: pd.DataFrame

    @property
    def examined(self) -> NDArray[np.bool_]:
        """Which buttons were examined with a clear answer; "absent" is one."""
        return np.asarray(self.state == STATES.index(ANSWERED))


def answers(
    buttons: pd.DataFrame,
    field: str,
    terms: Sequence[str] | None = None,
    edges: Sequence[float] | None = None,
    *,
    as_written: bool = False,
) -> Answers:
    """Read one field of every button as answers.

    Parameters
    ----------
    buttons
        One row per button, with the record's columns.
    field
        A field's base name: a term (``"mould_material"``), a count (``"cover_layers"``) or a
        length (``"hole_diameter"``).
    terms
        The terms wanted, in this order; one that nobody has keeps an empty column. All terms
        that occur if not given: the most frequent first, "absent" last; counts, bands and
        terms that have an order, such as thin, medium, thick, in their own.
    edges
        For a length, the ascending edges of its bands in mm, instead of the kit's own table. A
        reading is in a band that holds the share ``band-share`` of what it allows; a size known
        exactly and on an edge belongs to the smaller band.
    as_written
        Take `mould_hole` as its own cells have it alone. Else a hole that was measured, or whose
        fill is known, was seen where these cells say nothing clear, as was that there is none.

    Examples
    --------
    >>> buttons = pd.DataFrame({"hole_fill": ["thread", "not examined", "paper; thread", None]})
    >>> found = answers(buttons, "hole_fill")
    >>> [STATES[code] for code in found.state]
    ['examined', 'not examined', 'examined', 'not recorded']
    >>> found.has["paper"].tolist()
    [False, False, True, False]
    """
    kind = next((known.kind for known in fields() if known.field == field), "term")
    if kind == "count":
        wording, order = _count_wording(buttons, field)
    elif kind == "length":
        wording, order = _length_wording(buttons, field, edges)
    else:
        wording, order = texts(buttons, field), ()
        if field == "mould_hole" and not as_written:
            wording = _with_seen_holes(buttons, wording)
    if terms is None and kind in ("count", "length"):
        terms = [term for term in order if (wording == term).any()]
    elif terms is None:
        terms = _in_order(field, _by_frequency(wording, set_keys(buttons).to_numpy()))
    return _part(wording, buttons.index, terms)


def band_edges(field: str) -> tuple[float, ...]:
    """Give the kit's own band edges of a length, in mm; none if the kit has none for it.

    Examples
    --------
    >>> band_edges("hole_diameter")
    (1.55, 2.55, 4.55)
    """
    return tuple(float(row["edge_mm"]) for row in rows("length_bands") if row["field"] == field)


def held_by_band(low: Floats, high: Floats, over: float, up_to: float) -> NDArray[np.bool_]:
    """Say which readings a band holds: those that lie in it whole, or all but a little.

    Parameters
    ----------
    low, high
        What each reading allows, in mm; no reading (missing) is in no band.
    over, up_to
        The band's ends in mm, infinite where it is open. How much of a reading it has to hold is
        the limit ``band-share``.

    Examples
    --------
    >>> held_by_band(np.array([1.5, 1.25]), np.array([2.5, 1.75]), 1.55, np.inf).tolist()
    [True, False]
    """
    whole = (low >= over - _TOUCH) & (high <= up_to + _TOUCH)
    held = np.minimum(high, up_to) - np.maximum(low, over)
    return np.asarray(whole | ((high > low) & (held >= limit("band-share") * (high - low))))


def _with_seen_holes(buttons: pd.DataFrame, wording: NDArray[np.object_]) -> NDArray[np.object_]:
    """Answer for the mould's hole where only its size or its fill tells of it.

    The answer is that of "yes" in a column on holes. A fill that is absent says that there is no
    hole (the definition of hole_fill in ``vocabulary.csv``).
    """
    measured = ~np.isnan(length_bounds(buttons, "hole_diameter")[1])
    fill = texts(buttons, "hole_fill")
    filled = ~np.isin(fill, [ABSENT, UNCLEAR, NOT_EXAMINED, ""])
    silent = np.isin(wording, [UNCLEAR, NOT_EXAMINED, ""])
    seen = np.where(measured | filled, PIERCED, np.where(fill == ABSENT, ABSENT, wording))
    return np.where(silent, seen, wording)


def _part(wording: NDArray[np.object_], index: pd.Index, terms: Sequence[str]) -> Answers:
    """Part each distinct wording once, and deal the parts back to the rows."""
    codes, distinct = pd.factorize(wording)
    states = np.array([_state(text) for text in distinct], dtype=np.int8)
    parts = [_terms(text) for text in distinct]
    wanted = list(terms)
    table = np.array([[term in part for term in wanted] for part in parts], dtype=bool)
    table = table.reshape(len(parts), len(wanted))
    return Answers(states[codes], pd.DataFrame(table[codes], index=index, columns=wanted))


def _state(text: str) -> int:
    if text in (UNCLEAR, NOT_EXAMINED):
        return STATES.index(text)
    return STATES.index(ANSWERED if text.strip() else NOT_RECORDED)


def _terms(text: str) -> frozenset[str]:
    if STATES[_state(text)] != ANSWERED:
        return frozenset()
    return frozenset(part.strip() for part in text.split(";") if part.strip())


def _by_frequency(wording: NDArray[np.object_], keys: NDArray[np.int64]) -> list[str]:
    """Order the terms that occur by how many sets have them, "absent" last."""
    codes, distinct = pd.factorize(wording)
    sets = np.bincount(codes, shared_weights(keys, np.ones(len(keys), dtype=bool)), len(distinct))
    total: dict[str, float] = {}
    for text, number in zip(distinct, sets):
        for term in _terms(text):
            total[term] = total.get(term, 0) + float(number)
    return sorted(total, key=lambda term: (term == ABSENT, -round(total[term], 6), term))


def _in_order(field: str, terms: list[str]) -> list[str]:
    """Put terms that have an order into it, before all others."""
    if not any(known.ordered for known in fields() if known.field == field):
        return terms
    place = {one.term: number for number, one in enumerate(vocabulary().terms(field))}
    return sorted(terms, key=lambda term: place.get(term, len(place)))


def _count_wording(
    buttons: pd.DataFrame, field: str
) -> tuple[NDArray[np.object_], tuple[str, ...]]:
    """Word bounded counts, each kind of bound as a group of its own."""
    low, high = floats(buttons, f"{field}_low"), floats(buttons, f"{field}_high")
    pairs = pd.DataFrame({"low": low, "high": high})
    codes = pairs.groupby(["low", "high"], dropna=False, sort=True).ngroup().to_numpy()
    distinct = pairs.drop_duplicates().set_axis(pd.unique(codes)).sort_index()
    labels = [_count_label(*pair) for pair in distinct.to_numpy().tolist()]
    wording = np.array(labels, dtype=object)[codes] if len(codes) else np.array([], dtype=object)
    state = texts(buttons, f"{field}_state")
    blank = wording == ""
    told = np.isin(state, [NOT_EXAMINED, UNCLEAR])
    wording[blank & told] = state[blank & told]
    return wording, tuple(dict.fromkeys(label for label in labels if label))


def _count_label(low: float, high: float) -> str:
    if np.isnan(low) and np.isnan(high):
        return ""
    if low == high:
        return f"{low:.0f}" if low else ABSENT
    if np.isnan(high):
        return f"{low:.0f} or more"
    return f"{high:.0f} or fewer" if np.isnan(low) or low == 0 else f"{low:.0f}–{high:.0f}"


def _length_wording(
    buttons: pd.DataFrame, field: str, edges: Sequence[float] | None
) -> tuple[NDArray[np.object_], tuple[str, ...]]:
    """Word lengths as bands; a reading that lies well across an edge is in neither."""
    low, _, high = length_bounds(buttons, field)
    inner = band_edges(field) if edges is None else tuple(edges)
    ends = (-np.inf, *inner, np.inf)
    labels = _band_labels(inner)
    wording = np.where(np.isnan(low), "", BETWEEN).astype(object)
    for (over, up_to), label in reversed(list(zip(pairwise(ends), labels))):
        wording[held_by_band(low, high, over, up_to)] = label
    inside = any(known.inside for known in fields() if known.field == field)
    closed = (column(buttons, "opened") == "not opened").fillna(False).to_numpy(dtype=bool)
    wording[(wording == "") & closed & inside] = NOT_EXAMINED
    return wording, (*labels, BETWEEN)


def _band_labels(edges: Sequence[float]) -> tuple[str, ...]:
    if not edges:
        return ("any size",)
    last = [f"{_last_tenth(edge)} mm" for edge in edges]
    between = [f"{_first_tenth(over)} to {up_to}" for over, up_to in zip(edges, last[1:])]
    return (f"up to {last[0]}", *between, above_edge(edges[-1]))


def above_edge(edge: float) -> str:
    """Name the sizes above an edge, in mm; of one that parts two tenths, by the upper one.

    Examples
    --------
    >>> above_edge(2.55), above_edge(2.5)
    ('2.6 mm or more', 'over 2.5 mm')
    """
    first = _first_tenth(edge)
    return f"{first} mm or more" if _parts_tenths(edge) else f"{first} mm"


def _parts_tenths(edge: float) -> bool:
    twentieths = 20 * edge
    return abs(twentieths - round(twentieths)) < _TOUCH and round(twentieths) % 2 == 1


def _first_tenth(edge: float) -> str:
    return f"{edge + 0.05:g}" if _parts_tenths(edge) else f"over {edge:g}"


def _last_tenth(edge: float) -> str:
    return f"{edge - 0.05:g}" if _parts_tenths(edge) else f"{edge:g}"
