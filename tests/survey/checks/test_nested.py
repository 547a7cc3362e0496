"""Buttons found inside buttons: links that lead nowhere, dates and sizes that cannot be."""

import pytest

import buttonstudy as bs


def pair(inner, outer, wording="A1"):
    return [{"button_id": "A1", **outer}, {"button_id": "A2", "found_inside": wording, **inner}]


LINKS = [
    (pair({}, {}), []),
    (pair({}, {}, " a1 "), []),
    (pair({}, {}, "inside A1, under the silk"), []),
    (pair({}, {}, "none"), []),
    (pair({}, {}, "A7"), ["found-inside-unknown"]),
    (pair({}, {}, "an older one"), ["found-inside-unknown"]),
    (pair({}, {}, "A1 or A2"), ["found-inside-unsure"]),
    (pair({}, {}, "A2"), ["found-inside-itself"]),
    (pair({}, {"found_inside": "A2"}), ["found-inside-itself"] * 2),
    (pair({}, {"file": "b.csv"}), ["found-inside-unknown"]),  # another survey's A1
]


@pytest.mark.parametrize(("rows", "kinds"), LINKS)
def test_a_link_names_one_other_button_of_its_file(findings, rows, kinds):
    assert [kind for kind, _ in findings(*rows)] == kinds


PARTS = [
    ("CA 1", ["found-inside-part"]),
    ("button 1 of tray 9", ["found-inside-part"]),
    ("inside 1, found 1903", ["found-inside-part"]),
    ("button no. 1", []),
    ("inside 1, under the SILK", []),
    ("Under 1", []),
    (" 1 ", []),
]


@pytest.mark.parametrize(("wording", "kinds"), PARTS)
def test_a_number_taken_out_of_what_may_be_another_is_told(findings, wording, kinds):
    outer, inner = {"button_id": "1"}, {"button_id": "2", "found_inside": wording}
    assert [kind for kind, _ in findings(outer, inner)] == kinds


def test_a_number_of_two_words_is_no_part_of_one(findings):
    rows = [{"button_id": number} for number in ("1", "CA 1")]
    assert findings(*rows, {"button_id": "3", "found_inside": "ca 1"}) == []


def test_what_may_be_another_number_is_named(findings):
    rows = [{"button_id": "1"}, {"button_id": "2", "found_inside": "CA 1"}]
    (told,) = findings(*rows, whole=True).itertuples()
    assert told.problem.startswith("This was read as button 1, though CA in it may be part of")
    assert told.level == "to confirm"


def test_numbers_taken_out_of_what_a_button_contains_are_told_too(csv_file):
    rows = '1,"3, tray 9"\n2,CA 4\n3,\n4,\n5,"6; 7"\n6,\n7,\n'
    told = bs.load_survey(csv_file(f"No,Contains\n{rows}")).problems
    apart = told[told["kind"] == "found-inside-part"]
    assert apart["row"].tolist() == [2, 3]
    assert apart["column"].tolist() == ["B: Contains"] * 2


YEARS = [
    ((1820, 1840), (1800, 1819), ["found-inside-date"]),
    ((1820, 1840), (1800, 1820), []),
    ((1820, 1840), (None, None), []),
]


@pytest.mark.parametrize(("inner", "outer", "kinds"), YEARS)
def test_the_outer_button_is_not_earlier_than_the_one_inside_it(findings, inner, outer, kinds):
    rows = pair(*({"year_from": start, "year_to": end} for start, end in (inner, outer)))
    assert [kind for kind, _ in findings(*rows)] == kinds


def test_the_outer_button_is_not_smaller(findings):
    told = findings(*pair({"diameter_mm": 19}, {"diameter_mm": 16}), whole=True)
    assert told["problem"][0].startswith(
        "Button A1 has 16 mm, and the button found inside it, A2, 19 mm."
    )
    assert findings(*pair({"diameter_mm": 15}, {"diameter_mm": 16})) == []


TURNED = "Perhaps they are the wrong way round: if A1 was found inside A2, write A2 in the row of "
TURNED += "A1 and nothing here."
FACTS = [
    ({"year_from": 1820}, {"year_to": 1819}, [True]),
    ({"diameter_mm": 19}, {"diameter_mm": 16}, [True]),
    ({"year_from": 1820, "diameter_mm": 19}, {"year_to": 1819, "diameter_mm": 16}, [True, True]),
    ({"year_from": 1820, "diameter_mm": 12}, {"year_to": 1819, "diameter_mm": 16}, [False]),
    ({"year_to": 1790, "diameter_mm": 19}, {"year_from": 1819, "diameter_mm": 16}, [False]),
]


@pytest.mark.parametrize(("inner", "outer", "turned"), FACTS)
def test_two_the_wrong_way_round_are_told_with_the_right_row(findings, inner, outer, turned):
    told = findings(*pair(inner, outer), whole=True)["problem"]
    assert [TURNED in one for one in told] == turned


CONTAINED = [
    ("B2", "", ["B1"], []),
    ("an older one, no. B2", "", ["B1"], []),
    ("none", "", [None], []),
    ("B2", "B1", ["B1"], []),
    ("B7", "", [None], ["found-inside-unknown"]),
    ("2 layers of silk", "", [None], ["found-inside-unknown"]),
    ("B2", "B3", ["B3"], ["found-inside-unsure"]),
]


@pytest.mark.parametrize(("contains", "inside", "outer", "kinds"), CONTAINED)
def test_a_column_of_what_a_button_contains_is_read_the_right_way_round(
    csv_file, contains, inside, outer, kinds
):
    rows = f'B1,20,"{contains}",\nB2,15,,{inside}\nB3,22,,\n2,10,,\n'
    survey = bs.load_survey(csv_file(f"No,Diam (mm),Contains button,Found inside\n{rows}"))
    found = survey.buttons["found_inside"].astype(object)
    assert [None if one is None or one != one else one for one in found] == [
        None,
        *outer,
        None,
        None,
    ]
    assert survey.buttons["contains_wording"][0] == contains
    assert survey.problems["kind"].tolist() == kinds
    assert set(survey.problems["column"]) <= {"C: Contains button"}


def test_without_a_column_of_its_own_the_link_is_written_all_the_same(csv_file):
    survey = bs.load_survey(csv_file("No,Diam (mm),Inside it\nB1,20,B2\nB2,15,\nB3,22,\n"))
    assert survey.buttons["found_inside"][1] == "B1"
    assert survey.buttons["found_inside_wording"][1] == "B1"
