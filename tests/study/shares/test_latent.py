import numpy as np
import pandas as pd
import pytest

from buttonstudy.schemes import limit, period_scheme
from buttonstudy.study.shares.by_period import shares_by_period
from buttonstudy.study.shares.latent import ESTIMATE_COLUMNS, estimated_shares, evidence_worth
from buttonstudy.study.shares.traits import estimate_traits

HALF = period_scheme("half-centuries")
SURVEYS = 12


def estimates(buttons: pd.DataFrame, scheme, field: str = "mould_material", term: str = "bone"):
    table = estimated_shares(estimate_traits(buttons, [field], scheme, {field: [term]}))
    return table[table["kind"] == "period"].reset_index(drop=True)


@pytest.fixture(scope="module")
def spikes(adversarial) -> list[pd.DataFrame]:
    return [adversarial.spike(seed) for seed in range(SURVEYS)]


def test_midpoints_make_a_boom_that_never_was(spikes) -> None:
    """The 1850 spike: forty sets of 1840-59 existed, and the midpoints say more than a hundred."""
    middles = [(survey["year_from"] + survey["year_to"] + 1) / 2 for survey in spikes]
    naive = np.mean([((middle >= 1840) & (middle < 1860)).sum() for middle in middles])
    true = np.mean([survey["true_year"].between(1840, 1859).sum() for survey in spikes])
    assert naive > 100
    assert true < 45


def test_aoristic_shares_smear_the_change_and_the_estimate_does_not(spikes, adversarial) -> None:
    scheme = adversarial.twenty_years(1780, 6)
    described, estimated = [], []
    for survey in spikes:
        plain = shares_by_period(survey, "mould_material", scheme, ["bone"])
        described.append(plain.loc[plain["kind"] == "period", "share"].to_numpy())
        estimated.append(estimates(survey, scheme)["estimate"].to_numpy())
    truth = np.array(adversarial.SPIKE_SHARES)
    naive, kit = np.mean(described, axis=0), np.mean(estimated, axis=0)
    assert naive[1] > 0.18
    assert naive[3] < 0.62
    assert kit == pytest.approx(truth, abs=0.08)
    assert np.abs(kit - truth).max() < np.abs(naive - truth).max() / 2


def test_intervals_cover_the_truth_where_those_of_the_description_do_not(
    spikes, adversarial
) -> None:
    """Of 72 intervals at 95 %, at least 62 should hold: 99.9 % of the time they do."""
    scheme, truth = adversarial.twenty_years(1780, 6), np.array(adversarial.SPIKE_SHARES)
    held, naive = 0, 0
    for survey in spikes:
        table = estimates(survey, scheme)
        held += int(((table["low"] <= truth) & (truth <= table["high"])).sum())
        plain = shares_by_period(survey, "mould_material", scheme, ["bone"])
        plain = plain[plain["kind"] == "period"]
        naive += int(((plain["low"] <= truth) & (truth <= plain["high"])).sum())
    assert held >= 62
    assert naive < 55


def test_more_sets_narrow_the_interval_and_dating_is_told_apart_from_it(adversarial) -> None:
    scheme = adversarial.twenty_years(1780, 6)
    few, many = (estimates(adversarial.spike(1, number), scheme) for number in (120, 2000))
    assert ((many["high"] - many["low"]) < (few["high"] - few["low"])).all()
    widths = many["dating_high"] - many["dating_low"]
    assert (widths <= many["high"] - many["low"]).all()
    assert (widths > 0).all()


def test_sure_dates_leave_dating_nothing_to_say(adversarial) -> None:
    table = estimates(
        adversarial.forking_paths(2), adversarial.twenty_years(1800, 4), "trait_0", "yes"
    )
    assert (table["dating_low"] == table["dating_high"]).all()
    assert (table["dating_low"] == table["estimate"]).all()
    assert (table["with_term_within"] / table["dated_within"]).tolist() == pytest.approx(
        table["estimate"].tolist()
    )


def test_periods_that_dates_cannot_part_are_said_to_be_so() -> None:
    century = pd.DataFrame(
        {"mould_material": ["bone", "wood"] * 40, "year_from": 1800, "year_to": 1899}
    )
    table = estimates(century, HALF)
    touched = table[table["examined"] > 0]
    assert len(touched) == 2
    assert not touched["told_apart"].any()
    assert (touched["worth"] < limit("told-apart-sets")).all()
    assert touched["why"].iloc[0].startswith("No examined sets are dated wholly within this period")
    assert touched["why"].iloc[0].endswith("too few to tell this period from the others.")
    assert (touched["high"] - touched["low"] > 0.6).all()
    empty = table[table["examined"] == 0]
    assert empty["why"].unique().tolist() == [
        "No examined set is dated so that it could be of this period."
    ]
    assert empty["estimate"].isna().all()
    assert empty["low"].isna().all()


def test_five_sets_of_a_period_are_enough_to_tell_it_apart() -> None:
    def told(number: int) -> bool:
        buttons = pd.DataFrame(
            {
                "mould_material": ["bone"] + ["wood"] * (number - 1),
                "year_from": 1810,
                "year_to": 1812,
            }
        )
        table = estimates(buttons, HALF)
        return bool(table.loc[table["examined"] > 0, "told_apart"].iloc[0])

    assert told(8)
    assert not told(3)


def test_nobody_and_everybody_reach_the_ends() -> None:
    buttons = pd.DataFrame({"mould_material": ["wood"] * 20, "year_from": 1810, "year_to": 1812})
    bone, wood = (
        estimates(buttons, HALF, term=term).dropna(subset="estimate") for term in ("bone", "wood")
    )
    assert (bone["estimate"].item(), bone["low"].item()) == (0, 0)
    assert (wood["estimate"].item(), wood["high"].item()) == (1, 1)
    assert bone["high"].item() == pytest.approx(1 - wood["low"].item(), abs=0.02)
    assert 0.05 < bone["high"].item() < 0.15


def test_sets_without_an_answer_bound_the_share() -> None:
    buttons = pd.DataFrame(
        {
            "mould_material": ["bone"] * 10 + ["wood"] * 10 + ["not examined"] * 20,
            "year_from": 1810,
            "year_to": 1812,
        }
    )
    row = estimates(buttons, HALF).dropna(subset="estimate").iloc[0]
    assert (row["if_none"], row["estimate"], row["if_all"]) == pytest.approx((0.25, 0.5, 0.75))
    assert row["without_answer"] == 20


def test_all_periods_are_told_without_dates() -> None:
    buttons = pd.DataFrame({"mould_material": ["bone"] * 10 + ["wood"] * 30})
    table = estimated_shares(
        estimate_traits(buttons, ["mould_material"], HALF, {"mould_material": ["bone"]})
    ).set_index("kind")
    assert table.loc["all", ["estimate", "low", "high"]].tolist() == pytest.approx(
        [0.25, 0.1419, 0.4019], abs=1e-4
    )
    assert table.loc["undated", "examined"] == 40
    assert table.loc["period", "estimate"].isna().all()


@pytest.mark.parametrize(
    "buttons",
    [
        pd.DataFrame({"mould_material": [], "year_from": [], "year_to": []}),
        pd.DataFrame({"other": ["x"]}),
        pd.DataFrame({"mould_material": ["not examined"] * 5, "year_from": 1810, "year_to": 1820}),
    ],
)
def test_nothing_to_estimate_gives_an_empty_table(buttons: pd.DataFrame) -> None:
    table = estimated_shares(estimate_traits(buttons, ["mould_material"], HALF))
    assert table.empty
    assert list(table.columns) == list(ESTIMATE_COLUMNS)


def test_a_term_nobody_was_examined_for_has_rows_without_estimates() -> None:
    buttons = pd.DataFrame({"padding": ["not examined"] * 5, "year_from": 1810, "year_to": 1820})
    table = estimated_shares(estimate_traits(buttons, ["padding"], HALF, {"padding": ["wool"]}))
    assert table["estimate"].isna().all()
    assert list(table.columns) == list(ESTIMATE_COLUMNS)


def test_one_record_is_not_too_few_for_a_table() -> None:
    buttons = pd.DataFrame({"padding": ["wool"], "year_from": [1810], "year_to": [1920]})
    table = estimated_shares(estimate_traits(buttons, ["padding"], HALF))
    assert not table["told_apart"].fillna(False).any()


def test_worth_counts_securely_dated_sets() -> None:
    draws = np.random.default_rng(1).beta(0.5 + 2, 0.5 + 8, (20000, 1))
    assert evidence_worth(draws) == pytest.approx([10], abs=0.6)
    assert evidence_worth(np.random.default_rng(1).beta(0.5, 0.5, (20000, 1))) < 0.1
