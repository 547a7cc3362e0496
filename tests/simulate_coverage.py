"""Measure how often the kit's intervals cover a known truth, and what its shuffling test does.

Run it from the checkout; it takes long and is no part of the test suite, which runs a few surveys
of it through :func:`measure`:

    python tests/simulate_coverage.py --surveys 2000 --to tests/coverage_results.csv

Each scenario makes so many invented surveys. A survey has sets of 1 to 24 matching buttons, each
with a true year between 1780 and 1900 of which only a range of 5 to 100 years is recorded, placed
so that every position around the true year is equally likely. Six buttons in ten are not opened.
The truth is the share from which the sets were drawn. Every survey goes through the same public
functions that the notebooks call. A survey in which a period has no estimate at all counts
neither way; how often an interval was given stands in the column ``told``.
"""

import argparse
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pandas as pd

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.comparison.differences import differences_between
from buttonstudy.study.comparison.periods import compare_periods
from buttonstudy.study.comparison.turning import turning_years
from buttonstudy.study.shares.by_period import shares_by_period
from buttonstudy.study.shares.latent import estimated_shares
from buttonstudy.study.shares.reweighted import reweighted_shares
from buttonstudy.study.shares.reweighted_periods import reweighted_by_period
from buttonstudy.study.shares.traits import estimate_traits

EVEN = (1, 1, 1, 1, 1, 1)
UNEVEN = (1, 1, 2, 6, 3, 1)
SHARP = (0.05, 0.05, 0.19, 0.71, 0.85, 0.85)
RARE = (0.01, 0.01, 0.02, 0.02, 0.05, 0.10)
LEVEL = (0.30,) * 6
FIRST = 1780
LABELS = tuple(f"{FIRST + 20 * place}–{FIRST + 20 * place + 19}" for place in range(6))
PERIODS = tuple(
    Period(label, FIRST + 20 * place, FIRST + 20 * place + 19) for place, label in enumerate(LABELS)
)
SCHEME = PeriodScheme("twenty", "Periods of twenty years", "made for this simulation", PERIODS)

Outcome = dict[str, list[tuple[bool, float]]]


@dataclass(frozen=True, slots=True)
class Scenario:
    """One kind of survey, and what is asked of it."""

    name: str
    about: str
    ask: Callable[[pd.DataFrame, "Scenario"], Outcome]
    sets: int = 240
    over_periods: tuple[float, ...] = EVEN
    felt: tuple[float, ...] = SHARP
    linen: tuple[float, ...] = SHARP
    opened: tuple[float, float] = (0.4, 0.4)
    years: tuple[int, int] = (5, 100)
    curve: bool = False

    @property
    def truth(self) -> np.ndarray:
        """The share in each period; felt and linen covers are equally frequent."""
        return (np.array(self.felt) + np.array(self.linen)) / 2


def survey(scenario: Scenario, rng: np.random.Generator) -> pd.DataFrame:
    """Make one invented survey."""
    number = scenario.sets
    chance = np.array(scenario.over_periods) / sum(scenario.over_periods)
    period = rng.choice(6, number, p=chance)
    year = FIRST + 20 * period + rng.integers(0, 20, number)
    span = rng.integers(scenario.years[0], scenario.years[1] + 1, number)
    start = year - rng.integers(0, span)
    felt = rng.random(number) < 0.5
    share = np.where(felt, np.array(scenario.felt)[period], np.array(scenario.linen)[period])
    if scenario.curve:
        share = 0.05 + 0.80 / (1 + np.exp(-(year + 0.5 - 1840) / 5))
    has = rng.random(number) < share
    opened = rng.random(number) < np.where(felt, *scenario.opened)
    sets = pd.DataFrame(
        {
            "set_id": [f"S{place}" for place in range(number)],
            "cover_material": np.where(felt, "felt", "linen"),
            "opened": np.where(opened, "opened", "not opened"),
            "padding": np.where(opened, np.where(has, "wool", "absent"), "not examined"),
            "year_from": start,
            "year_to": start + span - 1,
        }
    )
    return sets.loc[np.repeat(sets.index, rng.integers(1, 25, number))].reset_index(drop=True)


def ask_shares(buttons: pd.DataFrame, scenario: Scenario) -> Outcome:
    """Estimate shares by period, plainly."""
    table = estimated_shares(estimate_traits(buttons, ["padding"], SCHEME, {"padding": ["wool"]}))
    return _by_period(table[table["kind"] == "period"], scenario)


def ask_described(buttons: pd.DataFrame, scenario: Scenario) -> Outcome:
    """Take the aoristic description for an estimate, which it is not."""
    table = shares_by_period(buttons, "padding", SCHEME, ["wool"])
    return _by_period(table[table["kind"] == "period"], scenario)


def ask_reweighted(buttons: pd.DataFrame, scenario: Scenario) -> Outcome:
    """Estimate shares by period, reweighted by the kind of cover."""
    table = reweighted_by_period(buttons, "padding", SCHEME, ["cover_material"], ["wool"])
    return _by_period(table, scenario)


def ask_overall(buttons: pd.DataFrame, scenario: Scenario) -> Outcome:
    """Estimate the share over all periods, reweighted by the kind of cover."""
    row = reweighted_shares(buttons, "padding", ["cover_material"], ["wool"]).iloc[0]
    chance = np.array(scenario.over_periods) / sum(scenario.over_periods)
    return {"all periods": [_held(row["low"], row["high"], float(scenario.truth @ chance))]}


def ask_difference(buttons: pd.DataFrame, scenario: Scenario) -> Outcome:
    """Estimate the difference of the fourth and the second period."""
    traits = estimate_traits(buttons, ["padding"], SCHEME, {"padding": ["wool"]})
    row = differences_between(traits, LABELS[1], LABELS[3]).iloc[0]
    truth = float(scenario.truth[3] - scenario.truth[1])
    return {f"{LABELS[3]} less {LABELS[1]}": [_held(row["low"], row["high"], truth)]}


def ask_turning(buttons: pd.DataFrame, scenario: Scenario) -> Outcome:
    """Estimate the turning year, where one is told."""
    row = turning_years(buttons, "padding", ["wool"]).iloc[0]
    if not row["told"]:
        return {"turning year": []}
    return {"turning year": [_held(row["low"], row["high"], 1840.0)]}


def ask_shuffling(buttons: pd.DataFrame, scenario: Scenario) -> Outcome:
    """See whether shuffling calls the periods different: its size, or its power."""
    traits = estimate_traits(buttons, ["padding"], SCHEME, {"padding": ["wool"]}, draws=200)
    chance = compare_periods(traits, shuffles=400)["chance"].iloc[0]
    return {"below 0.05": [] if pd.isna(chance) else [(bool(chance < 0.05), float("nan"))]}


def _by_period(table: pd.DataFrame, scenario: Scenario) -> Outcome:
    ends = zip(LABELS, table["low"], table["high"], scenario.truth)
    return {
        label: [] if pd.isna(low) else [_held(low, high, truth)] for label, low, high, truth in ends
    }


def _held(low: float, high: float, truth: float) -> tuple[bool, float]:
    return bool(low <= truth <= high), float(high - low)


RANDOM = Scenario("random", "opened at random", ask_shares)
LESS = (0.02, 0.02, 0.08, 0.40, 0.60, 0.60)
VISIBLE = replace(
    RANDOM,
    name="visible",
    about="felt opened 3 x as often, reweighted",
    ask=ask_reweighted,
    linen=LESS,
    opened=(0.6, 0.2),
)
TURNING = replace(RANDOM, name="turning", about="curve about 1840", ask=ask_turning, curve=True)
MOSTLY = "most sets of 1840–59"
SCENARIOS = (
    RANDOM,
    replace(RANDOM, name="random, few", about="100 sets", sets=100),
    replace(RANDOM, name="random, uneven", about=MOSTLY, over_periods=UNEVEN),
    replace(RANDOM, name="random, level", about="30 % throughout", felt=LEVEL, linen=LEVEL),
    replace(RANDOM, name="random, rare", about="1 to 10 %", felt=RARE, linen=RARE),
    replace(RANDOM, name="random, close", about="dates to 5–15 years", years=(5, 15)),
    replace(RANDOM, name="described", about="aoristic share taken for one", ask=ask_described),
    replace(VISIBLE, name="visible, plain", about="not reweighted", ask=ask_shares),
    VISIBLE,
    replace(VISIBLE, name="visible, uneven", about=MOSTLY, over_periods=UNEVEN),
    replace(VISIBLE, name="visible, all", about="all periods, undated", ask=ask_overall),
    replace(RANDOM, name="difference", about="of two periods", ask=ask_difference),
    TURNING,
    replace(TURNING, name="turning, uneven", about=MOSTLY, over_periods=UNEVEN),
    replace(
        RANDOM,
        name="shuffled, size",
        about="no difference",
        ask=ask_shuffling,
        felt=LEVEL,
        linen=LEVEL,
    ),
    replace(RANDOM, name="shuffled, power", about="100 sets", ask=ask_shuffling, sets=100),
)


def measure(scenario: Scenario, surveys: int, seed: int, seconds: float = np.inf) -> pd.DataFrame:
    """Make so many surveys, or as many as the time allows, and count what was covered.

    Returns
    -------
    DataFrame
        One row for each thing asked: ``scenario``, ``about``, ``asked``, ``surveys``, ``told``,
        ``covered`` (or found, for the shuffling test) as shares of those told, ``error`` (its
        Monte Carlo standard error) and ``width`` (the mean width of the intervals).
    """
    rng = np.random.default_rng(seed)
    found: dict[str, list[tuple[bool, float]]] = {}
    began, made = time.process_time(), 0
    while made < surveys and (made < 2 or time.process_time() - began < seconds):
        for asked, outcome in scenario.ask(survey(scenario, rng), scenario).items():
            found.setdefault(asked, []).extend(outcome)
        made += 1
    return pd.DataFrame([_counted(scenario, made, *item) for item in found.items()])


def _counted(
    scenario: Scenario, made: int, asked: str, outcomes: list[tuple[bool, float]]
) -> dict[str, object]:
    covered = float(np.mean([held for held, _ in outcomes])) if outcomes else np.nan
    return {
        "scenario": scenario.name,
        "about": scenario.about,
        "asked": asked,
        "surveys": made,
        "told": round(len(outcomes) / made, 3),
        "covered": round(covered, 4),
        "error": round(float(np.sqrt(covered * (1 - covered) / max(len(outcomes), 1))), 4),
        "width": round(float(np.mean([width for _, width in outcomes])), 3) if outcomes else np.nan,
    }


def main() -> None:
    """Measure every scenario and write the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--surveys", type=int, default=2000, help="surveys per scenario")
    parser.add_argument(
        "--seconds", type=float, default=np.inf, help="most seconds of processor time per scenario"
    )
    parser.add_argument("--to", type=Path, required=True, help="the table to write, a CSV file")
    parser.add_argument("--only", help="one scenario's name; all if not given")
    parser.add_argument("--seed", type=int, default=1837)
    chosen = parser.parse_args()
    tables = []
    for scenario in SCENARIOS:
        if chosen.only not in (None, scenario.name):
            continue
        tables.append(measure(scenario, chosen.surveys, chosen.seed, chosen.seconds))
        print(tables[-1].drop(columns="about").to_string(index=False, header=False), flush=True)
    pd.concat(tables).to_csv(chosen.to, index=False)


if __name__ == "__main__":
    main()
