"""Packs boxes of many sizes onto pages in rows, in the order that they come."""

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["Box", "PlacedBox", "packed"]


@dataclass(frozen=True, slots=True)
class Box:
    """A box to place, in mm: its width, the part above its row's common foot, and that below."""

    width: float
    above: float
    below: float


@dataclass(frozen=True, slots=True)
class PlacedBox:
    """A box's number in the order given, its page, its left side and its row's foot."""

    number: int
    page: int
    left: float
    foot: float


def packed(boxes: Sequence[Box], width: float, height: float, gap: float = 3.0) -> list[PlacedBox]:
    """Place boxes in rows from the left, rows from the top, and go on to new pages.

    Parameters
    ----------
    boxes
        Those to place; each must fit the page by itself.
    width, height
        The page's room, in mm.
    gap
        Between boxes and between rows.

    Examples
    --------
    >>> [(one.page, one.left, one.foot) for one in packed([Box(40, 30, 10)] * 3, 90, 50)]
    [(0, 0.0, 30.0), (0, 43.0, 30.0), (1, 0.0, 30.0)]
    """
    placed: list[PlacedBox] = []
    page, top = 0, 0.0
    for row in _rows(boxes, width, gap):
        above = max(boxes[number].above for number in row)
        tall = above + max(boxes[number].below for number in row)
        if top and top + tall > height:
            page, top = page + 1, 0.0
        left = 0.0
        for number in row:
            placed.append(PlacedBox(number, page, left, top + above))
            left += boxes[number].width + gap
        top += tall + gap
    return placed


def _rows(boxes: Sequence[Box], width: float, gap: float) -> list[list[int]]:
    rows: list[list[int]] = []
    room = 0.0
    for number, box in enumerate(boxes):
        if not rows or box.width > room:
            rows.append([])
            room = width
        rows[-1].append(number)
        room -= box.width + gap
    return rows
