import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.schemes import fields
from buttonstudy.schemes.tables import rows
from buttonstudy.survey.headings import field_of, near_field, recognise, stated_step
from buttonstudy.survey.mapping import CONTAINS, DATE_ENDS, MEDIUM, Meaning

# How practitioners head their columns (common practice, no source).
HEADINGS = [
    ("Diam (mm)", "diameter", "mm"),
    ("Size [L]", "diameter", "lines"),
    ("Ø", "diameter", ""),
    ("Ø (mm)", "diameter", "mm"),
    ("Dia. ins", "diameter", "in"),
    ('Dia "', "diameter", "in"),
    ("Size in lines", "diameter", "lines"),
    ("Size (Paris lines)", "diameter", "Paris lines"),
    ("Diameter in inches", "diameter", "in"),
    ("Diam. to nearest 1/16 in", "diameter", "in"),
    ("mm", "diameter", "mm"),
    ("dimensions_text", "diameter", ""),
    ("Mould diam. (mm)", "mould_diameter", "mm"),
    ("Core dia", "mould_diameter", ""),
    ("Hole (mm)", "hole_diameter", "mm"),
    ("Hole", "mould_hole", ""),
    ("Hole filled with", "hole_fill", ""),
    ("Thickness (mm)", "height", "mm"),
    ("Date made", "date", ""),
    ("Period", "date", ""),
    ("Year from", "date_from", ""),
    ("Latest", "date_to", ""),
    ("Mould", "mould_material", ""),
    ("Mold material", "mould_material", ""),
    ("Material of the mould", "mould_material", ""),
    ("Fabric", "cover_material", ""),
    ("Color", "cover_colour", ""),
    ("No. of layers", "cover_layers", ""),
    ("How gathered", "cover_drawn_up", ""),
    ("Attached by", "attachment", ""),
    ("Opened Y/N", "opened", ""),
    ("Found in", "found_inside", ""),
    ("This button was found inside no.", "found_inside", ""),
    ("Contains button", "contains", ""),
    ("Found in it", "contains", ""),
    ("Inside it", "contains", ""),
    ("Button no.", "button_id", ""),
    ("Set", "set_id", ""),
    ("Measured by", "recorder", ""),
    ("Remarks", "notes", ""),
]

# Headings that must stay unknown: a guess would be wrong as often as right.
NOT_KNOWN = [
    "Button inside",
    "Drawer",
    "Material",
    "Date measured",
    "Date acquired",
    "title",
    "",
    "?",
    "—",
]


@pytest.mark.parametrize(("heading", "field", "unit"), HEADINGS)
def test_headings_are_recognised_with_their_unit(heading, field, unit):
    assert field_of(heading) == (field, unit)


@pytest.mark.parametrize("heading", NOT_KNOWN)
def test_headings_that_may_mean_anything_are_left_unknown(heading):
    assert field_of(heading)[0] == ""
    assert near_field(heading) == ""


@pytest.mark.parametrize(
    ("heading", "field"), [("Diamter", "diameter"), ("Mould materal", "mould_material")]
)
def test_near_spellings_are_found(heading, field):
    assert field_of(heading)[0] == ""
    assert near_field(heading) == field


def test_the_heading_may_state_the_measuring_step():
    assert stated_step("Diam. to nearest 1/16 in") == pytest.approx(25.4 / 16)
    assert stated_step("Ø (nearest mm)") == 1.0
    assert stated_step("Diam (mm)") is None


def letters(count):
    return [chr(65 + n) for n in range(count)]


def test_a_length_may_stand_in_several_units():
    headings = ["Diam (mm)", "Diam (in)", "Size [L]"]
    found = recognise(headings, letters(3), "a.xlsx", "")
    assert [(one.field, one.unit) for one in found] == [
        ("diameter", "mm"),
        ("diameter", "in"),
        ("diameter", "lines"),
    ]


def test_a_second_claim_to_a_field_is_left_unknown_and_told():
    found = recognise(["Mould", "Mould material", "Note"], letters(3), "a.xlsx", "")
    assert [(one.field, one.claims) for one in found] == [
        ("mould_material", ""),
        ("", "mould_material"),
        ("notes", ""),
    ]


def test_an_exact_heading_goes_before_a_near_spelling_to_its_left():
    found = recognise(["Diamter", "Diameter"], letters(2), "a.xlsx", "")
    assert [(one.field, one.claims) for one in found] == [("", "diameter"), ("diameter", "")]


def test_the_mapping_file_goes_first_and_can_be_narrowed_to_a_file():
    mapping = [
        Meaning("Material", "cover_material"),
        Meaning("Material", "mould_material", file="b.xlsx"),
        Meaning("Size", "mould_diameter", unit="mm", step_mm=0.5),
        Meaning("Notes", "not used"),
    ]
    headings = ["material", "Size", "Notes"]
    first = recognise(headings, letters(3), "a.xlsx", "", mapping)
    assert [one.field for one in first] == ["cover_material", "mould_diameter", ""]
    assert (first[1].unit, first[1].step_mm, first[1].how) == ("mm", 0.5, "mapping file")
    second = recognise(headings, letters(3), "b.xlsx", "", mapping)
    assert second[0].field == "mould_material"


@given(st.text(max_size=40))
def test_any_text_may_be_a_heading(text):
    field, _ = field_of(text)
    assert field in {one.field for one in fields()} | set(DATE_ENDS) | {CONTAINS, MEDIUM, ""}
    near_field(text)


def test_every_heading_in_the_table_is_in_one_form_and_means_one_field():
    meanings = {}
    for row in rows("headings"):
        words = frozenset(row["heading"].split())
        assert row["source"]
        assert meanings.setdefault(words, row["field"]) == row["field"], row["heading"]
    forms = {row["word"]: row["means"] for row in rows("heading_words")}
    for words in meanings:
        assert not words & (set(forms) - set(forms.values())), words
