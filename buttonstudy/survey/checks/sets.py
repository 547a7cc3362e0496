"""Members of one set that differ in size or date.

Matching buttons count as one piece of evidence, so a stranger among them makes the set's one
value wrong. A set is told once, at the member that differs most.
"""

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt
import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.schemes.findings import slips
from buttonstudy.survey.checks.finding import Finding, Floats, numbers, row_names, words


def set_findings(buttons: pd.DataFrame) -> Iterator[Finding]:
    """Tell sets, within their file, whose members differ in size or have no year in common."""
    key = buttons.groupby(["file", "set_id"], sort=False, dropna=True).ngroup()
    sets = key.fillna(-1).to_numpy(dtype=np.intp)
    in_sets = np.flatnonzero(sets >= 0)
    shared = in_sets[np.bincount(sets[in_sets])[sets[in_sets]] > 1] if len(in_sets) else in_sets
    if not len(shared):
        return
    order = shared[np.argsort(sets[shared], kind="stable")]
    low, best, high = (numbers(buttons, f"diameter_mm{end}") for end in ("_low", "", "_high"))
    start, end = numbers(buttons, "year_from"), numbers(buttons, "year_to")
    groups = _apart(order, sets[order], low, high * limit("set-sizes-alike"))
    groups |= _apart(order, sets[order], start, end)
    if not groups:
        return
    read_in = words(buttons, "diameter_unit")
    names, places = buttons["set_id"].to_numpy(dtype=object), row_names(buttons)
    for members in (order[first:last] for first, last in sorted(groups)):
        name = str(names[members[0]])
        sized = members[~np.isnan(best[members])]
        if len(sized) > 1:
            yield from _sizes(places, sized, low, best, high, name, read_in)
        dated = members[~np.isnan(start[members]) & ~np.isnan(end[members])]
        if len(dated) > 1 and start[dated].max() > end[dated].min():
            late, early = int(dated[start[dated].argmax()]), int(dated[end[dated].argmin()])
            yield Finding(
                "set-dates-differ",
                late,
                f"In set {name} this button is dated from {start[late]:.0f} on, and that of "
                f"{places[early]} to {end[early]:.0f} at the latest.",
                "date",
            )


def _apart(order: np.ndarray, sets: np.ndarray, low: Floats, high: Floats) -> set[tuple[int, int]]:
    """Give where in the order the sets stand whose highest low is above their lowest high.

    All sets are judged at once, so that only those with something to tell are looked at singly.
    """
    starts = np.concatenate([[0], np.flatnonzero(np.diff(sets)) + 1])
    ends = np.append(starts[1:], len(sets))
    known = ~np.isnan(low[order]) & ~np.isnan(high[order])
    most = np.maximum.reduceat(np.where(known, low[order], -np.inf), starts)
    least = np.minimum.reduceat(np.where(known, high[order], np.inf), starts)
    return {(int(starts[at]), int(ends[at])) for at in np.flatnonzero(most > least)}


def _sizes(
    places: list[str],
    members: np.ndarray,
    low: Floats,
    best: Floats,
    high: Floats,
    name: str,
    read_in: npt.NDArray[np.object_],
) -> Iterator[Finding]:
    smallest, largest = members[high[members].argmin()], members[low[members].argmax()]
    if low[largest] <= high[smallest] * limit("set-sizes-alike"):
        return
    middle = np.median(best[members])
    off = np.maximum(best[members] / middle, middle / best[members])
    place = int(members[len(members) - 1 - off[::-1].argmax()])
    other = int(smallest if place != smallest else largest)
    upward = best[place] > best[other]
    ratio = (low[largest] / high[smallest], high[largest] / low[smallest])
    fitting = [
        one
        for one in slips()
        if ratio[0] <= max(one.factor, 1 / one.factor) <= ratio[1]
        and one.may_be_in(read_in[place] if (one.factor > 1) == upward else read_in[other])
    ]
    sure = [one for one in fitting if one.alone]
    says = (
        f"In set {name} this button has {best[place]:.4g} mm, and that of "
        f"{places[other]} {best[other]:.4g} mm."
    )
    wanted = [one for one in sure or fitting if (one.factor > 1) == upward]
    if wanted:
        says += f" Perhaps {'; or '.join(dict.fromkeys(one.says for one in wanted))}."
    yield Finding("set-size-slip" if sure else "set-sizes-differ", place, says, "diameter")
