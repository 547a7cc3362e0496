"""What stands in the cells whose formula came to nothing: #DIV/0!, #N/A, #REF! and the like.

The workbook reader gives such cells as blank, and a blank means "not recorded". So they are looked
for in the sheets themselves, and read as the words that the spreadsheet program shows.
"""

import io
import re
import zipfile

from buttonstudy.survey.extents import DAMAGED, sheet_parts

_CELL = re.compile(rb'<c\s[^>]*?\br="([A-Z]{1,3})(\d{1,7})"[^>]*>(.*?)</c>', re.DOTALL)
_TYPE = re.compile(rb'<c\s[^>]*?\bt="e"')
_VALUE = re.compile(rb"<v>([^<]*)</v>")
_BLOCK = 1_000_000

Errors = dict[tuple[int, int], str]


def formula_errors(data: bytes) -> dict[str, Errors]:
    """Find the cells of an .xlsx workbook that show an error.

    Parameters
    ----------
    data
        The workbook's bytes.

    Returns
    -------
    dict
        Sheet name to {(row 1-based, column 0-based): what the cell shows}; sheets without any
        are missing, and all are where the file is no .xlsx workbook.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            parts = sheet_parts(archive)
            return {
                name: errors
                for name, part in parts.items()
                if _has_errors(archive, part) and (errors := _errors(archive.read(part)))
            }
    except DAMAGED:
        return {}


def _has_errors(archive: zipfile.ZipFile, part: str) -> bool:
    """Look a sheet through in blocks, since few sheets have such cells and some are very long."""
    kept = b""
    with archive.open(part) as file:
        while block := file.read(_BLOCK):
            if b't="e"' in kept + block:
                return True
            kept = block[-8:]
    return False


def _errors(xml: bytes) -> Errors:
    found: Errors = {}
    for cell in _CELL.finditer(xml):
        value = _VALUE.search(cell[3])
        if value and _TYPE.match(cell[0]):
            found[int(cell[2]), _column(cell[1])] = value[1].decode("utf-8", "replace")
    return found


def _column(letters: bytes) -> int:
    column = 0
    for letter in letters:
        column = column * 26 + letter - 64
    return column - 1
