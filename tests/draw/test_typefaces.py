"""Checks the cut typefaces against the whole DejaVu Sans that comes with matplotlib."""

import unicodedata
import warnings
from io import BytesIO
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties, findfont, get_font
from matplotlib.ft2font import LoadFlags
from matplotlib.textpath import TextToPath
from PIL import Image, ImageChops

from buttonstudy.draw.lettering import drawable
from buttonstudy.draw.style import house_style
from buttonstudy.draw.typefaces import families
from buttonstudy.draw.typefaces.cut import FACES, LETTERS, cut_face

CUT, WHOLE = families()
WORDS = ("AVATAR To fit 5⅛ in × 16 mm – “Œuvre”", "Łódź ½ ≤ 26 lines", "Yé T. 1790–1820")
STYLES = {"": {}, "-Bold": {"weight": "bold"}, "-Oblique": {"style": "italic"}}


def font(family, face):
    return get_font(findfont(FontProperties(family=[family], **STYLES[face])))


def outline(of, letter):
    glyph = of.load_char(letter, flags=LoadFlags.NO_SCALE | LoadFlags.NO_HINTING)
    points, codes = of.get_path()
    return glyph.horiAdvance, points.tolist(), codes.tolist()


@pytest.mark.parametrize("face", FACES)
def test_every_kept_letter_has_its_outline_and_width(face):
    cut, whole = font(CUT, face), font(WHOLE, face)
    assert cut.fname != whole.fname
    kept = set(cut.get_charmap())
    assert kept == LETTERS & set(whole.get_charmap())
    assert set(range(0x20, 0x7F)) < kept
    assert all(outline(cut, letter) == outline(whole, letter) for letter in kept)


def width(words, family, face):
    face = FontProperties(family=[family], size=100, **STYLES[face])
    return TextToPath().get_text_width_height_descent(words, face, ismath=False)[0]


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("words", WORDS)
def test_words_are_as_wide_as_in_the_whole_typeface(words, face):
    # Its two tables for kerning differ in a few pairs.
    assert width(words, CUT, face) == pytest.approx(width(words, WHOLE, face), rel=3e-3)


@pytest.mark.parametrize("face", FACES)
def test_letters_are_kerned(face):
    apart = sum(width(letter, CUT, face) for letter in "AV")
    assert width("AV", CUT, face) < 0.98 * apart


@pytest.mark.parametrize("face", FACES)
def test_the_files_hold_what_cutting_gives(face):
    with TTFont(BytesIO(cut_face(face))) as made, TTFont(font(CUT, face).fname) as kept:
        assert made.getGlyphOrder() == kept.getGlyphOrder()
        assert names(made) == names(kept)


def names(face):
    return {name.nameID: name.toUnicode() for name in face["name"].names}


def test_their_licence_is_with_them():
    licence = Path(font(CUT, "").fname).with_name("LICENCE.txt").read_text(encoding="utf-8")
    theirs = Path(font(WHOLE, "").fname).with_name("LICENSE_DEJAVU").read_text(encoding="utf-8")
    assert licence == theirs


@pytest.mark.parametrize("face", FACES)
def test_they_have_another_name_as_the_licence_asks_of_changed_typefaces(face):
    with TTFont(font(CUT, face).fname) as kept:
        called = [names(kept)[number] for number in (1, 3, 4, 6, 16)]
    assert all(name.replace(" ", "").startswith("ButtonstudySans") for name in called)


def test_a_letter_and_its_mark_are_set_as_one_letter():
    apart, together = (unicodedata.normalize(form, "é Ǻ ç") for form in ("NFD", "NFC"))
    assert apart != together
    assert ImageChops.difference(shown(apart, CUT), shown(together, CUT)).getbbox() is None


def test_letters_that_were_cut_away_are_taken_from_the_whole_typeface():
    greek = "Ω λίθος"
    assert not {ord(letter) for letter in greek.replace(" ", "")} & set(font(CUT, "").get_charmap())
    assert drawable(greek) == greek
    house, whole, cut = (shown(greek, family) for family in (None, WHOLE, CUT))
    assert ImageChops.difference(house, whole).getbbox() is None
    assert ImageChops.difference(house, cut).getbbox()


def shown(words, family):
    """Show words in the house style, or in one family."""
    with house_style(), warnings.catch_warnings():
        warnings.filterwarnings("ignore", "Glyph .* missing")
        figure = Figure(figsize=(2, 1), dpi=100)
        figure.text(0.1, 0.5, words, family=family)
        content = BytesIO()
        figure.savefig(content, format="png")
    return Image.open(content).convert("RGB")
