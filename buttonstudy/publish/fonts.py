"""Typefaces in PDF files without their tables for setting text, which is set by then.

Matplotlib has fontTools cut each typeface down to the letters that a file shows. Three quarters of
that time go into the tables for ligatures and kerning, which nothing in a PDF reads (ISO 32000-1,
9.9 lists what embedded outlines need).
"""

from collections.abc import Iterator
from contextlib import contextmanager

__all__ = ["fonts_cut_quickly"]

_FOR_SETTING_TEXT = ["GSUB", "GPOS", "GDEF", "kern"]


@contextmanager
def fonts_cut_quickly() -> Iterator[None]:
    """Have fontTools leave out these tables while matplotlib writes a PDF.

    Matplotlib takes no options for cutting; a fontTools without this default cuts as it would.
    """
    from fontTools.subset import Options  # type: ignore[import-untyped]

    usual = getattr(Options, "_drop_tables_default", [])
    Options._drop_tables_default = [*usual, *_FOR_SETTING_TEXT]
    try:
        yield
    finally:
        Options._drop_tables_default = usual
