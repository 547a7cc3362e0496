"""Tables in which nothing was taken for what every survey has."""

import pytest

from buttonstudy.survey.drafting import draft_mapping
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


PERHAPS = {
    "Mould inside": "mould_material",
    "What is in the hole": "mould_hole",
    "Garment / card": "set_id",
}


@pytest.mark.parametrize("heading", PERHAPS)
def test_a_filled_column_with_a_word_of_a_field_is_asked_about(csv_file, heading):
    survey = load_survey(csv_file(f"No,Diam (mm),{heading}\n1,16,a\n2,17,b\n"))
    (told,) = survey.problems[survey.problems["wording"] == heading].to_dict("records")
    assert (told["kind"], told["level"]) == ("heading-perhaps", "to confirm")
    assert f"It may mean {PERHAPS[heading].replace('_', ' ')}, which no" in told["problem"]
    look = draft_mapping(survey.columns, survey.problems, survey.buttons).set_index("heading")
    assert look.loc[heading, "look"].startswith(f"not known: perhaps {PERHAPS[heading]};")
    assert look.loc[heading, "field"] == "not used"


@pytest.mark.parametrize(
    "table",
    [
        "No,Diam (mm),Drawer\n1,16,a\n",
        "No,Diam (mm),Shelf no.\n1,16,a\n",
        "No,Diam (mm),Mould,Mould inside\n1,16,wood,a\n",  # the field has its column
        "No,Diam (mm),Mould inside\n1,16,a\n2,16,\n3,17,\n",  # hardly filled
    ],
)
def test_other_columns_are_carried_through_for_information(csv_file, table):
    problems = load_survey(csv_file(table)).problems.set_index("kind")
    assert problems.loc["heading-unknown", "level"] == "for information"
