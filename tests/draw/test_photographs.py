"""The button in a photograph, and the scale that its recorded size gives."""

from dataclasses import dataclass

import numpy as np
import pandas as pd
import pytest
from PIL import Image, ImageDraw

from buttonstudy import draw
from buttonstudy.draw.photographs import button_extent, cut_out


@dataclass(frozen=True)
class Taken:
    name: str
    pixels: np.ndarray


@dataclass(frozen=True)
class Album:
    photographs: tuple
    not_shown: tuple


def taken(wide=900, tall=600, box=(200, 100, 600, 500), ground="lightgrey", name="front.jpg"):
    """Make a photograph of a dark disc within a box on a plain ground, a little grainy."""
    image = Image.new("RGB", (wide, tall), ground)
    ImageDraw.Draw(image).ellipse(box, fill="saddlebrown")
    grain = np.random.default_rng(1).normal(0, 4, (tall, wide, 1))
    return Taken(name, (np.asarray(image) + grain).clip(0, 255).astype(np.uint8))


@pytest.mark.parametrize("size", [(900, 600), (1800, 1200)])
def test_the_button_is_found_to_half_a_hundredth_of_its_width(size):
    factor = size[0] // 900
    box = [factor * edge for edge in (200, 100, 600, 500)]
    found = button_extent(taken(*size, box).pixels)
    edges = np.array([found.left, found.top, found.right, found.bottom])
    assert np.abs(edges - box).max() <= 0.01 * 400 * factor
    assert found.widest == pytest.approx(400 * factor, rel=0.0126)


NO_BUTTON = {
    "cut off": taken(box=(-200, 100, 200, 500)).pixels,
    "nothing there": taken(box=(0, 0, 0, 0)).pixels,
    "a speck": taken(box=(300, 300, 320, 320)).pixels,
    "not round": taken(box=(200, 200, 700, 400)).pixels,
    "rough ground": np.random.default_rng(2).integers(0, 255, (300, 300, 3)).astype(np.uint8),
    "tiny": np.zeros((4, 4, 3), np.uint8),
}


@pytest.mark.parametrize("case", NO_BUTTON)
def test_no_scale_is_made_up_where_the_button_does_not_stand_clear(case):
    assert button_extent(NO_BUTTON[case]) is None


def test_an_oval_button_may_be_wider_than_high():
    assert button_extent(NO_BUTTON["not round"], round=False).widest == pytest.approx(500, abs=6)


def test_pixels_are_scaled_to_print():
    # 25.4 mm at 400 dots per inch
    assert cut_out(np.zeros((2000, 1000, 3), np.uint8), 25.4).shape == (400, 200, 3)
    assert cut_out(np.zeros((20, 10, 3), np.uint8), 25.4).shape == (20, 10, 3)


def figure(*photographs, diameter=20.0, size="a5-page", not_shown=(), **record):
    buttons = pd.DataFrame([{"button_id": "A/1", "diameter_mm": diameter, **record}])
    album = Album(photographs, not_shown)
    return draw.photograph_figure(album, buttons, 0, size, source="invented.csv")


@pytest.mark.parametrize("size", ["a5-column", "a5-page", "a4-page"])
def test_the_figure_is_legible(legible, size):
    shown = [taken(), taken(600, 900, (100, 100, 500, 500), name="x" * 90), taken(box=(0, 0, 0, 0))]
    drawn = figure(*shown, size=size)
    legible(drawn.figure)
    assert drawn.alt_text.startswith("Photographs of button A/1: front.jpg, xxx")


def test_the_bar_has_the_scale_of_the_recorded_size():
    drawn = figure(taken())
    paper, photograph = drawn.figure.axes
    wide = photograph.get_position().width * drawn.figure.get_figwidth() * 25.4  # mm on paper
    per_mm = wide * 400 / 900 / 20.0
    bar = max(np.ptp(line.get_xdata()) for line in paper.lines) / per_mm
    assert bar == pytest.approx(30, rel=0.0126)
    assert "the recorded diameter, 20 mm" in drawn.caption


def test_an_oval_button_has_a_scale_only_if_its_record_says_that_it_is_oval():
    oval = taken(box=(200, 200, 700, 400))
    assert "there is no scale" in figure(oval).caption
    assert "there is no scale" not in figure(oval, mould_shape="oval").caption


def test_without_a_diameter_there_is_no_bar():
    drawn = figure(taken(), diameter=None)
    assert not drawn.figure.axes[0].lines
    assert "No diameter is recorded, so there is no scale." in drawn.caption


def test_more_than_four_and_those_that_cannot_be_shown_are_told():
    drawn = figure(*[taken()] * 6, not_shown=["back.jpg"])
    assert drawn.caption.endswith("2 more photographs not shown. Not shown: back.jpg.")


def test_without_a_photograph_it_says_why():
    drawn = figure()
    assert drawn.figure is None
    assert drawn.caption == (
        "There is no figure here: no photograph of button A/1 is named in its record."
    )
    assert figure(not_shown=["back.jpg"]).caption == (
        "There is no figure here: no photograph of button A/1 can be shown. Not shown: back.jpg."
    )
