"""Checks PNG files made of PDF files against the drawing that matplotlib itself makes of dots."""

from io import BytesIO

import matplotlib
import numpy as np
import pytest
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle
from PIL import Image

from buttonstudy.publish.dots import png_of

GREY = 40  # of 255; edges may be smoothed otherwise


@pytest.fixture(scope="module")
def figure():
    figure = Figure(figsize=(2.03, 1.41))
    figure.add_artist(Rectangle((0.1, 0.1), 0.3, 0.8, fc="#0072B2", ec="k", hatch="//"))
    figure.add_artist(Rectangle((0.5, 0.1), 0.4, 0.4, fc="#F0E442", alpha=0.5))
    figure.text(0.5, 0.7, "1¼ in")
    return figure


def saved(figure, kind):
    content = BytesIO()
    with matplotlib.rc_context({"pdf.fonttype": 42, "text.hinting": "none"}):
        figure.savefig(content, format=kind, dpi=300)
    return content.getvalue()


def test_it_shows_what_matplotlib_would_show(figure):
    made = Image.open(BytesIO(png_of(saved(figure, "pdf"), 300, {})))
    expected = Image.open(BytesIO(saved(figure, "png")))
    assert made.size == expected.size == (609, 423)
    # One dot may lie on the other side of an edge: compared is the mean of four dots by four.
    small = [image.convert("RGB").reduce(4) for image in (made, expected)]
    apart = np.abs(np.subtract(*(np.asarray(image, int) for image in small)))
    assert apart.mean() < 2
    assert (apart.max(axis=2) > GREY).mean() < 0.01


def test_it_keeps_words_resolution_and_no_day(figure):
    png = png_of(saved(figure, "pdf"), 300, {"Description": "Two boxes, “1¼ in”."})
    with Image.open(BytesIO(png)) as image:
        assert image.text == {"Description": "Two boxes, “1¼ in”."}
        assert image.info["dpi"] == pytest.approx((300, 300), abs=0.1)
    assert b"tIME" not in png
