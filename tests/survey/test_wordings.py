"""What every wording was read as, in one table. The surveys are invented."""

import pandas as pd
import pytest

import buttonstudy as bs
from buttonstudy.schemes import vocabulary
from buttonstudy.survey.wordings import different_wordings, wordings_read

FIRST = """\
Button no.,Diameter,Date,Cover material,Layers,Opened,Padding,Notes
1,5/8 in,1840,silk,2,yes,wool,a remark
2,16 mm,c. 1840,slik,at least 2,no,,another
3,5/8 in,long ago,tinsel weave,up to 3,yes,wool of a ewe,a third
4,,1840,silk,1 or 2,not sure,-,
"""
SECOND = "Button no.,Diameter (in),Cover material\n5,5/8,slik\n6,5/8 in,silk\n"


@pytest.fixture
def told(tmp_path):
    (tmp_path / "first.csv").write_text(FIRST)
    (tmp_path / "second.csv").write_text(SECOND)
    survey = bs.load_survey(tmp_path)
    return wordings_read(survey.buttons, survey.columns, vocabulary())


def rows(told, field, columns=("wording", "read_as", "records")):
    return [tuple(row) for row in told.loc[told["field"] == field, list(columns)].to_numpy()]


def test_wordings_read_alike_stand_together_the_commonest_first(told):
    assert rows(told, "cover_material") == [
        ("tinsel weave", "metal thread", 1),
        ("silk", "silk", 3),
        ("slik", "silk", 2),
    ]


def test_each_wording_has_the_place_where_it_stands_first(told):
    places = rows(told, "cover_material", ("wording", "first_file", "first_sheet", "first_row"))
    assert ("slik", "first.csv", "", 3) in places
    assert ("5/8", "second.csv", "", 2) in rows(
        told, "diameter", ("wording", "first_file", "first_sheet", "first_row")
    )


def test_sizes_dates_and_counts_are_told_as_what_they_leave_open(told):
    # 5/8 in to the eighth: 9/16 to 11/16 in, an inch being 25.4 mm (international inch, 1959).
    assert rows(told, "diameter") == [
        ("5/8 in", "14.29 to 17.46 mm", 3),
        ("5/8", "14.29 to 17.46 mm", 1),
        ("16 mm", "15.50 to 16.50 mm", 1),
    ]
    assert rows(told, "date") == [
        ("long ago", "", 1),
        ("c. 1840", "1835 to 1845", 1),
        ("1840", "1840", 2),
    ]
    assert rows(told, "cover_layers") == [
        ("up to 3", "0 to 3", 1),
        ("1 or 2", "1 to 2", 1),
        ("at least 2", "2 or more", 1),
        ("2", "2", 1),
    ]


def test_words_passed_over_are_told(told):
    assert rows(told, "padding", ("wording", "read_as", "passed_over")) == [
        ("-", "", ""),
        ("wool", "wool", ""),
        ("wool of a ewe", "wool", "ewe"),
    ]


def test_words_for_other_features_are_told_as_passed_over(tmp_path):
    path = tmp_path / "ours.csv"
    path.write_text("No,Diam (mm),Cover\n1,16,silk & spangles\n2,16,Black silk\n")
    survey = bs.load_survey(path)
    told = wordings_read(survey.buttons, survey.columns, vocabulary())
    passed = told[told["field"] == "cover_material"]["passed_over"]
    assert passed.tolist() == ["spangles", "Black"]
    assert survey.problems.empty


def test_text_that_is_kept_as_it_is_and_empty_cells_are_left_out(told):
    assert not {"button_id", "notes", "set_id", "hole_fill"} & set(told["field"])
    assert len(rows(told, "padding")) == 3


def test_all_wordings_are_counted_without_reading_them_again(tmp_path, told):
    survey = bs.load_survey(tmp_path)
    assert different_wordings(survey.buttons, survey.columns) == len(told)


def test_a_list_of_materials_is_told_for_each_field_with_the_pieces_that_name_nothing(tmp_path):
    (tmp_path / "museum.csv").write_text('Button no.,Medium\n1,"Silk, gritstone, wood"\n')
    survey = bs.load_survey(tmp_path / "museum.csv")
    told = wordings_read(survey.buttons, survey.columns, vocabulary())
    columns = ("field", "read_as", "passed_over")
    assert [tuple(row) for row in told[list(columns)].to_numpy()] == [
        ("mould_material", "wood", "gritstone"),
        ("cover_material", "silk", "gritstone"),
    ]


def test_a_column_of_its_own_goes_before_a_list_of_materials(tmp_path):
    rows = 'Button no.,Medium,Mould material\n1,"Silk, gritstone",wood of ewes\n'
    (tmp_path / "museum.csv").write_text(rows)
    survey = bs.load_survey(tmp_path / "museum.csv")
    told = wordings_read(survey.buttons, survey.columns, vocabulary())
    assert told.set_index("field")["passed_over"].to_dict() == {
        "mould_material": "ewes",
        "cover_material": "gritstone",
    }


def read(path):
    survey = bs.load_survey(path)
    told = wordings_read(survey.buttons, survey.columns, vocabulary())
    assert different_wordings(survey.buttons, survey.columns) == len(told)
    return told


def test_a_list_of_materials_of_which_nothing_is_known_is_told_as_read_as_nothing(csv_file):
    lists = '1,"Silk, wood"\n2,glorp zork\n3,"glorp zork"\n4,\n5,"Gritstone, glorp"\n'
    told = read(csv_file(f"Button no.,Medium\n{lists}"))
    columns = ("wording", "read_as", "passed_over", "records", "first_row")
    assert rows(told, "medium", columns) == [
        ("glorp zork", "", "glorp zork", 2, 3),
        ("Gritstone, glorp", "", "Gritstone … glorp", 1, 6),
    ]


def test_each_column_of_a_size_has_its_wordings_for_itself(csv_file):
    sizes = "1,16,5/8\n2,16,5/8\n3,17,\n"
    told = read(csv_file(f"No,Diam (mm),Diam (in)\n{sizes}"))
    assert rows(told, "diameter", ("wording", "read_as", "records", "first_row")) == [
        ("B: Diam (mm): 16", "15.50 to 16.50 mm", 2, 2),
        ("C: Diam (in): 5/8", "15.50 to 16.50 mm", 2, 2),
        ("B: Diam (mm): 17", "16.50 to 17.50 mm", 1, 4),
    ]


def test_both_ends_of_a_date_have_their_wordings_for_themselves(csv_file):
    told = read(csv_file("No,Diam (mm),Date from,Date to\n1,16,1840,1850\n2,16,1840,1850\n"))
    assert rows(told, "date") == [
        ("C: Date from: 1840", "1840 to 1850", 2),
        ("D: Date to: 1850", "1840 to 1850", 2),
    ]


def test_words_passed_over_are_judged_by_the_sheet_in_which_they_stand(xlsx):
    listed = [["Button no.", "Medium"], ["1", "wood of ewes"]]
    own = [["Button no.", "Mould material"], ["2", "wood of ewes"]]
    survey = bs.load_survey(xlsx({"Own": own, "Listed": listed}))
    told = wordings_read(survey.buttons, survey.columns, vocabulary())
    columns = ("wording", "read_as", "passed_over", "records", "first_sheet")
    assert rows(told, "mould_material", columns) == [
        ("wood of ewes", "wood", "ewes", 1, "Own"),
        ("wood of ewes", "wood", "", 1, "Listed"),
    ]


def test_a_survey_without_records_has_no_wordings(tmp_path):
    survey = bs.load_survey(tmp_path / "missing.csv")
    told = wordings_read(survey.buttons, survey.columns, vocabulary())
    assert told.empty
    assert "passed_over" in told


def test_every_record_of_the_demo_is_counted_once_in_each_of_a_fields_columns():
    survey = bs.load_survey("demo")
    told = wordings_read(survey.buttons, survey.columns, vocabulary())
    for field, number in told.groupby("field")["records"].sum().items():
        joined = survey.buttons[f"{field}_wording"].dropna().str.count(r" \| ")
        assert number == (joined + 1).sum()
    pd.testing.assert_series_equal(
        told["passed_over"], pd.Series([""] * len(told), name="passed_over"), check_dtype=False
    )
