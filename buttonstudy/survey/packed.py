"""A look into a workbook's zip archive, for what the reader of cells does not give.

Calamine gives values. Number formats, cells that show an error, and how far a sheet reaches
before its cells are taken up, stand in the XML of the archive's parts, which is read here in
blocks: a sheet may be a hundred times as long as its file.
"""

import io
import lzma
import re
import struct
import zipfile
import zlib
from collections.abc import Iterator
from xml.etree import ElementTree
from xml.parsers import expat

__all__ = ["DAMAGED", "beginning", "blocks", "column_number", "local", "opened", "sheet_parts"]

DAMAGED = (
    *(zipfile.BadZipFile, zlib.error, lzma.LZMAError, struct.error, EOFError, expat.ExpatError),
    *(KeyError, ValueError, OSError, RuntimeError, SyntaxError),
)
"""What may come up in looking into a workbook that is none, or is broken."""

_INDEX = 4_000_000  # bytes; more than any workbook's list of sheets, or of styles
_BLOCK = 1_000_000
_LONGEST = 4_000_000  # bytes without a tag; a cell holds at most 32,767 characters
_ID = re.compile(r"(?:\{.*\})?id")


def opened(data: bytes) -> zipfile.ZipFile:
    """Open a workbook's archive; what is none raises one of `DAMAGED`."""
    return zipfile.ZipFile(io.BytesIO(data))


def sheet_parts(archive: zipfile.ZipFile) -> dict[str, str]:
    """Give the archive's part that holds each sheet of an .xlsx workbook, by the sheet's name."""
    book = ElementTree.fromstring(beginning(archive, "xl/workbook.xml"))
    links = ElementTree.fromstring(beginning(archive, "xl/_rels/workbook.xml.rels"))
    targets = {link.get("Id"): link.get("Target", "") for link in links}
    return {
        sheet.get("name", ""): _path(targets.get(_link(sheet), ""))
        for sheet in book.iter()
        if local(sheet.tag) == "sheet"
    }


def _link(sheet: ElementTree.Element) -> str:
    """Give a sheet's link; its namespace differs between the two kinds of .xlsx."""
    links = (value for name, value in sheet.items() if name.startswith("{") and _ID.fullmatch(name))
    return next(links, "")


def _path(target: str) -> str:
    return target.lstrip("/") if target.startswith("/") else f"xl/{target}"


def local(tag: str) -> str:
    """Give a tag's name without its namespace."""
    return tag.rpartition("}")[2]


def beginning(archive: zipfile.ZipFile, part: str) -> bytes:
    """Read a short part, such as a list of sheets; of one far too long only the beginning."""
    with archive.open(_named(archive, part)) as file:
        return file.read(_INDEX)


def _named(archive: zipfile.ZipFile, part: str) -> str:
    """Find a part by its name, whose letters' case does not matter."""
    names = archive.namelist()
    same = (name for name in names if name.replace("\\", "/").casefold() == part.casefold())
    return part if part in names else next(same, part)


def blocks(archive: zipfile.ZipFile, part: str) -> Iterator[bytes]:
    """Read a long part block by block, each ending before a tag.

    Raises
    ------
    ValueError
        If there is no tag for so long that it is no part of a workbook.
    """
    kept = b""
    with archive.open(_named(archive, part)) as file:
        while block := file.read(_BLOCK):
            block = kept + block
            end = block.rfind(b"<")
            if end < 0 or len(block) - end > _LONGEST:
                raise ValueError(f"{part} holds {len(block)} bytes without a tag")
            kept = block[end:]
            yield block[:end]
    yield kept


def column_number(letters: bytes) -> int:
    """Give the number of a column by its letters, from 1.

    Examples
    --------
    >>> [column_number(one) for one in (b"A", b"Z", b"AA", b"XFD")]
    [1, 26, 27, 16384]
    """
    number = 0
    for letter in letters.upper():
        number = number * 26 + letter - 64
    return number
