"""How far each sheet of an .xlsx workbook says that it reaches, without reading its cells.

A reader takes up the whole rectangle that a sheet uses. One stray cell in the last row and column
makes that rectangle larger than any memory, and the program would be stopped before it could say
anything. So the extent that a sheet states near its top is looked at first.
"""

import io
import lzma
import re
import struct
import zipfile
import zlib
from xml.etree import ElementTree

DAMAGED = (
    *(zipfile.BadZipFile, zlib.error, lzma.LZMAError, struct.error, EOFError),
    *(KeyError, ValueError, OSError, RuntimeError, SyntaxError),
)
"""What may come up in looking into a workbook that is none, or is broken."""

_MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
_LINK = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
_DIMENSION = re.compile(rb'<(?:\w+:)?dimension\s+ref="(?:[A-Z]+\d+:)?([A-Z]{1,3})(\d{1,7})"')
_TOP = 8_192  # bytes; the extent stands before the first row (ECMA-376, 18.3.1.99)
_INDEX = 4_000_000  # bytes; more than any workbook's list of sheets


def stated_extents(data: bytes) -> dict[str, tuple[int, int]]:
    """Give the last row and column that each sheet says it uses.

    Parameters
    ----------
    data
        The workbook's bytes.

    Returns
    -------
    dict
        Sheet name to (rows, columns). A sheet that states no extent is missing, and so are all
        where the file is no .xlsx workbook or its list of sheets cannot be read.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            return {
                name: extent
                for name, part in sheet_parts(archive).items()
                if (extent := _extent(_beginning(archive, part, _TOP)))
            }
    except DAMAGED:
        return {}


def sheet_parts(archive: zipfile.ZipFile) -> dict[str, str]:
    """Give the archive's part that holds each sheet, by the sheet's name."""
    book = ElementTree.fromstring(_beginning(archive, "xl/workbook.xml", _INDEX))
    links = ElementTree.fromstring(_beginning(archive, "xl/_rels/workbook.xml.rels", _INDEX))
    targets = {link.get("Id"): link.get("Target", "") for link in links}
    sheets = book.iter(f"{_MAIN}sheet")
    return {sheet.get("name", ""): _path(targets.get(sheet.get(_LINK), "")) for sheet in sheets}


def _path(target: str) -> str:
    return target.lstrip("/") if target.startswith("/") else f"xl/{target}"


def _beginning(archive: zipfile.ZipFile, part: str, most: int) -> bytes:
    with archive.open(part) as file:
        return file.read(most)


def _extent(top: bytes) -> tuple[int, int] | None:
    found = _DIMENSION.search(top)
    if not found:
        return None
    column = 0
    for letter in found[1]:
        column = column * 26 + letter - 64
    return int(found[2]), column
