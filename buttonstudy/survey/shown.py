"""Cells of size columns as the spreadsheet shows them, where that says more than their values.

A typed 5/8 may be stored as a date, 1 1/4 as the bare number 1.25 shown as a fraction, and 16 mm
as the number 16 with its unit in the format alone. Only the number format tells. So for size
columns, and there only for dates and for bare numbers whose unit no heading states, the formats
are looked up and the cell is worded as it is shown.
"""

import datetime as dt
from collections.abc import Collection, Mapping, Sequence

from buttonstudy.readings.lengths.mangled import number_format_reading
from buttonstudy.schemes import fields
from buttonstudy.survey.coded import Coded
from buttonstudy.survey.grid import Cell
from buttonstudy.survey.headings import Column
from buttonstudy.survey.number_formats import UnreadFormatsError, number_formats
from buttonstudy.survey.problems import Problems
from buttonstudy.survey.sheets import Sheet, wording
from buttonstudy.survey.tables import Table


def shown_cells(
    table: Table,
    columns: Sequence[Column],
    cells: Sequence[Coded],
    sheet: Sheet,
    data: bytes,
    problems: Problems,
) -> dict[int, list[Cell]]:
    """Word the cells of size columns as they are shown.

    Parameters
    ----------
    table, columns, cells
        The table, what its columns were taken for, and the cells of all its columns.
    sheet
        The sheet it stands in.
    data
        The workbook's bytes.
    problems
        Where it is told if the formats cannot be looked up.

    Returns
    -------
    dict
        Column index to the column's cells, for columns where any cell is shown otherwise.
    """
    if not data.startswith(b"PK"):
        return {}
    lengths = {one.field for one in fields() if one.kind == "length"}
    wanted = {
        column.index: kinds
        for column in columns
        if column.field in lengths
        and (kinds := _sought(cells[column.index].kinds, not column.unit))
    }
    places = {sheet.first_column + index: index for index in wanted}
    try:
        formats = number_formats(data, sheet.name, places)
    except UnreadFormatsError as error:
        _tell_unread(str(error), sheet.name, problems)
        return {}
    told = {places[column] for _, column in formats}
    return {index: _worded(table, sheet, index, wanted[index], formats) for index in sorted(told)}


def _tell_unread(why: str, sheet: str, problems: Problems) -> None:
    problems.add(
        "formats-not-read",
        f"The formats of this workbook's cells cannot be read ({why}). A unit that only a format "
        "shows, or a fraction that was turned into a date, was not seen.",
        "Open it in your spreadsheet program, save it again, and read it again; or look through "
        "the sizes of this sheet.",
        sheet=sheet,
    )


def _sought(kinds: Collection[type], numbers_too: bool) -> tuple[type, ...]:
    """Give the kinds of cell that may be shown otherwise than their value: dates, bare numbers."""
    return tuple(
        kind
        for kind in kinds
        if issubclass(kind, dt.date) or (numbers_too and kind in (int, float))
    )


def _worded(
    table: Table,
    sheet: Sheet,
    index: int,
    kinds: Collection[type],
    formats: Mapping[tuple[int, int], str],
) -> list[Cell]:
    column = sheet.first_column + index
    return [
        as_shown(cell, formats.get((row, column), "")) if type(cell) in kinds else cell
        for row, cell in zip(table.row_numbers, table.column(index))
    ]


def as_shown(cell: Cell, form: str) -> str:
    """Word one cell by its number format.

    Examples
    --------
    >>> as_shown(dt.date(2026, 8, 5), "d-mmm"), as_shown(dt.date(2016, 9, 1), "mmm-yy")
    ('5-Aug', 'Sep-16')
    >>> as_shown(1.25, "# ?/?"), as_shown(16.0, '0" mm"'), as_shown(16.0, "General")
    ('1 1/4', '16 mm', '16')
    """
    if isinstance(cell, dt.date):
        plain = form.casefold().split(";")[0]
        if plain.startswith("mmm") and "d" not in plain:
            return f"{cell:%b-%y}"
        if plain.startswith("d") and "y" not in plain:
            return f"{cell.day}-{cell:%b}"
        return wording(cell)
    if isinstance(cell, int | float):
        return number_format_reading(cell, form) or wording(cell)
    return wording(cell)
