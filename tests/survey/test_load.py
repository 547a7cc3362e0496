"""Surveys loaded end to end: what the user gets from files of many kinds."""

import datetime as dt
import gc
import hashlib
import io
import zipfile
from pathlib import Path

import pandas as pd
import pytest

import buttonstudy as bs
from buttonstudy.schemes import SchemeError
from buttonstudy.survey.finish import record_columns
from buttonstudy.survey.headings import field_of, near_field
from buttonstudy.survey.load import demo_folder

HEADINGS = ["No.", "Diam (mm)", "Date", "Mould", "Opened"]


def kinds(survey):
    return set(survey.problems["kind"])


def one(survey, kind):
    found = survey.problems[survey.problems["kind"] == kind]
    assert len(found) == 1, survey.problems
    return found.iloc[0]


def test_a_record_keeps_its_place_its_values_and_its_wordings(xlsx):
    rows = [["Drawer list"], [], HEADINGS, ["B1", "15,9", "c. 1840", "bone and wood", "yes"]]
    survey = bs.load_survey(xlsx({"Survey": rows}))
    (record,) = survey.buttons.to_dict("records")
    assert (record["file"], record["sheet"], record["row"]) == ("survey.xlsx", "Survey", 4)
    assert record["diameter_mm"] == pytest.approx(15.9)
    assert (record["diameter_mm_low"], record["diameter_mm_high"]) == (15.85, 15.95)
    assert record["diameter_lines"] == pytest.approx(15.9 / 0.635)
    assert (record["year_from"], record["year_to"]) == (1835, 1845)
    assert record["mould_material"] == "bone; wood"
    assert record["opened"] == "opened"
    assert record["diameter_wording"] == "15,9"
    assert record["mould_material_wording"] == "bone and wood"
    assert list(survey.columns["field"]) == [
        "button_id",
        "diameter",
        "date",
        "mould_material",
        "opened",
    ]


def test_the_four_kinds_of_blank_stay_apart(csv_file):
    text = "No,Mould,Padding,Opened\n1,wood,none,yes\n2,,,no\n3,can't tell,not examined,yes\n4,,,\n"
    buttons = bs.load_survey(csv_file(text)).buttons
    assert buttons["padding"].tolist()[:3] == ["absent", "not examined", "not examined"]
    assert buttons["mould_material"].tolist()[:3] == ["wood", "not examined", "unclear"]
    assert pd.isna(buttons["padding"][3])
    assert pd.isna(buttons["mould_material"][3])


def test_inside_features_without_a_column_were_not_examined_on_unopened_buttons(csv_file):
    buttons = bs.load_survey(csv_file("No,Diam (mm),Opened\n1,16,no\n2,17,yes\n")).buttons
    assert buttons["hole_fill"][0] == "not examined"
    assert pd.isna(buttons["hole_fill"][1])
    assert buttons["cover_layers_state"][0] == "not examined"


def test_several_readings_that_overlap_agree(csv_file):
    # 5/8 in, 16 mm and 26 lines are one size in the trade (common practice, no source).
    text = "No,Diam (mm),Diam (in),Size [L]\n1,16,5/8,26\n2,16,7/8,26\n3,16,,\n"
    survey = bs.load_survey(csv_file(text))
    assert survey.buttons["sizes_agree"].tolist()[:2] == [True, False]
    assert pd.isna(survey.buttons["sizes_agree"][2])
    told = one(survey, "sizes-disagree")
    assert told["row"] == 3
    assert "20.64 to 23.81 mm (written in inches)" in told["problem"]
    assert survey.buttons["diameter_wording"][1] == (
        "B: Diam (mm): 16 | C: Diam (in): 7/8 | D: Size [L]: 26"
    )


def test_a_covered_buttons_trade_size_is_its_moulds(csv_file):
    text = "No,Diam (mm),Mould diam (mm)\n1,16.5,15.2\n2,15.2,\n"
    buttons = bs.load_survey(csv_file(text)).buttons
    assert buttons["trade_lines"].tolist() == ["24", "24"]
    assert buttons["trade_lines_from"].tolist() == ["mould", "finished button"]


def test_exactly_at_a_limit_is_still_the_smaller_class(csv_file):
    # "not over 3/8 in": US National Button Society's limits as forum posts describe them.
    text = "No,Diam (mm)\n1,9.525\n2,9.526\n3,31.750\n4,31.751\n5,9.5\n"
    buttons = bs.load_survey(csv_file(text)).buttons
    assert buttons["size_class"].tolist() == [
        "diminutive",
        "small",
        "medium",
        "large",
        "diminutive",
    ]
    assert buttons["size_class_borderline"].tolist() == [True, False, True, False, True]
    assert buttons["size_class"].cat.ordered


def test_a_fraction_that_became_a_date_is_read_back_and_marked(xlsx):
    rows = [["No.", "Size (ins)"], ["1", dt.date(2026, 8, 5)], ["2", dt.date(2016, 9, 1)]]
    path = xlsx({"A": rows}, formats={(1, 1): "d-mmm", (2, 1): "mmm-yy"})
    survey = bs.load_survey(path)
    assert survey.buttons["diameter_mm"].tolist() == pytest.approx([15.875, 14.2875])
    told = survey.problems[survey.problems["kind"] == "fraction-became-date"]
    assert told["row"].tolist() == [2, 3]
    assert told["wording"].tolist() == ["5-Aug", "Sep-16"]
    assert set(told["level"]) == {"to confirm"}


def test_a_unit_or_fraction_that_only_the_number_format_shows_is_read(xlsx):
    rows = [["No.", "Diam"], ["1", 16], ["2", 0.625], ["3", 17]]
    path = xlsx({"A": rows}, formats={(1, 1): '0" mm"', (2, 1): '# ?/?" in"'})
    survey = bs.load_survey(path)
    assert survey.buttons["diameter_mm"].tolist()[:2] == pytest.approx([16.0, 15.875])
    assert pd.isna(survey.buttons["diameter_mm"][2])
    assert one(survey, "size-no-unit")["row"] == 4


@pytest.mark.parametrize(
    ("size", "kind"),
    [("24", "size-no-unit"), ("0 mm", "size-zero"), ("-5 mm", "size-negative")],
)
def test_a_size_that_cannot_be_read_is_told_and_never_guessed(csv_file, size, kind):
    survey = bs.load_survey(csv_file(f"No,Diam\n1,{size}\n2,16 mm\n"))
    told = one(survey, kind)
    assert (told["row"], told["column"], told["wording"]) == (2, "B: Diam", size)
    assert told["level"] == "not read"
    assert told["what_to_do"]
    assert pd.isna(survey.buttons["diameter_mm"][0])
    assert survey.buttons["diameter_mm"][1] == 16


def test_ids_twice_are_told_at_both_places(csv_file):
    first = csv_file("No,Diam (mm)\n7,16\n7,17\n", name="a.csv")
    second = csv_file("No,Diam (mm)\n9,16\n", name="b.csv")
    third = csv_file("No,Diam (mm)\n9,15\n", name="c.csv")
    survey = bs.load_survey([first, second, third])
    told = survey.problems.set_index(["file", "row"])["problem"]
    assert told["a.csv", 2].startswith("Button number 7 stands also in a.csv, row 3. ")
    assert told["b.csv", 2].startswith("Button number 9 stands also in c.csv, row 2. ")
    assert kinds(survey) == {"id-twice", "id-in-two-files"}


def test_unknown_columns_are_carried_through_and_told(csv_file):
    survey = bs.load_survey(csv_file("No,Diam (mm),Drawer,row\n1,16,left,x\n"))
    assert survey.buttons["Drawer"].tolist() == ["left"]
    assert survey.buttons["row (as written)"].tolist() == ["x"]
    told = survey.problems[survey.problems["kind"] == "heading-unknown"]
    assert told["wording"].tolist() == ["Drawer", "row"]


NOT_HEADINGS = sorted(
    name for name in record_columns() if not field_of(name)[0] and not near_field(name)
)


def test_python_looks_for_dead_objects_again_after_loading_or_failing(csv_file):
    bs.load_survey(csv_file("No,Diam (mm)\n1,16\n"))
    assert gc.isenabled()
    with pytest.raises(SchemeError):
        bs.load_survey([])
    assert gc.isenabled()


def test_the_records_own_columns_are_those_that_every_survey_has(csv_file):
    assert set(bs.load_survey(csv_file("No,Diam (mm)\n1,16\n")).buttons) == record_columns()


@pytest.mark.parametrize("name", NOT_HEADINGS)
def test_a_carried_column_never_takes_a_record_columns_place(csv_file, name):
    before = bs.load_survey(csv_file("No,Diam (mm)\n1,16\n")).buttons
    survey = bs.load_survey(csv_file(f"No,Diam (mm),{name}\n1,16,left over\n"))
    assert survey.buttons[f"{name} (as written)"].tolist() == ["left over"]
    pd.testing.assert_frame_equal(survey.buttons[before.columns], before)


def test_a_stray_cell_far_away_is_told_and_the_other_sheet_still_loads(tmp_path):
    import xlsxwriter

    path = tmp_path / "stray.xlsx"
    with xlsxwriter.Workbook(path, {"constant_memory": True}) as book:
        stray, good = book.add_worksheet("Stray"), book.add_worksheet("Good")
        for sheet in (stray, good):
            sheet.write_row(0, 0, ["No.", "Diam (mm)"])
            sheet.write_row(1, 0, ["1", 16])
        stray.write(1_048_575, 16_383, "x")
    survey = bs.load_survey(path)
    told = one(survey, "sheet-too-large")
    assert told["sheet"] == "Stray"
    assert "reaches to row 1,048,576 and column XFD" in told["problem"]
    assert survey.buttons["sheet"].tolist() == ["Good"]


def test_the_heading_that_holds_the_same_unit_is_named(csv_file):
    survey = bs.load_survey(csv_file("No,Diam (mm),Diam (in),Diameter (in)\n1,16,5/8,5/8\n"))
    told = one(survey, "heading-twice")["problem"]
    assert told.startswith('The headings "Diam (in)" (column C) and "Diameter (in)" (column D)')


def test_two_headings_for_one_field_are_told(csv_file):
    survey = bs.load_survey(csv_file("No,Mould,Mould material\n1,wood,bone\n"))
    assert survey.buttons["mould_material"].tolist() == ["wood"]
    assert survey.buttons["Mould material"].tolist() == ["bone"]
    assert "both mean mould material" in one(survey, "heading-twice")["problem"]


def test_remarks_and_titles_are_kept_among_the_problems_not_the_records(csv_file):
    text = "A list of mine\n\nNo,Diam (mm),Date,Mould\n1,16,1850,wood\n\nmeasured wet\nTotal,1,,\n"
    survey = bs.load_survey(csv_file(text))
    assert len(survey.buttons) == 1
    assert survey.problems["wording"].tolist() == ["A list of mine", "measured wet", "Total | 1"]
    assert set(survey.problems["level"]) == {"for information"}


def test_a_mapping_file_says_what_a_heading_means(csv_file):
    survey_file = csv_file("Kennung;Maß;Stoff\nB1;16;Seide\n", encoding="cp1252")
    mapping = csv_file(
        "heading,field,unit,step\nKennung,button_id,,\nMaß,diameter,mm,0.5 mm\n"
        "Stoff,cover_material,,\n",
        name="mapping.csv",
    )
    survey = bs.load_survey(survey_file, mapping=mapping)
    assert survey.buttons["button_id"].tolist() == ["B1"]
    assert survey.buttons["diameter_mm_low"].tolist() == [15.75]
    assert survey.columns["how"].tolist() == ["mapping file"] * 3
    assert survey.sources["form"].tolist() == ["text, Windows-1252, semicolon"]


def test_a_mapping_file_with_a_wrong_field_is_refused_with_its_place(csv_file):
    mapping = csv_file("heading,field\nSize,girth\n", name="mapping.csv")
    with pytest.raises(SchemeError, match=r'row 2, column field: "girth" is not a field'):
        bs.load_survey(csv_file("No,Diam (mm)\n1,16\n"), mapping=mapping)


def _packed(part, content=b""):
    """Pack one part as documents are packed; ECMA-376 names that of a Word document."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        archive.writestr(part, content)
    return packed.getvalue()


def _odf(kind):
    """Pack a document's media type as ODF 1.3, part 2, section 3.3 has it."""
    return _packed("mimetype", f"application/vnd.oasis.opendocument.{kind}".encode())


BAD = [
    ("missing.xlsx", None, "file-missing", "There is no such file."),
    ("empty.csv", b"", "file-empty", "This file is empty."),
    ("broken.xlsx", b"PK\x03\x04 no workbook at all", "file-damaged", "This workbook is damaged"),
    ("noise.csv", bytes(range(256)) * 50, "not-a-table", "neither a spreadsheet nor text"),
    ("headings.csv", b"No,Diam (mm),Date\n", "no-rows", "headings but no rows"),
    ("letter.xlsx", _packed("word/document.xml"), "no-spreadsheet", "a text or other office"),
    ("talk.xlsx", _packed("ppt/presentation.xml"), "no-spreadsheet", "a text or other office"),
    ("letter.ods", _odf("text"), "no-spreadsheet", "This is a text or other office document"),
    ("letter.ods", _odf("text-template"), "no-spreadsheet", "This is a text or other office"),
    ("broken.ods", _odf("spreadsheet"), "file-damaged", "This workbook is damaged"),
    ("paper.csv", b"%PDF-1.7\n", "no-spreadsheet", "This is a PDF file"),
    ("letter.csv", b"Dear Ann,\nthe buttons came,\n", "no-headings", "No row of headings"),
]


@pytest.mark.parametrize(("name", "data", "kind", "says"), BAD)
def test_a_bad_file_is_told_and_a_good_one_beside_it_still_loads(
    csv_file, tmp_path, name, data, kind, says
):
    good = csv_file("No,Diam (mm)\n1,16\n", name="good.csv")
    bad = tmp_path / name if data is None else csv_file(data, name=name)
    survey = bs.load_survey([bad, good])
    assert len(survey.buttons) == 1
    told = survey.problems[survey.problems["kind"] == kind].iloc[0]
    assert told["file"] == name
    assert says in told["problem"]
    assert told["level"] == "not read"
    assert told["what_to_do"]


MISNAMED = [
    (bytes(range(256)) * 50, "not-a-table"),
    (b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n\x00\x01\x80\xff", "no-spreadsheet"),
    (b"", "file-empty"),
]


@pytest.mark.parametrize(("data", "kind"), MISNAMED)
def test_a_file_that_is_no_table_is_not_said_to_have_been_read_as_one(csv_file, data, kind):
    survey = bs.load_survey(csv_file(data, name="noise.xlsx"))
    assert kinds(survey) == {kind}


def test_a_text_about_the_folder_is_left_out_and_told_unless_it_is_named(tmp_path):
    (tmp_path / "ours.csv").write_text("No,Diam (mm)\n1,16\n", encoding="utf-8")
    about = tmp_path / "Read me.txt"
    about.write_text("No,Diam (mm)\n7,20\n", encoding="utf-8")
    survey = bs.load_survey(tmp_path)
    assert survey.buttons["file"].tolist() == survey.sources["file"].tolist() == ["ours.csv"]
    assert (one(survey, "file-left-out").file, len(survey.problems)) == ("Read me.txt", 1)
    named = bs.load_survey([tmp_path, about])
    assert sorted(named.buttons["button_id"]) == ["1", "7"]
    assert named.problems.empty


def test_folders_without_a_survey_file_are_told(tmp_path):
    (tmp_path / "nothing-here").mkdir()
    with pytest.raises(SchemeError, match=r"^There is no survey file in .*nothing-here\.$"):
        bs.load_survey(tmp_path / "nothing-here")


def test_a_workbook_protected_by_a_password_is_told(csv_file):
    # An encrypted .xlsx is a compound file (MS-OFFCRYPTO) with a stream of this name.
    data = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600) + "EncryptedPackage".encode("utf-16-le")
    survey = bs.load_survey(csv_file(data, name="locked.xlsx"))
    assert "password" in one(survey, "password")["problem"]


def test_a_wrong_extension_is_read_by_its_content(csv_file, xlsx):
    text = csv_file("No,Diam (mm)\n1,16\n", name="really-text.xlsx")
    book = xlsx({"A": [["No.", "Diam (mm)"], ["2", 17]]}, name="really-a-workbook.csv")
    survey = bs.load_survey([text, book])
    assert survey.buttons["button_id"].tolist() == ["1", "2"]
    assert kinds(survey) == {"wrong-extension"}


def test_an_empty_survey_still_has_every_column():
    survey = bs.load_survey("nowhere.csv")
    full = bs.load_survey("demo")
    assert len(survey.buttons) == 0
    known = [name for name in full.buttons.columns if name != "Drawer"]
    assert list(survey.buttons.columns) == known
    same = survey.buttons.dtypes == full.buttons[known].dtypes
    plain = ~survey.buttons.dtypes.astype(str).eq("category")
    assert same[plain].all()


def test_the_users_files_are_not_written_to():
    before = {
        path: hashlib.sha256(path.read_bytes()).hexdigest() for path in demo_folder().iterdir()
    }
    survey = bs.load_survey("demo")
    after = {
        path: hashlib.sha256(path.read_bytes()).hexdigest() for path in demo_folder().iterdir()
    }
    assert before == after
    assert set(survey.sources["sha256"]) <= set(after.values())


def truth():
    return pd.read_csv(Path(demo_folder()).parent / "truth.csv", dtype={"sheet": "str"})


def test_the_demo_is_read_as_it_was_made():
    survey = bs.load_survey("demo")
    known = truth()
    known["sheet"] = known["sheet"].fillna("")
    both = survey.buttons.merge(known, on=["file", "sheet", "row"], suffixes=("", "_true"))
    assert len(both) == len(survey.buttons) == len(known) == 400
    planted = pd.read_csv(demo_folder().parent / "planted_problems.csv")
    wrong = set(zip(planted["file"], planted["row"]))
    fair = both[[(f, r) not in wrong for f, r in zip(both["file"], both["row"])]]
    inside = (fair["year_from"] <= fair["year"]) & (fair["year"] <= fair["year_to"])
    assert inside[fair["year_from"].notna()].all()
    size = "diameter_mm_true"
    within = fair[size].between(fair["diameter_mm_low"] - 0.3, fair["diameter_mm_high"] + 0.3)
    assert within[fair["diameter_mm"].notna()].mean() > 0.97


def test_no_fill_in_a_mould_without_a_hole_is_nothing_to_fill(tmp_path):
    path = tmp_path / "holes.csv"
    path.write_text(
        "No.,Mould,Hole in mould,Hole fill,Opened\n"
        "1,metal,no,none,yes\n2,bone,yes,none,yes\n3,bone,,none,yes\n",
        encoding="utf-8",
    )
    survey = bs.load_survey(path)
    assert survey.buttons["hole_fill"].to_list() == ["absent", "open", "open"]
    assert survey.buttons["hole_fill_wording"].to_list() == ["none"] * 3
    assert survey.problems.empty


def test_a_survey_sums_itself_up_in_one_line(csv_file, tmp_path):
    survey = bs.load_survey(csv_file("No,Diam (mm),Drawer\n1,16,A\n2,165,B\n"))
    assert repr(survey) == (
        "Survey: 2 records in 1 file; problems: 1 not read, 0 to confirm, 1 for information"
    )
    missing = bs.load_survey([tmp_path / "no-such-file.xlsx"])
    assert str(missing).startswith("Survey: 0 records in 1 file; problems: 1 not read, ")
