"""Number formats of the cells of an .xlsx workbook.

A fraction that a spreadsheet program turned into a date, or a unit that is only in the format, can
be told from the format alone. It stands in two places: the sheet gives each cell the number of a
style, and the workbook's list of styles gives each style its format.
"""

import re
import zipfile
from collections.abc import Collection, Iterator
from functools import cache
from xml.etree import ElementTree

from buttonstudy.schemes import rows
from buttonstudy.survey.packed import (
    DAMAGED,
    beginning,
    blocks,
    column_number,
    local,
    opened,
    sheet_parts,
)
from buttonstudy.survey.sheets import column_letter

__all__ = ["number_formats"]

_STYLES = "xl/styles.xml"
_GENERAL = "General"
_CELL = re.compile(rb"<(?:\w+:)?c\s[^>]*>")
_PLAIN = b'<c r="'
_PLACE = re.compile(rb"""\sr\s*=\s*["']([A-Za-z]+)(\d+)["']""")
_STYLE = re.compile(rb"""\ss\s*=\s*["'](\d+)["']""")


def number_formats(data: bytes, sheet: str, columns: Collection[int]) -> dict[tuple[int, int], str]:
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
        usual one. Empty if the workbook is no .xlsx or cannot be looked into.
    """
    if not columns:
        return {}
    try:
        with opened(data) as archive:
            part = sheet_parts(archive)[sheet]
            formats = _formats(archive)
            return {
                place: formats[style] for place, style in _styled(archive, part, columns, formats)
            }
    except DAMAGED:
        return {}


def _styled(
    archive: zipfile.ZipFile, part: str, columns: Collection[int], styles: Collection[int]
) -> Iterator[tuple[tuple[int, int], int]]:
    """Give the cells of some columns that have one of some styles, and their style."""
    if not styles:
        return
    letters, numbers = "|".join(map(column_letter, columns)), "|".join(map(str, styles))
    plain = re.compile(rf'<c r="(?:{letters})\d+"[^>]*? s="(?:{numbers})"'.encode())
    for block in blocks(archive, part):
        for cell in (plain if _PLAIN in block else _CELL).finditer(block):
            place, style = _PLACE.search(cell[0]), _STYLE.search(cell[0])
            if place and style and int(style[1]) in styles:
                column = column_number(place[1]) - 1
                if column in columns:
                    yield (int(place[2]), column), int(style[1])


def _formats(archive: zipfile.ZipFile) -> dict[int, str]:
    """Give the format of each style that has any but the usual one, by the style's number."""
    if _STYLES not in archive.namelist():
        return {}
    styles = ElementTree.fromstring(beginning(archive, _STYLES))
    own = {
        one.get("numFmtId", ""): one.get("formatCode", "")
        for one in styles.iter()
        if local(one.tag) == "numFmt"
    }
    lists = (one for one in styles if local(one.tag) == "cellXfs")
    numbers = [style.get("numFmtId", "0") for style in next(lists, ())]
    formats = (own.get(number) or _implied().get(number, _GENERAL) for number in numbers)
    return {style: form for style, form in enumerate(formats) if form != _GENERAL}


@cache
def _implied() -> dict[str, str]:
    """Give the formats that have a number and are not written in the workbook."""
    return {row["id"]: row["format"] for row in rows("number_formats")}
