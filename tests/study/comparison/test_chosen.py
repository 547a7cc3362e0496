"""Which traits are compared, in which order, and of which a year is asked."""

import pandas as pd
import pytest

from buttonstudy.study.comparison.chosen import (
    chosen_findings,
    surest_first,
    terms_to_compare,
    turning_of_surest,
)
from buttonstudy.study.comparison.turning import TURNING_COLUMNS

COMPARISON = pd.DataFrame(
    {
        "field": ["hole_fill"] * 4,
        "term": ["wax", "thread", "felt", "paper"],
        "chance_together": [0.4, 0.001, None, 0.001],
        "difference": [0.1, -0.4, None, 0.7],
        "sureness": ["may be chance", "clear", "", "clear"],
    }
)


def test_terms_that_few_sets_have_or_lack_are_left_out():
    moulds = ["bone"] * 5 + ["wood"] * 6 + ["horn"] * 4
    buttons = pd.DataFrame({"mould_material": moulds, "padding": ["wool"] * 12 + ["absent"] * 3})
    assert terms_to_compare(buttons, ["mould_material", "padding"]) == {
        "mould_material": ["wood", "bone"],
        "padding": [],
    }


def test_matching_buttons_of_one_set_count_once():
    buttons = pd.DataFrame(
        {"set_id": ["A"] * 9 + [None] * 9, "mould_material": ["bone"] * 9 + ["wood"] * 9}
    )
    assert terms_to_compare(buttons, ["mould_material"]) == {"mould_material": []}


@pytest.mark.parametrize("name", ["moulds", "cover_layers", "diameter", "recorder"])
def test_a_field_that_has_no_terms_is_named_with_those_that_have(name):
    buttons = pd.DataFrame({"mould_material": ["bone"], "recorder": ["Teal"]})
    says = f'There is no field of terms "{name}" to compare. Use one of: mould_material, '
    with pytest.raises(ValueError, match=says):
        terms_to_compare(buttons, [name])


def test_what_is_compared_is_said():
    (said,) = chosen_findings({"mould_material": ["bone", "wood"], "padding": []})
    assert said.startswith(
        "2 traits of mould material are looked at together: those that at least 5 of the examined "
        "sets have and at least 5 lack."
    )
    assert chosen_findings({"padding": []}) == [
        "There is nothing to compare in padding: no trait is there that at least 5 of the examined "
        "sets have and at least 5 lack."
    ]
    assert chosen_findings({})[0].startswith("There is nothing to compare in no field")


def test_the_surest_come_first_then_the_largest_and_rows_of_a_trait_stay_together():
    assert surest_first(COMPARISON, COMPARISON)["term"].tolist() == [
        "paper",
        "thread",
        "wax",
        "felt",
    ]
    rows = pd.DataFrame(
        {"field": "hole_fill", "term": ["wax", "wax", "paper", "paper"], "period": list("abab")}
    )
    ordered = surest_first(rows, COMPARISON)
    assert ordered[["term", "period"]].values.tolist() == [
        ["paper", "a"],
        ["paper", "b"],
        ["wax", "a"],
        ["wax", "b"],
    ]
    assert surest_first(COMPARISON[:0], COMPARISON[:0]).empty


def test_a_year_is_asked_only_of_sure_traits():
    buttons = pd.DataFrame(
        {"hole_fill": ["thread", "paper", "wax"] * 4, "year_from": 1800, "year_to": 1809}
    )
    ordered = surest_first(COMPARISON, COMPARISON)
    assert turning_of_surest(buttons, ordered)["term"].tolist() == ["paper", "thread"]
    unsure = ordered.assign(sureness="may be chance")
    assert turning_of_surest(buttons, unsure).empty
    assert list(turning_of_surest(buttons, ordered[:0]).columns) == list(TURNING_COLUMNS)
