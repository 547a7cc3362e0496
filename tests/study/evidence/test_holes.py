"""Checks that moulds without a hole are no evidence of how holes were filled."""

import pandas as pd

from buttonstudy.study.evidence.holes import hole_findings, moulds_with_holes

BUTTONS = pd.DataFrame(
    {
        "set_id": ["a", "a", "b", "c", "d"],
        "file": "invented.csv",
        "mould_hole": pd.Categorical(["absent", "absent", "pierced", None, "not examined"]),
        "hole_fill": pd.Categorical(["open", None, "open", "absent", "not examined"]),
    }
)


def test_moulds_known_to_have_no_hole_are_left_out_and_no_others() -> None:
    assert moulds_with_holes(BUTTONS)["set_id"].to_list() == ["b", "d"]


def test_the_survey_itself_stays_as_it_was() -> None:
    before = BUTTONS.copy()
    moulds_with_holes(BUTTONS)
    pd.testing.assert_frame_equal(BUTTONS, before)


def test_how_many_sets_are_left_out_is_told() -> None:
    assert hole_findings(BUTTONS)[0].startswith("2 sets whose mould has no hole were left out")
    assert hole_findings(BUTTONS.iloc[3:4])[0].startswith("1 set whose mould has no hole was left")
    assert hole_findings(BUTTONS.iloc[2:3]) == [
        "No mould is noted as without a hole, so that all sets are looked at."
    ]


def test_a_survey_without_these_fields_is_left_whole() -> None:
    assert len(moulds_with_holes(BUTTONS[["set_id", "file"]])) == 5
