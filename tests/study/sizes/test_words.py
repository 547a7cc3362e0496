"""The sentences on sizes, from tables made by the functions they stand for. Sizes are invented."""

import numpy as np
import pandas as pd
import pytest

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.sizes.comparison import compare_sizes
from buttonstudy.study.sizes.intervals import size_quantiles, sizes_by_period
from buttonstudy.study.sizes.words import size_comparison_findings, size_findings

TWO = PeriodScheme(
    "two", "Two", "invented", (Period("early", 1800, 1819), Period("late", 1820, 1839))
)


def survey(early, late, wide=0):
    sizes = np.array([*early, *late], dtype=float)
    years = np.repeat([1800, 1820], [len(early), len(late)])
    ends = years + 19
    ends[:wide] = 1839
    return pd.DataFrame(
        {
            "diameter_mm": sizes,
            "diameter_mm_low": sizes - 0.5,
            "diameter_mm_high": sizes + 0.5,
            "year_from": years,
            "year_to": ends,
        }
    )


def told(buttons):
    return size_findings(size_quantiles(buttons), sizes_by_period(buttons, TWO))


def compared(buttons):
    return size_comparison_findings(compare_sizes(buttons, TWO))


def test_few_sets_are_told_without_intervals():
    overall, periods = told(survey([16, 17, 18], [20, 21]))
    assert overall == (
        "Half of the 5 sets with a diameter are no larger than 18.0 mm (28 lines). The middle half "
        "lie between 16.8 and 20.2 mm."
    )
    assert periods == (
        "Too few sets for a median: early (3 sets dated within it, 16, 17 and 18 mm) and late (2 "
        "sets dated within it, 20 and 21 mm)."
    )


def test_periods_with_a_median_stand_before_those_without():
    _, medians, few = told(survey([15, 16, 17, 18, 19], [20, 21]))
    assert medians == (
        "Median diameters by period, with their 95 % intervals: early, 17.0 mm (5 sets, too few "
        "for an interval)."
    )
    assert few == "Too few sets for a median: late (2 sets dated within it, 20 and 21 mm)."


def test_periods_that_only_wide_dates_touch_are_told_without_sizes():
    few = told(survey([15, 16, 17, 18, 19, 20], [], wide=2))[-1]
    assert few == "Too few sets for a median: late."


def test_enough_sets_are_told_with_what_chance_allows():
    overall, periods = told(survey(range(10, 30), range(20, 40)))
    assert "; with 40 sets, anything from 2" in overall
    assert " mm is possible. The middle" in overall
    assert "early, 19.5 mm (1" in periods
    assert "; 20 sets)" in periods


def test_a_single_size_is_no_half_of_anything():
    assert told(survey([16], [])) == [
        "Only 1 set has a diameter, 16 mm: too few to say what is usual."
    ]
    assert told(survey([15.875], [18]))[0].startswith(
        "Only 2 sets have a diameter, 15.9 and 18 mm:"
    )


def test_no_sizes_are_told_in_words():
    assert told(pd.DataFrame()) == ["No diameter was read, so nothing can be said of sizes."]


def test_a_difference_is_told_in_cases_of_a_hundred_then_in_mm():
    first, wide, within = compared(survey(range(10, 30), range(25, 45), wide=4))
    assert first.startswith(
        "Sizes compared: 18 sets dated to early and 22 sets dated to late. Of two sets taken at "
        "random, one from each, the later is the larger "
    )
    assert "50 is no difference), which chance alone would hardly make. Their medians" in first
    assert "; the later median is " in first
    assert " mm larger (" in first
    assert "draws the two together" in wide
    assert within.startswith("Only sets dated wholly within one of the two: 16 and 20 sets; of two")


def test_chance_alone_is_said_where_it_may_be():
    said = compared(survey(range(10, 30), range(10, 30)))[0]
    assert "is the larger 50 times in 100" in said
    assert "so that chance alone could make the difference" in said
    assert "the later median may be anything from" in said


def test_few_sets_dated_wholly_within_are_told_by_their_medians():
    said = compared(survey(range(10, 30), range(25, 45), wide=12))
    assert said[-1] == (
        "Only sets dated wholly within one of the two: 8 and 20 sets, too few for more than their "
        "medians, 26.0 and 34.5 mm."
    ) or said[-1].startswith("Only sets dated wholly within one of the two: 8 and 20 sets, too few")


def test_hardly_any_sets_dated_wholly_within_are_not_compared():
    said = compared(survey(range(10, 30), range(25, 45), wide=18))
    assert said[-1] == (
        "Only sets dated wholly within one of the two: 2 and 20 sets, too few to compare."
    )


@pytest.mark.parametrize(
    "buttons", [pd.DataFrame(), survey([16.0], []), survey([16.0] * 30, []), survey([], [])]
)
def test_nothing_to_compare_is_said(buttons):
    (said,) = compared(buttons)
    assert said == (
        "Sizes of periods cannot be compared: no two periods have as many as 10 sets with a size "
        "and a date."
    )


@pytest.mark.parametrize("late", [0, 4])
def test_named_periods_of_too_few_sizes_are_said(late):
    table = compare_sizes(survey([16.0] * 12, [20.0] * late), TWO, "early", "late")
    assert size_comparison_findings(table) == [
        "Sizes cannot be compared, for want of 5 sets in each: 12 sets dated to early and "
        f"{late} sets dated to late."
    ]


def test_a_set_of_two_sizes_is_told_by_their_mean():
    buttons = survey([16, 18], [20, 21]).assign(set_id=["A", "A", "B", "C"])
    assert told(buttons) == [
        "Only 3 sets have a diameter, 17, 20 and 21 mm: too few to say what is usual."
    ]
