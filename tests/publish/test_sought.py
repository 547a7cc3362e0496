"""The one button that a report is about: found or refused before anything is made."""

import pandas as pd
import pytest

from buttonstudy.publish.errors import CallError
from buttonstudy.publish.notebooks import choose_notebooks
from buttonstudy.publish.report import make_report
from buttonstudy.publish.sought import ONE_BUTTON, Sought
from buttonstudy.publish.surveys import about

ODD = "1912/10 <i>7</i>"
SURVEYS = {
    "one record": (f"No,Diam (mm),Date\n{ODD},16,c. 1840\n", "There is no other set to compare"),
    "nothing known": (
        f"No,Diam (mm),Date,Mould\n{ODD},,,\n2,,,\n",
        "This record has no diameter, so that none can be set beside it.",
    ),
    "nothing examined": (
        f"No,Diam (mm),Date,Mould,Opened\n{ODD},16,1840,,no\n2,15,1840,bone,yes\n",
        "No trait of this record was examined on any other set of the survey.",
    ),
    "dates that contradict": (
        f"No,Diam (mm),Date,Found inside\n{ODD},16,1860,\nB2,18,1840,\nB3,9,1850,B2\n",
        "Nothing says that this button lay inside another, or another inside it.",
    ),
}


def test_a_report_is_named_after_its_button():
    named = Sought("../../1912/10 (b)").named(about(["Smith 1912.xlsx"]))
    assert named.name == "smith-1912-button-1912-10-b"
    assert named.title == "Smith 1912: button ../../1912/10 (b)"


def test_it_is_not_run_unless_a_button_is_named():
    assert ONE_BUTTON not in [notebook.name for notebook in choose_notebooks()]
    assert [notebook.name for notebook in choose_notebooks(["one_button"])] == [ONE_BUTTON]


def test_a_number_that_several_files_have_is_told_with_how_to_name_the_one_meant():
    buttons = pd.DataFrame({"file": ["a.csv", "b.csv"], "sheet": "", "button_id": "12"})
    Sought("12", "b.csv").check(buttons)
    with pytest.raises(CallError) as error:
        Sought("12").check(buttons)
    assert str(error.value) == (
        'More than one button is called "12": there is one in a.csv and b.csv. Say in which of '
        'them the one meant is. Add --in "a.csv" for that one.'
    )


def test_no_place_is_advised_in_which_the_number_stands_twice():
    files = ["a.csv", "a.csv", "b.csv"]
    buttons = pd.DataFrame({"file": files, "sheet": "", "button_id": "12"})
    with pytest.raises(CallError, match=r'meant is. Add --in "b.csv" for that one.$'):
        Sought("12").check(buttons)
    with pytest.raises(CallError, match=r"once in each: give each button a number of its own.$"):
        Sought("12").check(pd.concat([buttons, buttons]))
    with pytest.raises(CallError, match="Give each a number of its own in the survey.$"):
        Sought("12", "a.csv").check(buttons)


def test_an_unknown_number_is_told_before_anything_is_made(tmp_path):
    survey = tmp_path / "survey.csv"
    survey.write_text("No,Diam (mm)\nA12,16\nA13,15\n", encoding="utf-8")
    with pytest.raises(CallError) as error:
        make_report([survey], tmp_path / "page", sought=Sought("a14"))
    assert str(error.value).startswith('No button is called "a14". The nearest there are: A1')
    assert [path.name for path in tmp_path.iterdir()] == ["survey.csv"]


@pytest.mark.parametrize("held", sorted(SURVEYS))
def test_the_page_finishes_and_says_what_is_not_there(tmp_path, held):
    text, says = SURVEYS[held]
    survey = tmp_path / "survey.csv"
    survey.write_text(text, encoding="utf-8")
    result = make_report([survey], tmp_path / "page", sought=Sought(ODD))
    assert result.failures == ()
    page = (result.folder / f"{ONE_BUTTON}.html").read_text(encoding="utf-8")
    assert says in page
    assert "<i>7" not in page
    assert "1912/10 &lt;i&gt;7" in page


def test_dates_that_contradict_are_told_on_the_page_and_in_the_problems(tmp_path):
    survey = tmp_path / "survey.csv"
    survey.write_text(SURVEYS["dates that contradict"][0], encoding="utf-8")
    result = make_report([survey], tmp_path / "page", sought=Sought("B2"))
    assert result.finished
    page = (result.folder / f"{ONE_BUTTON}.html").read_text(encoding="utf-8")
    assert "A cover cannot be earlier than what lies inside it: one of the dates, or" in page
    problems = pd.read_csv(result.folder / "problems.csv")
    assert "found-inside-date" in problems["kind"].tolist()
