"""How far each sheet of an .xlsx workbook says that it reaches, without reading its cells.

A reader takes up the whole rectangle that a sheet uses. One stray cell in the last row and column
makes that rectangle larger than any memory, and the program would be stopped before it could say
anything. So the extent that a sheet states near its top is looked at first.
"""

import re

from buttonstudy.survey.packed import DAMAGED, column_number, opened, sheet_parts

_DIMENSION = re.compile(rb'<(?:\w+:)?dimension\s+ref="(?:[A-Z]+\d+:)?([A-Z]{1,3})(\d{1,7})"')
_TOP = 8_192  # bytes; the extent stands before the first row (ECMA-376, 18.3.1.99)


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
        with opened(data) as archive:
            return {
                name: extent
                for name, part in sheet_parts(archive).items()
                if (extent := _extent(archive.open(part).read(_TOP)))
            }
    except DAMAGED:
        return {}


def _extent(top: bytes) -> tuple[int, int] | None:
    found = _DIMENSION.search(top)
    if not found:
        return None
    return int(found[2]), column_number(found[1])
