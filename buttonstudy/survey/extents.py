"""How far each sheet of a workbook reaches, told before its cells are taken up.

A reader takes up the whole rectangle that a sheet uses. One stray cell in the last row and column
makes that rectangle larger than any memory, and the program would be stopped before it could say
anything. What a sheet states of its extent may be false, so its cells are looked through.

Most sheets write each cell in the one plain way and in few columns, which is soon seen. Others are
followed tag by tag.
"""

import re
import sys
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from buttonstudy.schemes import limit
from buttonstudy.survey.packed import DAMAGED, blocks, column_number, sheet_parts
from buttonstudy.survey.sheet_cells import SheetCell, between_marks, cells_by_tags, is_plain

__all__ = ["Errors", "Extent", "workbook_extents"]

_ERROR = b't="e"'
# Or one that shows an error. A tag is followed to its end, since a place given again would count.
_NOT_NARROW = re.compile(rb'<c(?! r="[A-Z]\d{1,6}+"(?: s="\d++")?+(?: t="[a-df-z][^"]*+")?+[/>])')
_NARROW_ROWS, _NARROW_COLUMNS = 999_999, 26  # the farthest that such cells can stand
_ERROR_TAG = rb'<c r="([A-Z]{1,3})(\d{1,7})"(?: s="\d+")? t="e">'
_ERROR_BEGINS = re.compile(_ERROR_TAG)
_ERROR_CELL = re.compile(
    _ERROR_TAG + rb"(?:<f(?:\s[^<>]*)?(?:/>|>[^<]*</f>))?<v>([^<&]{1,40})</v></c>"
)
_FILLED = re.compile(
    rb'<c r="([A-Z]{1,3})(\d{1,7})"(?: s="\d+")?(?: t="\w*")?>(?!</c>)'  # not as <c r="A1"/>
)

Errors = dict[tuple[int, int], str]


@dataclass(slots=True)
class Extent:
    """The rectangle in which a sheet's cells stand, or a larger one; rows and columns from 1.

    Parameters
    ----------
    first_row, first_column, last_row, last_column
        Its ends, both included; none while no cell is known.
    errors
        What cells show whose formula came to nothing (#DIV/0!, #N/A and the like), by row from 1
        and column from 0. The workbook reader gives such cells as blank, and a blank means "not
        recorded".
    """

    first_row: int = 0
    first_column: int = 0
    last_row: int = 0
    last_column: int = 0
    errors: Errors = field(default_factory=dict)

    def add(self, row: int, column: int) -> None:
        """Take in one more cell."""
        self.first_row = min(self.first_row or row, row)
        self.first_column = min(self.first_column or column, column)
        self.last_row = max(self.last_row, row)
        self.last_column = max(self.last_column, column)

    def cells(self) -> int:
        """Count the cells of the rectangle, blank ones too."""
        return self.rows() * (self.last_column - self.first_column + 1)

    def rows(self) -> int:
        """Count the rows of the rectangle, blank ones too."""
        return self.last_row - self.first_row + 1

    def fits(self) -> bool:
        """Tell whether it is within the limits of what is taken up."""
        return self.cells() <= limit("sheet-cells") and self.rows() <= limit("sheet-rows")


def workbook_extents(archive: zipfile.ZipFile) -> Mapping[str, Extent]:
    """Give the extent of each sheet of an .xlsx workbook.

    Parameters
    ----------
    archive
        The workbook.

    Returns
    -------
    dict
        Sheet name to its extent, which may be too large where it fits even so; a sheet that
        cannot be followed is missing.
    """
    found = {}
    for name, part in sheet_parts(archive).items():
        try:
            extent = _at_a_glance(blocks(archive, part))
            if extent and not extent.fits():
                extent = _at_a_glance(blocks(archive, part), exactly=True)
            if extent is None:
                extent = _by_its_tags(blocks(archive, part))
            found[name] = extent
        except DAMAGED:
            continue
    return found


def _at_a_glance(parts: Iterator[bytes], exactly: bool = False) -> Extent | None:
    """Give a rectangle that holds a plainly written sheet; None if it is written otherwise."""
    extent, begun = Extent(), b""
    for block in between_marks(parts):
        if block is None:
            return None
        cells = begun + block
        begun = b""
        if not exactly and not _NOT_NARROW.search(cells):  # the usual case; the rest is slower
            extent.add(1, 1)
            extent.add(_NARROW_ROWS, _NARROW_COLUMNS)
            continue
        if not is_plain(cells):
            return None
        if references := _FILLED.findall(cells):
            letters, digits = zip(*references)
            rows, columns = set(map(int, digits)), set(map(column_number, set(letters)))
            extent.add(min(rows), min(columns))
            extent.add(max(rows), max(columns))
        if _ERROR in cells:
            whole, begun = _before_last_error(cells)
            if len(begun) > len(block) or not _add_errors(extent, whole):
                return None
    return None if begun else extent


def _before_last_error(cells: bytes) -> tuple[bytes, bytes]:
    """Cut off a cell that shows an error and does not end within these cells."""
    last = cells.rfind(b"<c r=")
    if last < 0 or not _ERROR_BEGINS.match(cells, last) or b"</c>" in cells[last:]:
        return cells, b""
    return cells[:last], cells[last:]


def _add_errors(extent: Extent, cells: bytes) -> bool:
    """Note the errors of plainly written cells; tell whether all are."""
    found = _ERROR_CELL.findall(cells)
    for letters, digits, shown in found:
        text = sys.intern(shown.decode("utf-8", "replace"))
        extent.errors[int(digits), column_number(letters) - 1] = text
    return len(found) == len(_ERROR_BEGINS.findall(cells))


def _by_its_tags(parts: Iterator[bytes]) -> Extent:
    """Follow the cells of a sheet one by one; errors are kept as long as it may be taken up."""
    extent = Extent()

    def at_cell(cell: SheetCell) -> None:
        if cell.filled:
            extent.add(cell.row, cell.column)
        if cell.error and extent.fits():
            extent.errors[cell.row, cell.column - 1] = sys.intern(cell.error)

    cells_by_tags(parts, at_cell)
    return extent
