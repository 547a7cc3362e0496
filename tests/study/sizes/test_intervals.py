"""Sizes as intervals: published chests, order statistics, and invented mixed rulers."""

import numpy as np
import pandas as pd
import pytest

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.sizes.intervals import size_distribution, size_quantiles, sizes_by_period

# Chests of 5,738 Scottish militiamen in inches (Quetelet 1846; as HistData, ChestSizes). Mean
# 39.83 and standard deviation 2.05 as Stigler prints them.
CHESTS = dict(
    zip(
        range(33, 49),
        [3, 18, 81, 185, 420, 749, 1073, 1079, 934, 658, 370, 92, 50, 21, 4, 1],
    )
)
THREE = PeriodScheme(
    "three", "Three", "invented", (Period("early", 1800, 1819), Period("late", 1820, 1839))
)


def readings(low, high, **columns):
    low, high = np.asarray(low, float), np.asarray(high, float)
    return pd.DataFrame(
        {
            "diameter_mm": (low + high) / 2,
            "diameter_mm_low": low,
            "diameter_mm_high": high,
            **columns,
        }
    )


def mixed_rulers(seed, sets, median=17.0):
    rng = np.random.default_rng(seed)
    sizes = np.exp(rng.normal(np.log(median), 0.3, sets))
    step = rng.choice([1.0, 1.5875, 3.175, 0.1], sets, p=[0.45, 0.3, 0.1, 0.15])
    read = np.round(sizes / step) * step
    buttons = readings(read - step / 2, read + step / 2, file="a", set_id=np.arange(sets))
    return buttons.loc[np.repeat(np.arange(sets), rng.choice([1, 6, 24], sets))]


def test_rounded_chests_give_back_their_counts():
    inches = np.repeat(list(CHESTS), list(CHESTS.values()))
    table = size_distribution(readings(inches - 0.5, inches + 0.5))
    assert table["low_mm"].tolist() == [inch - 0.5 for inch in CHESTS]
    assert (table["share"] * 5738).tolist() == pytest.approx(list(CHESTS.values()), abs=0.01)
    assert (table["sets"] == 5738).all()
    middle = (table["low_mm"] + table["high_mm"]) / 2
    mean = (table["share"] * middle).sum()
    assert mean == pytest.approx(39.83, abs=0.005)
    assert np.sqrt((table["share"] * (middle - mean) ** 2).sum()) == pytest.approx(2.05, abs=0.005)


def test_a_quantile_is_read_off_within_its_interval():
    inches = np.repeat(list(CHESTS), list(CHESTS.values()))
    table = size_quantiles(readings(inches - 0.5, inches + 0.5), quantiles=[0.5])
    # 2,529 chests end below 39.5 and 1,079 lie up to 40.5: arithmetic on the counts.
    expected = 39.5 + (5738 / 2 - 2529) / 1079
    assert table.loc[0, "size_mm"] == pytest.approx(expected, abs=1e-3)
    assert table.loc[0, ["ruler_low_mm", "ruler_high_mm"]].tolist() == [39.5, 40.5]
    # Order statistics: the binomial limits of 2,869 in 5,738 are the 2,793rd and 2,945th chest.
    ends = [39.5 + (place - 2529) / 1079 for place in (2793, 2945)]
    assert table.loc[0, ["low_mm", "high_mm"]].tolist() == pytest.approx(ends, abs=2e-3)
    assert table.loc[0, "low_mm"] < expected < table.loc[0, "high_mm"]


def test_quantiles_are_those_of_endless_draws_from_within_the_readings():
    # Repeated draws within each reading's interval, done the long way: the kit's closed form.
    buttons = mixed_rulers(4, 40).drop_duplicates("set_id")
    rng = np.random.default_rng(1)
    low, high = (buttons[f"diameter_mm_{end}"].to_numpy()[:, None] for end in ("low", "high"))
    drawn = rng.uniform(low, high, (len(buttons), 20_000)).ravel()
    # No whole number of the forty sets, so that the share is reached within a reading.
    shares = [0.11, 0.26, 0.51, 0.76, 0.89]
    sizes = size_quantiles(buttons, quantiles=shares)["size_mm"].to_numpy()
    assert sizes == pytest.approx(np.quantile(drawn, shares), abs=0.02)


def test_a_card_of_twenty_four_has_one_vote():
    card = readings([9.95] * 24, [10.05] * 24, file="a", set_id="card")
    loose = readings([19.95] * 3, [20.05] * 3, file="a", set_id=None)
    table = size_distribution(pd.concat([card, loose]))
    assert table["share"].tolist() == pytest.approx([0.25, 0.75])
    assert table["sets"].tolist() == [4, 4]


def test_a_set_of_two_sizes_shares_its_vote():
    pair = readings([9.95, 19.95, 19.95], [10.05, 20.05, 20.05], file="a", set_id="coat")
    assert size_distribution(pair)["share"].tolist() == pytest.approx([1 / 3, 2 / 3])


def test_intervals_of_the_median_hold_the_truth_as_often_as_they_say():
    held = [
        (row := size_quantiles(mixed_rulers(seed, 16), quantiles=[0.5]).loc[0])["low_mm"]
        <= 17
        <= row["high_mm"]
        for seed in range(60)
    ]
    # 95 % of 60 is 57; fewer than 51 would come about once in 200 such trials.
    assert sum(held) >= 51


def test_sizes_by_period_count_wide_dates_in_each_period():
    early, late = [1800] * 12, [1820] * 12
    buttons = readings(
        [9.5] * 12 + [19.5] * 12 + [29.5],
        [10.5] * 12 + [20.5] * 12 + [30.5],
        year_from=[*early, *late, 1810],
        year_to=[1810] * 12 + [1839] * 12 + [1829],
    )
    table = sizes_by_period(buttons, THREE).set_index("period")
    assert table["sets"].to_dict() == pytest.approx(
        {"early": 12.5, "late": 12.5, "outside": 0, "undated": 0, "all periods": 25}
    )
    assert table.loc["early", "median_mm"] == pytest.approx(9.5 + 6.25 / 12, abs=0.01)
    assert table.loc["late", "median_mm"] == pytest.approx(19.5 + 6.25 / 12, abs=0.01)
    assert table["sets_within"].tolist() == [12, 12, 0, 0, 24]
    assert table.loc["late", "median_within_mm"] == pytest.approx(20.0, abs=0.01)
    assert table.loc["early", "median_low_mm"] <= table.loc["early", "median_mm"]
    assert table["few"].tolist() == [False, False, True, True, False]


def test_few_sets_get_a_median_without_an_interval():
    buttons = readings([9.5] * 9, [10.5] * 9, year_from=1800, year_to=1819)
    row = sizes_by_period(buttons, THREE).set_index("period").loc["early"]
    assert row["few"]
    assert row["median_mm"] == pytest.approx(10.0)
    assert np.isnan([row["median_low_mm"], row["median_high_mm"]]).all()
    assert size_quantiles(buttons)["few"].all()


@pytest.mark.parametrize(("sets", "told"), [(4, False), (5, True)])
def test_below_five_sets_a_period_has_no_median(sets, told):
    buttons = readings([9.5] * 20, [10.5] * 20, year_from=[1800] * sets + [1820] * (20 - sets))
    buttons["year_to"] = buttons["year_from"] + 9
    row = sizes_by_period(buttons, THREE).set_index("period").loc["early"]
    names = ["median_mm", "lower_quartile_mm", "upper_quartile_mm", "median_within_mm"]
    assert row[names].notna().tolist() == [told] * 4


def test_a_periods_median_rests_on_its_own_readings():
    # Of five alike readings the middle is the middle, however finely other periods' sets divide
    # the lower half of what the ruler leaves open.
    fine = np.arange(12.6, 13.0, 0.05)
    low, high = np.r_[[12.5] * 5, fine - 0.02], np.r_[[13.5] * 5, fine + 0.02]
    years = np.repeat([1800, 1820], [5, len(fine)])
    buttons = readings(low, high, year_from=years, year_to=years + 9)
    table = sizes_by_period(buttons, THREE).set_index("period")
    names = ["lower_quartile_mm", "median_mm", "upper_quartile_mm"]
    assert table.loc["early", names].tolist() == pytest.approx([12.75, 13.0, 13.25])
    assert table.loc["early", "median_within_mm"] == pytest.approx(13.0)


@pytest.mark.parametrize(
    ("sets", "told"),
    [(9, []), (12, [0.5]), (13, [0.25, 0.5]), (35, [0.25, 0.5]), (36, [0.1, 0.25, 0.5])],
)
def test_a_quantile_that_may_lie_beyond_all_sets_has_no_interval(sets, told):
    # Order statistics: 0.75^13 and 0.9^36 are the first powers below 0.025.
    buttons = readings(np.arange(sets), np.arange(sets) + 1)
    table = size_quantiles(buttons, quantiles=[0.1, 0.25, 0.5])
    assert table.loc[table["low_mm"].notna(), "quantile"].tolist() == told
    assert table.loc[~table["few"], "quantile"].tolist() == told
    assert table["size_mm"].notna().all()


@pytest.mark.parametrize(
    "buttons",
    [pd.DataFrame(), pd.DataFrame({"diameter_mm": [None, None], "year_from": 1800})],
)
def test_without_sizes_the_tables_stay_well_formed(buttons):
    assert size_distribution(buttons).empty
    quantiles = size_quantiles(buttons)
    assert quantiles["size_mm"].isna().all()
    assert (quantiles["sets"] == 0).all()
    table = sizes_by_period(buttons, THREE)
    assert table["median_mm"].isna().all()
    assert table["few"].all()


def test_quartiles_stand_about_the_median_and_sizes_in_both_units():
    buttons = readings(np.arange(12.0, 32), np.arange(13.0, 33), year_from=1800, year_to=1819)
    row = sizes_by_period(buttons, THREE).set_index("period").loc["early"]
    names = ["lower_quartile_mm", "median_mm", "upper_quartile_mm"]
    assert row[names].tolist() == pytest.approx([17, 22, 27])
    middle = size_quantiles(buttons, quantiles=[0.5]).loc[0]
    # A button line is 1/40 inch, 0.635 mm (GNU units definitions).
    assert middle["size_lines"] == pytest.approx(22 / 0.635)


def test_a_large_set_neither_pulls_nor_narrows_a_periods_median():
    sizes = np.random.default_rng(3).normal(16, 2, 30).round(1)
    dated = {"year_from": 1800, "year_to": 1819, "file": "a", "set_id": np.arange(30)}
    loose = readings(sizes - 0.05, sizes + 0.05, **dated)
    once = sizes_by_period(loose, THREE)
    cards = pd.concat([loose] * 12, ignore_index=True)
    pd.testing.assert_frame_equal(once, sizes_by_period(cards, THREE))


def test_the_sets_told_keep_the_limits_however_wide_the_dates():
    # Dates over both periods give each set half a weight. Kish's effective number of 9 halves
    # is 9, of 19 it is 19: more sets than there are.
    for number, median, interval in ((8, 0, 0), (9, 1, 0), (18, 1, 0), (19, 1, 1)):
        buttons = readings([9.5] * number, [10.5] * number, year_from=1800, year_to=1839)
        row = sizes_by_period(buttons, THREE).set_index("period").loc["early"]
        told = [pd.notna(row["median_mm"]), pd.notna(row["median_low_mm"])]
        assert row["sets"] == pytest.approx(number / 2)
        assert told == [median, interval], number
        assert bool(row["few"]) is not bool(interval)


def test_wide_dates_widen_the_interval_of_a_median():
    sizes = np.arange(10.0, 50.0)
    exact = readings(sizes - 0.05, sizes + 0.05, year_from=1800, year_to=1819)
    wide = exact.assign(year_to=1839)
    firm, loose = (
        sizes_by_period(buttons, THREE).set_index("period").loc["early"]
        for buttons in (exact, wide)
    )
    assert loose["median_low_mm"] < firm["median_low_mm"]
    assert loose["median_high_mm"] > firm["median_high_mm"]
