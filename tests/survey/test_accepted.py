"""Findings accepted in the survey or beside it: quiet, and counted in one line."""

import pytest

import buttonstudy as bs
from buttonstudy.schemes import SchemeError

CLOSED = "No,Diam (mm),Mould,Padding,Opened,Accepted\n"


def kinds(survey):
    return survey.problems["kind"].tolist()


def accepted_line(survey):
    found = survey.problems[survey.problems["kind"] == "accepted"]
    assert len(found) == 1
    return found.iloc[0]["problem"]


@pytest.mark.parametrize("cell", ["inside-of-unopened", "inside-of-unopened; date-x", "all", "ALL"])
def test_a_code_in_the_survey_quiets_the_finding_of_its_row_alone(csv_file, cell):
    text = CLOSED + f"1,16,wood,,no,{cell}\n2,16,wood,,no,\n"
    survey = bs.load_survey(csv_file(text))
    told = survey.problems[survey.problems["kind"] == "inside-of-unopened"]
    assert told["row"].tolist() == [3]
    assert accepted_line(survey) == (
        "1 finding of this file is accepted and not told again (inside-of-unopened 1)."
    )


def test_what_was_not_read_is_never_quiet(csv_file):
    survey = bs.load_survey(csv_file("No,Diam,Checked\n1,24,all\n2,16 mm,\n"))
    assert kinds(survey) == ["size-no-unit"]


def test_initials_in_a_column_of_checks_accept_nothing_and_are_told_once(csv_file):
    text = "No,Diam (mm),Mould,Opened,Checked\n1,16,wood,no,A.B.\n2,16,wood,no,all fine\n"
    survey = bs.load_survey(csv_file(text))
    assert kinds(survey).count("inside-of-unopened") == 2
    told = survey.problems[survey.problems["kind"] == "accepted-without-code"].iloc[0]
    assert told["problem"].startswith("2 cells of the column for accepted findings")
    assert (told["row"], told["wording"], told["level"]) == (2, "A.B.", "for information")


SAID = [
    "survey.csv,,2,,inside-of-unopened,seen through a tear",
    "survey.csv,,,B1,inside-of-unopened,",
    ",,,B1,all,",
    "survey.csv,,2,B1,all,",
]


@pytest.mark.parametrize("row", SAID)
def test_a_row_or_a_number_in_a_table_quiets_that_finding(csv_file, row):
    survey_file = csv_file(CLOSED + "B1,16,wood,,no,\nB2,16,wood,,no,\n")
    table = csv_file(f"file,sheet,row,button,kind,note\n{row}\n", name="accepted.csv")
    survey = bs.load_survey(survey_file, accepted=table)
    told = survey.problems[survey.problems["kind"] == "inside-of-unopened"]
    assert told["row"].tolist() == [3]
    assert "(inside-of-unopened 1)" in accepted_line(survey)
    assert survey.settings["accepted"] == str(table)


def test_a_code_with_its_file_alone_quiets_all_of_that_kind(csv_file):
    survey_file = csv_file(CLOSED + "B1,16,wood,,no,\nB2,16,wood,,no,\n")
    table = csv_file("file,kind\nsurvey.csv,inside-of-unopened\n", name="accepted.csv")
    assert kinds(bs.load_survey(survey_file, accepted=table)) == ["accepted"]


def test_an_acceptance_that_meets_nothing_is_told_with_its_row(csv_file):
    survey_file = csv_file("No,Diam (mm)\nB1,16\n")
    table = csv_file("file,row,kind\nsurvey.csv,2,size-outlier\n", name="accepted.csv")
    told = bs.load_survey(survey_file, accepted=table).problems.iloc[0]
    assert (told["file"], told["row"], told["kind"]) == ("accepted.csv", 2, "accepted-nothing")


REFUSED = [
    ("file,row,kind\na.csv,x,all\n", 'column row: "x" is not a row number'),
    ("file,row,kind\na.csv,2,\n", "column kind"),
    ("file,row,kind\na.csv,2,Wrong size!\n", "is not a finding's code"),
    ("file,row,kind\na.csv,,all\n", "needs a row or a button"),
    ("file,row,kind\n,2,size-outlier\n", "has no place"),
    ("file,row\na.csv,2\n", "the headings lack kind"),
]


@pytest.mark.parametrize(("text", "says"), REFUSED)
def test_a_table_that_does_not_say_what_is_accepted_where_is_refused(csv_file, text, says):
    table = csv_file(text, name="accepted.csv")
    with pytest.raises(SchemeError, match=says):
        bs.load_survey(csv_file("No,Diam (mm)\n1,16\n"), accepted=table)
