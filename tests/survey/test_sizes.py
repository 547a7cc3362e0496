"""Several readings of one length, and whether they agree."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.readings.lengths.reading import Length, read_lengths
from buttonstudy.readings.lengths.trade_lines import nearest_trade_lines
from buttonstudy.survey.sizes import combine, disagreements, spread_lengths

LINE = 0.635
AGREE, DISAGREE, ALONE = 1, 0, -1


def length(low, best, high):
    return Length(low, best, high, "mm", high - low)


def combined(*lengths):
    """Low, best, high, agreement and unit of one row."""
    sizes = combine(spread_lengths([lengths], np.array([0])))
    return sizes.low[0], sizes.best[0], sizes.high[0], sizes.agree[0], sizes.unit[0]


def test_five_eighths_sixteen_mm_and_26_lines_agree():
    # Common practice, no source: the trade sells one button under all three.
    low, best, high, agree, unit = combined(*read_lengths("5/8 in, 16 mm, 26 lines").lengths)
    assert agree == AGREE
    assert (low, best, high) == pytest.approx((25.5 * LINE, 16.5, 16.5))
    assert unit == "lines"
    assert nearest_trade_lines(low, best, high) == "26"


def test_the_best_value_is_the_most_precise_readings_within_the_overlap():
    first = combined(length(15, 16, 17), length(15.6, 15.7, 15.8))
    assert first[:4] == (15.6, 15.7, 15.8, AGREE)
    second = combined(length(14, 15, 16), length(15.8, 16.2, 16.6))
    assert second[:4] == (15.8, 16, 16, AGREE)


def test_readings_that_do_not_agree_leave_the_most_precise_and_show_all_in_mm():
    lengths = (length(10, 11, 12), length(15.6, 15.7, 15.8))
    assert combined(*lengths)[:4] == (15.6, 15.7, 15.8, DISAGREE)
    readings = spread_lengths([lengths], np.array([0]))
    assert disagreements(readings, combine(readings)) == [
        (0, "10.00 to 12.00 mm (written in mm); 15.60 to 15.80 mm (written in mm).")
    ]


# 1 button line = 0.635 mm, 1 inch = 25.4 mm (GNU units definitions)
SLIPS = [
    ("24 mm", "24 L", "button lines stand where millimetres should"),
    ("24 mm", "24 L", "millimetres stand where button lines should"),
    ("160 mm", "16 mm", "a decimal point or comma was lost"),
    ("5/8 in", "1.6 mm", "a decimal point or comma too many"),
]


@pytest.mark.parametrize(("one", "other", "slip"), SLIPS)
def test_a_slip_that_explains_the_disagreement_is_named(one, other, slip):
    lengths = (*read_lengths(one).lengths, *read_lengths(other).lengths)
    readings = spread_lengths([lengths], np.array([0]))
    assert slip in disagreements(readings, combine(readings))[0][1]


@pytest.mark.parametrize(("one", "other"), [("16 mm", "19 mm"), ("7/8 in", "26 L")])
def test_a_disagreement_that_no_slip_explains_names_none(one, other):
    lengths = (*read_lengths(one).lengths, *read_lengths(other).lengths)
    readings = spread_lengths([lengths], np.array([0]))
    assert "Perhaps" not in disagreements(readings, combine(readings))[0][1]


def test_readings_that_touch_agree():
    assert combined(*read_lengths("15 mm, 16 mm").lengths)[3] == AGREE
    assert combined(*read_lengths("15 mm, 16.6 mm").lengths)[3] == DISAGREE


def test_one_reading_neither_agrees_nor_disagrees_and_none_gives_no_size():
    assert combined(*read_lengths("16 mm").lengths)[:4] == (15.5, 16, 16.5, ALONE)
    assert np.isnan(combined()[:3]).all()


def test_rows_do_not_mix():
    lengths = [(length(15, 16, 17),), (), (length(20, 21, 22), length(20.5, 21, 21.5))]
    sizes = combine(spread_lengths(lengths, np.array([2, 0, 1, 0])))
    assert sizes.agree.tolist() == [AGREE, ALONE, ALONE, ALONE]
    assert sizes.best[[0, 1, 3]].tolist() == [21, 16, 16]
    assert np.isnan(sizes.best[2])


INTERVALS = st.lists(st.floats(1, 80), min_size=3, max_size=3).map(sorted)


@given(st.lists(INTERVALS, min_size=1, max_size=5))
def test_the_order_of_readings_does_not_matter_to_the_overlap(found):
    lengths = [length(*one) for one in found]
    low, best, high, agree, _ = combined(*lengths)
    other = combined(*lengths[::-1])
    assert low <= best <= high
    assert agree == other[3]
    if agree == AGREE:
        assert (low, high) == (other[0], other[2])
