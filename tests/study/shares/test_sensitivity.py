"""The main figures taken otherwise: by buttons, by midpoints, from secure dates only."""

import numpy as np
import pandas as pd
import pytest

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.shares.by_period import shares_by_period
from buttonstudy.study.shares.sensitivity import (
    NO_FIGURE,
    Figure,
    figure_of,
    sensitivity,
    sensitivity_findings,
    taken_otherwise,
    ways_side_by_side,
)

TWO = PeriodScheme(
    "two", "Two", "invented", (Period("early", 1800, 1819), Period("late", 1820, 1839))
)


def survey():
    """A card of 24 with felt, ten loose buttons with paper, ten with dates over both periods."""
    return pd.DataFrame(
        {
            "file": "a",
            "set_id": ["card"] * 24 + [None] * 20,
            "hole_fill": ["felt"] * 24 + ["paper"] * 10 + ["felt"] * 10,
            "year_from": [1800] * 24 + [1800] * 10 + [1801] * 10,
            "year_to": [1819] * 24 + [1819] * 10 + [1838] * 10,
        }
    )


def early_felt(buttons):
    table = shares_by_period(buttons, "hole_fill", TWO, ["felt"])
    return figure_of(table.set_index("period").loc["early"], "share", sets="examined")


def test_each_way_changes_what_it_says():
    ways = taken_otherwise(survey(), TWO)
    assert list(ways) == [
        "as told",
        "buttons instead of sets",
        "midpoints instead of weights",
        "only securely dated sets",
    ]
    figures = {way: early_felt(buttons) for way, buttons in ways.items()}
    # 1 card and half of ten wide sets of 16; 24 + 5 of 39; with the middle in 1819, 11 of 21;
    # the card alone of 11.
    assert [figure.value for figure in figures.values()] == pytest.approx(
        [6 / 16, 29 / 39, 11 / 21, 1 / 11]
    )
    assert [figure.sets for figure in figures.values()] == pytest.approx([16, 39, 21, 11])


def test_the_survey_itself_stays_as_it_was():
    buttons = survey()
    before = buttons.copy()
    taken_otherwise(buttons, TWO)
    pd.testing.assert_frame_equal(buttons, before)


def test_a_figure_beyond_its_interval_is_marked():
    table = sensitivity(survey(), TWO, {"Felt, early": early_felt})
    assert table["beyond"].tolist() == [False, True, False, False]
    assert table["change"].iloc[1] == pytest.approx(29 / 39 - 6 / 16)
    assert sensitivity_findings(table) == [
        "Felt, early: about 4 in 10 as told, but about 7 in 10 with buttons instead of sets. It "
        "rests on that choice."
    ]


def test_a_figure_that_stays_is_said_to_stay():
    steady = sensitivity(survey(), TWO, {"Size": lambda _: Figure(16.0, 15.0, 17.0, 10, "mm")})
    assert sensitivity_findings(steady) == [
        "Size: 16.0 mm as told, and the same in the other ways."
    ]
    moving = sensitivity(
        survey(), TWO, {"Size": lambda b: Figure(16.0 + len(b) / 100, 15.0, 17.0, 10, "mm")}
    )
    assert sensitivity_findings(moving) == [
        "Size: 16.4 mm as told; 16.3 to 16.4 mm in the other ways, within what chance allows."
    ]


@pytest.mark.parametrize(("low", "high", "beyond"), [(24.0, 26.0, True), (16.0, 26.0, False)])
def test_fewer_sets_must_differ_by_more_than_their_own_chance(low, high, beyond):
    def size(buttons):
        secure = len(buttons) < len(survey())
        return Figure(25.0, low, high, 10, "mm") if secure else Figure(18, 17.0, 19.0, 40, "mm")

    table = sensitivity(survey(), TWO, {"Size": size}).set_index("taken")
    assert table.loc["only securely dated sets", "beyond"] == beyond


def test_ways_stand_side_by_side_for_a_reader():
    table = sensitivity(survey(), TWO, {"Felt, early": early_felt})
    assert ways_side_by_side(table).iloc[0].tolist() == [
        "Felt, early",
        "about 4 in 10 (1 to 7 in 10)",
        "about 7 in 10",
        "about 5 in 10",
        "about 1 in 10",
    ]
    nothing = sensitivity(survey(), TWO, {"None": lambda _: NO_FIGURE})
    assert ways_side_by_side(nothing).iloc[0].tolist() == ["None", "", "", "", ""]
    assert ways_side_by_side(nothing[:0]).empty


@pytest.mark.parametrize(
    ("values", "says"),
    [
        (
            [1851.4, 1851.4, 1853.0, np.nan],
            "1851 as told; 1851 to 1853 in the other ways, within what chance allows; too little "
            "is left with only securely dated sets.",
        ),
        ([1851.4] + [np.nan] * 3, "1851 as told; the other ways leave too little to say it."),
    ],
)
def test_what_the_other_ways_cannot_tell_is_said(values, says):
    left = iter(values)
    table = sensitivity(
        survey(), TWO, {"Year": lambda _: Figure(next(left), 1840.0, 1860.0, 40, "year")}
    )
    assert sensitivity_findings(table) == [f"Year: {says}"]


def test_without_dates_or_figures_the_table_stays_well_formed():
    undated = survey().assign(year_from=None, year_to=None)
    table = sensitivity(undated, TWO, {"Felt, early": early_felt})
    assert len(table) == 4
    assert table["value"].isna().all()
    assert not table["beyond"].any()
    assert sensitivity_findings(table) == ["Felt, early: there is no figure to compare."]
    assert sensitivity(survey(), TWO, {}).empty
    empty = sensitivity(
        pd.DataFrame(), TWO, {"None": lambda _: Figure(np.nan, np.nan, np.nan, 0, "mm")}
    )
    assert empty["value"].isna().all()
