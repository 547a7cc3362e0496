"""What stands in the cells whose formula came to nothing: #DIV/0!, #N/A, #REF! and the like.

The workbook reader gives such cells as blank, and a blank means "not recorded". So they are looked
for in the sheets themselves, and read as the words that the spreadsheet program shows.
"""

import re
import zipfile
from collections.abc import Collection

from buttonstudy.survey.packed import DAMAGED, blocks, column_number, sheet_parts

_TYPE = re.compile(rb'\bt="e"')
_CELL = re.compile(
    rb"""<c\s[^>]*?\br="([A-Z]{1,3})(\d{1,7})"[^>]*>(?:(?!</c>).)*?<v>([^<]*)</v>""", re.DOTALL
)

Errors = dict[tuple[int, int], str]


def formula_errors(archive: zipfile.ZipFile, sheets: Collection[str]) -> dict[str, Errors]:
    """Find the cells of an .xlsx workbook that show an error.

    Parameters
    ----------
    archive
        The workbook.
    sheets
        The sheets in which to look.

    Returns
    -------
    dict
        Sheet name to {(row 1-based, column 0-based): what the cell shows}; sheets without any
        are missing, and so are those that cannot be looked through.
    """
    found = {}
    for name, part in sheet_parts(archive).items():
        if name in sheets:
            try:
                found[name] = _errors(b"".join(blocks(archive, part)))
            except DAMAGED:
                continue
    return {name: errors for name, errors in found.items() if errors}


def _errors(xml: bytes) -> Errors:
    found: Errors = {}
    for error in _TYPE.finditer(xml):
        if cell := _CELL.match(xml, xml.rfind(b"<c", 0, error.start())):
            place = int(cell[2]), column_number(cell[1]) - 1
            found[place] = cell[3].decode("utf-8", "replace")
    return found
