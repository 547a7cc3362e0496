"""Photographs are found beside their survey, and nowhere else."""

import pytest
from PIL import Image

from buttonstudy.schemes import limit
from buttonstudy.survey.load import load_survey
from buttonstudy.survey.photographs import (
    find_photograph,
    load_photographs,
    photograph_names,
    record_photographs,
    survey_folders,
)
from buttonstudy.survey.pictures import PhotographError

NAMES = {
    "front.jpg": ["front.jpg"],
    "front.jpg; back.jpg": ["front.jpg", "back.jpg"],
    'a.png | "b.png"\nc.png,d.png': ["a.png", "b.png", "c.png", "d.png"],
    "": [],
    "n/a": [],
    "not recorded": [],
}
OUTSIDE = [
    "../secret.jpg",
    "photos/../../secret.jpg",
    "..\\secret.jpg",
    "/etc/passwd",
    "C:\\photos\\front.jpg",
    "C:front.jpg",
    "\\\\server\\share\\front.jpg",
    "front.jpg\x00.png",
    ".",
]


def picture(path):
    Image.new("RGB", (60, 40), "red").save(path)


@pytest.mark.parametrize("text", NAMES)
def test_a_cell_of_names_is_taken_apart(text):
    assert photograph_names(text) == NAMES[text]


@pytest.mark.parametrize("name", OUTSIDE)
def test_a_name_that_leads_out_of_the_folder_is_refused(tmp_path, name):
    (tmp_path / "secret.jpg").write_bytes(b"x")
    folder = tmp_path / "survey"
    folder.mkdir()
    with pytest.raises(PhotographError, match="does not stay within") as caught:
        find_photograph(folder, name)
    assert caught.value.kind == "photo-outside"
    assert "Put the photograph into that folder" in str(caught.value)


def test_a_link_that_leads_out_of_the_folder_is_refused(tmp_path):
    (tmp_path / "secret.jpg").write_bytes(b"x")
    folder = tmp_path / "survey"
    folder.mkdir()
    (folder / "front.jpg").symlink_to(tmp_path / "secret.jpg")
    (folder / "away").symlink_to(tmp_path)
    for name in ("front.jpg", "away/secret.jpg"):
        with pytest.raises(PhotographError, match="does not stay within"):
            find_photograph(folder, name)


def test_an_address_is_not_asked_for(tmp_path):
    with pytest.raises(PhotographError, match="an address on the internet; the kit opens none"):
        find_photograph(tmp_path, "https://example.org/front.jpg")


@pytest.mark.parametrize("name", ["photos/Front.JPG", "photos\\front.jpg", "photos/front"])
def test_a_photograph_is_found_below_the_survey(tmp_path, name):
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "front.jpg").write_bytes(b"x")
    assert find_photograph(tmp_path, name) == tmp_path / "photos" / "front.jpg"


@pytest.mark.parametrize("name", ["hq7.png", "HQ7", "set 1/hq7.png"])
def test_a_name_without_its_folder_is_looked_for_below(tmp_path, name):
    place = tmp_path / "photos" / "set 1"
    place.mkdir(parents=True)
    (place / "hq7.png").write_bytes(b"x")
    assert find_photograph(tmp_path, name) == place / "hq7.png"
    with pytest.raises(PhotographError, match="There is no photograph"):
        find_photograph(tmp_path, "set 2/hq7.png")


def test_a_name_that_stands_twice_below_asks_for_the_path(tmp_path):
    for folder in ("a", "b"):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "hq7.png").write_bytes(b"x")
    with pytest.raises(PhotographError, match="stands 2 times below") as caught:
        find_photograph(tmp_path, "hq7.png")
    assert caught.value.kind == "photo-twice"
    assert 'as "a/hq7.png" and as "b/hq7.png". Write the path of the one' in str(caught.value)
    assert find_photograph(tmp_path, "b/hq7.png") == tmp_path / "b" / "hq7.png"
    (tmp_path / "hq7.png").write_bytes(b"x")
    assert find_photograph(tmp_path, "hq7.png") == tmp_path / "hq7.png"


def test_hidden_linked_and_deep_folders_are_not_searched(tmp_path):
    survey, deep = tmp_path / "survey", int(limit("photo-levels"))
    for place in (survey / ".hidden", tmp_path / "away", survey.joinpath(*"123456"[: deep + 1])):
        place.mkdir(parents=True)
        (place / "hq7.png").write_bytes(b"x")
    (survey / "link").symlink_to(tmp_path / "away")
    with pytest.raises(PhotographError, match="There is no photograph"):
        find_photograph(survey, "hq7.png")
    (survey / "1" / "hq7.png").symlink_to(tmp_path / "away" / "hq7.png")
    with pytest.raises(PhotographError, match="does not stay within"):
        find_photograph(survey, "hq7.png")


def test_a_missing_photograph_is_told(tmp_path):
    with pytest.raises(PhotographError, match='There is no photograph "front.jpg" beside'):
        find_photograph(tmp_path, "front.jpg")


def test_a_record_keeps_what_can_be_shown_and_says_what_cannot(tmp_path):
    picture(tmp_path / "front.png")
    shown, errors = load_photographs("front.png; back.png", tmp_path)
    assert [one.name for one in shown] == ["front.png"]
    assert [error.kind for error in errors] == ["photo-missing"]


def test_problems_name_the_row_and_the_photograph(tmp_path):
    picture(tmp_path / "front.png")
    (tmp_path / "bad.png").write_bytes(b"no picture")
    survey = tmp_path / "survey.csv"
    survey.write_text(
        "Button no.,Diameter (mm),Photos\n"
        "1,16,front.png\n2,17,back.png\n3,18,bad.png\n4,19,../x.png\n5,20,\n"
    )
    problems = load_survey(survey).problems
    told = problems[problems["kind"].str.startswith("photo-")]
    assert list(zip(told["row"], told["kind"], told["column"])) == [
        (3, "photo-missing", "C: Photos"),
        (4, "photo-unreadable", "C: Photos"),
        (5, "photo-outside", "C: Photos"),
    ]
    assert told["problem"].iloc[0].startswith('There is no photograph "back.png" beside')
    assert told["what_to_do"].iloc[0] == "Put the photograph there, or correct its name."


def test_a_survey_without_any_of_its_photographs_is_told_so_once(tmp_path):
    survey = tmp_path / "survey.csv"
    survey.write_text(
        "Button no.,Diameter (mm),Photos\n1,16,a.jpg\n2,17,b.jpg; c.jpg\n3,18,../x.png\n"
    )
    problems = load_survey(survey).problems
    told = problems[problems["kind"].str.startswith("photo")].set_index("kind")
    assert set(told.index) == {"photo-missing", "photo-outside"}  # not all are simply missing
    survey.write_text("Button no.,Diameter (mm),Photos\n1,16,a.jpg\n2,17,b.jpg; c.jpg\n")
    problems = load_survey(survey).problems
    (row,) = problems[problems["kind"].str.startswith("photo")].to_dict("records")
    assert (row["row"], row["kind"], row["level"]) == (2, "photos-not-there", "for information")
    assert row["problem"].startswith("None of the 3 photographs that survey.csv names lies beside")


def test_each_survey_file_has_its_own_folder(tmp_path):
    for name in ("one", "two"):
        (tmp_path / name).mkdir()
        (tmp_path / name / f"{name}.csv").write_text("Button no.\n1\n")
    folders = survey_folders([tmp_path / "one", tmp_path / "two" / "two.csv"])
    assert folders == {"one.csv": tmp_path / "one", "two.csv": tmp_path / "two"}


def test_a_records_photographs_are_read_beside_its_survey_or_in_a_folder(tmp_path):
    beside, elsewhere = tmp_path / "beside", tmp_path / "elsewhere"
    beside.mkdir()
    elsewhere.mkdir()
    survey = beside / "survey.csv"
    survey.write_text("Button no.,Photos\n1,front.png; back.png\n2,\n")
    picture(beside / "front.png")
    picture(elsewhere / "back.png")
    buttons = load_survey(survey).buttons

    def read(record, folder=""):
        album = record_photographs(buttons, record, [survey], folder)
        return [one.name for one in album.photographs], list(album.not_shown)

    assert read(0) == (["front.png"], ["back.png"])
    assert read(0, elsewhere) == (["back.png"], ["front.png"])
    assert read(1) == ([], [])
    assert record_photographs(buttons, 0, []).not_shown == ("front.png", "back.png")
