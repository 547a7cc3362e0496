import numpy as np
import pandas as pd
import pytest
from matplotlib.colors import to_hex

from buttonstudy.draw import spacing_figure
from buttonstudy.draw.spacing import _apart
from buttonstudy.study import search_spacing, spacing_tests


def _buttons(sets, step=0.1):
    """Invented sizes that go up by two button lines (1.27 mm), read to ``step``."""
    rng = np.random.default_rng(4)
    sizes = rng.integers(10, 22, sets) * 1.27
    read = np.round(sizes / step) * step
    return pd.DataFrame({"diameter_mm": read, "diameter_step_mm": step, "diameter_unit": "mm"})


def _drawn(buttons):
    search = search_spacing(buttons, n_surveys=100)
    return spacing_figure(search, spacing_tests(buttons, n_surveys=100))


@pytest.fixture(scope="module")
def drawn():
    return _drawn(_buttons(60))


def test_steps_shown_are_filled_and_those_not_tested_are_crosses(drawn):
    marks = {
        round(float(line.get_xdata()[0]), 3): (
            line.get_marker(),
            to_hex(line.get_markerfacecolor()),
        )
        for line in drawn.figure.axes[0].lines
        if line.get_marker() in ("o", "x")
    }
    assert marks[1.0][0] == "x"
    assert marks[1.27] == ("o", "#000000")
    assert marks[2.256] == ("o", "#ffffff")
    assert "shown: 2 button lines" in drawn.caption
    assert "cannot be tested: 1 mm" in drawn.alt_text


def test_the_grey_reaches_what_surveys_without_a_step_reach(drawn):
    (grey,) = drawn.figure.axes[0].collections
    top = grey.get_paths()[0].get_extents().ymax
    assert 1 < top < 3  # one in twenty standard normal scores passes 1.645


def test_names_of_near_steps_are_moved_apart():
    assert _apart([10.0, 20.0, 21.0], 60.0) == pytest.approx([10.0, 17.7, 21.0])
    assert _apart([59.0, 62.0], 60.0) == pytest.approx([56.7, 60.0])


def test_too_coarse_sizes_are_said_in_words():
    drawn = _drawn(_buttons(60, step=3.175))
    assert drawn.figure is None
    assert drawn.caption == (
        "There is no figure here: too few sizes were read finely enough to tell any step."
    )
