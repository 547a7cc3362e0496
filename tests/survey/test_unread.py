"""Sheets that say they hold no records are not read, and nothing on them is lost unseen."""

import pytest

import buttonstudy as bs
from buttonstudy.survey.unread import NOT_RECORDS

HEADINGS = ["Button no.", "Diameter (mm)", "Date"]
BUTTON = ["1", "16", "1840"]


def told(survey):
    return survey.problems[["sheet", "row", "kind", "level"]].values.tolist()


def test_a_sheet_that_says_so_is_not_read(xlsx):
    notes = [[f"  Invented examples. {NOT_RECORDS.upper()}"], [], HEADINGS, ["Example 1", "99", ""]]
    survey = bs.load_survey(xlsx({"Examples": notes, "Mine": [HEADINGS, BUTTON]}))
    assert survey.buttons["button_id"].tolist() == ["1"]
    assert told(survey) == []
    assert set(survey.columns["sheet"]) == {"Mine"}


def test_the_words_count_only_in_the_first_filled_cell(xlsx):
    rows = [[*HEADINGS, "Notes"], [*BUTTON, NOT_RECORDS]]
    assert len(bs.load_survey(xlsx({"Mine": rows})).buttons) == 1


def test_buttons_noted_on_such_a_sheet_are_told(xlsx):
    notes = [["", NOT_RECORDS], [], HEADINGS, ["Example 1", "99", ""], ["K7", "15", "1850"]]
    survey = bs.load_survey(xlsx({"Examples": notes, "Mine": [HEADINGS, BUTTON]}))
    assert told(survey) == [["Examples", 5, "button-on-unread-sheet", "not read"]]
    assert survey.problems["wording"].tolist() == ["K7"]
    assert survey.problems["what_to_do"].tolist() == ["Move the row to the sheet of records."]


ASKED = "Name of the survey"
ANSWERS = [
    ([[f"About. {NOT_RECORDS}"], ["Question", "Answer"], [ASKED, "Our drawers"]], "Our drawers"),
    ([[NOT_RECORDS], ["", f" {ASKED.upper()} ", "<b>ours</b>\n of  old"]], "<b>ours</b> of old"),
    ([[NOT_RECORDS], [ASKED, 1912]], "1912"),
    ([[NOT_RECORDS], [ASKED, "", "Reports call it so."]], ""),
    ([["About this survey"], [ASKED, "Our drawers"]], ""),
    ([[NOT_RECORDS], ["Who measured and noted", "Ada Tarn"]], ""),
]


@pytest.mark.parametrize(("about", "name"), ANSWERS)
def test_of_a_sheet_about_the_survey_its_name_is_taken(xlsx, about, name):
    survey = bs.load_survey(xlsx({"Mine": [HEADINGS, BUTTON], "About": about}))
    assert survey.sources["survey_name"].tolist() == [name]


def test_a_name_among_the_records_is_none_of_the_survey(xlsx):
    rows = [[*HEADINGS, "Notes", "Shelf"], [*BUTTON, ASKED, "Our drawers"]]
    assert bs.load_survey(xlsx({"Mine": rows})).sources["survey_name"].tolist() == [""]


def test_a_list_of_terms_on_such_a_sheet_is_no_button(xlsx):
    terms = [[NOT_RECORDS], ["Mould material", "Thread"], ["wood", "silk"]]
    survey = bs.load_survey(xlsx({"Terms": terms, "Mine": [HEADINGS, BUTTON]}))
    assert told(survey) == []


def test_a_file_without_any_other_sheet_is_told(xlsx):
    survey = bs.load_survey(xlsx({"Mine": [[NOT_RECORDS], HEADINGS, ["Example 1", "16", ""]]}))
    assert survey.problems["kind"].tolist() == ["no-record-sheet"]
    assert NOT_RECORDS in survey.problems["what_to_do"][0]


def test_headings_without_rows_are_no_fault_in_a_form(xlsx):
    survey = bs.load_survey(xlsx({"Mine": [HEADINGS], "About": [[NOT_RECORDS]]}))
    assert told(survey) == [["Mine", 1, "no-rows", "for information"]]
    assert told(bs.load_survey(xlsx({"Mine": [HEADINGS]}, name="b.xlsx")))[0][3] == "not read"
