"""How far each sheet of a workbook reaches, told before its cells are taken up.

A reader takes up the whole rectangle that a sheet uses. One stray cell in the last row and column
makes that rectangle larger than any memory, and the program would be stopped before it could say
anything. What a sheet states of its extent may be false, so its cells are looked through.

Most sheets write each cell in the one plain way and in few columns, which is soon seen. Others are
followed tag by tag.
"""

import re
import zipfile
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from xml.parsers import expat

from buttonstudy.survey.packed import DAMAGED, blocks, column_number, sheet_parts

__all__ = ["Extent", "followed", "workbook_extents"]

_ERROR = b't="e"'
_CELL = rb'<c(?! r="%s"(?: s="\d+")?+(?: t="%s\w*+")?+/?>)'
_NOT_NARROW = re.compile(_CELL % (rb"[A-Z]\d{1,6}", rb"[a-df-z]"))  # or one that shows an error
_NOT_PLAIN = re.compile(_CELL % (rb"[A-Z]{1,3}\d{1,7}", rb""))
_REFERENCE = re.compile(rb'<c r="([A-Z]{1,3})(\d{1,7})')
_PREFIXED = re.compile(rb":c[\s/>]")
_PLACE = re.compile(r"([A-Za-z]{1,3})(\d{1,9})")


@dataclass(slots=True)
class Extent:
    """The rectangle in which a sheet's cells stand, or a larger one; rows and columns from 1.

    Parameters
    ----------
    first_row, first_column, last_row, last_column
        Its ends, both included; none while no cell is known.
    errors
        Whether a cell may show an error.
    """

    first_row: int = 0
    first_column: int = 0
    last_row: int = 0
    last_column: int = 0
    errors: bool = False

    def add(self, row: int, column: int) -> None:
        """Take in one more cell."""
        self.first_row = min(self.first_row or row, row)
        self.first_column = min(self.first_column or column, column)
        self.last_row = max(self.last_row, row)
        self.last_column = max(self.last_column, column)

    def cells(self) -> int:
        """Count the cells of the rectangle, blank ones too."""
        return (self.last_row - self.first_row + 1) * (self.last_column - self.first_column + 1)


def workbook_extents(archive: zipfile.ZipFile, enough: float) -> Mapping[str, Extent]:
    """Give the extent of each sheet of an .xlsx workbook.

    Parameters
    ----------
    archive
        The workbook.
    enough
        So many cells are no matter: an extent that is sure to hold no more may be too large.

    Returns
    -------
    dict
        Sheet name to its extent; a sheet that cannot be followed is missing.
    """
    found = {}
    for name, part in sheet_parts(archive).items():
        try:
            extent = _at_a_glance(blocks(archive, part))
            if extent is None or extent.cells() > enough:
                extent = _by_its_tags(blocks(archive, part))
            found[name] = extent
        except DAMAGED:
            continue
    return found


def _at_a_glance(parts: Iterator[bytes]) -> Extent | None:
    """Give a rectangle that holds a plainly written sheet; None if it is written otherwise."""
    extent = Extent()
    for cells in _between_marks(parts):
        if cells is None or _PREFIXED.search(cells):
            return None
        if not _NOT_NARROW.search(cells):  # the usual case; the rest is slower
            extent.add(1, 1)
            extent.add(999_999, 26)
            continue
        if _NOT_PLAIN.search(cells):
            return None
        extent.errors |= _ERROR in cells
        if references := _REFERENCE.findall(cells):
            letters, digits = zip(*references)
            rows, columns = set(map(int, digits)), set(map(column_number, set(letters)))
            extent.add(min(rows), min(columns))
            extent.add(max(rows), max(columns))
    return extent


def _between_marks(parts: Iterator[bytes]) -> Iterator[bytes | None]:
    """Give what stands between the tags that begin and end the cells; None where these are odd."""
    begun = ended = False
    for part in parts:
        if not begun:
            place = part.find(b"sheetData")
            if place < 0:
                continue
            if part[place - 1 : place] != b"<":
                yield None
            begun, part = True, part[place + len(b"sheetData") :]
        if not ended:
            cells, mark, part = part.partition(b"</sheetData>")
            ended = bool(mark)
            yield cells
        if ended and b"sheetData" in part:
            yield None
    if not ended:
        yield None


def _by_its_tags(parts: Iterator[bytes]) -> Extent:
    """Follow the cells of a sheet one by one, however they are written, as readers do."""
    extent = Extent(errors=True)
    row = column = 0

    def at_tag(tag: str, attributes: dict[str, str]) -> None:
        nonlocal row, column
        name = tag.rpartition(":")[2]
        if name == "row":
            row, column = int(attributes.get("r") or row + 1), 0
        elif name == "c":
            column += 1
            if place := _PLACE.fullmatch(attributes.get("r", "")):
                row, column = int(place[2]), column_number(place[1].encode())
        elif name in ("v", "is", "f"):
            extent.add(row, column)

    followed(parts, at_tag)
    return extent


def followed(parts: Iterator[bytes], at_tag: Callable[[str, dict[str, str]], object]) -> None:
    """Call a function for each tag that begins an element.

    Raises
    ------
    DAMAGED
        If it is no well-formed XML, or declares what no workbook does.
    """
    parser = expat.ParserCreate()
    parser.StartElementHandler = at_tag
    parser.StartDoctypeDeclHandler = _refuse
    for part in parts:
        parser.Parse(part, False)
    parser.Parse(b"", True)


def _refuse(*_declared: object) -> None:
    raise ValueError("a document type is declared")
