"""Rows that add others up are kept among the problems, not among the buttons.

The words of each language are common practice, no source.
"""

import pytest

import buttonstudy as bs

ROWS = "No,Set,Diam (mm),Mould\n1,A,16,wood\n2,A,17,bone\n3,B,15.5,wood\n"
SUMS = ["Summe,,48.5,", "Total buttons,,48.5,", "Somme :,,48.5,", "Totaal,3,48.5,", ",,,", ""]
SUMS += ["Total number of buttons,3,,", "Grand total: 3,,,", "Mean diameter,,16.2,"]
BUTTONS = ["Count 12,A,16,", "Totalia,A,16,", "Total loss,A,16,wood", "Mean Street 3,A,16,"]


@pytest.mark.parametrize("row", SUMS)
def test_a_row_that_adds_up_is_no_button(csv_file, row):
    survey = bs.load_survey(csv_file(ROWS + row + "\n"))
    assert survey.buttons["button_id"].tolist() == ["1", "2", "3"]
    told = survey.problems[survey.problems["kind"] == "remark"]["wording"].tolist()
    assert told == ([" | ".join(part for part in row.split(",") if part)] if row.strip(",") else [])


@pytest.mark.parametrize("row", BUTTONS)
def test_a_button_whose_name_begins_like_a_sum_stays(csv_file, row):
    assert len(bs.load_survey(csv_file(ROWS + row + "\n")).buttons) == 4
