"""Several readings of one length, their agreement, and the trade size that they tell."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.readings.combine import combine, nearest_trade_lines
from buttonstudy.readings.lengths import read_lengths
from buttonstudy.readings.precision import Length

LINE = 0.635

# Lines from, best, to; the trade sizes told. Even lines plus 45, 55 and 65: published trade tables
# (apparelscience.com, blog.treasurie.com, workroombuttons.com, gotanotion.shop).
TRADE = [
    (24, 24, 24, "24"),
    (23.5, 24, 24.5, "24"),
    (23, 24, 25, "24"),
    (24.4, 25.2, 25.98, "24–26"),
    (25, 25, 25, "24–26"),
    (22.5, 25, 27.5, "22–28"),
    (44.6, 45, 45.4, "45"),
    (44.4, 45, 45.4, "44–45"),
    (45.6, 46, 46.4, "46"),
    (54.9, 55, 55.1, "55"),
    (64.9, 65, 65.1, "65"),
    (74.9, 75, 75.1, "74–76"),
    (0.4, 0.5, 0.6, ""),
    (300, 300, 300, ""),
]


def length(low: float, best: float, high: float) -> Length:
    return Length(low, best, high, "mm", high - low)


def test_five_eighths_sixteen_mm_and_26_lines_agree() -> None:
    """Common practice, no source: the trade sells one button under all three."""
    one = combine(read_lengths("5/8 in, 16 mm, 26 lines").lengths)
    assert one.agree is True
    assert (one.low, one.high) == pytest.approx((25.5 * LINE, 16.5))
    assert one.best == pytest.approx(16.5)
    assert one.most_precise.unit == "lines"
    assert nearest_trade_lines(one.low, one.best, one.high) == "26"


def test_the_best_value_is_the_most_precise_readings_within_the_overlap() -> None:
    one = combine([length(15, 16, 17), length(15.6, 15.7, 15.8)])
    assert (one.low, one.best, one.high, one.agree) == (15.6, 15.7, 15.8, True)
    one = combine([length(14, 15, 16), length(15.8, 16.2, 16.6)])
    assert (one.low, one.best, one.high, one.agree) == (15.8, 16, 16, True)


def test_readings_that_do_not_agree_leave_the_most_precise() -> None:
    one = combine([length(10, 11, 12), length(15.6, 15.7, 15.8)])
    assert (one.low, one.best, one.high, one.agree) == (15.6, 15.7, 15.8, False)


def test_readings_that_touch_agree() -> None:
    assert combine(read_lengths("15 mm, 16 mm").lengths).agree is True
    assert combine(read_lengths("15 mm, 16.6 mm").lengths).agree is False


def test_one_reading_neither_agrees_nor_disagrees() -> None:
    one = combine(read_lengths("16 mm").lengths)
    assert (one.low, one.best, one.high, one.agree) == (15.5, 16, 16.5, None)


def test_no_reading_is_refused() -> None:
    with pytest.raises(ValueError, match="There is no reading to combine"):
        combine([])


INTERVALS = st.lists(st.floats(1, 80), min_size=3, max_size=3).map(sorted)


@given(st.lists(INTERVALS, min_size=1, max_size=5))
def test_the_order_of_readings_does_not_matter_to_the_overlap(
    found: list[list[float]],
) -> None:
    lengths = [length(*one) for one in found]
    one, other = combine(lengths), combine(lengths[::-1])
    assert one.low <= one.best <= one.high
    assert one.agree == other.agree
    if one.agree:
        assert (one.low, one.high) == (other.low, other.high)


@pytest.mark.parametrize(("low", "best", "high", "told"), TRADE)
def test_the_nearest_trade_size_is_told_with_an_honest_between(
    low: float, best: float, high: float, told: str
) -> None:
    assert nearest_trade_lines(low * LINE, best * LINE, high * LINE) == told


# Nearest line: 15 mm is 24 L, 10 mm is 16 L (apparelscience.com, textilecalculator.com).
@pytest.mark.parametrize(("mm", "told"), [(15, "24"), (10, "16")])
def test_mm_give_the_line_that_published_examples_give(mm: float, told: str) -> None:
    assert nearest_trade_lines(mm, mm, mm) == told
