import numpy as np
import pandas as pd
import pytest

from buttonstudy.schemes import period_scheme
from buttonstudy.study.shares.latent import estimated_shares
from buttonstudy.study.shares.reweighted import reweighted_shares
from buttonstudy.study.shares.reweighted_periods import BY_PERIOD_COLUMNS, reweighted_by_period
from buttonstudy.study.shares.traits import estimate_traits

CENTURIES = period_scheme("centuries")


def of_century(buttons: pd.DataFrame, by: list[str], terms: list[str]) -> pd.Series:
    table = reweighted_by_period(buttons, "hole_fill", CENTURIES, by, terms)
    return table.set_index("period").loc["19th century"]


def test_one_period_with_sure_dates_is_reweighted_as_without_dates(adversarial) -> None:
    buttons = adversarial.opened_cards(3).assign(year_from=1810, year_to=1812)
    row = of_century(buttons, ["cover_material"], ["thread"])
    plain = reweighted_shares(buttons, "hole_fill", ["cover_material"], ["thread"]).iloc[0]
    assert row["estimate"] == pytest.approx(plain["estimate"], abs=1e-3)
    assert row["low"] == pytest.approx(plain["low"], abs=0.03)
    assert row["high"] == pytest.approx(plain["high"], abs=0.03)
    assert (row["sets"], row["examined"]) == pytest.approx((plain["sets"], plain["examined"]))


def test_one_stratum_gives_the_plain_estimate(adversarial) -> None:
    buttons = adversarial.spike(4, 120).assign(hole_fill=lambda table: table["mould_material"])
    scheme = adversarial.twenty_years(1780, 6)
    table = reweighted_by_period(buttons, "hole_fill", scheme, [], ["bone"])
    plain = estimated_shares(
        estimate_traits(buttons, ["hole_fill"], scheme, {"hole_fill": ["bone"]})
    )
    plain = plain[plain["kind"] == "period"]
    assert table["estimate"].to_numpy() == pytest.approx(plain["estimate"].to_numpy(), abs=0.01)
    assert table["high"].to_numpy() == pytest.approx(plain["high"].to_numpy(), abs=0.06)


def test_opening_by_visible_kind_is_put_right_in_each_period(simulation) -> None:
    """Mean of 8 surveys: the plain estimates lean to what was opened, the others do not."""
    scenario, rng = simulation.VISIBLE, np.random.default_rng(3)
    plain, right = [], []
    for _ in range(8):
        buttons = simulation.survey(scenario, rng)
        traits = estimate_traits(
            buttons, ["padding"], simulation.SCHEME, {"padding": ["wool"]}, draws=50
        )
        plain.append(traits[0].estimate)
        table = reweighted_by_period(
            buttons, "padding", simulation.SCHEME, ["cover_material"], ["wool"], draws=50
        )
        right.append(table["covered_estimate"].to_numpy())
    late = slice(3, None)
    lean = (np.nanmean(plain, axis=0) - scenario.truth)[late].mean()
    rest = (np.nanmean(right, axis=0) - scenario.truth)[late].mean()
    assert lean > 0.04
    assert abs(rest) < 0.04


def test_a_kind_of_which_nothing_was_opened_leaves_the_period_without_an_estimate() -> None:
    buttons = pd.DataFrame(
        {
            "cover_material": ["felt"] * 10 + ["silk"] * 10,
            "hole_fill": ["thread"] * 4 + ["open"] * 6 + ["not examined"] * 10,
            "year_from": 1810,
            "year_to": 1812,
        }
    )
    row = of_century(buttons, ["cover_material"], ["thread"])
    assert np.isnan(row["estimate"])
    assert row["covered_estimate"] == pytest.approx(0.4)
    assert row["why"] == (
        "Nothing that is likely to be of this period was examined of “silk”: such sets may all, "
        "or none, have it."
    )
    assert row["low"] < 0.25
    assert row["high"] > 0.65


def test_periods_without_examined_sets_say_so() -> None:
    buttons = pd.DataFrame({"hole_fill": ["thread"] * 9, "year_from": 1810, "year_to": 1812})
    table = reweighted_by_period(buttons, "hole_fill", CENTURIES, ["cover_material"], ["thread"])
    rest = table[table["period"] != "19th century"]
    assert set(rest["why"]) == {"No set that is likely to be of this period was examined."}
    assert rest[["estimate", "low", "high"]].isna().all(axis=None)


@pytest.mark.parametrize("values", [[], ["not examined"] * 3])
def test_nothing_examined_gives_an_empty_table(values: list[str]) -> None:
    table = reweighted_by_period(
        pd.DataFrame({"hole_fill": values}), "hole_fill", CENTURIES, ["cover_material"]
    )
    assert table.empty
    assert list(table.columns) == list(BY_PERIOD_COLUMNS)


def test_undated_sets_are_no_trouble() -> None:
    buttons = pd.DataFrame({"hole_fill": ["thread", "open"]})
    table = reweighted_by_period(buttons, "hole_fill", CENTURIES, ["cover_material"], ["thread"])
    assert table["estimate"].isna().all()
