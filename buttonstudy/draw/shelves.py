"""Packs boxes of many sizes onto pages in rows, in the order that they come.

Only where a tall row would leave a good part of a page empty does a later row that fits stand
before it. What is over on a page is dealt out between its rows, and in a row between its boxes.
"""

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["Box", "PlacedBox", "packed"]

_EMPTY = 0.25
_SPREAD = 8.0


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


@dataclass(frozen=True, slots=True)
class _Row:
    """Boxes side by side, by number; the highest part above their foot, and their height."""

    numbers: tuple[int, ...]
    above: float
    tall: float


def packed(boxes: Sequence[Box], width: float, height: float, gap: float = 3.0) -> list[PlacedBox]:
    """Place boxes in rows from the left, rows from the top, and go on to new pages.

    Parameters
    ----------
    boxes
        Those to place; each must fit the page by itself.
    width, height
        The page's room, in mm.
    gap
        Between boxes and between rows, at least.

    Examples
    --------
    >>> [(one.page, one.left, one.foot) for one in packed([Box(40, 30, 10)] * 3, 90, 50)]
    [(0, 0.0, 30.0), (0, 50.0, 30.0), (1, 0.0, 30.0)]
    """
    rows = _rows(boxes, width, gap)
    pages = _pages(rows, height, gap)
    placed: list[PlacedBox] = []
    for page, shown in enumerate(pages):
        used = sum(row.tall for row in shown) + gap * (len(shown) - 1)
        between = gap + (_dealt(height - used, len(shown)) if page < len(pages) - 1 else 0.0)
        top = 0.0
        for row in shown:
            across = _lefts([boxes[number].width for number in row.numbers], width, gap)
            for number, left in zip(row.numbers, across):
                placed.append(PlacedBox(number, page, left, top + row.above))
            top += row.tall + between
    return placed


def _lefts(widths: Sequence[float], width: float, gap: float) -> list[float]:
    """Give the left sides of boxes; a row that is nearly full is spread over the width."""
    spare = width - sum(widths) - gap * (len(widths) - 1)
    apart = gap + (_dealt(spare, len(widths)) if spare < min(widths) + gap else 0.0)
    lefts = [0.0]
    for wide in widths[:-1]:
        lefts.append(lefts[-1] + wide + apart)
    return lefts


def _dealt(spare: float, number: int) -> float:
    """Deal out what is over between so many things, a little to each."""
    return min(spare / (number - 1), _SPREAD) if number > 1 else 0.0


def _pages(rows: Sequence[_Row], height: float, gap: float) -> list[list[_Row]]:
    waiting = list(rows)
    pages: list[list[_Row]] = []
    while waiting:
        shown = [waiting.pop(0)]
        room = height - shown[0].tall - gap
        while waiting:
            fitting = [row for row in waiting if row.tall <= room]
            in_turn = waiting[0].tall <= room
            if not fitting or not (in_turn or room > _EMPTY * height):
                break
            shown.append(fitting[0])
            waiting.remove(fitting[0])
            room -= fitting[0].tall + gap
        pages.append(shown)
    return pages


def _rows(boxes: Sequence[Box], width: float, gap: float) -> list[_Row]:
    rows: list[list[int]] = []
    room = 0.0
    for number, box in enumerate(boxes):
        if not rows or box.width > room:
            rows.append([])
            room = width
        rows[-1].append(number)
        room -= box.width + gap
    return [_row(row, boxes) for row in rows]


def _row(numbers: Sequence[int], boxes: Sequence[Box]) -> _Row:
    above = max(boxes[number].above for number in numbers)
    return _Row(tuple(numbers), above, above + max(boxes[number].below for number in numbers))
