"""The main figures on sizes, taken in other ways. Sizes are invented."""

import numpy as np
import pandas as pd

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.sizes.otherwise import size_sensitivity

TWO = PeriodScheme(
    "two", "Two", "invented", (Period("early", 1800, 1819), Period("late", 1820, 1839))
)


def survey():
    """Twelve early sets of 14 to 25 mm, twelve late ones; one early card of forty large buttons."""
    sizes = np.array([*range(14, 26), *range(16, 28)], dtype=float)
    table = pd.DataFrame(
        {
            "file": "a",
            "set_id": [f"s{place}" for place in range(24)],
            "diameter_mm": sizes,
            "diameter_mm_low": sizes - 0.5,
            "diameter_mm_high": sizes + 0.5,
            "year_from": np.repeat([1800, 1820], 12),
            "year_to": np.repeat([1819, 1839], 12),
        }
    )
    return pd.concat([table, *[table.iloc[[11]]] * 39], ignore_index=True)


def test_a_card_moves_the_figure_only_where_buttons_are_counted():
    table = size_sensitivity(survey(), TWO).set_index(["figure", "taken"])
    median = table.loc["Median diameter"]
    assert median.loc["as told", "sets"] == 24
    assert median.loc["buttons instead of sets", "sets"] == 63
    assert median.loc["buttons instead of sets", "value"] > 24.5
    assert median.loc["buttons instead of sets", "beyond"]
    larger = table.loc["Chance that a set of late is larger than one of early"]
    assert larger.loc["as told", "value"] > 0.6
    assert larger.loc["buttons instead of sets", "value"] < 0.4


def test_without_two_periods_only_the_median_is_told():
    table = size_sensitivity(survey().assign(year_from=None, year_to=None), TWO)
    assert table["figure"].unique().tolist() == ["Median diameter"]


def test_without_sizes_the_table_is_well_formed():
    table = size_sensitivity(pd.DataFrame(), TWO)
    assert table["value"].isna().all()
    assert len(table) == 4
