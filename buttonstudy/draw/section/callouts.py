"""Places words beside a drawing so that no two overlap, each joined to its part by a thin line."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from buttonstudy.draw.lettering import Lettering, lettering
from buttonstudy.draw.section.pieces import Callout

__all__ = ["PlacedCallout", "column_height", "place_callouts", "stacked"]

_APART = 1.2


@dataclass(frozen=True, slots=True)
class PlacedCallout:
    """Words with their place.

    Attributes
    ----------
    letters
        The words, broken to their column.
    top
        Their upper edge on paper.
    at
        The place on the part that they speak of, on paper.
    left
        Whether they stand at the left.
    """

    letters: Lettering
    top: float
    at: tuple[float, float]
    left: bool

    @property
    def middle(self) -> float:
        """The height of their middle."""
        return self.top + self.letters.height_mm / 2


def stacked(
    wanted: Sequence[float], heights: Sequence[float], apart: float = _APART
) -> list[float]:
    """Give upper edges near those wanted, in order, that keep blocks apart.

    Blocks that would overlap are moved as one, so that they lie about the middle of where they
    want to be.

    Examples
    --------
    >>> stacked([0, 1, 20], [3, 3, 3], 1)
    [-1.5, 2.5, 20.0]
    """
    groups: list[tuple[list[int], float, float]] = []
    for place, (want, height) in enumerate(zip(wanted, heights)):
        group, top, tall = [place], float(want), float(height)
        while groups and groups[-1][1] + groups[-1][2] + apart > top:
            before, _, tall_before = groups.pop()
            joined = before + group
            offsets = [0.0]
            for one in joined[:-1]:
                offsets.append(offsets[-1] + heights[one] + apart)
            top = sum(wanted[one] - off for one, off in zip(joined, offsets)) / len(joined)
            group, tall = joined, tall_before + apart + tall
        groups.append((group, top, tall))
    told: list[float] = []
    for group, top, _ in groups:
        for one in group:
            told.append(top)
            top += heights[one] + apart
    return told


def column_height(callouts: Sequence[Callout], words: Sequence[str], width_mm: float) -> float:
    """Give the height that the words need if they are shared by two columns."""
    heights = [lettering(says, width_mm).height_mm + _APART for says in words]
    sides = _sides(callouts, heights)
    return max(
        sum(height for height, left in zip(heights, sides) if left),
        sum(height for height, left in zip(heights, sides) if not left),
    )


def _sides(callouts: Sequence[Callout], heights: Sequence[float]) -> list[bool]:
    """Share words between left and right: True is left."""
    order = sorted(range(len(callouts)), key=lambda one: -callouts[one].y)
    filled = {True: 0.0, False: 0.0}
    sides = [False] * len(callouts)
    for one in order:
        if not callouts[one].both:
            filled[False] += heights[one]
            continue
        side = filled[True] <= filled[False]
        sides[one] = side
        filled[side] += heights[one]
    return sides


def place_callouts(
    callouts: Sequence[Callout],
    words: Sequence[str],
    width_mm: float,
    on_paper: Sequence[tuple[float, float]],
    on_paper_left: Sequence[tuple[float, float]],
    across: float,
    top: float,
    bottom: float,
) -> list[PlacedCallout]:
    """Place all words between two heights, so that no two lines to the parts cross if it can be.

    Parameters
    ----------
    callouts
        The parts.
    words
        What is written for each.
    width_mm
        The columns' width.
    on_paper, on_paper_left
        The places of the parts on paper, in the right half and in the left.
    across
        The paper's width, from the left column's outer edge to the right one's.
    top, bottom
        Where the columns may reach.
    """
    letters = [lettering(says, width_mm) for says in words]
    sides = _sides(callouts, [one.height_mm + _APART for one in letters])
    placed = []
    for left in (True, False):
        places = on_paper_left if left else on_paper
        chosen = [one for one, side in enumerate(sides) if side == left]
        chosen.sort(key=lambda one: (places[one][1], places[one][0]))
        for _ in chosen:
            here = _column([letters[one] for one in chosen], [places[one] for one in chosen], left)
            here = _between(here, top, bottom)
            swap = _crossing(here, across)
            if swap is None:
                break
            chosen[swap], chosen[swap + 1] = chosen[swap + 1], chosen[swap]
        placed += here if chosen else []
    return placed


def _column(
    letters: Sequence[Lettering], places: Sequence[tuple[float, float]], left: bool
) -> list[PlacedCallout]:
    """Stack the words of one side, each as near as may be to the height of its part."""
    heights = [one.height_mm for one in letters]
    wanted = [place[1] - height / 2 for place, height in zip(places, heights)]
    return [
        PlacedCallout(one, at, place, left)
        for one, at, place in zip(letters, stacked(wanted, heights), places)
    ]


def _between(column: list[PlacedCallout], top: float, bottom: float) -> list[PlacedCallout]:
    """Push words down from the upper limit, and up from the lower."""
    down, limit = [], top
    for one in column:
        down.append(replace(one, top=max(one.top, limit)))
        limit = down[-1].top + one.letters.height_mm + _APART
    up, limit = [], bottom
    for one in reversed(down):
        up.append(replace(one, top=min(one.top, limit - one.letters.height_mm)))
        limit = up[-1].top - _APART
    return up[::-1]


def _crossing(column: Sequence[PlacedCallout], across: float) -> int | None:
    """Find two neighbours whose lines cross, and would not if they changed places."""
    for place, (one, other) in enumerate(pairwise(column)):
        if _cross(one, one.middle, other, other.middle, across) and not _cross(
            one, other.middle, other, one.middle, across
        ):
            return place
    return None


def _cross(
    one: PlacedCallout, one_at: float, other: PlacedCallout, other_at: float, across: float
) -> bool:
    """Say whether the lines from two blocks of words to their parts cross."""
    (a, b), (c, d) = (_start(one, across), one_at), one.at
    (e, f), (g, h) = (_start(other, across), other_at), other.at

    def side(x: float, y: float, x1: float, y1: float, x2: float, y2: float) -> bool:
        return (x2 - x1) * (y - y1) > (y2 - y1) * (x - x1)

    parted = side(a, b, e, f, g, h) != side(c, d, e, f, g, h)
    return parted and side(e, f, a, b, c, d) != side(g, h, a, b, c, d)


def _start(one: PlacedCallout, across: float) -> float:
    """Give where the line of a block of words begins, across the paper."""
    return one.letters.width_mm if one.left else across - one.letters.width_mm
