"""Buttons found inside buttons: links, and dates that cannot be."""

import pandas as pd
import pytest

import buttonstudy as bs
from buttonstudy.study.one_button.nested import nested_records
from buttonstudy.study.one_button.words import nested_findings, nested_sentence


def survey(*rows):
    names = ["file", "button_id", "found_inside", "year_from", "year_to"]
    table = pd.DataFrame(list(rows), columns=names)
    return table.assign(sheet="Sheet1", row=range(2, len(table) + 2))


@pytest.mark.parametrize(
    ("wording", "outer", "finding"),
    [
        ("A1", "A1", "linked"),
        (" a1 ", "A1", "linked"),
        ("A7", "", "does not name exactly one button of its file"),
        ("A1 or A2", "", "does not name exactly one button of its file"),
        ("A3", "A3", "names itself, or one that lay inside it"),
    ],
)
def test_a_number_is_linked_where_one_button_has_it(wording, outer, finding):
    buttons = survey(
        ("a", "A1", None, 1840, 1860),
        ("a", "A2", None, 1840, 1860),
        ("a", "A3", wording, 1800, 1820),
    )
    row = nested_records(buttons).iloc[0]
    assert (row["inner_id"], row["outer_id"], row["finding"]) == ("A3", outer, finding)


@pytest.mark.parametrize("wording", [None, "", "no", "None", "not recorded"])
def test_blanks_are_no_links(wording):
    buttons = survey(("a", "A1", wording, 1840, 1860))
    assert nested_records(buttons).empty


def test_links_stay_within_their_file():
    buttons = survey(
        ("b", "1", None, 1840, 1860),
        ("a", "1", None, 1840, 1860),
        ("a", "2", "1", 1800, 1820),
        ("c", "3", "1", 1800, 1820),
    )
    table = nested_records(buttons)
    assert table["outer"].fillna(-1).tolist() == [1, -1]
    twice = nested_records(buttons.assign(file="a"))
    assert (twice["finding"] == "does not name exactly one button of its file").all()


def test_a_wording_is_understood_when_the_survey_is_read(tmp_path):
    path = tmp_path / "drawer.csv"
    path.write_text('Number,Found inside\nA1,\nA2,"inside A1, under the silk"\nA3,A1 or A2\n')
    table = nested_records(bs.load_survey(path).buttons)
    assert table["outer_id"].tolist() == ["A1", ""]


@pytest.mark.parametrize(
    ("outer_to", "inner_from", "finding"),
    [
        (1820, 1820, "linked"),
        (1819, 1820, "outer button dated too early"),
        (None, 1820, "linked"),
        (1819, None, "linked"),
    ],
)
def test_a_cover_is_not_earlier_than_what_it_hides(outer_to, inner_from, finding):
    buttons = survey(("a", "A1", None, 1790, outer_to), ("a", "A2", "A1", inner_from, 1850))
    row = nested_records(buttons).iloc[0]
    assert row["finding"] == finding
    assert pd.isna(row["outer_not_before"]) == (inner_from is None)


def test_a_ring_of_buttons_is_found():
    buttons = survey(("a", "A1", "A2", 1800, 1820), ("a", "A2", "A1", 1800, 1820))
    assert (nested_records(buttons)["finding"] == "names itself, or one that lay inside it").all()


def test_links_are_told_in_sentences():
    buttons = survey(
        ("a", "A1", None, 1840, 1860), ("a", "A2", "A1", 1800, 1820), ("a", "A3", "A9", 1800, 1820)
    )
    said = [nested_sentence(row) for _, row in nested_records(buttons).iterrows()]
    assert said == [
        "A2 was found inside A1, whose cover so cannot be earlier than 1800.",
        "A3 was found inside “A9”, which does not name exactly one button of its file.",
    ]


def test_dates_that_contradict_are_told_with_both_years():
    buttons = survey(("a", "A1", None, 1790, 1800), ("a", "A2", "A1", 1820, 1850))
    assert nested_sentence(nested_records(buttons).iloc[0]) == (
        "A2 was found inside A1; but A1 is dated to 1800 at the latest and A2 to 1820 at the "
        "earliest. A cover cannot be earlier than what lies inside it: one of the dates, or the "
        "link, is wrong."
    )


@pytest.mark.parametrize(
    ("row", "said"),
    [
        (0, ["A2 was found inside A1, whose cover so cannot be earlier than 1800."]),
        (
            1,
            [
                "A2 was found inside A1, whose cover so cannot be earlier than 1800.",
                "A3 was found inside A2, whose cover so cannot be earlier than 1790.",
            ],
        ),
        (3, ["Nothing says that this button lay inside another, or another inside it."]),
    ],
)
def test_a_button_is_told_what_it_lay_in_and_what_lay_in_it(row, said):
    buttons = survey(
        ("a", "A1", None, 1840, 1860),
        ("a", "A2", "A1", 1800, 1820),
        ("a", "A3", "A2", 1790, 1795),
        ("a", "A4", None, 1800, 1820),
    )
    assert nested_findings(nested_records(buttons), row) == said


def test_an_empty_survey_has_no_links():
    assert nested_records(pd.DataFrame()).empty
