"""The cells of one sheet of an .xlsx workbook, as they stand in its XML.

Programs write cells in many ways: with a prefix, in single quotes, without their places, their
attributes in any order. So cells are followed tag by tag, as readers do, one at a time. Most sheets
write each cell in one plain way, in which a pattern finds more in less time; whether a block does
is told here too.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from buttonstudy.survey.packed import column_number, followed

__all__ = ["SheetCell", "between_marks", "cells_by_tags", "is_plain"]

_NOT_PLAIN = re.compile(rb'<c(?! r="[A-Z]{1,3}\d{1,7}"(?: s="\d+")?+(?: t="\w*+")?+/?>)')
_PREFIXED = re.compile(rb":c[\s/>]")
_PLACE = re.compile(r"([A-Za-z]{1,3})(\d{1,9})")
_FILLING = ("v", "is", "f")
_LONGEST_ERROR = 40  # characters; the longest that programs show has 13


@dataclass(slots=True)
class SheetCell:
    """One cell: its place (from 1), style, whether anything stands in it, the error it shows."""

    row: int
    column: int
    style: int = 0
    filled: bool = False
    is_error: bool = False
    error: str = ""


def is_plain(cells: bytes) -> bool:
    """Tell whether a block of cells has each written as ``<c r="A1" s="1" t="n">``, or less."""
    return not _NOT_PLAIN.search(cells)


def between_marks(parts: Iterator[bytes]) -> Iterator[bytes | None]:
    """Give what stands between the tags that begin and end the cells, block by block.

    ``None`` is given where these tags are odd, or where cells have a prefix or hide in a remark:
    such a sheet is not plainly written.
    """
    begun = ended = False
    for part in parts:
        if not begun:
            if b"<!DOCTYPE" in part:
                yield None
            place = part.find(b"sheetData")
            if place < 0:
                continue
            if part[place - 1 : place] != b"<":
                yield None
            begun, part = True, part[place + len(b"sheetData") :]
        if not ended:
            cells, mark, part = part.partition(b"</sheetData>")
            ended = bool(mark)
            remark = b"!" in cells and b"<!" in cells  # one sign is looked for at once
            yield None if remark or _PREFIXED.search(cells) else cells
        if ended and b"sheetData" in part:
            yield None
    if not ended:
        yield None


def cells_by_tags(parts: Iterator[bytes], at_cell: Callable[[SheetCell], object]) -> None:
    """Call a function for each cell of a sheet, however it is written.

    Raises
    ------
    DAMAGED
        If the sheet cannot be followed.
    """
    cell = SheetCell(0, 0)
    within = ""  # the last tag inside a cell

    def begins(tag: str, attributes: dict[str, str]) -> None:
        nonlocal cell, within
        name = tag.rpartition(":")[2]
        if name == "c":
            cell = _next_cell(cell, attributes)
        elif name == "row":
            cell = SheetCell(int(attributes.get("r") or cell.row + 1), 0)
        elif name in _FILLING:
            cell.filled = True
        within = name

    def ends(tag: str) -> None:
        nonlocal within
        within = ""
        if tag == "c" or tag.endswith(":c"):
            at_cell(cell)

    def says(text: str) -> None:
        if cell.is_error and within == "v":
            cell.error = (cell.error + text)[:_LONGEST_ERROR]

    followed(parts, begins, ends, says)


def _next_cell(last: SheetCell, attributes: dict[str, str]) -> SheetCell:
    """Begin a cell: where it says that it stands, or else right of the last."""
    row, column = last.row, last.column + 1
    if place := _PLACE.fullmatch(attributes.get("r", "")):
        row, column = int(place[2]), column_number(place[1].encode())
    style = attributes.get("s", "")
    return SheetCell(
        row, column, int(style) if style.isdecimal() else 0, is_error=attributes.get("t") == "e"
    )
