"""Measure how often the intervals for sizes and counts cover a known truth, and what rulers fake.

Run it from the checkout; it takes some minutes and is no part of the test suite:

    python tests/simulate_sizes.py --surveys 1000 --to sizes.csv

``tests/coverage_of_sizes.csv`` holds such a run of the quantiles and the comparisons. All surveys
are invented. Sizes are lognormal about 17 mm with a spread of 0.30 in the logarithm,
each set read with one of four rulers (whole mm 45 %, sixteenths 30 %, eighths 10 %, tenths of a mm
15 %), sets of 1, 6 or 24 matching buttons. Layers are 1 to 4 with shares of 0.2, 0.3, 0.3 and 0.2;
three in ten sets are opened and counted, the rest seen to a depth of one to three layers.

By period, sets are made in any year from 1780 to 1879, and of each only a range of 5 to 100 years
is recorded, placed so that every position about the true year is equally likely. Two truths are
asked for: the median of the record, to which the kit's figures would come with ever more sets so
dated, and the median of the sets made in the period. They part where sizes change over the years.
"""

import argparse
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

import numpy as np
import pandas as pd
from scipy import stats

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.evidence.dating import period_weights
from buttonstudy.study.shares.bounded_counts import counts_at_least
from buttonstudy.study.sizes.comparison import compare_sizes
from buttonstudy.study.sizes.intervals import QUANTILES, size_quantiles, sizes_by_period
from buttonstudy.study.sizes.spacing import search_spacing, spacing_tests

MEDIAN, SPREAD = 17.0, 0.30
STEPS = np.array([1.0, 1.5875, 3.175, 0.1])
UNITS = np.array(["mm", "in", "in", "mm"])
RULERS = (0.45, 0.30, 0.10, 0.15)
LAYERS = (0.2, 0.3, 0.3, 0.2)
TWO = PeriodScheme(
    "two",
    "Two",
    "made for this simulation",
    (Period("early", 1800, 1819), Period("late", 1820, 1839)),
)
FIRST, YEARS, SPANS = 1780, 100, (5, 10, 20, 41, 100)
FIVE = PeriodScheme(
    "five",
    "Five periods of twenty years",
    "made for this simulation",
    tuple(
        Period(f"{year} to {year + 19}", year, year + 19)
        for year in range(FIRST, FIRST + YEARS, 20)
    ),
)

Outcome = tuple[str, bool, float]


def sizes(
    rng: np.random.Generator, sets: int, shift: float = 0.0, step: float = 0.0
) -> pd.DataFrame:
    """Make a survey of sizes; the second half of the sets is later, and larger by ``shift``."""
    late = np.arange(sets) >= sets // 2
    true = np.clip(np.exp(rng.normal(np.log(MEDIAN) + shift * late, SPREAD)), 5, 60)
    if step:
        true = np.round(true / step) * step + rng.normal(0, 0.12, sets)
    return read(rng, true, np.where(late, 1820, 1800), np.where(late, 1839, 1819))


def read(
    rng: np.random.Generator, true: np.ndarray, year_from: np.ndarray, year_to: np.ndarray
) -> pd.DataFrame:
    """Read each set's size with one of the rulers, and give it 1, 6 or 24 matching buttons."""
    sets = len(true)
    ruler = rng.choice(4, sets, p=RULERS)
    near = np.round(true / STEPS[ruler]) * STEPS[ruler]
    table = pd.DataFrame(
        {
            "set_id": np.arange(sets).astype(str),
            "diameter_mm": near,
            "diameter_mm_low": near - STEPS[ruler] / 2,
            "diameter_mm_high": near + STEPS[ruler] / 2,
            "diameter_step_mm": STEPS[ruler],
            "diameter_unit": UNITS[ruler],
            "year_from": year_from,
            "year_to": year_to,
        }
    )
    return table.loc[np.repeat(table.index, rng.choice([1, 6, 24], sets, p=[0.6, 0.25, 0.15]))]


def made_over_years(
    rng: np.random.Generator, sets: int, drift: float
) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Make sets over the years, ``drift`` larger in the logarithm at the end than at the start.

    Returns their true years, the first and last year recorded, and their true sizes.
    """
    year = FIRST + rng.integers(0, YEARS, sets)
    span = rng.choice(SPANS, sets)
    start = year - rng.integers(0, span)
    middle = np.log(MEDIAN) + drift * (year - FIRST) / YEARS
    return year, start, start + span - 1, np.clip(np.exp(rng.normal(middle, SPREAD)), 5, 60)


def layers(rng: np.random.Generator, sets: int) -> pd.DataFrame:
    """Make a survey of covers seldom seen to the bottom."""
    true = rng.choice(4, sets, p=LAYERS) + 1
    depth = rng.integers(1, 4, sets)
    exact = (rng.random(sets) < 0.3) | (true < depth)
    high = pd.array(true, dtype="Int64")
    high[~exact] = pd.NA
    low = pd.array(np.where(exact, true, depth), dtype="Int64")
    return pd.DataFrame({"cover_layers_low": low, "cover_layers_high": high})


def ask_quantiles(rng: np.random.Generator, sets: int, step: float) -> Iterator[Outcome]:
    """See whether the intervals of quantiles hold the true ones."""
    table = size_quantiles(sizes(rng, sets, step=step))
    for share, low, high, true in zip(
        table["quantile"], table["low_mm"], table["high_mm"], true_quantiles(step)
    ):
        if np.isnan(low):
            continue
        yield f"quantile {share}", bool(low <= true <= high), high - low


@cache
def true_quantiles(step: float) -> list[float]:
    """Give the true quantiles, of sizes made to a step from very many of them."""
    if not step:
        return [float(size) for size in np.exp(stats.norm.ppf(QUANTILES, np.log(MEDIAN), SPREAD))]
    rng = np.random.default_rng(0)
    true = np.clip(np.exp(rng.normal(np.log(MEDIAN), SPREAD, 4_000_000)), 5, 60)
    true = np.round(true / step) * step + rng.normal(0, 0.12, len(true))
    return [float(size) for size in np.quantile(true, QUANTILES)]


def ask_periods(rng: np.random.Generator, sets: int, drift: float) -> Iterator[Outcome]:
    """See whether the intervals of medians by period hold those of the record, and of the sets."""
    _, start, end, true = made_over_years(rng, sets, drift)
    buttons = read(rng, true, start, end)
    table = sizes_by_period(buttons, FIVE)
    periods = table[table["kind"] == "period"]
    of_record, of_period = true_medians(drift)
    for place, (low, high) in enumerate(zip(periods["median_low_mm"], periods["median_high_mm"])):
        if np.isnan(low):
            continue
        yield "median of the record", bool(low <= of_record[place] <= high), high - low
        yield "median of the period", bool(low <= of_period[place] <= high), high - low
    rows = compare_sizes(buttons, FIVE, FIVE.periods[0].label, FIVE.periods[-1].label)
    row = rows.iloc[0]
    low, high = row["difference_low_mm"], row["difference_high_mm"]
    if not np.isnan(low):
        difference = of_record[-1] - of_record[0]
        yield "difference in the record", bool(low <= difference <= high), high - low


@cache
def true_medians(drift: float, sets: int = 1_000_000) -> tuple[np.ndarray, np.ndarray]:
    """Give each period's median in the record and among the sets made in it, from very many."""
    year, start, end, true = made_over_years(np.random.default_rng(0), sets, drift)
    order = np.argsort(true)
    weights = period_weights(pd.Series(start), pd.Series(end), FIVE).to_numpy()[order]
    of_record, of_period = [], []
    for place, period in enumerate(FIVE.periods):
        up_to = np.cumsum(weights[:, place])
        of_record.append(true[order][np.searchsorted(up_to, up_to[-1] / 2)])
        of_period.append(np.median(true[(year >= period.year_from) & (year <= period.year_to)]))
    return np.array(of_record), np.array(of_period)


def ask_comparison(rng: np.random.Generator, sets: int, shift: float) -> Iterator[Outcome]:
    """See whether the intervals of a comparison hold the true effect."""
    buttons = sizes(rng, sets, shift)
    row = compare_sizes(buttons, TWO, "early", "late").iloc[0]
    chance = float(stats.norm.cdf(shift / SPREAD / np.sqrt(2)))
    low, high = row["superiority_low"], row["superiority_high"]
    yield "superiority", bool(low <= chance <= high), high - low
    difference = MEDIAN * (np.exp(shift) - 1)
    low, high = row["difference_low_mm"], row["difference_high_mm"]
    yield "difference of medians", bool(low <= difference <= high), high - low


def ask_layers(rng: np.random.Generator, sets: int, seed: int) -> Iterator[Outcome]:
    """See whether the intervals of shares with so many layers hold the true ones."""
    table = counts_at_least(layers(rng, sets), n_draws=500, seed=seed).set_index("at_least")
    for number in (2, 3, 4):
        if number in table.index:
            low, high = table.loc[number, ["low", "high"]]
            true = sum(LAYERS[number - 1 :])
            yield f"{number} or more", bool(low <= true <= high), high - low


def ask_spacing(rng: np.random.Generator, sets: int, seed: int, step: float) -> Iterator[Outcome]:
    """See how often a step is found: its size without one, its power with one."""
    buttons = sizes(rng, sets, step=step)
    peak = search_spacing(buttons, n_surveys=300, seed=seed).peak
    found = bool(peak["stands_out"].any())
    yield "some step found", found, np.nan
    if step:
        right = found and abs(float(peak["step_mm"].iloc[0]) - step) < 0.05
        yield "the right step found", right, np.nan
    table = spacing_tests(buttons, n_surveys=300, seed=seed)
    yield "a named step shown", bool((table["answer"] == "shown").any()), np.nan


Ask = Callable[[np.random.Generator, int], Iterator[Outcome]]

SCENARIOS: dict[str, Ask] = {
    **{
        f"quantiles, {sets} sets": lambda rng, _, sets=sets: ask_quantiles(rng, sets, 0.0)
        for sets in (10, 13, 36, 100, 240, 1000)
    },
    **{
        f"quantiles, {sets} sets, step 1.27": lambda rng, _, sets=sets: ask_quantiles(
            rng, sets, 1.27
        )
        for sets in (36, 100, 240, 1000)
    },
    **{
        f"comparison, {sets} sets, shift {shift}": lambda rng, _, sets=sets, shift=shift: (
            ask_comparison(rng, sets, shift)
        )
        for sets in (24, 80)
        for shift in (0.0, 0.3, 0.8)
    },
    **{
        f"by period, {sets} sets, drift {drift}": lambda rng, _, sets=sets, drift=drift: (
            ask_periods(rng, sets, drift)
        )
        for sets in (60, 240, 1000)
        for drift in (0.0, 0.3, 0.8)
    },
    **{
        f"layers, {sets} sets": lambda rng, seed, sets=sets: ask_layers(rng, sets, seed)
        for sets in (20, 60, 120)
    },
    **{
        f"spacing, 160 sets, step {step}": lambda rng, seed, step=step: ask_spacing(
            rng, 160, seed, step
        )
        for step in (0.0, 1.27, 2.54)
    },
}


def measure(name: str, surveys: int, seed: int) -> pd.DataFrame:
    """Make so many surveys and count what was covered, or found."""
    rng = np.random.default_rng(seed)
    rows = [row for number in range(surveys) for row in SCENARIOS[name](rng, number)]
    table = pd.DataFrame(rows, columns=["asked", "share", "width"])
    counted = table.groupby("asked", sort=False).agg(
        surveys=("share", "size"), share=("share", "mean"), width=("width", "mean")
    )
    counted["error"] = np.sqrt(counted["share"] * (1 - counted["share"]) / counted["surveys"])
    counted.insert(0, "scenario", name)
    return counted.reset_index().round(4)[
        ["scenario", "asked", "surveys", "share", "error", "width"]
    ]


def main() -> None:
    """Measure every scenario and write the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--surveys", type=int, default=400, help="surveys per scenario")
    parser.add_argument("--to", type=Path, required=True, help="the table to write, a CSV file")
    parser.add_argument("--only", default="", help="scenarios whose names begin so")
    parser.add_argument("--seed", type=int, default=1837)
    chosen = parser.parse_args()
    tables = []
    for name in filter(lambda name: name.startswith(chosen.only), SCENARIOS):
        tables.append(measure(name, chosen.surveys, chosen.seed))
        print(tables[-1].to_string(index=False, header=False), flush=True)
    pd.concat(tables).to_csv(chosen.to, index=False)


if __name__ == "__main__":
    main()
