"""Tables in which nothing was taken for what every survey has."""

import pytest

from buttonstudy.survey.load import load_survey

GERMAN = "Knopf-Nr;Durchm. (mm);Höhe mm;Date;Notes\nK1;16,5;5,5;1840;a\nK2;15;5;1850;b\n"


def missing(survey):
    return survey.problems[survey.problems["kind"] == "column-missing"]


def test_a_table_without_number_and_size_is_told_with_its_unknown_columns(csv_file):
    found = missing(load_survey(csv_file(GERMAN, name="dorrick.csv")))
    assert found[["file", "row", "level"]].values.tolist() == [["dorrick.csv", 1, "to confirm"]]
    assert found["problem"].tolist() == [
        "No column was taken for the button number and none for the diameter. Columns not "
        "understood: Knopf-Nr, Durchm. (mm), Höhe mm."
    ]
    assert "Say in a mapping file what they mean (buttonstudy map drafts one)." in set(
        found["what_to_do"]
    )


TOLD = [
    ("No;Durchm. (mm);Date\n1;16;1840\n", "No column was taken for the diameter. "),
    ("Knopf-Nr;Diam (mm);Date\nK1;16;1840\n", "No column was taken for the button number. "),
    ("No;Mould;Date\n1;wood;1840\n", ""),  # every column is understood: there is no size
    ("No;Durchm.;Date\n1;;1840\n", ""),  # nothing stands in it
    ("No;Diam (mm);Kasten\n1;16;3\n", ""),
]


@pytest.mark.parametrize(("text", "says"), TOLD)
def test_only_a_number_or_size_that_may_be_there_is_told(csv_file, text, says):
    found = missing(load_survey(csv_file(text)))["problem"].tolist()
    assert [words.startswith(says) for words in found] == ([True] if says else [])


def test_a_mapping_file_that_says_not_used_is_believed(csv_file):
    path = csv_file("No;Kasten;Date\n1;16;1840\n")
    mapping = csv_file("heading,field\nKasten,not used\n", name="map.csv")
    assert len(missing(load_survey(path))) == 1
    assert missing(load_survey(path, mapping=mapping)).empty
