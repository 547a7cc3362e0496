import dataclasses

import pytest

from buttonstudy.publish.checking import check_survey, write_problems
from buttonstudy.publish.errors import CallError

EXPECTED = """\
a.csv: 4 button records
    A  No.           button id
    C  Size (mm)     diameter, in mm
    B  Matrial       cover material (by near spelling)
    D  <i>Shelf</i>  not known; carried through as it stands

NOT READ: these are missing from the results until they are mended (3)

  This size has no unit. Write the unit in the heading.
    a.csv, column C (Size)
      rows 5, 7: “26”
      row 6: “<b>big</b>”

TO CONFIRM: read, but look; what is right can be accepted by its [code] (1)

  A century? Look. [hundreds]
    a.csv, column E (Date), row 9: “1800s”

FOR INFORMATION: nothing need be done (1)

  Not known. Nothing. [heading]
    a.csv, column D (Shelf), “Shelf”

4 button records in 3 sets from 1 survey file. Problems: 3 not read, 1 to confirm, \
1 for information.
"""


def test_columns_and_problems_are_told_with_their_places(survey):
    checked = check_survey(survey)
    assert checked.text == EXPECTED
    assert not checked.fine


@pytest.mark.parametrize(
    ("kept", "fine"), [([], True), (["for information"], True), (["to confirm"], False)]
)
def test_all_is_well_only_without_problems_to_look_at(survey, kept, fine):
    problems = survey.problems[survey.problems["level"].isin(kept)]
    assert check_survey(dataclasses.replace(survey, problems=problems)).fine is fine


def test_problems_in_different_words_are_all_told(survey):
    problems = survey.problems.copy()
    problems.loc[1, "problem"] = "Another doubt."
    text = check_survey(dataclasses.replace(survey, problems=problems)).text
    assert (
        "  Another doubt. Write the unit in the heading.\n    a.csv, column C (Size), row 5" in text
    )
    assert "  This size has no unit. Write the unit in the heading.\n    a.csv, column C" in text


def test_very_many_wordings_are_counted_and_no_row_is_dropped(survey):
    problems = survey.problems.iloc[[0] * 50].reset_index(drop=True)
    problems["row"] = range(10, 60)
    problems["wording"] = [f"odd {n}" for n in range(50)]
    text = check_survey(dataclasses.replace(survey, problems=problems)).text
    assert "row 15: “odd 5”" in text
    assert "rows 16–59: 44 other wordings" in text


def test_a_list_of_problems_replaces_only_its_like(survey, tmp_path):
    path = tmp_path / "problems.csv"
    for _ in range(2):
        write_problems(survey, str(path))
    assert path.read_text(encoding="utf-8-sig").count("size-no-unit") == 3
    (tmp_path / "a.csv").write_text("No.,Size\n1,16\n")
    with pytest.raises(CallError, match=r"a.csv is no earlier list of problems and was left alone"):
        write_problems(survey, str(tmp_path / "a.csv"))
    assert (tmp_path / "a.csv").read_text() == "No.,Size\n1,16\n"


def test_a_list_of_materials_is_told_in_words(tmp_path):
    from buttonstudy.survey.load import load_survey

    path = tmp_path / "museum.csv"
    path.write_text('Button no.,Medium\n1,"Silk, wood"\n', encoding="utf-8")
    told = check_survey(load_survey(path)).text
    assert "  B  Medium      materials, parted into mould, cover and decoration\n" in told
