import pandas as pd
import pytest

from buttonstudy.draw import heaping_figure
from buttonstudy.study import terminal_digits


def _digits(sizes, step=1.0, unit="mm", recorder="A. Teal"):
    return terminal_digits(
        pd.DataFrame(
            {
                "diameter_mm": sizes,
                "diameter_step_mm": step,
                "diameter_unit": unit,
                "recorder": recorder,
            },
            dtype="object",
        )
    )


def test_each_ending_has_its_bar_and_chance_its_line():
    drawn = heaping_figure(_digits([10.0, 20.0, 15.0, 16.0, 17.0]))
    (axes,) = drawn.figure.axes
    assert [bar.get_height() for bar in axes.patches] == [2, 0, 0, 0, 0, 1, 1, 1, 0, 0]
    levels = {segment[0][1] for segment in axes.collections[0].get_segments()}
    assert levels == {0.5}  # a tenth of five readings
    hatched = [bool(bar.get_hatch()) for bar in axes.patches]
    assert hatched == [ending not in (0, 5) for ending in range(10)]
    assert "A. Teal, to 1 mm: 5 readings" in [text.get_text() for text in drawn.figure.texts]
    assert "on round endings 3, by chance about 1." in drawn.alt_text


def test_every_recorder_has_a_panel_the_one_with_most_readings_first():
    few = _digits([10.0, 11.0], recorder="B. Lark")
    many = _digits([12.7, 25.4, 15.875], 25.4 / 16, "in", "C. Finch")
    drawn = heaping_figure(pd.concat([few, many]))
    assert len(drawn.figure.axes) == 2
    assert [len(axes.patches) for axes in drawn.figure.axes] == [2, 10]


@pytest.mark.parametrize("sizes", [[], [None]])
def test_no_readings_are_said_in_words(sizes):
    drawn = heaping_figure(_digits(sizes))
    assert drawn.figure is None
    assert drawn.caption == (
        "There is no figure here: no diameter has a unit and a step to which it was read."
    )
