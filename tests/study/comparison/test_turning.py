import numpy as np
import pandas as pd
import pytest
from statsmodels.discrete.discrete_model import Logit
from statsmodels.tools import add_constant

from buttonstudy.study.comparison.turning import TURNING_COLUMNS, turning_years


def turn(buttons: pd.DataFrame, term: str = "bone") -> pd.Series:
    return turning_years(buttons, "mould_material", [term]).iloc[0]


def surely_dated(seed: int, number: int, spread: float = 5.0) -> pd.DataFrame:
    rng = np.random.default_rng(seed)
    year = rng.integers(1780, 1900, number)
    has = rng.random(number) < 1 / (1 + np.exp(-(year + 0.5 - 1840) / spread))
    material = np.where(has, "bone", "wood")
    return pd.DataFrame({"mould_material": material, "year_from": year, "year_to": year})


def test_the_spike_is_dated_where_midpoints_and_bins_cannot(adversarial) -> None:
    """The 1850 spike, true turning year 1840, over 20 surveys.

    A latent-date likelihood of another making had a long-run mean of 1840.5 and a spread of 3.8.
    """
    rows = [turn(adversarial.spike(seed)) for seed in range(20)]
    years = np.array([row["turning_year"] for row in rows])
    assert all(row["told"] for row in rows)
    assert {row["direction"] for row in rows} == {"came in"}
    assert years.mean() == pytest.approx(1840.5, abs=2.5)
    assert 2 < years.std() < 6
    assert sum(row["low"] <= 1840 <= row["high"] for row in rows) >= 17


def test_sure_dates_give_the_logistic_regression() -> None:
    """Against statsmodels' Logit; interval of the year by the delta method (Fieller's is near)."""
    buttons = surely_dated(1, 600)
    year = buttons["year_from"].to_numpy(float) + 0.5
    fit = Logit(buttons["mould_material"] == "bone", add_constant(year - 1840)).fit(disp=False)
    start, slope = fit.params
    gradient = np.array([-1 / slope, start / slope**2])
    reach = 1.96 * np.sqrt(gradient @ fit.cov_params() @ gradient)
    row = turn(buttons)
    assert row["turning_year"] == pytest.approx(1840 - start / slope, abs=1.5)
    assert (row["high"] - row["low"]) / 2 == pytest.approx(reach, abs=1)
    assert row["change_years"] == pytest.approx(2 * np.log(3) / slope, rel=0.3)
    assert row["share_before"] < 0.03
    assert row["share_after"] > 0.97


def test_what_came_in_for_one_went_out_for_the_other(adversarial) -> None:
    buttons = adversarial.spike(3)
    bone, wood = turn(buttons), turn(buttons, "wood")
    assert (bone["direction"], wood["direction"]) == ("came in", "went out")
    assert bone["turning_year"] == pytest.approx(wood["turning_year"], abs=1)
    assert bone["share_after"] == pytest.approx(1 - wood["share_after"], abs=0.02)


def test_more_sets_narrow_the_interval_down_to_years(adversarial) -> None:
    widths = [
        row["high"] - row["low"] for row in (turn(adversarial.spike(1, n)) for n in (100, 20000))
    ]
    assert widths[0] > 15
    assert widths[1] <= 4


def test_a_level_share_has_no_turning_year(adversarial) -> None:
    buttons = adversarial.forking_paths(3)
    row = turning_years(buttons, "trait_1", ["yes"]).iloc[0]
    assert not row["told"]
    assert np.isnan(row["turning_year"])
    assert row["why"] == (
        "The 80 examined sets with a date do not show for sure that its share rose or fell, so no "
        "turning year can be told."
    )


def test_one_large_set_turns_nothing(adversarial) -> None:
    assert not turning_years(adversarial.one_large_set(1), "back_finish", ["stitched"])[
        "told"
    ].any()


def test_sure_showings_and_the_examined_sets_beyond_them() -> None:
    ranges = [(1800, 1810), (1811, 1815), (1820, 1850), (1825, 1830), (1840, 1845), (1846, 1850)]
    material = ["wood", "wood", "bone", "bone", "bone", "wood"]
    buttons = pd.DataFrame(ranges, columns=["year_from", "year_to"]).assign(mould_material=material)
    row = turn(buttons)
    assert (row["earliest_from"], row["earliest_to"], row["lacking_before"]) == (1825, 1830, 2)
    assert (row["latest_from"], row["latest_to"], row["lacking_after"]) == (1840, 1845, 1)


CANNOT = {
    "no dates": ({"mould_material": ["bone", "wood"]}, "No set with a date was examined for it."),
    "not examined": (
        {"mould_material": ["not examined"] * 3, "year_from": [1800] * 3, "year_to": [1810] * 3},
        "No set with a date was examined for it.",
    ),
    "all alike": (
        {"mould_material": ["bone"] * 3, "year_from": [1800] * 3, "year_to": [1810] * 3},
        "All of the 3 examined sets with a date answer the same.",
    ),
    "one date": (
        {"mould_material": ["bone", "wood"], "year_from": [1800] * 2, "year_to": [1810] * 2},
        "All examined sets have the same date.",
    ),
    "one record": (
        {"mould_material": ["bone"], "year_from": [1800], "year_to": [1810]},
        "All of the 1 examined sets with a date answer the same.",
    ),
}


@pytest.mark.parametrize("case", CANNOT)
def test_what_cannot_be_told_says_why(case: str) -> None:
    columns, why = CANNOT[case]
    row = turn(pd.DataFrame(columns))
    assert (bool(row["told"]), row["why"]) == (False, why)


def test_no_answers_give_an_empty_table() -> None:
    table = turning_years(pd.DataFrame({"mould_material": []}), "mould_material")
    assert table.empty
    assert list(table.columns) == list(TURNING_COLUMNS)


def test_three_sets_are_too_few_to_tell() -> None:
    buttons = pd.DataFrame(
        {
            "mould_material": ["wood", "bone", "bone"],
            "year_from": [1800, 1850, 1860],
            "year_to": [1810, 1855, 1870],
        }
    )
    assert not turn(buttons)["told"]
