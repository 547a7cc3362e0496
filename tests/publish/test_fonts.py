"""Checks typefaces cut down: each letter looks and is spaced as before, and nothing else is kept."""

from io import BytesIO
from pathlib import Path

import matplotlib
import pypdfium2
import pytest
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont
from matplotlib.figure import Figure
from PIL import ImageChops

from buttonstudy.publish.fonts import cut, fonts_cut_quickly

DEJAVU = Path(matplotlib.get_data_path()) / "fonts" / "ttf" / "DejaVuSans.ttf"
LETTERS = "Mould é Ǻ 1¼ ▯–“”"  # é and Ǻ are put together of parts


@pytest.fixture(scope="module")
def whole():
    return TTFont(DEJAVU)


@pytest.fixture(scope="module")
def places(whole):
    return {letter: whole.getGlyphID(whole.getBestCmap()[ord(letter)]) for letter in LETTERS}


def outline(font, name):
    pen = DecomposingRecordingPen(font.getGlyphSet())
    font.getGlyphSet()[name].draw(pen)
    return pen.value


def test_letters_keep_their_outlines_and_widths(whole, places):
    made = cut(whole, places.values())
    content = BytesIO()
    made.font.save(content)
    small = TTFont(content)
    for place in places.values():
        before, after = whole.getGlyphName(place), small.getGlyphName(made.glyph_index_map[place])
        assert outline(small, after) == outline(whole, before)
        assert small["hmtx"][after] == whole["hmtx"][before]
    assert small["head"].unitsPerEm == whole["head"].unitsPerEm


def test_only_what_shows_them_is_kept_and_no_day(whole, places):
    made = cut(whole, places.values())
    assert len(made.font.getGlyphOrder()) < 2 * len(LETTERS)
    assert not {"GSUB", "GPOS", "GDEF", "name"} & set(made.font.keys())
    assert made.font["head"].modified == whole["head"].modified


def test_a_pdf_looks_as_matplotlib_makes_it():
    def shown():
        figure, content = Figure(figsize=(3, 1)), BytesIO()
        figure.text(0.1, 0.5, LETTERS)
        with matplotlib.rc_context({"pdf.fonttype": 42}):
            figure.savefig(content, format="pdf")
        pdf = content.getvalue()
        return len(pdf), pypdfium2.PdfDocument(pdf)[0].render(scale=4).to_pil()

    size, before = shown()
    with fonts_cut_quickly():
        smaller, after = shown()
    assert ImageChops.difference(before, after).getbbox() is None
    assert smaller < size
    assert shown()[0] == size  # afterwards matplotlib cuts as it did
