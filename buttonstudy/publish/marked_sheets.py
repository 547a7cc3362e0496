"""A sheet of a survey written again as it was read, with its problem cells marked.

Text, numbers and truth values keep their kind. Dates, and sizes that a spreadsheet program shows
otherwise than it stores them (5-Aug for 5/8), are written in the words that were read, so that
the copy is understood just as the survey itself was.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from buttonstudy.publish.errors import PublishError
from buttonstudy.publish.workbook_style import LEVEL_TINTS, LONGEST_TEXT
from buttonstudy.readings.formula_marks import harmless
from buttonstudy.survey.grid import Cell
from buttonstudy.survey.sheets import Sheet, wording

if TYPE_CHECKING:
    from xlsxwriter import Workbook
    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet

__all__ = ["Mark", "SheetWriter"]

_MOST_ROWS, _MOST_COLUMNS = 1_048_576, 16_384
_LARGEST = 1e15  # from here on a workbook's numbers may lose digits
_ROWS_MEASURED, _NARROWEST, _WIDEST = 200, 6, 40
_CUT = f"This copy holds only the first {LONGEST_TEXT:,} letters of the cell."


@dataclass(frozen=True, slots=True)
class Mark:
    """What is told about one cell: the gravest level, and the words."""

    level: str
    says: str


class SheetWriter:
    """Writes sheets into one workbook, each kind of cell format made once."""

    def __init__(self, book: "Workbook") -> None:
        self._book = book
        self._formats: dict[tuple[str, bool], Format] = {}

    def write(self, to: "Worksheet", sheet: Sheet, marks: Mapping[tuple[int, int], Mark]) -> None:
        """Write one sheet.

        Parameters
        ----------
        to
            An empty sheet of the workbook.
        sheet
            Cells as read.
        marks
            What is told, by row (1-based) and column (0-based).

        Raises
        ------
        PublishError
            If the sheet is larger than a workbook allows.
        """
        _check_size(sheet)
        for top, left, bottom, right in _apart(sheet.merged):
            to.merge_range(top - 1, left, bottom - 1, right, "")
        for number, row in enumerate(sheet.rows, start=sheet.first_row - 1):
            for column, cell in enumerate(row, start=sheet.first_column):
                if cell != "":
                    mark = marks.get((number + 1, column))
                    self._cell(to, number, column, cell, mark.level if mark else "")
        for (row_number, column), mark in marks.items():
            if not _cell_at(sheet, row_number, column):
                to.write_blank(row_number - 1, column, None, self._format(mark.level, False))
            _comment(to, row_number - 1, column, mark.says)
        _widths(to, sheet)

    def _cell(self, to: "Worksheet", row: int, column: int, cell: Cell, level: str) -> None:
        if isinstance(cell, bool):
            to.write_boolean(row, column, cell, self._format(level, False))
        elif isinstance(cell, int | float) and abs(cell) < _LARGEST:
            to.write_number(row, column, cell, self._format(level, False))
        else:
            text = cell if isinstance(cell, str) else wording(cell)
            form = self._format(level, harmless(text) != text)
            to.write_string(row, column, text[:LONGEST_TEXT], form)
            if len(text) > LONGEST_TEXT:
                _comment(to, row, column, _CUT)

    def _format(self, level: str, like_a_formula: bool) -> "Format | None":
        if not (level or like_a_formula):
            return None
        key = level, like_a_formula
        if key not in self._formats:
            # The quote prefix is how a workbook says "this is text" of a cell that begins with =.
            told = {"quote_prefix": True} if like_a_formula else {}
            tint = {"bg_color": LEVEL_TINTS[level]} if level else {}
            self._formats[key] = self._book.add_format({**told, **tint})
        return self._formats[key]


def _check_size(sheet: Sheet) -> None:
    last = sheet.first_row + len(sheet.rows) - 1
    wide = sheet.first_column + len(sheet.rows.columns)
    if last > _MOST_ROWS or wide > _MOST_COLUMNS:
        raise PublishError(
            f"The survey has {last:,} rows and {wide:,} columns, more than a workbook can hold. "
            "Write the problems as a list instead, with --problems FILE.csv."
        )


def _apart(areas: Sequence[tuple[int, int, int, int]]) -> list[tuple[int, int, int, int]]:
    """Give the merged areas of more than one cell that overlap none before them."""
    kept: list[tuple[int, int, int, int]] = []
    for top, left, bottom, right in areas:
        single = (top, left) == (bottom, right)
        clear = all(
            top > other[2] or bottom < other[0] or left > other[3] or right < other[1]
            for other in kept
        )
        if clear and not single:
            kept.append((top, left, bottom, right))
    return kept


def _cell_at(sheet: Sheet, row: int, column: int) -> bool:
    """Tell whether a cell is filled."""
    index, place = row - sheet.first_row, column - sheet.first_column
    return sheet.rows.has(index, place) and sheet.rows.cell(index, place) != ""


def _comment(to: "Worksheet", row: int, column: int, says: str) -> None:
    lines = 2 + len(says) // 40
    to.write_comment(
        row,
        column,
        says[:LONGEST_TEXT],
        {"author": "buttonstudy", "width": 260, "height": min(18 * lines, 400)},
    )


def _widths(to: "Worksheet", sheet: Sheet) -> None:
    for column, cells in enumerate(sheet.rows[:_ROWS_MEASURED].columns, start=sheet.first_column):
        lengths = sorted(len(wording(cell)) for cell in cells)
        usual = lengths[len(lengths) * 9 // 10]  # a title above the table is no measure
        to.set_column(column, column, min(max(usual + 1, _NARROWEST), _WIDEST))
