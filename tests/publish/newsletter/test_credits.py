"""Who recorded, from which files, and how to cite."""

import hashlib
import shutil

import pytest

from buttonstudy import __version__
from buttonstudy.publish.newsletter.credits import is_invented
from buttonstudy.survey.load import demo_folder, load_survey


def test_recorders_are_named_as_the_survey_has_them(article):
    assert article.credits == ("The buttons were recorded by Ada Tarn and J. Vell.",)


def test_recorders_can_be_left_out_of_everything(survey, draft):
    nameless = draft(survey, ["sizes-heaping"], names=False)
    assert nameless.credits == (
        "The buttons were recorded by 2 people, whose names are left out here.",
    )
    told = [
        one.drawn.caption + one.drawn.alt_text + " ".join(one.sentences) for one in nameless.parts
    ]
    drawn = [
        text.get_text()
        for axes in nameless.parts[0].drawn.figure.axes
        for text in (axes.title, *axes.texts)
    ]
    drawn += [text.get_text() for text in nameless.parts[0].drawn.figure.texts]
    words = " ".join((*told, *drawn, *nameless.citation, *nameless.lead))
    assert "Recorder 1" in words
    assert "Tarn" not in words.replace("tarn.csv", "")
    assert "Vell" not in words


def test_a_file_is_cited_by_its_name_and_the_kit_by_its_version(article, survey_file):
    mark = hashlib.sha256(survey_file.read_bytes()).hexdigest()
    assert article.files == (("tarn.csv", 40, mark),)
    assert article.sources == ("tarn.csv: 40 records.",)
    assert article.citation == (
        "The survey: Ada Tarn and J. Vell: “The Tarn drawer”, survey of buttons, 40 sets, "
        "40 buttons, file tarn.csv.",
        f"The kit: buttonstudy, version {__version__}, a research notebook kit for button history.",
    )


@pytest.mark.parametrize("name", ["aldersay.csv"])
def test_invented_files_are_known_under_any_name(name, tmp_path):
    source = next(demo_folder().rglob(name))
    shutil.copy(source, tmp_path / "ours.csv")
    assert is_invented(load_survey([tmp_path / "ours.csv"]))


def test_records_without_a_recorder_are_counted(draft, tmp_path):
    path = tmp_path / "a.csv"
    path.write_text("No,Recorder,Diam (mm)\n1,,16\n2,Ada Tarn,17\n3,,18\n", encoding="utf-8")
    assert draft(load_survey([path])).credits == (
        "The buttons were recorded by Ada Tarn.",
        "No recorder is named for 2 button records.",
    )
