import re
from types import SimpleNamespace

import pandas as pd
import pytest

from buttonstudy.publish.errors import CallError
from buttonstudy.publish.surveys import about, check_there, given_name


def test_a_report_is_named_after_its_survey(tmp_path):
    folder = tmp_path / "Smith's buttons"
    folder.mkdir()
    assert about([folder]).name == "smith-s-buttons"
    assert about([folder]).title == "Smith's buttons"
    assert about(["my_survey.xlsx"]).title == "My survey"
    assert about(["a.csv", "b.csv", "c.csv"]).name == "a-and-2-more"


def test_no_survey_stands_for_the_invented_one():
    assert about().demo
    assert about(["demo"]).demo
    assert not about(["demo.csv"]).demo


def test_a_missing_file_is_refused_with_the_nearest_name_in_its_folder(tmp_path):
    there, wrong = tmp_path / "drawers.csv", tmp_path / "drawer.csv"
    there.touch()
    check_there([there, tmp_path, "demo"])
    with pytest.raises(CallError, match=re.escape(f"{wrong}: there is no such file or folder.")):
        check_there([there, wrong])
    with pytest.raises(CallError, match=re.escape(f"Did you mean {there}?")):
        check_there([wrong])
    with pytest.raises(CallError, match="Check name and folder"):
        check_there([tmp_path / "elsewhere" / "drawers.csv"])
    check_there(["x" * 300 + ".csv"])  # a name that no file can have is told by reading


def test_a_survey_is_called_as_asked_and_its_folder_as_its_file():
    told = about(["sv.csv"], " Buttons of\tEmberby ")
    assert (told.title, told.name) == ("Buttons of Emberby", "sv")
    assert about((), "Our drawers").title == "Our drawers"
    assert about(["sv.csv"], " ").title == "Sv"
    assert len(about(["sv.csv"], "word " * 100).title) <= 200


@pytest.mark.parametrize(
    ("names", "called"),
    [
        (["Our drawers"], "Our drawers"),
        (["Our drawers", "Our drawers"], "Our drawers"),
        (["Our drawers", "The mill", "The fen"], "Our drawers, The mill and The fen"),
        (["Our drawers", ""], ""),  # the other file may hold another survey
        (["a\x1b[31mb"], "a\ufffd[31mb"),
        ([""], ""),
    ],
)
def test_a_survey_is_called_as_all_its_files_say(names, called):
    survey = SimpleNamespace(sources=pd.DataFrame({"survey_name": names}))
    assert given_name(survey) == called


def test_an_archive_of_an_earlier_kit_gives_its_survey_no_name():
    assert given_name(SimpleNamespace(sources=pd.DataFrame({"file": ["a.csv"]}))) == ""
