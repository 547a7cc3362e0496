"""Checks typefaces in a PDF: as they look in matplotlib's own, and with nothing for setting text."""

from io import BytesIO

import matplotlib
import pypdf
import pypdfium2
from fontTools.ttLib import TTFont
from matplotlib.figure import Figure
from PIL import ImageChops

from buttonstudy.publish.fonts import fonts_cut_quickly

LETTERS = "Mould fi é Ǻ 1¼ ▯–“”"  # é and Ǻ are put together of parts; f and i would join


def a_pdf():
    figure, content = Figure(figsize=(3, 1)), BytesIO()
    figure.text(0.1, 0.5, LETTERS)
    with matplotlib.rc_context({"pdf.fonttype": 42}):
        figure.savefig(content, format="pdf", metadata={"CreationDate": None})
    return content.getvalue()


def shown(pdf):
    return pypdfium2.PdfDocument(pdf)[0].render(scale=4).to_pil()


def typefaces(pdf):
    objects = map(pypdf.PdfReader(BytesIO(pdf)).get_object, range(1, 40))
    files = [one["/FontFile2"] for one in objects if isinstance(one, dict) and "/FontFile2" in one]
    return [TTFont(BytesIO(file.get_object().get_data())) for file in files]


def test_a_pdf_looks_as_matplotlib_makes_it():
    before = a_pdf()
    with fonts_cut_quickly():
        after = a_pdf()
    assert ImageChops.difference(shown(before), shown(after)).getbbox() is None
    assert a_pdf() == before  # afterwards matplotlib cuts as it did


def test_its_typefaces_hold_nothing_for_setting_text():
    with fonts_cut_quickly():
        fonts = typefaces(a_pdf())
    assert fonts
    for font in fonts:
        assert "glyf" in font
        assert not {"GSUB", "GPOS", "GDEF", "kern"} & set(font.keys())
