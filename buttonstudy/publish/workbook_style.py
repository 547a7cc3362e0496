"""How the workbooks that the kit writes look, and how they are made safe.

Text is always written as text: nothing is turned into a formula, a number or a link. A cell whose
text begins like a formula also carries the mark by which spreadsheet programs keep it text when
it is edited.
"""

import datetime as dt
import math
from collections.abc import Sequence
from contextlib import AbstractContextManager
from io import BytesIO
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from xlsxwriter import Workbook
    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet

__all__ = ["LEVEL_TINTS", "LONGEST_TEXT", "Styles", "new_workbook", "set_height", "set_to_print"]

LONGEST_TEXT = 32_767
"""Letters that a cell can hold (Microsoft: "Excel specifications and limits")."""

LEVEL_TINTS = {"not read": "#F4B183", "to confirm": "#FFE699", "for information": "#DDEBF7"}
"""The ground of a cell with a problem; the words beside it say the same."""

_TINT, _INSIDE_TINT = "#D9E5F0", "#F0E6D2"
_TEXT = 49  # ECMA-376, part 1, 18.8.30: the built-in number format "@"
_A4 = 9  # ECMA-376, part 1, 18.3.1.63: paperSize
_LINE_PT, _TALLEST_PT = 15, 400
_MADE = dt.datetime(2000, 1, 1)  # a fixed day, so that the same workbook has the same bytes


def new_workbook(content: BytesIO) -> "AbstractContextManager[Workbook]":
    """Begin a workbook in memory; it is whole when the block ends."""
    from xlsxwriter import Workbook

    plain = dict.fromkeys(("strings_to_formulas", "strings_to_numbers", "strings_to_urls"), False)
    book = Workbook(content, {"in_memory": True, **plain})
    book.set_properties({"created": _MADE, "comments": "Written by buttonstudy."})
    return book


class Styles:
    """The formats of one workbook's cells."""

    def __init__(self, book: "Workbook") -> None:
        heading = {"bold": True, "text_wrap": True, "valign": "top", "bottom": 1}
        self.title: Format = book.add_format({"bold": True, "font_size": 13})
        self.heading: Format = book.add_format({**heading, "bg_color": _TINT})
        self.inside: Format = book.add_format({**heading, "bg_color": _INSIDE_TINT})
        self.text: Format = book.add_format({"num_format": _TEXT})
        wrapped = {"num_format": _TEXT, "text_wrap": True, "valign": "top"}
        self.wrapped: Format = book.add_format(wrapped)
        self.harmless: Format = book.add_format({**wrapped, "quote_prefix": True})
        self.link: Format = book.add_format({**wrapped, "underline": 1, "font_color": "#0000FF"})
        self.levels: dict[str, Format] = {
            level: book.add_format({**wrapped, "bg_color": tint})
            for level, tint in LEVEL_TINTS.items()
        }


def set_height(sheet: "Worksheet", row: int, texts: Sequence[str], widths: Sequence[int]) -> None:
    """Make a row tall enough for its wrapped texts: not every program does so by itself."""
    lines = max(math.ceil(1.1 * len(text) / width) for text, width in zip(texts, widths))
    sheet.set_row(row, min(max(lines, 1) * _LINE_PT, _TALLEST_PT))


def set_to_print(sheet: "Worksheet", heading_row: int, pages_wide: int) -> None:
    """Set a sheet up for A4 paper; 0 pages wide stands for as many as it takes."""
    sheet.set_paper(_A4)
    sheet.set_landscape()
    sheet.repeat_rows(heading_row)
    if pages_wide:
        sheet.fit_to_pages(pages_wide, 0)
