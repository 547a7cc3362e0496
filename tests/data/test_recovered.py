"""What was put into the demo surveys is found in them again, by the functions that notebooks call.

The data is invented and proves nothing of buttons; that its truth is known is what makes it fit
to test the way from untidy spreadsheets to estimates.
"""

from pathlib import Path

import pandas as pd
import pytest

import buttonstudy as bs
from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.shares.traits import Trait

TRUTH = Path(__file__).parents[2] / "data" / "demo" / "truth_shares.csv"


@pytest.fixture(scope="module")
def truth() -> pd.DataFrame:
    shares = pd.read_csv(TRUTH)
    of_moulds = shares[shares["trait"].str.startswith("mould_material=")]
    return of_moulds.assign(term=of_moulds["trait"].str.partition("=")[2])


@pytest.fixture(scope="module")
def traits(truth: pd.DataFrame) -> list[Trait]:
    years = sorted(truth["year_from"].unique())
    periods = tuple(Period(str(year), int(year), int(year) + 19) for year in years)
    return bs.study.estimate_traits(
        bs.load_survey(["demo"]).buttons,
        ["mould_material"],
        PeriodScheme("twenty", "Twenty years", "", periods),
        {"mould_material": list(truth["term"].unique())},
    )


def test_estimated_intervals_hold_the_true_shares(truth, traits) -> None:
    estimates = bs.study.estimated_shares(traits)
    both = estimates[estimates["kind"] == "period"].merge(
        truth[["year_from", "term", "share"]], on=["year_from", "term"]
    )
    assert len(both) == len(truth) == 35
    held = (both["low"] <= both["share"]) & (both["share"] <= both["high"])
    assert held.mean() >= 0.9


def test_the_change_from_wood_to_pasteboard_that_was_put_in_is_found(truth, traits) -> None:
    compared = bs.study.compare_periods(traits).set_index("term")
    assert compared.loc["wood", "sureness"] == compared.loc["pasteboard", "sureness"] == "clear"
    for term, sign in (("wood", -1), ("pasteboard", 1)):
        row = compared.loc[term]
        shares = truth[truth["term"] == term].set_index("year_from")["share"]
        change = shares[int(row["later"])] - shares[int(row["earlier"])]
        assert sign * row["difference"] > 0
        assert row["low"] <= change <= row["high"]


def test_a_material_that_stayed_rare_is_not_said_to_have_changed(traits) -> None:
    compared = bs.study.compare_periods(traits).set_index("term")
    assert compared.loc["horn", "sureness"] == "may be chance"
