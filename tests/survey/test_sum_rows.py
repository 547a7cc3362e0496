"""Rows that add others up are kept among the problems, not among the buttons.

The words of each language are common practice, no source.
"""

import pytest

import buttonstudy as bs

ROWS = "No,Set,Diam (mm),Mould\n1,A,16,wood\n2,A,17,bone\n3,B,15.5,wood\n"
SUMS = ["Summe,,48.5,", "Total buttons,,48.5,", "Somme :,,48.5,", "Totaal,3,48.5,", ",,,", ""]
SUMS += ["Total number of buttons,3,,", "Grand total: 3,,,", "Mean diameter,,16.2,"]
SUMS += ["Total mm,,48.5,", "Total (mm),,48.5 mm,", "Total no. of buttons,3,,", "Total £,,£48.50,"]
SUMS += ["Average (in),,5/8 in,", "Mean [L],,25 L,", "Total # of buttons,3,,", "Sum of all,,48.5,"]
BUTTONS = ["Count No. 12,,16,", "Count #12,,16,", "Sum B,,16,", "Total (mm),A,16,wood"]
BUTTONS += ["Count 12,A,16,", "Totalia,A,16,", "Total loss,A,16,wood", "Mean Street 3,A,16,"]


@pytest.mark.parametrize("row", SUMS)
def test_a_row_that_adds_up_is_no_button(csv_file, row):
    survey = bs.load_survey(csv_file(ROWS + row + "\n"))
    assert survey.buttons["button_id"].tolist() == ["1", "2", "3"]
    told = survey.problems[survey.problems["kind"] == "remark"]["wording"].tolist()
    assert told == ([" | ".join(part for part in row.split(",") if part)] if row.strip(",") else [])


def test_a_comma_may_follow_the_word_for_a_sum(csv_file):
    survey = bs.load_survey(csv_file(ROWS + '"Total, buttons",3,,\n'))
    assert survey.buttons["button_id"].tolist() == ["1", "2", "3"]


@pytest.mark.parametrize("row", BUTTONS)
def test_a_button_whose_name_begins_like_a_sum_stays(csv_file, row):
    assert len(bs.load_survey(csv_file(ROWS + row + "\n")).buttons) == 4
