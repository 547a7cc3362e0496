import numpy as np
import pandas as pd
import pytest

from buttonstudy.draw import size_distribution
from buttonstudy.study import size_histogram


def _readings(*bounds):
    low, high = np.array(bounds, dtype=float).T
    return pd.DataFrame(
        {"diameter_mm": (low + high) / 2, "diameter_mm_low": low, "diameter_mm_high": high}
    )


def test_bars_hold_every_set_and_stand_at_their_lines():
    table = size_histogram(_readings((15.24, 15.24), (15.0, 15.1), (15.5, 16.5), (14, 17.175)))
    drawn = size_distribution(table, source="invented.csv")
    (axes,) = drawn.figure.axes
    bars = [patch for patch in axes.patches if patch.get_height() > 0]
    assert sum(bar.get_height() for bar in bars) == pytest.approx(4)
    tallest = max(bars, key=lambda bar: bar.get_height())
    assert tallest.get_x() + tallest.get_width() / 2 == pytest.approx(24 * 0.635)


def test_a_size_axis_has_both_units():
    drawn = size_distribution(size_histogram(_readings((15, 16), (20, 21))))
    (axes,) = drawn.figure.axes
    low, high = axes.get_xlim()
    (above,) = axes.child_axes
    shown = {label.get_text(): label.get_position()[0] for label in above.get_xticklabels()}
    assert all(float(lines) * 0.635 == pytest.approx(place) for lines, place in shown.items())
    assert low < 15
    assert high > 21
    words = [text.get_text() for text in drawn.figure.texts]
    assert "diameter in mm" in words
    assert any(word.startswith("button lines") for word in words)


def test_the_words_give_n_the_precision_and_the_tallest_bar():
    drawn = size_distribution(size_histogram(_readings((15.2, 15.3), (15.2, 15.3), (15, 16))))
    assert "3 sets with 3 buttons: 2 sets read finely and 1 set read to about ½ to 1 mm." in (
        drawn.caption
    )
    assert "The tallest bar is at 24 lines (15.2 mm)" in drawn.alt_text


def test_one_button_is_drawn():
    assert size_distribution(size_histogram(_readings((15, 16)))).figure is not None


def test_sizes_all_alike_still_have_a_scale_with_numbers():
    drawn = size_distribution(size_histogram(_readings((15.2, 15.3), (15.2, 15.3))), "a5-column")
    (axes,) = drawn.figure.axes
    assert len([tick for tick in axes.get_xticklabels() if tick.get_text()]) >= 2


def test_no_size_is_said_in_words():
    drawn = size_distribution(size_histogram(_readings((np.nan, np.nan))), field="hole_diameter")
    assert drawn.figure is None
    assert drawn.caption == "There is no figure here: no button has a hole diameter."
