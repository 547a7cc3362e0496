"""Bounded counts, against closed forms and an invented survey of covers seldom opened.

The survey ("at least k layers"): covers of 1 to 4 layers; three in ten are opened and counted,
the rest seen to a depth of one, two or three layers, and noted as "at least" that depth where
they are as deep. The naive answers read "at least 2" as 2, or leave it out.
"""

import numpy as np
import pandas as pd
import pytest

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.shares.bounded_counts import (
    at_least_by_period,
    count_distribution,
    counts_at_least,
)
from buttonstudy.study.shares.count_draws import drawn_shares
from buttonstudy.study.shares.count_words import at_least_sentence

SHARES = (0.2, 0.3, 0.3, 0.2)
MEAN, THREE_OR_MORE = 2.5, 0.5
TWO = PeriodScheme(
    "two", "Two", "invented", (Period("early", 1800, 1819), Period("late", 1820, 1839))
)


def counts(low, high, **columns):
    return pd.DataFrame(
        {
            "cover_layers_low": pd.array(low, dtype="Int64"),
            "cover_layers_high": pd.array(high, dtype="Int64"),
            **columns,
        }
    )


def at_least_so_many(seed, sets=120):
    rng = np.random.default_rng(seed)
    true = rng.choice(4, sets, p=SHARES) + 1
    depth = rng.integers(1, 4, sets)
    exact = (rng.random(sets) < 0.3) | (true < depth)
    high = pd.array(true, dtype="Int64")
    high[~exact] = pd.NA
    return counts(np.where(exact, true, depth), high)


# Four ones, three twos, a three and four "at least 2": the four split 3 to 1, so that 1, 2 and
# 3 have 4, 6 and 2 of 12. Closed form, arithmetic.
TWELVE = counts([1] * 4 + [2] * 3 + [3] + [2] * 4, [1] * 4 + [2] * 3 + [3] + [None] * 4)


def test_what_is_bounded_is_spread_as_what_is_counted():
    table = count_distribution(TWELVE)
    assert table["low"].tolist() == table["high"].tolist() == [1, 2, 3]
    assert table["share"].tolist() == pytest.approx([4 / 12, 6 / 12, 2 / 12], abs=1e-5)


def test_at_least_two_allows_two():
    # Read as survival times "censored at 2", the same readings give 0.417 with more than two.
    table = counts_at_least(TWELVE, n_draws=200).set_index("at_least")
    assert table.loc[3, "share"] == pytest.approx(2 / 12, abs=1e-5)
    assert table.loc[2, "share"] == pytest.approx(8 / 12, abs=1e-5)
    assert table.loc[3, ["fewest", "most"]].tolist() == [1, 5]
    assert table.loc[2, ["sets", "counted", "fewest", "most"]].tolist() == [12, 8, 8, 8]


def test_the_naive_ways_are_wrong_and_the_bounds_put_them_right():
    naive, dropped, means, shares = [], [], [], []
    for seed in range(40):
        buttons = at_least_so_many(seed)
        low = buttons["cover_layers_low"].astype(float)
        naive.append((low.mean(), (low >= 3).mean()))
        known = low[buttons["cover_layers_high"].notna()]
        dropped.append((known.mean(), (known >= 3).mean()))
        table = count_distribution(buttons)
        means.append((table["low"].astype(float) * table["share"]).sum())
        shares.append(table.loc[table["low"] >= 3, "share"].sum())
    # About 1.94 and 0.27, and 2.12 and 0.32, in the long run; the truth is 2.5 and 0.5.
    assert np.mean(naive, axis=0) == pytest.approx([1.94, 0.27], abs=0.03)
    assert np.mean(dropped, axis=0) == pytest.approx([2.12, 0.32], abs=0.04)
    # Three standard errors of 40 surveys, each with a standard deviation of 0.13 and 0.06.
    assert np.mean(means) == pytest.approx(MEAN, abs=0.06)
    assert np.mean(shares) == pytest.approx(THREE_OR_MORE, abs=0.03)


@pytest.mark.parametrize("sets", [20, 120])
def test_intervals_hold_the_truth_as_often_as_they_say(sets):
    held = []
    for seed in range(30):
        table = counts_at_least(at_least_so_many(seed, sets), n_draws=300, seed=seed)
        row = table.set_index("at_least").loc[3]
        held.append(row["low"] <= THREE_OR_MORE <= row["high"])
    # 95 % of 30 is 28 or 29; fewer than 25 would come less than once in 200 such trials.
    assert sum(held) >= 25


def test_a_number_that_nobody_saw_keeps_a_width():
    table = counts_at_least(counts([1] * 30 + [2], [1] * 30 + [None]), n_draws=500)
    row = table.set_index("at_least").loc[2]
    assert row["share"] == pytest.approx(1 / 31, abs=1e-4)
    assert row["high"] > 0.1
    everyone = counts_at_least(counts([2] * 20, [2] * 20), n_draws=500).set_index("at_least")
    assert everyone.loc[2, "high"] == 1
    assert 0.8 < everyone.loc[2, "low"] < 0.99


def test_what_the_bounds_leave_open_is_told_as_open():
    table = counts_at_least(counts([1, 2, 4, 4], [1, None, 4, None]), n_draws=100)
    four = table.set_index("at_least").loc[4]
    assert four["share"] == pytest.approx(0.75, abs=1e-4)
    undecided = counts_at_least(counts([1, 1, 3, 3], [2, 2, 5, 5]), n_draws=100)
    row = undecided.set_index("at_least").loc[4]
    assert np.isnan(row["share"])
    assert (row["share_low"], row["share_high"]) == pytest.approx((0.0, 0.5))
    assert row["low"] == 0
    assert row["high"] >= 0.5
    spread = count_distribution(counts([2, 2], [None, None]))
    assert spread[["low", "high"]].iloc[0].tolist() == [2, pd.NA]


def test_buttons_of_a_set_narrow_each_others_bounds():
    card = counts([2, 3, 1], [None, 3, None], file="a", set_id="card")
    table = count_distribution(card)
    assert table[["low", "high", "share", "sets"]].to_numpy().tolist() == [[3, 3, 1.0, 1]]
    # "At least 2" on one button, "3 at most" on the other: the set certainly has 2 or more.
    apart = counts([2, None], [None, 3], file="a", set_id="card")
    assert counts_at_least(apart, n_draws=20)["fewest"].tolist() == [1, 1, 0]


def test_buttons_of_a_set_that_differ_share_its_vote():
    mixed = counts([2, 3, 3, 1], [2, 3, 3, None], file="a", set_id="coat")
    table = counts_at_least(mixed, n_draws=50).set_index("at_least")
    assert table.loc[3, "fewest"] == pytest.approx(0.5)
    assert table.loc[1, "sets"] == 1


def test_absent_is_a_count_of_none():
    table = counts_at_least(counts([0, 0, 2], [0, 0, 2]), n_draws=50).set_index("at_least")
    assert table.loc[1, "share"] == pytest.approx(1 / 3)


def test_by_period_sets_count_by_their_weight():
    buttons = counts(
        [1, 3, 2], [1, 3, None], year_from=[1800, 1820, 1810], year_to=[1819, 1839, 1829]
    )
    found = at_least_by_period(buttons, TWO, n_draws=50)
    assert found["at_least"].tolist() == [2] * 5 + [3] * 5
    table = found[:5].set_index("period")
    assert table["sets"].tolist() == [1.5, 1.5, 0, 0, 3]
    assert table.loc["early", ["fewest", "most"]].tolist() == [0.5, 0.5]
    assert table.loc["early", "share"] == pytest.approx(1 / 3, abs=1e-4)
    assert table.loc["late", "share"] == pytest.approx(1, abs=1e-4)
    assert np.isnan(table.loc["outside", "share"])


@pytest.mark.parametrize("buttons", [pd.DataFrame(), counts([None, None], [None, None])])
def test_without_counts_the_tables_stay_well_formed(buttons):
    assert count_distribution(buttons).empty
    assert counts_at_least(buttons).empty
    table = at_least_by_period(buttons, TWO)
    assert table.empty
    assert {"at_least", "period", "share"} <= set(table.columns)


def test_draws_follow_the_readings_and_the_seed():
    low, high, votes = np.array([1.0, 2.0]), np.array([1.0, np.inf]), np.array([30.0, 10.0])
    one, same, other = (
        drawn_shares(low, high, votes, 2, n_draws=400, seed=seed) for seed in (1, 1, 2)
    )
    assert (one == same).all()
    assert (one != other).any()
    assert one.sum(axis=1) == pytest.approx(1)
    # Beta with 30 + 1/5 against 10 + 3/5 on the other side: mean 0.74.
    assert one[:, 1].mean() == pytest.approx(0.74, abs=0.02)


def test_sentences_give_counts_before_shares():
    table = counts_at_least(at_least_so_many(1), n_draws=400).set_index("at_least", drop=False)
    assert at_least_sentence(table.loc[3]) == (
        "Of 120 sets in this survey with a count of cover layers or a bound on it (64 counted "
        "exactly), 37 certainly had 3 or more, and 78 may have had. Most likely it was 50 %; "
        "with these sets and bounds, anything from 40 to 62 % is possible."
    )
    few = counts_at_least(TWELVE, n_draws=50).iloc[2]
    assert at_least_sentence(few).endswith("may have had. That is too few sets for a percentage.")
