import numpy as np
import pandas as pd
import pytest

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.sizes.summary import size_summary, sizes_by_period

HALVES = PeriodScheme(
    "halves", "Two halves", "none", (Period("early", 1800, 1849), Period("late", 1850, 1899))
)


def _buttons(sizes, year_from=1800, year_to=1810, **columns):
    table = pd.DataFrame({"diameter_mm": sizes, "year_from": year_from, "year_to": year_to})
    return table.astype({"year_from": "Int64", "year_to": "Int64"}).assign(**columns)


def test_a_summary_gives_quantiles_in_both_units_with_what_the_readings_allow():
    buttons = _buttons([12.7, 15.24, 19.05])
    buttons["diameter_mm_low"], buttons["diameter_mm_high"] = [12, 15, 18], [13, 16, 20]
    middle = size_summary(buttons).set_index("quantile").loc[0.5]
    assert [middle["best_mm"], middle["low_mm"], middle["high_mm"]] == [15.24, 15, 16]
    assert middle["best_lines"] == 24  # 24 lines of 1/40 inch (GNU units definitions)
    assert [middle["buttons"], middle["sets"]] == [3, 3]


def test_each_set_counts_once_and_its_buttons_share_its_weight():
    buttons = _buttons([10.0] * 24 + [20.0, 21.0, 22.0], set_id=["card"] * 24 + [None] * 3)
    summary = size_summary(buttons).set_index("quantile")
    assert summary.loc[0.5, "best_mm"] == 20.5
    assert summary.loc[0.5, ["buttons", "sets"]].tolist() == [27, 4]


def test_no_sizes_give_a_summary_of_blanks():
    summary = size_summary(_buttons([np.nan]))
    assert len(summary) == 7
    assert summary["best_mm"].isna().all()
    assert summary["sets"].unique().tolist() == [0]


def test_medians_of_periods_are_told_with_intervals():
    rng = np.random.default_rng(1)
    buttons = pd.concat(
        [
            _buttons(rng.normal(16, 2, 60).round(1)),
            _buttons(rng.normal(20, 2, 60).round(1), 1880, 1889),
        ]
    )
    table = sizes_by_period(buttons, HALVES, n_draws=400).set_index("period")
    assert table["sets"].to_dict() == {
        "early": 60,
        "late": 60,
        "outside": 0,
        "undated": 0,
        "all periods": 120,
    }
    for period, truth in (("early", 16), ("late", 20)):
        row = table.loc[period]
        assert row["median_low_mm"] < truth < row["median_high_mm"]
        assert row["lower_quartile_mm"] < row["median_mm"] < row["upper_quartile_mm"]
        assert row["median_high_mm"] - row["median_low_mm"] < 2.5


def test_the_same_seed_gives_the_same_intervals():
    buttons = _buttons(np.random.default_rng(2).normal(16, 2, 40))
    first, again, other = (
        sizes_by_period(buttons, HALVES, n_draws=100, seed=seed) for seed in (5, 5, 6)
    )
    pd.testing.assert_frame_equal(first, again)
    assert not first.equals(other)


def test_matching_buttons_of_one_set_do_not_narrow_a_sizes_interval():
    buttons = _buttons(
        np.random.default_rng(3).normal(16, 2, 30), set_id=[str(n) for n in range(30)]
    )
    cards = pd.concat([buttons] * 12)
    once = sizes_by_period(buttons, HALVES, n_draws=200)
    many = sizes_by_period(cards, HALVES, n_draws=200)
    pd.testing.assert_frame_equal(once, many)


def test_a_large_set_does_not_pull_a_periods_median():
    card = _buttons([40.0] * 24, set_id="card")
    others = _buttons([15.0, 16.0, 17.0], set_id=None)
    table = sizes_by_period(pd.concat([card, others]), HALVES, n_draws=10).set_index("period")
    assert table.loc["early", ["sets", "median_mm"]].tolist() == [4, 16.5]


def test_few_sets_have_a_median_and_no_interval():
    table = sizes_by_period(_buttons([15.0, 16.0, 17.0]), HALVES, n_draws=50)
    row = table[table["period"] == "early"].iloc[0]
    assert row["median_mm"] == 16
    assert row["few"]
    assert np.isnan([row["median_low_mm"], row["upper_quartile_high_mm"]]).all()


def test_a_wide_date_counts_in_each_period_by_its_weight():
    buttons = _buttons([15.0, 30.0], year_from=[1800, 1840], year_to=[1809, 1859])
    table = sizes_by_period(buttons, HALVES, n_draws=10).set_index("period")
    assert table.loc["early", "sets"] == 1.5
    assert table.loc["late", ["sets", "median_mm", "dated_within"]].tolist() == [0.5, 30, 0]


@pytest.mark.parametrize("sizes", [[], [np.nan]])
def test_no_sizes_give_a_table_of_blanks(sizes):
    table = sizes_by_period(_buttons(sizes), HALVES, n_draws=10)
    assert table["median_mm"].isna().all()
    assert table["kind"].tolist() == ["period", "period", "outside", "undated", "all"]
