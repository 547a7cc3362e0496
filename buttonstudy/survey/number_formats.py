"""Number formats of the cells of a workbook.

A fraction that a spreadsheet program turned into a date, or a unit that is only in the format, can
be told from the format alone. In .xlsx it stands in two places: the sheet gives each cell the
number of a style, and the workbook's list of styles gives each style its format.
"""

import re
import zipfile
from collections.abc import Collection, Iterator, Mapping
from functools import cache

from buttonstudy.schemes import limit, rows
from buttonstudy.survey.ods_formats import ods_formats
from buttonstudy.survey.open_document import CONTENT
from buttonstudy.survey.packed import (
    BOOK,
    DAMAGED,
    blocks,
    column_number,
    followed,
    named,
    opened,
    sheet_parts,
)
from buttonstudy.survey.sheet_cells import SheetCell, between_marks, cells_by_tags, is_plain
from buttonstudy.survey.sheets import column_letter

__all__ = ["UnreadFormatsError", "number_formats"]

_STYLES = "xl/styles.xml"
_GENERAL = "General"

Formats = dict[tuple[int, int], str]


class UnreadFormatsError(ValueError):
    """The number formats of an .xlsx workbook cannot be looked up."""


def number_formats(data: bytes, sheet: str, columns: Collection[int]) -> Formats:
    """Look up the number formats of the cells of some columns.

    Parameters
    ----------
    data
        The workbook's bytes.
    sheet
        The sheet's name.
    columns
        Their numbers, from 0.

    Returns
    -------
    dict
        Place of a cell (row 1-based, column 0-based) to its format, for those with any but the
        usual one. Empty if the file is no .xlsx or .ods workbook.

    Raises
    ------
    UnreadFormatsError
        If it is one and its formats cannot be told.
    """
    if not columns:
        return {}
    try:
        archive = opened(data)
    except DAMAGED:
        return {}
    with archive:
        try:
            if named(archive, BOOK) in archive.namelist():
                return _xlsx_formats(archive, sheet, columns)
            return ods_formats(archive, sheet, columns) if CONTENT in archive.namelist() else {}
        except DAMAGED as error:
            raise UnreadFormatsError(" ".join(str(error).split())[:120]) from error


def _xlsx_formats(archive: zipfile.ZipFile, sheet: str, columns: Collection[int]) -> Formats:
    formats = _formats(archive)
    part = sheet_parts(archive).get(sheet) if formats else None
    return _of_cells(archive, part, columns, formats) if part else {}


def _of_cells(
    archive: zipfile.ZipFile, part: str, columns: Collection[int], formats: Mapping[int, str]
) -> Formats:
    """Give the formats of the cells of some columns, by pattern where the sheet allows it."""
    # In a plain sheet a cell without a style is of the first, which may have a format too.
    letters, style = "|".join(map(column_letter, columns)), r' s="(\d+)"'
    style = rf"(?:{style}|(?! s=))" if 0 in formats else style
    cell = re.compile(rf'<c r="({letters})(\d+)"{style}'.encode())
    found: Formats = {}
    for cells in between_marks(blocks(archive, part)):
        if cells is None or not is_plain(cells):
            return _of_cells_by_tags(blocks(archive, part), columns, formats)
        for one in cell.finditer(cells):
            if form := formats.get(int(one[3] or 0)):
                found[int(one[2]), column_number(one[1]) - 1] = form
    return found


def _of_cells_by_tags(
    parts: Iterator[bytes], columns: Collection[int], formats: Mapping[int, str]
) -> Formats:
    found: Formats = {}

    def at_cell(cell: SheetCell) -> None:
        if cell.filled and cell.column - 1 in columns and cell.style in formats:
            found[cell.row, cell.column - 1] = formats[cell.style]

    cells_by_tags(parts, at_cell)
    return found


def _formats(archive: zipfile.ZipFile) -> dict[int, str]:
    """Give the format of each style that has any but the usual one, by the style's number."""
    if named(archive, _STYLES) not in archive.namelist():
        return {}
    own: dict[str, str] = {}
    numbers: list[str] = []
    path: list[str] = []
    most = limit("cell-formats")

    def begins(tag: str, attributes: dict[str, str]) -> None:
        path.append(tag.rpartition(":")[2])
        if path[1:] == ["numFmts", "numFmt"]:  # there are others, of conditional formats
            own[attributes.get("numFmtId", "")] = attributes.get("formatCode", "")
        elif path[1:] == ["cellXfs", "xf"]:
            numbers.append(attributes.get("numFmtId", "0"))
        if max(len(own), len(numbers)) > most:
            raise ValueError(f"there are more than {most:,.0f} of them")

    followed(blocks(archive, _STYLES), begins, lambda _tag: path.pop())
    formats = (own.get(number) or _implied().get(number, _GENERAL) for number in numbers)
    return {style: form for style, form in enumerate(formats) if form != _GENERAL}


@cache
def _implied() -> dict[str, str]:
    """Give the formats that have a number and are not written in the workbook."""
    return {row["id"]: row["format"] for row in rows("number_formats")}
