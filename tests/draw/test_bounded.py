import pandas as pd
import pytest
from matplotlib.colors import to_hex

from buttonstudy.draw import at_least_figure
from buttonstudy.draw.style import ink
from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study import at_least_by_period

ONE = PeriodScheme("one", "One period", "none", (Period("early", 1800, 1849),))


def _drawn(ones, twos, at_least_two):
    low = [1] * ones + [2] * (twos + at_least_two)
    high = [1] * ones + [2] * twos + [None] * at_least_two
    buttons = pd.DataFrame(
        {"cover_layers_low": low, "cover_layers_high": high, "year_from": 1800, "year_to": 1800}
    ).astype({"cover_layers_high": "Int64"})
    return at_least_figure(at_least_by_period(buttons, ONE, n_draws=200), source="invented.csv")


def test_a_bound_reaches_from_what_is_certain_to_what_may_be():
    drawn = _drawn(20, 15, 5)
    (axes,) = drawn.figure.axes
    dots = [x for line in axes.lines if line.get_marker() == "o" for x in line.get_xdata()]
    assert dots == pytest.approx([0.5, 0.5])
    assert "20 of 40" in [text.get_text() for text in drawn.figure.texts]
    assert "40 sets in this survey, 5 of them with a bound in place of a count." in drawn.caption
    assert "2 or more: early 20 of 40 (50 %" in drawn.alt_text


def test_few_sets_are_squares_filled_where_it_is_certain():
    drawn = _drawn(6, 3, 2)
    (axes,) = drawn.figure.axes
    squares = [row for row in axes.collections if len(row.get_offsets()) > 1]
    fills = [to_hex(colour).upper() for row in squares for colour in row.get_facecolors()]
    # The period's row and the row for all sets: eleven squares each.
    assert (len(fills), fills.count(ink("deep").colour)) == (22, 10)
    assert "%" not in drawn.alt_text


def test_without_counts_the_reason_stands():
    assert _drawn(3, 0, 0).caption == (
        "There is no figure here: no set has a count of cover layers of two or more."
    )
