"""Comparing the sizes of two periods, against the Mann-Whitney statistic and simulation."""

import numpy as np
import pandas as pd
import pytest
from scipy import stats

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.sizes.comparison import compare_sizes, superiority, superiority_interval
from buttonstudy.study.sizes.evidence import spread_of

TWO = PeriodScheme(
    "two", "Two", "invented", (Period("early", 1800, 1819), Period("late", 1820, 1839))
)


def survey(early, late, step=0.0):
    sizes = np.concatenate([early, late])
    years = np.repeat([1800, 1820], [len(early), len(late)])
    return pd.DataFrame(
        {
            "diameter_mm": sizes,
            "diameter_mm_low": sizes - step / 2,
            "diameter_mm_high": sizes + step / 2,
            "year_from": years,
            "year_to": years + 19,
        }
    )


def test_exact_sizes_give_the_mann_whitney_statistic():
    rng = np.random.default_rng(1)
    early, late = rng.integers(12, 30, 25).astype(float), rng.integers(14, 34, 31).astype(float)
    row = compare_sizes(survey(early, late), TWO, "early", "late").loc[0]
    expected = stats.mannwhitneyu(late, early).statistic / (25 * 31)
    assert row["superiority"] == pytest.approx(expected, abs=1e-6)
    assert (row["sets_first"], row["sets_second"]) == (25, 31)


@pytest.mark.parametrize(
    ("first", "second", "chance"),
    [
        ((10, 12), (11, 13), 0.875),
        ((10, 12), (10, 12), 0.5),
        ((10, 11), (11, 12), 1.0),
        ((12, 13), (10, 11), 0.0),
        ((10, 10), (10, 10), 0.5),
        ((10, 10), (8, 12), 0.5),
        ((10, 14), (11, 11), 0.25),
    ],
)
def test_overlapping_readings_count_as_undecided_as_far_as_they_overlap(first, second, chance):
    # Areas of the unit square: arithmetic.
    spreads = [spread_of(np.array([ends], dtype=float), np.ones(1)) for ends in (first, second)]
    assert superiority(*spreads) == pytest.approx(chance, abs=1e-5)


@pytest.mark.parametrize(
    ("sets", "shift"), [(8, 0.0), (8, 0.8), (20, 0.3)], ids=["no effect", "large", "middling"]
)
def test_intervals_hold_the_truth_as_often_as_they_say(sets, shift):
    true = stats.norm.cdf(shift / 0.3 / np.sqrt(2))
    rng = np.random.default_rng(3)
    held = 0
    for _ in range(300):
        early, late = rng.normal(0, 0.3, sets), rng.normal(shift, 0.3, sets)
        found = stats.mannwhitneyu(late, early).statistic / sets**2
        low, high = superiority_interval(found, sets, sets)
        held += low <= true <= high
    # 95 % of 300 is 285; fewer than 275 would come about once in 200 such trials.
    assert held >= 275


def test_where_every_set_is_larger_the_interval_keeps_a_width():
    row = compare_sizes(
        survey(np.full(12, 10.0), np.full(12, 20.0), 1.0), TWO, "early", "late"
    ).loc[0]
    assert row["superiority"] == pytest.approx(1)
    assert row["superiority_high"] == 1
    assert 0.7 < row["superiority_low"] < 0.9
    assert row["difference_mm"] == pytest.approx(10, abs=0.01)


def test_sets_that_may_belong_to_both_periods_are_told_apart():
    buttons = survey(np.full(12, 10.0), np.full(12, 20.0), 1.0)
    buttons.loc[:3, "year_to"] = 1839
    table = compare_sizes(buttons, TWO, "early", "late").set_index("dating")
    assert table.loc["by weights", ["sets_first", "sets_second"]].tolist() == [10, 14]
    assert table.loc["dated within", ["sets_first", "sets_second"]].tolist() == [8, 12]
    assert table.loc["by weights", "superiority"] < 0.95
    assert table.loc["dated within", "superiority"] == pytest.approx(1)
    assert np.isnan(table.loc["dated within", "superiority_low"])


def test_a_period_without_sizes_has_no_estimate():
    table = compare_sizes(survey([10.0, 12.0], []), TWO, "early", "late")
    estimates = ["median_second_mm", "difference_mm", "superiority", "superiority_low"]
    assert table[estimates].isna().all(axis=None)
    assert compare_sizes(pd.DataFrame(), TWO, "early", "late")["superiority"].isna().all()


def test_a_period_of_a_few_sets_has_no_median_as_in_the_table_of_periods():
    table = compare_sizes(survey([10.0] * 4, np.arange(10.0, 31.0)), TWO, "early", "late")
    assert table["median_first_mm"].isna().all()
    assert table["median_second_mm"].tolist() == pytest.approx([20, 20], abs=1e-5)
    assert table[["difference_mm", "superiority", "superiority_low"]].isna().all(axis=None)
    five = compare_sizes(survey([10.0] * 5, np.arange(10.0, 31.0)), TWO, "early", "late")
    assert five["median_first_mm"].tolist() == pytest.approx([10, 10], abs=1e-5)
    assert five[["difference_mm", "superiority"]].notna().all(axis=None)
    assert five["superiority_low"].isna().all()


def test_left_open_the_earliest_and_latest_period_with_enough_sets_are_compared():
    three = PeriodScheme("three", "Three", "invented", (Period("first", 1780, 1799), *TWO.periods))
    buttons = pd.concat(
        [survey([15.0] * 11, [20.0] * 12), survey([9.0] * 3, []).assign(year_from=1780)]
    )
    buttons["year_to"] = buttons["year_from"] + 19
    table = compare_sizes(buttons, three)
    assert table[["first", "second"]].iloc[0].tolist() == ["early", "late"]
    assert compare_sizes(survey([15.0] * 11, [20.0] * 3), TWO).empty


def test_an_unknown_period_is_refused_with_the_names_there_are():
    with pytest.raises(ValueError, match=r'"two" has no period "Late"\. Use two of: early, late\.'):
        compare_sizes(pd.DataFrame(), TWO, "early", "Late")
