"""Names that are likely one recorder's: told, never merged. All names are invented."""

import pytest

import buttonstudy as bs

ALIKE = [
    ("Wim Dorrick", "W. Dorrick"),
    ("Wim Dorrick", "Dorrick"),
    ("Wim Dorrick", "Dorrick, Wim"),
    ("Wim Dorrick", "wim dorrick"),
    ("Wim Dorrick", "Wim Dorick"),
    ("Wim J. Dorrick", "W Dorrick"),
    ("Jané Pell", "Jane Pell"),
    ("T. O.", "TO"),
    ("T.O.", "T O"),
    ("TO", "Tessa Orle"),
    ("TQ", "T. Quarle"),
    ("jv", "J. Vantongeren"),
]
APART = [
    ("C.A.", "T.M."),
    ("W. Dorrick", "Ada Dorrick"),
    ("Mr Dorrick", "Mrs Dorrick"),
    ("Ann Pell", "Ann Tarn"),
    ("Jones", "Jonas"),
    ("John Pell", "Joan Pell"),
    ("Volunteer 11", "Volunteer 12"),
    ("Ann Pell", "Ann Tarn and Ann Pell"),
    ("T. O.", "O. T."),
]


def told(findings, names):
    rows = [{"recorder": name, "diameter_mm": 16.0} for name in names]
    return [one for one in findings(*rows) if one[0] == "recorder-spellings"]


@pytest.mark.parametrize("names", ALIKE)
def test_names_likely_of_one_recorder_are_told_once(findings, names):
    assert len(told(findings, [*names, *names])) == 1


@pytest.mark.parametrize("names", APART)
def test_names_of_two_recorders_are_silent(findings, names):
    assert told(findings, names) == []


def test_initials_that_fit_two_recorders_are_silent(findings):
    assert told(findings, ["TO", "Tessa Orle", "Tarn Obey"]) == []
    assert told(findings, ["TO", "T. Orle", "T. Obey"]) == []


def test_initials_are_told_beside_each_spelling_of_the_one_name_they_fit(findings):
    assert len(told(findings, ["TO", "T. Orle", "Tessa Orle", "Tessa O."])) == 4


def test_they_are_told_at_the_rarer_name_and_nothing_is_merged(csv_file):
    rows = ["1,16,Wim Dorrick", "2,15,Wim Dorrick", "3,15.5,W. Dorrick"]
    survey = bs.load_survey(csv_file("No,Diam (mm),Recorder\n" + "\n".join(rows) + "\n"))
    (problem,) = survey.problems[survey.problems["kind"] == "recorder-spellings"].itertuples()
    assert (problem.row, problem.column, problem.level) == (4, "C: Recorder", "to confirm")
    assert problem.problem == (
        '"W. Dorrick" (1 record) and "Wim Dorrick" (2 records) may be one recorder. Recorders are '
        "told apart by their names alone, so they count as two."
    )
    assert survey.buttons["recorder"].nunique() == 2


def test_the_demo_has_none():
    assert "recorder-spellings" not in set(bs.load_survey("demo").problems["kind"])
