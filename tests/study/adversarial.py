"""Surveys with a known truth, built so that the plain analysis gets it wrong.

They are "opened cards", "the 1850 spike", "forking paths", and one large set that fakes a trend.
All invented, for tests only.
Each gives a table with the record's columns, so that the public functions are what is tested.
"""

import numpy as np
import pandas as pd

from buttonstudy.schemes import Period, PeriodScheme

OPENED_CARDS_TRUTH = 0.45
SPIKE_SHARES = (0.05, 0.05, 0.19, 0.71, 0.85, 0.85)


def twenty_years(first: int, number: int) -> PeriodScheme:
    """Periods of twenty years."""
    starts = [first + 20 * place for place in range(number)]
    periods = tuple(Period(f"{year}–{year + 19}", year, year + 19) for year in starts)
    return PeriodScheme("twenty", "Periods of twenty years", "made for tests", periods)


def buttons_of(sets: pd.DataFrame, sizes: np.ndarray) -> pd.DataFrame:
    """Repeat each set for as many matching buttons as it has."""
    table = sets.loc[np.repeat(sets.index, sizes)].reset_index(drop=True)
    table["button_id"] = [f"B{place}" for place in range(len(table))]
    for year in ("year_from", "year_to"):
        if year in table:
            table[year] = table[year].astype("Int64")
    return table


def opened_cards(seed: int, number: int = 120) -> pd.DataFrame:
    """Woven covers hide the trait more often, and are opened less often, than felt ones."""
    rng = np.random.default_rng(seed)
    woven = rng.random(number) < 0.5
    has = rng.random(number) < np.where(woven, 0.7, 0.2)
    opened = rng.random(number) < np.where(woven, 0.15, 0.60)
    fill = np.where(has, "thread", "open")
    sets = pd.DataFrame(
        {
            "set_id": [f"S{place}" for place in range(number)],
            "cover_material": np.where(woven, "linen", "felt"),
            "opened": np.where(opened, "opened", "not opened"),
            "hole_fill": np.where(opened, fill, "not examined"),
        }
    )
    return buttons_of(sets, rng.choice([1, 6, 24], number, p=[0.60, 0.25, 0.15]))


def spike(seed: int, number: int = 240) -> pd.DataFrame:
    """Evenly spread dates, recorded to a decade, a block of forty years or a century."""
    rng = np.random.default_rng(seed)
    true = rng.integers(1780, 1900, number)
    has = rng.random(number) < 0.05 + 0.80 / (1 + np.exp(-(true + 0.5 - 1840) / 5))
    how = rng.random(number)
    start = np.select(
        [how < 0.35, how < 0.60],
        [true // 10 * 10, 1780 + (true - 1780) // 40 * 40],
        true // 100 * 100,
    )
    years = np.select([how < 0.35, how < 0.60], [10, 40], 100)
    return pd.DataFrame(
        {
            "set_id": [f"S{place}" for place in range(number)],
            "mould_material": np.where(has, "bone", "wood"),
            "year_from": start,
            "year_to": start + years - 1,
            "true_year": true,
        }
    ).astype({"year_from": "Int64", "year_to": "Int64"})


def forking_paths(seed: int, number: int = 80, traits: int = 10) -> pd.DataFrame:
    """Ten traits of matching buttons that have nothing to do with the period."""
    rng = np.random.default_rng(seed)
    start = 1800 + 20 * rng.integers(0, 4, number)
    sets = pd.DataFrame(
        {
            "set_id": [f"S{place}" for place in range(number)],
            "year_from": start,
            "year_to": start + 19,
        }
    )
    for place in range(traits):
        sets[f"trait_{place}"] = np.where(rng.random(number) < 0.35, "yes", "absent")
    return buttons_of(sets, rng.geometric(1 / 6, number))


def one_large_set(seed: int, number: int = 40) -> pd.DataFrame:
    """A trait as rare late as early, but one late card of ninety-six buttons has it."""
    rng = np.random.default_rng(seed)
    late = np.arange(number) % 2 == 1
    has = np.zeros(number, dtype=bool)
    has[[0, 1]] = True
    start = np.where(late, 1860, 1820)
    sets = pd.DataFrame(
        {
            "set_id": [f"S{place}" for place in range(number)],
            "back_finish": np.where(has, "stitched", "absent"),
            "year_from": start,
            "year_to": start + 19,
        }
    )
    sizes = rng.integers(1, 5, number)
    sizes[1] = 96
    return buttons_of(sets, sizes)
