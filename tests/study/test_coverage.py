"""A few surveys of ``tests/simulate_coverage.py``, which can be run at length by hand."""

from pathlib import Path

import numpy as np
import pandas as pd
import pytest

SURVEYS = 10


@pytest.mark.parametrize(
    ("name", "at_least"), [("random", 0.85), ("random, uneven", 0.85), ("visible, all", 0.7)]
)
def test_intervals_cover_what_they_promise(simulation, name: str, at_least: float) -> None:
    scenario = next(scenario for scenario in simulation.SCENARIOS if scenario.name == name)
    table = simulation.measure(scenario, SURVEYS, seed=2)
    told = table["told"] * SURVEYS
    assert (table["covered"] * told).sum() / told.sum() >= at_least


def test_the_description_is_no_estimate(simulation) -> None:
    scenario = next(scenario for scenario in simulation.SCENARIOS if scenario.name == "described")
    table = simulation.measure(scenario, 2 * SURVEYS, seed=2).set_index("asked")
    assert table.loc["1800–1819", "covered"] < 0.8


def test_a_survey_of_the_simulation_is_as_it_says(simulation) -> None:
    rng = np.random.default_rng(1)
    buttons = pd.concat([simulation.survey(simulation.VISIBLE, rng) for _ in range(10)])
    sets = buttons.groupby("set_id", sort=False)
    assert 1 <= sets.size().min()
    spans = buttons["year_to"] + 1 - buttons["year_from"]
    assert (spans.min(), spans.max()) == (5, 100)
    opened = (buttons["opened"] == "opened").groupby(buttons["cover_material"]).mean()
    assert opened["felt"] == pytest.approx(0.6, abs=0.05)
    assert opened["linen"] == pytest.approx(0.2, abs=0.05)
    assert ((buttons["padding"] == "not examined") == (buttons["opened"] == "not opened")).all()


@pytest.fixture(scope="module")
def results() -> pd.DataFrame:
    """What the long run found, made by hand: 2,000 surveys a scenario."""
    return pd.read_csv(Path(__file__).parents[1] / "coverage_results.csv")


def test_every_scenario_was_run_two_thousand_times(simulation, results) -> None:
    assert set(results["scenario"]) == {one.name for one in simulation.SCENARIOS}
    assert (results["surveys"] == 2000).all()


def test_intervals_hold_the_truth_as_often_as_they_promise_or_more(results) -> None:
    intervals = results[~results["scenario"].str.contains("described|shuffled|plain")]
    assert len(intervals) > 50
    assert intervals["covered"].between(0.93, 1).all()
    assert intervals["told"].min() > 0.9


def test_the_recorded_description_is_no_estimate(results) -> None:
    described = results[results["scenario"] == "described"].set_index("asked")
    assert described.loc["1800–1819", "covered"] < 0.6


def test_shuffling_finds_nothing_too_often_and_something_when_it_is_there(results) -> None:
    found = results.set_index("scenario")["covered"]
    assert 0.03 <= found["shuffled, size"] <= 0.06
    assert found["shuffled, power"] > 0.8


@pytest.fixture(scope="module")
def of_sizes() -> pd.DataFrame:
    """What the long run of ``tests/simulate_sizes.py`` found: 1,000 surveys a scenario."""
    return pd.read_csv(Path(__file__).parents[1] / "coverage_of_sizes.csv")


def test_intervals_of_sizes_hold_the_truth_as_often_as_they_promise(of_sizes) -> None:
    smooth = of_sizes[~of_sizes["scenario"].str.contains("step|by period")]
    assert (smooth["surveys"] == 1000).all()
    assert smooth.groupby("scenario").size().loc["quantiles, 100 sets"] == 5
    assert smooth["share"].between(0.94, 0.99).all()


def test_sizes_made_to_a_step_are_held_as_long_as_sets_are_hundreds(of_sizes) -> None:
    stepped = of_sizes[of_sizes["scenario"].str.endswith("step 1.27")].set_index("scenario")
    for sets, least in ((36, 0.95), (100, 0.93), (240, 0.91)):
        assert (stepped.loc[f"quantiles, {sets} sets, step 1.27", "share"] >= least).all()
    # With a thousand, rulers of a millimetre hide the step, and no interval of chance covers that.
    assert stepped.loc["quantiles, 1000 sets, step 1.27", "share"].min() < 0.8


def test_medians_by_period_hold_the_record_and_mostly_the_period(of_sizes) -> None:
    by_period = of_sizes[of_sizes["scenario"].str.startswith("by period")]
    assert by_period["scenario"].nunique() == 9
    record = by_period[by_period["asked"] != "median of the period"]
    assert (record["share"] >= 0.985).all()
    of_period = by_period[by_period["asked"] == "median of the period"].set_index("scenario")
    assert (of_period["share"].drop("by period, 1000 sets, drift 0.8") >= 0.97).all()
    # Very many sets leave chance little, and wide dates draw neighbouring periods together.
    assert of_period.loc["by period, 1000 sets, drift 0.8", "share"] < 0.93
