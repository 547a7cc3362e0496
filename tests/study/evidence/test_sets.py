import pandas as pd
import pytest

from buttonstudy.study.evidence.sets import Evidence, field_evidence, set_dates, set_keys


def evidence(buttons: pd.DataFrame, field: str) -> Evidence:
    return field_evidence(buttons, set_keys(buttons), field)


def test_no_buttons_make_no_sets():
    nothing = pd.DataFrame({"padding": pd.Series([], dtype="object")})
    found = evidence(nothing, "padding")
    assert (len(found.state), len(found.examined), found.shares.shape) == (0, 0, (0, 0))
    assert set_dates(nothing).empty


# Dates of the buttons of one set -> the set's dates, and whether its buttons differ.
SET_DATES = {
    "alike": ([(1840, 1860), (1840, 1860)], (1840, 1860, False)),
    "different": ([(1840, 1860), (1850, 1870)], (1840, 1870, True)),
    "far apart": ([(1800, 1810), (1890, 1899)], (1800, 1899, True)),
    "one undated": ([(1840, 1860), (None, None)], (1840, 1860, False)),
    "one open": ([(1840, 1860), (1820, None)], (1840, 1860, False)),
    "only open": ([(1820, None), (1840, None)], (1820, None, True)),
    "open to both sides": ([(1820, None), (None, 1860)], (None, None, True)),
    "undated": ([(None, None), (None, None)], (None, None, False)),
}


@pytest.mark.parametrize("case", SET_DATES)
def test_a_set_is_dated_by_all_that_its_buttons_allow(case):
    dates, (year_from, year_to, differ) = SET_DATES[case]
    buttons = pd.DataFrame(dates, columns=["year_from", "year_to"], dtype="Int64").assign(
        set_id="1"
    )
    row = set_dates(buttons).iloc[0]
    found = [None if pd.isna(row[end]) else row[end] for end in ("year_from", "year_to")]
    assert found == [year_from, year_to]
    assert row["dates_differ"] == differ


def test_a_mixed_set_keeps_its_share():
    buttons = pd.DataFrame(
        {
            "set_id": ["1"] * 4,
            "hole_fill": ["thread", "wax", "thread; wax", "not examined"],
        }
    )
    found = evidence(buttons, "hole_fill")
    assert (found.examined.tolist(), found.state.tolist()) == ([3], ["examined"])
    assert found.shares["thread"].tolist() == found.shares["wax"].tolist() == [pytest.approx(2 / 3)]


# States of a set's buttons -> the set's state.
SET_STATES = [
    (["not examined", "absent"], "examined"),
    (["not examined", "unclear", None], "unclear"),
    (["not examined", None], "not examined"),
    ([None, None], "not recorded"),
]


@pytest.mark.parametrize(("values", "state"), SET_STATES)
def test_a_set_is_examined_if_any_of_its_buttons_was(values, state):
    buttons = pd.DataFrame({"set_id": "1", "padding": values})
    assert evidence(buttons, "padding").state.tolist() == [state]


def test_a_set_without_an_answer_has_no_share():
    buttons = pd.DataFrame({"padding": ["wool", "not examined"]})
    assert evidence(buttons, "padding").shares["wool"].isna().tolist() == [False, True]
