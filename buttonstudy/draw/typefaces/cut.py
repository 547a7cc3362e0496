"""Writes the kit's typefaces from those that come with matplotlib.

    python -m buttonstudy.draw.typefaces.cut

Outlines, hints and widths stay as they are, and so does kerning by the older of two tables. The
letters become fewer, and the tables for joining them are left out.
"""

from io import BytesIO
from itertools import chain
from pathlib import Path

from buttonstudy.draw.typefaces import CUT, WHOLE

LETTERS = frozenset(
    chain(
        range(0x0020, 0x007F),  # Basic Latin
        range(0x00A0, 0x0180),  # Latin-1, Latin Extended-A
        range(0x2010, 0x2050),  # dashes, quotes, primes, the stroke of fractions
        range(0x2150, 0x2160),  # fractions
        range(0x2190, 0x219A),  # arrows
        map(ord, "€№™∅−∞≈≠≤≥⌀□▯○●�"),
    )
)
"""What is kept, as Unicode numbers, where the typeface has it."""

FACES = ("", "-Bold", "-Oblique")

_LEFT_OUT = ("FFTM", "GDEF", "GPOS", "GSUB", "MATH")
"""Tables that no Latin letter needs and that take longest to parse; the older ``kern`` stays."""

_NAMES = (1, 3, 4, 6, 16)


def cut_face(face: str) -> bytes:
    """Return one face as the content of a TrueType file.

    Parameters
    ----------
    face
        One of `FACES`.
    """
    from fontTools import subset  # type: ignore[import-untyped]
    from matplotlib import get_data_path

    options = subset.Options(
        glyph_names=True, name_IDs=["*"], notdef_outline=True, legacy_kern=True
    )
    options.drop_tables = [*set(options.drop_tables) - {"kern"}, *_LEFT_OUT]
    options.recalc_timestamp = False
    source = Path(get_data_path(), "fonts", "ttf", f"{WHOLE.replace(' ', '')}{face}.ttf")
    content = BytesIO()
    with subset.load_font(source, options) as font:
        cutter = subset.Subsetter(options)
        cutter.populate(unicodes=LETTERS)
        cutter.subset(font)
        for name in font["name"].names:
            if name.nameID in _NAMES:
                renamed = name.toUnicode().replace(WHOLE, CUT)
                name.string = renamed.replace(WHOLE.replace(" ", ""), CUT.replace(" ", ""))
        font.save(content)
    return content.getvalue()


def main() -> None:
    """Write all faces beside this module."""
    for face in FACES:
        path = Path(__file__).with_name(f"{CUT.replace(' ', '')}{face}.ttf")
        path.write_bytes(cut_face(face))


if __name__ == "__main__":
    main()
