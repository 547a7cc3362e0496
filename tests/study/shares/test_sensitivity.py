"""The main figures taken otherwise: by buttons, by midpoints, from sets dated within one period."""

import numpy as np
import pandas as pd
import pytest

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.shares.by_period import shares_by_period
from buttonstudy.study.shares.sensitivity import (
    MORE_OR_FEWER,
    NO_FIGURE,
    Figure,
    figure_of,
    sensitivity,
    taken_otherwise,
)
from buttonstudy.study.shares.sensitivity_words import sensitivity_findings, ways_side_by_side

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
        "buttons instead of sets",
        "midpoints instead of weights",
        "only sets dated within one period",
    ]
    figures = {way: early_felt(buttons) for way, buttons in {"as told": survey(), **ways}.items()}
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


def test_figures_that_were_told_are_not_made_again():
    made = []

    def figures(buttons):
        made.append(len(buttons))
        return {"Felt, early": early_felt(buttons)}

    told = {"Felt, early": Figure(0.5, 0.4, 0.6, 20, "share")}
    table = sensitivity(survey(), TWO, figures, told)
    assert len(made) == 3
    assert table["value"].iloc[0] == 0.5
    assert table["change"].iloc[1] == pytest.approx(29 / 39 - 0.5)


def test_a_figure_beyond_its_interval_is_marked():
    table = sensitivity(survey(), TWO, lambda buttons: {"Felt, early": early_felt(buttons)})
    assert table["beyond"].tolist() == [False, True, False, True]
    assert table["change"].iloc[1] == pytest.approx(29 / 39 - 6 / 16)
    assert sensitivity_findings(table) == [
        "Felt, early: about 4 in 10 (1 to 7 in 10). With buttons instead of sets it is about 7 in "
        "10, outside that before rounding: it rests on that choice. Sets dated within one period alone give "
        "about 1 in 10, but they are only 11 and allow none to 4 in 10. With midpoints instead of "
        "weights it is about 5 in 10, within that interval."
    ]


def test_a_figure_that_stays_is_said_to_stay():
    steady = sensitivity(survey(), TWO, lambda _: {"Size": Figure(16.0, 15.0, 17.0, 10, "mm")})
    assert sensitivity_findings(steady) == [
        "Size: 16.0 mm (15.0 to 17.0). It is the same with the other ways."
    ]
    moving = sensitivity(
        survey(), TWO, lambda b: {"Size": Figure(16.0 + len(b) / 100, 15.0, 17.0, 10, "mm")}
    )
    assert sensitivity_findings(moving) == [
        "Size: 16.4 mm (15.0 to 17.0). With the other ways it is 16.3 to 16.4 mm, within that "
        "interval."
    ]


@pytest.mark.parametrize(
    ("low", "high", "says"),
    [
        (1786, 1866, "give 1819, but they are only 26 and allow 1786 to 1866."),
        (1800, 1830, "give 1819 (1800 to 1830; 26 sets): it rests on the sets with wide dates."),
        (np.nan, np.nan, "give 1819, but they are only 26, too few for an interval."),
    ],
)
def test_a_value_outside_is_put_down_to_chance_only_with_the_fewer_sets_own_interval(
    low, high, says
):
    def year(buttons):
        if len(buttons) < len(survey()):
            return Figure(1819, low, high, 26, "year")
        return Figure(1851, 1844, 1857, 90, "year")

    table = sensitivity(survey(), TWO, lambda buttons: {"Wood, turning year": year(buttons)})
    assert table["beyond"].tolist() == [False, False, False, True]
    assert sensitivity_findings(table) == [
        f"Wood, turning year: 1851 (1844 to 1857). Sets dated within one period alone {says} It is the "
        "same with buttons instead of sets and midpoints instead of weights."
    ]


@pytest.mark.parametrize(
    ("value", "low", "high", "says"),
    [
        (-7.9, -9.4, -3.6, "7.9 fewer of every 10 sets (3.6 to 9.4 fewer)"),
        (1.5, -0.3, 3.4, "1.5 more of every 10 sets (0.3 fewer to 3.4 more)"),
        (3.0, 0.02, 6.0, "3.0 more of every 10 sets (just over 0 to 6.0 more)"),
        (-3.0, -6.0, 0.0, "3.0 fewer of every 10 sets (none to 6.0 fewer)"),
        (3.0, 0.66, 6.42, "3.0 more of every 10 sets (0.6 to 6.5 more)"),
        (3.0, 0.7, 6.4, "3.0 more of every 10 sets (0.7 to 6.4 more)"),
    ],
)
def test_a_difference_and_its_interval_go_the_same_way_in_words(value, low, high, says):
    table = sensitivity(
        survey(), TWO, lambda _: {"Wood": Figure(value, low, high, 40, MORE_OR_FEWER)}
    )
    assert sensitivity_findings(table) == [f"Wood: {says}. It is the same with the other ways."]
    assert ways_side_by_side(table).iloc[0, 1] == says


def test_fewer_run_from_the_smaller_to_the_larger():
    left = iter([-8.0, -8.3, -7.2, -7.9])
    table = sensitivity(
        survey(), TWO, lambda _: {"Wood": Figure(next(left), -9.4, -3.6, 40, MORE_OR_FEWER)}
    )
    assert sensitivity_findings(table)[0].endswith(
        "With the other ways it is 7.2 to 8.3 fewer of every 10 sets, within that interval."
    )


def test_ways_stand_side_by_side_for_a_reader():
    table = sensitivity(survey(), TWO, lambda buttons: {"Felt, early": early_felt(buttons)})
    assert ways_side_by_side(table).iloc[0].tolist() == [
        "Felt, early",
        "about 4 in 10 (1 to 7 in 10)",
        "about 7 in 10",
        "about 5 in 10",
        "about 1 in 10",
    ]
    nothing = sensitivity(survey(), TWO, lambda _: {"None": NO_FIGURE})
    assert ways_side_by_side(nothing).iloc[0].tolist() == ["None", "", "", "", ""]
    assert ways_side_by_side(nothing[:0]).empty


@pytest.mark.parametrize(
    ("values", "says"),
    [
        (
            [1851.4, 1851.4, 1853.0, np.nan],
            "1851 (1840 to 1860). With buttons instead of sets and midpoints instead of weights it "
            "is 1851 to 1853, within that interval. Too little is left with only sets dated "
            "within one period.",
        ),
        (
            [1851.4] + [np.nan] * 3,
            "1851 (1840 to 1860). The other ways leave too little to say it.",
        ),
    ],
)
def test_what_the_other_ways_cannot_tell_is_said(values, says):
    left = iter(values)
    table = sensitivity(
        survey(), TWO, lambda _: {"Year": Figure(next(left), 1840.0, 1860.0, 40, "year")}
    )
    assert sensitivity_findings(table) == [f"Year: {says}"]


def test_without_dates_or_figures_the_table_stays_well_formed():
    undated = survey().assign(year_from=None, year_to=None)
    table = sensitivity(undated, TWO, lambda buttons: {"Felt, early": early_felt(buttons)})
    assert len(table) == 4
    assert table["value"].isna().all()
    assert not table["beyond"].any()
    assert sensitivity_findings(table) == ["Felt, early: there is no figure to compare."]
    assert sensitivity(survey(), TWO, lambda _: {}).empty
    empty = sensitivity(
        pd.DataFrame(), TWO, lambda _: {"None": Figure(np.nan, np.nan, np.nan, 0, "mm")}
    )
    assert empty["value"].isna().all()


def test_odds_below_one_are_told_to_two_places():
    table = sensitivity(
        survey(), TWO, lambda _: {"Odds of wool": Figure(0.09, 0.004, 1.1, 40, "times")}
    )
    assert sensitivity_findings(table)[0].startswith("Odds of wool: 0.09 times (0.00 to 1.1).")
