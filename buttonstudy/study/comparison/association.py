"""Whether two features go together: fills with large holes, with heavy covers, with wooden moulds.

Both features are asked of the same buttons, and only sets on which both were examined can tell.
A set is counted once; where its buttons differ, it lies in several cells by their shares. Bounded
counts and wide readings are never forced into a class: "2 or more" says nothing on "3 or more".
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray
from scipy import sparse

from buttonstudy.schemes import fields, limit
from buttonstudy.study.comparison.odds import odds_with_interval
from buttonstudy.study.evidence.answers import above_edge, answers, band_edges, held_by_band
from buttonstudy.study.evidence.columns import Floats, floats, length_bounds
from buttonstudy.study.evidence.holes import asked_of
from buttonstudy.study.evidence.sets import set_keys

__all__ = ["ASSOCIATION_COLUMNS", "Group", "associations", "groups_of"]

ASSOCIATION_COLUMNS = (
    "term",
    "group",
    "sets",
    "both",
    "term_only",
    "group_only",
    "neither",
    "mixed",
    "odds_ratio",
    "low",
    "high",
    "how",
    "few",
)

_COUNTED = {"sets": "int64", "mixed": "int64", "few": "bool"}
_MEASURED = ("both", "term_only", "group_only", "neither", "odds_ratio", "low", "high")
_TOUCH = 1e-9


@dataclass(frozen=True, slots=True)
class Group:
    """A class of buttons.

    Attributes
    ----------
    label
        As readers see it, such as "wood", "2.6 mm or more" or "3 or more".
    member
        Which of the ``n`` buttons belong to it for certain.
    known
        For which of them it is known whether they do.
    """

    label: str
    member: NDArray[np.bool_]
    known: NDArray[np.bool_]


def groups_of(
    buttons: pd.DataFrame,
    field: str,
    terms: Sequence[str] | None = None,
    edges: Sequence[float] | None = None,
) -> list[Group]:
    """Class the buttons by one field.

    Parameters
    ----------
    buttons
        One row per button.
    field
        A term field gives one group for each term. A count gives "2 or more", "3 or more" and so
        on; a length "... mm or more" for each edge of its bands.
    terms
        The groups wanted, by their labels; all of them if not given.
    edges
        For a length, the edges in mm, instead of the kit's own table.

    Examples
    --------
    >>> buttons = pd.DataFrame({"cover_layers_low": [1, 2, 3], "cover_layers_high": [1, None, 3]})
    >>> [(group.label, group.known.tolist()) for group in groups_of(buttons, "cover_layers")]
    [('2 or more', [True, True, True]), ('3 or more', [True, False, True])]
    """
    kind = next((known.kind for known in fields() if known.field == field), "term")
    if kind == "count":
        made = _counted(buttons, field)
    elif kind == "length":
        low, _, high = length_bounds(buttons, field)
        inner = band_edges(field) if edges is None else tuple(edges)
        made = [_over(low, high, edge) for edge in inner]
    else:
        found = answers(buttons, field, terms)
        return [Group(str(term), found.has[term].to_numpy(), found.examined) for term in found.has]
    return [group for group in made if terms is None or group.label in terms]


def associations(
    buttons: pd.DataFrame,
    field: str,
    by: str,
    terms: Sequence[str] | None = None,
    groups: Sequence[str] | None = None,
    edges: Sequence[float] | None = None,
    *,
    fewest: float = 0,
    n_draws: int | None = None,
    seed: int = 1,
) -> pd.DataFrame:
    """Tell for each term of one field and each group of another how far they go together.

    Parameters
    ----------
    buttons
        One row per button.
    field, terms
        The field whose terms are asked about, as for :func:`groups_of`.
    by, groups, edges
        The field that makes the groups, likewise.
    fewest
        Pairs in which fewer sets than this have the term, or lack it, or are in the group, or
        outside it, are left out.
    n_draws
        Number of resampled surveys where sets are mixed; the limit ``resampling-draws`` if not
        given.
    seed
        Seed of their random numbers: the same seed gives the same intervals.

    Returns
    -------
    DataFrame
        :data:`ASSOCIATION_COLUMNS`, one row for each term and group: ``sets`` (on which both are
        known), in four cells ``both``, ``term_only`` (the term outside the group),
        ``group_only`` (the group without the term) and ``neither``; ``mixed`` (sets whose
        buttons lie in several cells); ``odds_ratio`` (the odds of the term in the group, divided
        by those outside it) with ``low`` and ``high`` (interval at the limit ``confidence``;
        blank if open); ``how`` (by which method, or why it cannot be estimated) and ``few``
        (fewer sets than the limit ``few-sets``). No rows if there are no terms or groups.

    Notes
    -----
    See :func:`.comparison.odds.odds_with_interval`. Many pairs looked at together give
    some wide of 1 by chance: at 95 % about one interval in twenty misses.
    """
    buttons = asked_of(buttons, field)
    keys = set_keys(buttons).to_numpy()
    asked = groups_of(buttons, field, terms)
    made = groups_of(buttons, by, groups, edges)
    draws = int(limit("resampling-draws")) if n_draws is None else n_draws
    pairs = [(term, group, _cells(keys, term, group)) for term in asked for group in made]
    rows = [
        (term.label, group.label, *_told(cells, draws, seed))
        for term, group, cells in pairs
        if _smallest_side(cells) >= fewest
    ]
    table = pd.DataFrame(rows, columns=list(ASSOCIATION_COLUMNS))
    words = dict.fromkeys(("term", "group", "how"), "str")
    return table.astype(words | _COUNTED | dict.fromkeys(_MEASURED, "float64"))


def _counted(buttons: pd.DataFrame, field: str) -> list[Group]:
    """Class bounded counts by whether they reach each number that occurs."""
    low, high = floats(buttons, f"{field}_low"), floats(buttons, f"{field}_high")
    low = np.where(np.isnan(low) & ~np.isnan(high), 0.0, low)
    seen = low[~np.isnan(low)]
    numbers = range(int(seen.min()) + 1, int(seen.max()) + 1) if len(seen) else range(0)
    return [
        Group(f"{number} or more", low >= number, (low >= number) | (high < number))
        for number in numbers
    ]


def _over(low: Floats, high: Floats, edge: float) -> Group:
    """Class lengths by an edge, as bands do; a size known exactly and on the edge is not over."""
    below = held_by_band(low, high, -np.inf, edge)
    above = held_by_band(low, high, edge, np.inf) & ~below
    return Group(above_edge(edge), above, above | below)


def _cells(keys: NDArray[np.int64], term: Group, group: Group) -> Floats:
    """Lay the sets on which both are known out over both, term only, group only, neither."""
    known = term.known & group.known
    weight = _share_of_set(keys, known)
    cells = [
        term.member & group.member,
        term.member & ~group.member,
        ~term.member & group.member,
        ~term.member & ~group.member,
    ]
    per_set = np.column_stack(
        [np.bincount(keys, weights=weight * cell, minlength=1) for cell in cells]
    )
    return np.asarray(per_set[per_set.sum(axis=1) > 0])


def _smallest_side(per_set: Floats) -> float:
    """Say how many sets the smallest row or column of a pair's table has."""
    both, term_only, group_only, neither = per_set.sum(axis=0)
    rows = (both + term_only, group_only + neither)
    return float(min(*rows, both + group_only, term_only + neither))


def _told(per_set: Floats, draws: int, seed: int) -> tuple[object, ...]:
    """Give one pair's counts and odds, in the order of :data:`ASSOCIATION_COLUMNS`."""
    odds = odds_with_interval(sparse.csr_array(per_set), draws, seed)
    mixed = int((per_set.max(axis=1, initial=0.0) < 1 - _TOUCH).sum())
    ends = (odds.ratio, odds.low, odds.high, odds.how, len(per_set) < limit("few-sets"))
    return (len(per_set), *per_set.sum(axis=0), mixed, *ends)


def _share_of_set(keys: NDArray[np.int64], known: NDArray[np.bool_]) -> Floats:
    number = np.bincount(keys[known], minlength=keys.max(initial=-1) + 1)
    return np.where(known, 1 / np.maximum(number[keys], 1), 0.0)
