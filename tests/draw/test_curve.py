import pandas as pd
import pytest

from buttonstudy.draw import size_curve
from buttonstudy.study import size_distribution, size_quantiles


def _drawn(sizes):
    buttons = pd.DataFrame({"diameter_mm": sizes})
    buttons["diameter_mm_low"] = buttons["diameter_mm"] - 0.5
    buttons["diameter_mm_high"] = buttons["diameter_mm"] + 0.5
    return size_curve(size_distribution(buttons), size_quantiles(buttons))


def test_the_curve_rises_from_none_to_all_within_the_readings():
    curve = _drawn([10.0, 20.0]).figure.axes[0].lines[-2]
    assert curve.get_xdata()[1:-1].tolist() == pytest.approx([9.5, 10.5, 19.5, 20.5])
    assert curve.get_ydata().tolist() == pytest.approx([0, 0, 0.5, 0.5, 1, 1])


def test_quantiles_are_dots_only_where_they_have_intervals():
    few, many = _drawn([10.0, 20.0]), _drawn([float(size) for size in range(10, 30)])
    assert len(few.figure.axes[0].lines[-1].get_xdata()) == 0
    assert many.figure.axes[0].lines[-1].get_ydata().tolist() == [0.25, 0.5, 0.75]
    assert "95 %" not in few.caption
    assert "50 % are no larger than 19.5 mm (" in many.alt_text
    assert "spread evenly" in many.caption


def test_no_size_is_said_in_words():
    drawn = _drawn([None])
    assert drawn.figure is None
    assert drawn.caption == "There is no figure here: no button has a diameter."
