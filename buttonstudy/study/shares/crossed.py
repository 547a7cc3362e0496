"""How common each term of one field was among the groups that another field makes.

Were holes of bone moulds filled otherwise than those of wooden ones? Of large holes, of heavy
covers? A set whose buttons fall into several groups counts in each by its share of buttons
there, and is judged in each by the buttons that lie there. Sets for which the second field is
not known are groups of their own, so that nothing drops out of sight.
"""

from collections.abc import Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.study.evidence.answers import (
    NOT_EXAMINED,
    NOT_RECORDED,
    STATES,
    UNCLEAR,
    Answers,
    answers,
)
from buttonstudy.study.evidence.holes import asked_of
from buttonstudy.study.evidence.sets import collapse, set_keys
from buttonstudy.study.shares.tally import COUNT_COLUMNS, tally

__all__ = ["ALL_GROUPS", "CROSSED_COLUMNS", "shares_crossed"]

ALL_GROUPS = "all groups"
CROSSED_COLUMNS = ("group", "kind", "term", *COUNT_COLUMNS)

_UNKNOWN = (UNCLEAR, NOT_EXAMINED, NOT_RECORDED)
_RANK = {STATES.index(state): place for place, state in enumerate(_UNKNOWN)}
_KINDS = {ALL_GROUPS: "all", **dict.fromkeys(_UNKNOWN, "unknown")}


def shares_crossed(
    buttons: pd.DataFrame,
    field: str,
    by: str,
    terms: Sequence[str] | None = None,
    groups: Sequence[str] | None = None,
    edges: Sequence[float] | None = None,
) -> pd.DataFrame:
    """Describe the share of examined sets with each term of one field, by groups of another.

    Parameters
    ----------
    buttons
        One row per button.
    field, terms
        The field whose shares are wanted, as for :func:`.evidence.answers.answers`.
    by, groups, edges
        The field that makes the groups, likewise: a term field (a button with several terms is
        in the group of each), a count ("2 or more" is a group of its own) or a length, in bands
        (a reading that lies well across an edge is in the group "across two bands").

    Returns
    -------
    DataFrame
        :data:`CROSSED_COLUMNS`, for each term one row for each group, then for the sets whose
        group is not known, then for all sets. ``kind`` is "group", "unknown" or "all". The
        counts are explained at :func:`.shares.tally.tally`; a set counts in a group by
        the share that the group has of its buttons whose group is known.

    Examples
    --------
    >>> buttons = pd.DataFrame(
    ...     {"hole_fill": ["thread", "open"], "mould_material": ["bone", "wood"]}
    ... )
    >>> table = shares_crossed(buttons, "hole_fill", "mould_material", ["thread"])
    >>> table.query("sets > 0")[["group", "examined", "with_term"]].values.tolist()
    [['bone', 1.0, 1.0], ['wood', 1.0, 0.0], ['all groups', 2.0, 1.0]]
    """
    buttons = asked_of(buttons, field)
    keys = set_keys(buttons).to_numpy()
    asked, grouping = answers(buttons, field, terms), answers(buttons, by, groups, edges)
    counted = pd.concat(
        [_in_groups(keys, asked, grouping), _in_all(keys, asked)], ignore_index=True
    )
    counted["kind"] = [_KINDS.get(group, "group") for group in counted["group"]]
    place = counted["term"].map({term: number for number, term in enumerate(asked.has.columns)})
    ordered = counted.iloc[np.argsort(place.to_numpy(), kind="stable")]
    return ordered[list(CROSSED_COLUMNS)].reset_index(drop=True)


def _in_all(keys: NDArray[np.int64], asked: Answers) -> pd.DataFrame:
    number = keys.max(initial=-1) + 1
    return tally(collapse(keys, asked, number), pd.DataFrame({ALL_GROUPS: np.ones(number)}))


def _in_groups(keys: NDArray[np.int64], asked: Answers, grouping: Answers) -> pd.DataFrame:
    """Count each set in each of its groups, judged by the buttons that lie there."""
    names = [*grouping.has.columns, *_UNKNOWN]
    row, group = _memberships(keys, grouping)
    pair, pairs = pd.factorize(keys[row] * len(names) + group)
    evidence = collapse(pair, Answers(asked.state[row], asked.has.iloc[row]), len(pairs))
    of_set, of_group = np.divmod(pairs, len(names))
    known = np.bincount(keys[grouping.examined], minlength=keys.max(initial=-1) + 1)
    share = np.bincount(pair, minlength=len(pairs)) / np.maximum(known[of_set], 1)
    weights = np.zeros((len(pairs), len(names)))
    in_group = of_group < grouping.has.shape[1]
    weights[np.arange(len(pairs)), of_group] = np.where(in_group, share, 1.0)
    return tally(evidence, pd.DataFrame(weights, columns=names))


def _memberships(
    keys: NDArray[np.int64], grouping: Answers
) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Pair each button's row with its groups; a set without any goes to one unknown group."""
    row, group = np.nonzero(grouping.has.to_numpy())
    number = keys.max(initial=-1) + 1
    known = np.bincount(keys[grouping.examined], minlength=number)
    lost = np.flatnonzero(known[keys] == 0)
    rank = np.array([_RANK[code] for code in grouping.state[lost]], dtype=np.int64)
    best = np.full(number, len(_UNKNOWN))
    np.minimum.at(best, keys[lost], rank)
    return np.append(row, lost), np.append(group, grouping.has.shape[1] + best[keys[lost]])
