"""The mould's hole: its kind and its size are told apart, and "none" among sizes is no hole.

What the wordings mean is common practice, no source.
"""

import datetime as dt

import pandas as pd
import pytest

import buttonstudy as bs
from buttonstudy.readings.terms.reading import read_terms
from buttonstudy.schemes import vocabulary
from buttonstudy.survey.wordings import wordings_read

SIZED = ['3/32"', "1/8 in", "no", "none", ""]


@pytest.fixture
def load(tmp_path):
    def write(headings, *rows):
        path = tmp_path / "holes.csv"
        frame = pd.DataFrame(rows, columns=headings.split(","))
        frame.to_csv(path, index=False, encoding="utf-8")
        return bs.load_survey(path)

    return write


def numbered(cells):
    return [(f"B{number}", cell) for number, cell in enumerate(cells)]


def test_a_hole_column_that_is_mostly_sizes_is_the_holes_diameter(load):
    survey = load("No,Hole", *numbered(SIZED))
    assert survey.columns["field"].tolist() == ["button_id", "hole_diameter"]
    assert survey.buttons["hole_diameter_mm"].round(2).tolist()[:2] == [2.38, 3.18]
    holes = survey.buttons["mould_hole"].astype(object).where(survey.buttons["mould_hole"].notna())
    assert holes.tolist()[2:4] == ["absent", "absent"]
    assert holes.isna().tolist() == [True, True, False, False, True]
    assert "size-not-read" not in survey.problems["kind"].tolist()


def test_a_hole_column_of_bare_decimals_asks_for_the_unit(load):
    survey = load("No,Hole", *numbered(["2.5", "3", "3.5"]))
    assert survey.columns["field"].tolist()[1] == "hole_diameter"
    assert survey.problems["kind"].tolist().count("size-no-unit") == 3


def test_a_size_in_a_column_of_kinds_is_told_and_never_a_number_of_holes(load):
    survey = load("No,Hole", *numbered(["pierced", "yes", "2", '3/32"']))
    assert survey.columns["field"].tolist()[1] == "mould_hole"
    assert survey.buttons["mould_hole"].tolist()[:3] == ["pierced", "pierced", "several holes"]
    assert pd.isna(survey.buttons["mould_hole"][3])
    (told,) = survey.problems.query("kind == 'term-hole-size'").itertuples()
    assert (told.row, told.level) == (5, "not read")
    assert "a column named Hole diameter" in told.what_to_do


BESIDE = [
    ("pierced 2 mm", "pierced", "2 mm"),
    ('2 holes 1/16"', "several holes", '1/16"'),
    ("pierced, 2.5", "pierced", "2.5"),
    ("none, 2 mm", "absent", "2 mm"),
]


@pytest.mark.parametrize(("cell", "kind", "size"), BESIDE)
def test_a_size_beside_the_kind_of_hole_is_told_as_passed_over(load, cell, kind, size):
    survey = load("No,Hole", *numbered(["pierced", "yes", "pierced", cell]))
    assert survey.buttons["mould_hole"].tolist()[3] == kind
    (told,) = survey.problems.itertuples()
    assert (told.kind, told.level, told.row) == ("term-size-beside", "to confirm", 5)
    assert told.problem.startswith(f'"{size}" is the hole\'s size and was passed over')
    assert read_terms(cell, "mould_hole", vocabulary()).passed == (size,)


@pytest.mark.parametrize("heading", ["Hole", "Mould hole", "Central hole"])
def test_any_heading_of_the_hole_may_head_its_diameters(load, heading):
    survey = load(f"No,{heading}", *numbered(SIZED))
    assert survey.columns["field"].tolist() == ["button_id", "hole_diameter"]


def test_sizes_stay_where_a_column_of_diameters_is_there_already(load):
    survey = load("No,Hole,Hole (mm)", ("B1", "2 mm", "2"), ("B2", "3 mm", "3"))
    assert survey.columns["field"].tolist() == ["button_id", "mould_hole", "hole_diameter"]
    assert survey.problems["kind"].tolist() == ["term-hole-size"] * 2


@pytest.mark.parametrize("dates", [["2026-08-01", "2026-03-16"], ["8-Jan", "16-Mar"]])
def test_fractions_that_became_dates_are_sizes_of_a_hole(load, dates):
    survey = load("No,Hole", *numbered([*dates, "1/8 in", "none"]))
    assert survey.columns["field"].tolist()[1] == "hole_diameter"
    assert survey.buttons["mould_hole"].dropna().tolist() == ["absent"]
    assert survey.problems["kind"].tolist().count("fraction-became-date") == 2


def test_a_date_cell_is_a_size_of_a_hole(xlsx):
    day = dt.date(2026, 8, 1)
    rows = [["No", "Hole"], ["B1", day], ["B2", "none"]]
    survey = bs.load_survey(xlsx({"Holes": rows}, formats={(1, 1): "d-mmm"}))
    assert survey.columns["field"].tolist()[1] == "hole_diameter"
    assert "fraction-became-date" in survey.problems["kind"].tolist()


def test_a_date_among_kinds_of_holes_is_told_and_never_a_term(load):
    survey = load("No,Hole", *numbered(["pierced", "yes", "2026-08-01", "8-Jan"]))
    assert survey.buttons["mould_hole"].dropna().tolist() == ["pierced", "pierced"]
    assert survey.problems["kind"].tolist() == ["term-hole-date"] * 2
    assert survey.problems["level"].tolist() == ["not read"] * 2


@pytest.mark.parametrize("two", ["2.0", "2,0", "2"])
def test_whole_numbers_with_noughts_are_counts_of_holes(load, two):
    survey = load("No,Hole", *numbered(["2", "4", two, "4"]))
    assert survey.columns["field"].tolist()[1] == "mould_hole"
    assert survey.buttons["mould_hole"].tolist() == ["several holes"] * 4
    assert survey.problems.empty


def test_whole_numbers_with_noughts_beside_broken_ones_are_sizes(load):
    survey = load("No,Hole", *numbered(["2.0", "3.0", "2.5"]))
    assert survey.columns["field"].tolist()[1] == "hole_diameter"


NO_HOLE = ["none", "absent", "no hole", "None", "solid"]


@pytest.mark.parametrize("words", NO_HOLE)
def test_no_hole_among_diameters_is_a_mould_without_a_hole(load, words):
    survey = load("No,Hole (mm)", ("B1", "2"), ("B2", words))
    assert pd.isna(survey.buttons["mould_hole"][0])
    assert survey.buttons["mould_hole"][1] == "absent"
    assert survey.buttons["mould_hole_wording"][1] == words
    assert survey.problems.empty


@pytest.mark.parametrize("words", ["-", "not opened", "unclear", "0"])
def test_other_blanks_among_diameters_say_nothing_of_the_hole(load, words):
    survey = load("No,Hole (mm)", ("B1", "2"), ("B2", words))
    assert survey.buttons["mould_hole"].isna().all()


def test_the_record_of_the_hole_itself_goes_before_its_diameter(load):
    rows = [("B1", "none", "yes"), ("B2", "none", ""), ("B3", "2", "yes"), ("B4", "none", "?")]
    survey = load("No,Hole (mm),Mould hole", *rows)
    assert survey.buttons["mould_hole"].tolist() == ["pierced", "absent", "pierced", "unclear"]
    (told,) = survey.problems.itertuples()
    assert (told.row, told.column, told.wording) == (2, "B: Hole (mm)", "none")
    assert (told.kind, told.level) == ("hole-without-diameter", "to confirm")
    assert "noted as pierced" in told.problem


def test_no_diameter_of_an_unopened_button_is_not_examined(load):
    survey = load("No,Hole (mm),Opened", ("B1", "none", "no"), ("B2", "none", ""), ("B3", "2", "y"))
    assert survey.buttons["mould_hole"].tolist()[:2] == ["not examined", "absent"]
    assert survey.problems.empty


def test_beside_a_list_of_materials_no_word_of_a_hole_counts_as_passed_over(load):
    survey = load("No,Medium,Hole (mm)", ("B1", "silk, wood", "no hole"), ("B2", "silk", "2"))
    told = wordings_read(survey.buttons, survey.columns, vocabulary())
    read = told[told["field"] == "mould_hole"][["read_as", "passed_over"]]
    assert read.to_numpy().tolist() == [["absent", ""]]
