"""Finding one button's record by its number, and showing what it says."""

import pandas as pd
import pytest

from buttonstudy.study.one_button.by_number import NoSuchButtonError, find_record
from buttonstudy.study.one_button.record import record_findings, record_table

BUTTONS = pd.DataFrame(
    {
        "file": ["a.csv", "a.csv", "b.xlsx", "b.xlsx", "b.xlsx", "b.xlsx", "b.xlsx"],
        "sheet": ["", "", "Drawer 1", "Drawer 2", "Drawer 2", "Drawer 2", "Drawer 2"],
        "row": [2, 3, 2, 2, 3, 4, 5],
        "button_id": ["12", "CA7", "12", "30", "30", "1912/10 <b>", ""],
        "set_id": [None, "s", None, None, None, "s", "s"],
        "recorder": ["Ada Tarn", "C.A.", None, None, None, None, None],
        "year_from": pd.array([1840, 1840, None, 1840, None, 1850, None], dtype="Int64"),
        "year_to": pd.array([1840, 1860, None, None, 1860, 1850, None], dtype="Int64"),
        "date_wording": ["1840", "1840-60", None, "after 1840", None, "1850", None],
    }
)


@pytest.mark.parametrize(
    ("number", "within", "place"),
    [
        (" ca7 ", "", 1),
        ("12", "a.csv", 0),
        ("12", "folder/A.CSV", 0),
        ("12", "drawer 1", 2),
        ("12", "b.xlsx, sheet Drawer 1", 2),
        ("1912/10 <b>", "", 5),
    ],
)
def test_a_button_is_found_by_its_number_and_where_need_be_its_place(number, within, place):
    assert find_record(BUTTONS, number, within) == place


@pytest.mark.parametrize(
    ("number", "within", "says"),
    [
        ("CA8", "", 'No button is called "CA8". The nearest is CA7.'),
        ("???", "", 'No button is called "???". None is near it; there are such as 12, CA7, 30'),
        ("ca-0007", "", 'No button is called "ca-0007". The nearest is CA7.'),
        ("  ", "", "No button's number was given. Say which button is meant."),
        ("12", "", 'More than one button is called "12": there is one in a.csv and b.xlsx. Say in'),
        ("12", "c.csv", 'There is no button "12" in "c.csv". There is one in a.csv and b.xlsx.'),
        (
            "30",
            "",
            '2 records of b.xlsx, sheet Drawer 2 are called "30" (rows 2 and 3). Give each a '
            "number of its own in the survey.",
        ),
    ],
)
def test_what_cannot_be_found_is_told_with_what_to_do(number, within, says):
    with pytest.raises(NoSuchButtonError) as error:
        find_record(BUTTONS, number, within)
    assert str(error.value).startswith(says)


def test_the_places_of_several_are_kept_for_whoever_asks():
    with pytest.raises(NoSuchButtonError) as error:
        find_record(BUTTONS, "12")
    assert error.value.places == ("a.csv", "b.xlsx")
    sheets = BUTTONS[BUTTONS["file"] == "b.xlsx"].assign(button_id="7")
    with pytest.raises(NoSuchButtonError) as error:
        find_record(sheets, "7")
    assert error.value.places == ("b.xlsx, sheet Drawer 1", "b.xlsx, sheet Drawer 2")


def test_a_survey_without_numbers_is_told_so():
    with pytest.raises(NoSuchButtonError, match="No record of the survey has a number"):
        find_record(pd.DataFrame({"diameter_mm": [16.0]}), "1")


def test_the_record_is_named_with_its_place_its_date_and_its_set():
    assert record_findings(BUTTONS, 1) == [
        "Button CA7 of set s. It stands in a.csv, row 3. Noted by C.A. It is dated 1840 to 1860.",
        "It is itself left out of all that is counted below.",
    ]
    assert record_findings(BUTTONS, 5)[1].startswith("The 2 records of its set are left out")


@pytest.mark.parametrize(
    ("row", "says"),
    [
        (0, "It is dated 1840."),
        (2, "It has no date, so that it is held against all periods together."),
        (3, "It is dated 1840 or later."),
        (4, "It is dated 1860 or earlier."),
    ],
)
def test_open_and_missing_dates_are_worded(row, says):
    assert record_findings(BUTTONS, row)[0].endswith(says)


def test_each_field_stands_beside_its_wording():
    table = record_table(BUTTONS, 3).set_index("label")
    assert table.loc["Date"].tolist() == ["1840 or later", "after 1840"]
    assert table.loc["Diameter"].tolist() == ["not recorded", ""]
    assert "Notes" not in table.index
