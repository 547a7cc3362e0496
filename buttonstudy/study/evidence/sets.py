"""The unit of evidence: matching buttons off one garment, card or bag are one set.

Twenty-four buttons off one card say what one button of it says. So every denominator in the kit
counts sets, and a set whose buttons differ counts for each answer by its share, never by the
first button that happens to stand in the table.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.study.evidence.answers import (
    ANSWERED,
    NOT_EXAMINED,
    NOT_RECORDED,
    STATES,
    UNCLEAR,
    Answers,
    answers,
)
from buttonstudy.study.evidence.columns import Floats, floats
from buttonstudy.study.evidence.keys import set_keys, shared_weights

__all__ = [
    "Evidence",
    "collapse",
    "field_evidence",
    "set_dates",
    "set_keys",
    "shared_weights",
]


@dataclass(frozen=True, slots=True)
class Evidence:
    """The answers of ``n`` sets, or parts of sets, to one question.

    Attributes
    ----------
    state
        ``n`` state names: "examined" if any button was; else "unclear" if any was looked at;
        else "not examined" if any was said to be so; else "not recorded".
    examined
        How many buttons of each were examined with a clear answer.
    shares
        ``n`` rows by one column for each term: the share of the examined buttons that have it,
        blank where none was examined.
    """

    state: NDArray[np.object_]
    examined: NDArray[np.int64]
    shares: pd.DataFrame


def set_dates(buttons: pd.DataFrame, keys: pd.Series | None = None) -> pd.DataFrame:
    """Date each set by what its buttons together allow.

    Where the buttons of a set are dated differently, the set is dated from the earliest to the
    latest year that any of them allows: a card or a bag may have been filled over years, and a
    wide date claims less than a narrow one. Buttons dated at both ends decide; those with one
    open end ("after 1840") are heard only where no button of the set has both. An end that one
    of these leaves open stays open.

    Parameters
    ----------
    buttons
        One row per button, with ``year_from`` and ``year_to``, both inclusive.
    keys
        The sets as :func:`set_keys` numbers them; found anew if not given.

    Returns
    -------
    DataFrame
        One row per set, in order: ``year_from``, ``year_to`` (Int64) and ``dates_differ``.

    Examples
    --------
    >>> buttons = pd.DataFrame(
    ...     {"set_id": ["1", "1", "2"], "year_from": [1840, 1850, None], "year_to": [1860, 1870, 9]}
    ... )
    >>> set_dates(buttons).values.tolist()
    [[1840, 1870, True], [<NA>, 9, False]]
    """
    codes = (set_keys(buttons) if keys is None else keys).to_numpy()
    number = int(codes.max()) + 1 if len(codes) else 0
    low, high = floats(buttons, "year_from"), floats(buttons, "year_to")
    both = ~np.isnan(low) & ~np.isnan(high)
    some = ~np.isnan(low) | ~np.isnan(high)
    closed = np.zeros(number, dtype=bool)
    closed[codes[both]] = True
    heard = np.where(closed[codes], both, some)
    first, last = (
        _widest(codes[heard], low[heard], number),
        _widest(codes[heard], high[heard], number),
    )
    years = {"year_from": first[0], "year_to": last[1]}
    table = pd.DataFrame({name: pd.array(end).astype("Int64") for name, end in years.items()})
    table["dates_differ"] = first[2] | last[2]
    return table.rename_axis("set")


def _widest(
    codes: NDArray[np.int64], years: Floats, number: int
) -> tuple[Floats, Floats, NDArray[np.bool_]]:
    """Give each set's earliest and latest year of one end, and whether its buttons differ."""
    earliest, latest = np.full(number, np.inf), np.full(number, -np.inf)
    known = ~np.isnan(years)
    np.minimum.at(earliest, codes[known], years[known])
    np.maximum.at(latest, codes[known], years[known])
    open_end = np.bincount(codes[~known], minlength=number) > 0
    dated = np.bincount(codes[known], minlength=number) > 0
    differ = dated & (open_end | (earliest != latest))
    unknown = open_end | ~dated
    return np.where(unknown, np.nan, earliest), np.where(unknown, np.nan, latest), differ


def field_evidence(
    buttons: pd.DataFrame, keys: pd.Series, field: str, terms: Sequence[str] | None = None
) -> Evidence:
    """Sum up what the buttons of each set answer to one field.

    Parameters
    ----------
    buttons, keys
        One row per button, and the sets as :func:`set_keys` numbers them.
    field, terms
        As for :func:`buttonstudy.study.evidence.answers.answers`.

    Examples
    --------
    >>> buttons = pd.DataFrame(
    ...     {"set_id": ["1", "1", "2"], "mould_material": ["bone", "wood", "not examined"]}
    ... )
    >>> found = field_evidence(buttons, set_keys(buttons), "mould_material")
    >>> found.examined.tolist(), found.state.tolist(), found.shares["bone"].tolist()
    ([2, 0], ['examined', 'not examined'], [0.5, nan])
    """
    codes = keys.to_numpy()
    return collapse(codes, answers(buttons, field, terms), int(codes.max(initial=-1)) + 1)


def collapse(codes: NDArray[np.int64], found: Answers, number: int) -> Evidence:
    """Sum up the answers of all buttons that share a code.

    Parameters
    ----------
    codes
        The set, or part of a set, that each of the ``n`` answers belongs to: 0 to
        ``number`` - 1.
    found
        ``n`` buttons' answers.
    number
        How many sets there are.
    """
    counts = {
        state: np.bincount(codes[found.state == place], minlength=number)
        for place, state in enumerate(STATES)
    }
    examined = counts[ANSWERED]
    divisor = np.where(examined > 0, examined, np.nan)
    shares = {
        term: np.bincount(codes[mark], minlength=number) / divisor
        for term, mark in zip(found.has.columns, found.has.to_numpy().T)
    }
    table = pd.DataFrame(shares, index=pd.RangeIndex(number), columns=list(found.has.columns))
    return Evidence(_set_state(counts), examined, table)


def _set_state(counts: dict[str, NDArray[np.int64]]) -> NDArray[np.object_]:
    order = (ANSWERED, UNCLEAR, NOT_EXAMINED)
    chosen = np.select([counts[state] > 0 for state in order], order, default=NOT_RECORDED)
    return np.asarray(chosen.astype(object))
