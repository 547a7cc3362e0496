"""One sheet of raw cells with its place in its file, and how a raw cell is worded.

Everything later works on sheets, whether they came from a workbook or a text file.
"""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, field

from buttonstudy.readings.formula_marks import restored
from buttonstudy.survey.grid import Cell, Grid


@dataclass(frozen=True, slots=True)
class Sheet:
    """Raw cells of one sheet, blank cells as ``""``.

    Parameters
    ----------
    name
        The sheet's name; ``""`` for a text file.
    rows
        Rows of cells.
    first_row, first_column
        Place of the first cell: row 1-based, column 0-based.
    merged
        Merged areas as (first row, first column, last row, last column), rows 1-based, columns
        0-based, ends included.
    """

    name: str
    rows: Grid
    first_row: int = 1
    first_column: int = 0
    merged: Sequence[tuple[int, int, int, int]] = field(default_factory=tuple)


def wording(cell: Cell) -> str:
    """Say what a cell holds, as nearly as possible as the spreadsheet program shows it.

    An apostrophe that only keeps a text from being run as a formula is no part of the text.

    Examples
    --------
    >>> wording(16.0), wording(15.9), wording(True), wording(dt.date(2026, 8, 5))
    ('16', '15.9', 'TRUE', '2026-08-05')
    >>> wording("'=shelf 3")
    '=shelf 3'
    """
    if isinstance(cell, str):
        return restored(cell)
    if isinstance(cell, bool):
        return "TRUE" if cell else "FALSE"
    if isinstance(cell, float):
        return f"{cell + 0:.15g}" if abs(cell) < 1e15 else repr(cell)  # -0.0 shows as 0
    if isinstance(cell, dt.datetime):
        return (
            cell.date().isoformat()
            if cell.time() == dt.time()
            else cell.isoformat(sep=" ", timespec="seconds")
        )
    return str(cell)


def column_letter(index: int) -> str:
    """Name a column as spreadsheet programs do.

    Examples
    --------
    >>> [column_letter(n) for n in (0, 25, 26, 701, 702)]
    ['A', 'Z', 'AA', 'ZZ', 'AAA']
    """
    letters = ""
    index += 1
    while index:
        index, remainder = divmod(index - 1, 26)
        letters = chr(65 + remainder) + letters
    return letters
