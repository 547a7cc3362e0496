from io import BytesIO

import pytest
from PIL import Image

from buttonstudy.publish.pictures import KINDS, picture_bytes, picture_files, pixel_size


@pytest.mark.parametrize("kind", KINDS)
def test_the_same_figure_gives_the_same_bytes(drawn, kind):
    assert picture_bytes(drawn(), kind) == picture_bytes(drawn(), kind)


def test_png_has_300_dots_per_inch_and_the_figure_its_size(drawn):
    png = picture_bytes(drawn(), "png")
    with Image.open(BytesIO(png)) as image:  # read back by another library
        assert image.size == (600, 300)
        assert pixel_size(png) == (600, 300)
        assert image.info["dpi"] == pytest.approx((300, 300), abs=0.1)


def test_words_in_svg_are_escaped_and_hold_no_day(drawn):
    svg = picture_bytes(drawn(caption="<script>x</script>"), "svg").decode()
    assert "<script" not in svg
    assert "&lt;script&gt;" in svg
    assert "dc:date" not in svg


def test_pdf_holds_no_day_and_outlines_that_printers_can_use(drawn):
    pdf = picture_bytes(drawn(), "pdf")
    assert b"CreationDate" not in pdf
    assert b"/Type3" not in pdf


def test_files_made_together_are_those_made_one_by_one(drawn):
    assert picture_files(drawn()) == {kind: picture_bytes(drawn(), kind) for kind in KINDS}
