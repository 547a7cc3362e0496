"""Cutting a typeface down to the letters that a PDF shows, quickly.

A PDF carries its typefaces. Matplotlib has each of them parsed anew and cut down for every file,
with the tables for setting text, which is set by then: three quarters of the time that a PDF takes.
Here a typeface is parsed once, and a file gets the outlines of its letters and what is needed to
show them, as ISO 32000-1, 9.9 lists it for embedded TrueType outlines.
"""

from collections.abc import Collection, Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from copy import copy
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

__all__ = ["Cut", "cut", "fonts_cut_quickly"]

_SHOWN_WITH = ("head", "hhea", "maxp", "OS/2", "cvt ", "fpgm", "prep")
"""Tables that go over as they are: measures of the whole, and how outlines fit a coarse grid."""

_NO_LETTER = 0


class FontFile(Protocol):
    """A typeface's file, as matplotlib names it: a path, with its place in a collection."""

    @property
    def face_index(self) -> int:
        """Its place in a collection, else 0."""


@dataclass(frozen=True, slots=True)
class Cut:
    """A typeface cut down, and the new place of each glyph that was asked for."""

    font: "TTFont"
    glyph_index_map: dict[int, int]


@contextmanager
def fonts_cut_quickly() -> Iterator[None]:
    """Have matplotlib cut typefaces down in this way while it writes a PDF."""
    from matplotlib.backends import _backend_pdf_ps

    slow = _backend_pdf_ps.get_glyphs_subset

    def quick(fontfile: FontFile, glyphs: Collection[int]) -> AbstractContextManager[object]:
        font = _parsed(str(fontfile), fontfile.face_index)
        return nullcontext(cut(font, glyphs)) if "glyf" in font else slow(fontfile, set(glyphs))

    setattr(_backend_pdf_ps, "get_glyphs_subset", quick)  # noqa: B010 (it is declared otherwise)
    try:
        yield
    finally:
        _backend_pdf_ps.get_glyphs_subset = slow


def cut(font: "TTFont", glyphs: Collection[int]) -> Cut:
    """Return a typeface that holds some of another's letters.

    Parameters
    ----------
    font
        A typeface with TrueType outlines.
    glyphs
        The places of the letters in it.
    """
    from fontTools.ttLib import TTFont, newTable

    order, outlines, widths = font.getGlyphOrder(), font["glyf"], font["hmtx"]
    places = sorted({_NO_LETTER, *glyphs})
    names = [order[place] for place in places]
    for name in names:  # grows: a letter with an accent is put together from both
        parts = outlines.glyphs[name].getComponentNames(outlines)
        names.extend(part for part in parts if part not in names)
        if parts:
            outlines[name]  # taken apart, since it names its parts by their places
    small = TTFont(recalcTimestamp=False, recalcBBoxes=False)
    small.setGlyphOrder(names)
    for tag in _SHOWN_WITH:
        if tag in font:
            small[tag] = copy(font[tag])
    small["glyf"], small["loca"], small["hmtx"] = map(newTable, ("glyf", "loca", "hmtx"))
    small["glyf"].glyphOrder = names
    small["glyf"].glyphs = {name: outlines.glyphs[name] for name in names}
    small["hmtx"].metrics = {name: widths[name] for name in names}
    small["post"] = _without_names(font)
    return Cut(small, {place: new for new, place in enumerate(places)})


def _without_names(font: "TTFont") -> object:
    """Return the table of a typeface's slant and underline, without its letters' names."""
    post = copy(font["post"])
    post.formatType = 3.0
    return post


@cache
def _parsed(path: str, place: int) -> "TTFont":
    from fontTools.ttLib import TTFont

    return TTFont(path, fontNumber=place, lazy=True)
