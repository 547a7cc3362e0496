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
from collections.abc import Callable, Iterator
from xml.etree import ElementTree
from xml.parsers import expat

from buttonstudy.schemes import limit

__all__ = [
    "BOOK",
    "DAMAGED",
    "blocks",
    "column_number",
    "followed",
    "named",
    "opened",
    "sheet_parts",
]

DAMAGED = (
    *(zipfile.BadZipFile, zlib.error, lzma.LZMAError, struct.error, EOFError, expat.ExpatError),
    *(KeyError, ValueError, OSError, RuntimeError, SyntaxError),
)
"""What may come up in looking into a workbook that is none, or is broken."""

BOOK = "xl/workbook.xml"
_BLOCK = 1_000_000
_ID = re.compile(r"(?:\{.*\})?id")


def opened(data: bytes) -> zipfile.ZipFile:
    """Open a workbook's archive; what is none raises one of `DAMAGED`."""
    return zipfile.ZipFile(io.BytesIO(data))


def sheet_parts(archive: zipfile.ZipFile) -> dict[str, str]:
    """Give the archive's part that holds each sheet of an .xlsx workbook, by the sheet's name."""
    book = _list(archive, BOOK)
    links = _list(archive, "xl/_rels/workbook.xml.rels")
    targets = {link.get("Id"): link.get("Target", "") for link in links}
    return {
        sheet.get("name", ""): _path(targets.get(_link(sheet), ""))
        for sheet in book.iter()
        if _local(sheet.tag) == "sheet"
    }


def _link(sheet: ElementTree.Element) -> str:
    """Give a sheet's link; its namespace differs between the two kinds of .xlsx."""
    links = (value for name, value in sheet.items() if name.startswith("{") and _ID.fullmatch(name))
    return next(links, "")


def _path(target: str) -> str:
    return target.lstrip("/") if target.startswith("/") else f"xl/{target}"


def _local(tag: str) -> str:
    """Give a tag's name without its namespace."""
    return tag.rpartition("}")[2]


def _list(archive: zipfile.ZipFile, part: str) -> ElementTree.Element:
    """Read a short part that lists others."""
    longest = int(limit("workbook-index-bytes"))
    with archive.open(named(archive, part)) as file:
        data = file.read(longest + 1)
    if len(data) > longest:
        raise ValueError(f"{part} is longer than {longest} bytes")
    return ElementTree.fromstring(data)


def named(archive: zipfile.ZipFile, part: str) -> str:
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
    kept, longest = b"", limit("bytes-without-tag")
    with archive.open(named(archive, part)) as file:
        while block := file.read(_BLOCK):
            block = kept + block
            end = block.rfind(b"<")
            if end < 0 or len(block) - end > longest:
                raise ValueError(f"{part} holds {len(block)} bytes without a tag")
            kept = block[end:]
            yield block[:end]
    yield kept


def followed(
    parts: Iterator[bytes],
    begins: Callable[[str, dict[str, str]], object],
    ends: Callable[[str], object] | None = None,
    says: Callable[[str], object] | None = None,
) -> None:
    """Call a function for each tag that begins an element, for each that ends one, for each text.

    Raises
    ------
    DAMAGED
        If it is no well-formed XML, or declares what no workbook does.
    """
    parser = expat.ParserCreate()
    parser.StartElementHandler = begins
    parser.EndElementHandler = ends
    parser.CharacterDataHandler = says
    parser.StartDoctypeDeclHandler = _refuse
    for part in parts:
        parser.Parse(part, False)
    parser.Parse(b"", True)


def _refuse(*_declared: object) -> None:
    raise ValueError("a document type is declared")


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
