"""Grey PNG and TIFF, read back by Pillow."""

from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from buttonstudy.draw.style import print_size
from buttonstudy.publish.newsletter.prints import grey_png, tiff
from buttonstudy.publish.pictures import picture_bytes

MM_PER_INCH = 25.4  # exact by the definition of the inch


@pytest.fixture(scope="module")
def png(article):
    return picture_bytes(article.parts[1].drawn, "png")


@pytest.mark.parametrize("make", [bytes, grey_png, tiff], ids=["png", "grey", "tiff"])
def test_pictures_print_at_300_dots_per_inch_at_their_width(png, make):
    with Image.open(BytesIO(make(png))) as picture:
        across, down = picture.info["dpi"]
        assert across == down == pytest.approx(300, abs=0.01)
        width = picture.width / float(across) * MM_PER_INCH
    assert width == pytest.approx(print_size("a5-column").width_mm, abs=MM_PER_INCH / 300)


def test_the_grey_picture_is_grey_and_weighs_colours_as_the_eye_does():
    colours = Image.new("RGB", (3, 1))
    colours.putdata([(255, 0, 0), (0, 255, 0), (0, 0, 255)])
    content = BytesIO()
    colours.save(content, "PNG")
    with Image.open(BytesIO(grey_png(content.getvalue()))) as picture:
        assert picture.mode == "L"
        # ITU-R BT.601: 0.299 red, 0.587 green, 0.114 blue
        assert [picture.getpixel((x, 0)) for x in range(3)] == [76, 150, 29]


def test_the_grey_picture_of_a_figure_still_has_dark_and_light(png):
    with Image.open(BytesIO(grey_png(png))) as picture:
        assert picture.getextrema() == (0, 255)


def test_the_tiff_holds_the_same_dots_in_colour(png):
    with Image.open(BytesIO(tiff(png))) as packed, Image.open(BytesIO(png)) as plain:
        assert packed.format == "TIFF"
        assert packed.mode == "RGB"
        assert packed.info["compression"] == "tiff_lzw"
        assert np.array_equal(np.asarray(packed), np.asarray(plain.convert("RGB")))


def test_what_is_clear_becomes_white():
    content = BytesIO()
    Image.new("RGBA", (2, 2), (0, 0, 0, 0)).save(content, "PNG")
    with Image.open(BytesIO(tiff(content.getvalue()))) as picture:
        assert picture.getpixel((0, 0)) == (255, 255, 255)
