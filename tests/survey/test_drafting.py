"""A drafted mapping file: reading with it is reading without, and corrections take effect."""

import csv
import itertools

import pandas as pd
import pytest

import buttonstudy as bs
from buttonstudy.publish.drafting import write_draft
from buttonstudy.publish.errors import CallError
from buttonstudy.study.evidence.sets import set_keys
from buttonstudy.survey.drafting import DRAFT_COLUMNS, draft_mapping

ABOUT_HEADINGS = {"heading-unknown", "heading-near", "heading-twice", "column-missing"}
GERMAN = "Knopf-Nr;Durchm. (mm);Höhe mm;Date;Notes;Kasten\nK1;16,5;5,5;1840;a;3\nK2;15;5;1850;b;3\n"


def drafted(survey, folder, paths=(), **corrected):
    """Write the draft, each heading named in `corrected` given those cells instead."""
    path = folder / "map.csv"
    write_draft(survey, paths, str(path))
    with path.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    for row in rows:
        row.update(corrected.get(row["heading"], {}))
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, DRAFT_COLUMNS)
        writer.writeheader()
        writer.writerows(rows)
    return path


def told(survey):
    return survey.problems[~survey.problems["kind"].isin(ABOUT_HEADINGS)].reset_index(drop=True)


def same(paths, folder):
    plain = bs.load_survey(paths)
    mapped = bs.load_survey(paths, mapping=drafted(plain, folder))
    pd.testing.assert_frame_equal(mapped.buttons, plain.buttons)
    pd.testing.assert_frame_equal(told(mapped), told(plain))
    assert not set(mapped.problems["kind"]) & {"heading-unknown", "heading-near"}
    named = mapped.columns[mapped.columns["heading"] != ""]
    first = named.drop_duplicates(["file", "sheet", "heading"])
    assert set(first["how"]) == {"mapping file"}


def test_the_demo_is_read_alike_with_its_draft(tmp_path):
    same("demo", tmp_path)


ODD = [
    ["No.", "Diam (mm)", "Diam (mm)", "Mold materal", "Shelf"],  # twice, near, unknown
    ["No.", "Size to nearest 1/16 in", "Mould", "Mould material", "=SUM(A1)"],  # step, claim
    ["No.", "Diam (mm)", "", "Mould", "-"],  # no heading
]


@pytest.mark.parametrize("headings", ODD)
def test_odd_headings_are_read_alike_with_their_draft(tmp_path, csv_file, headings):
    path = csv_file(",".join(headings) + "\n1,16,17,bone,left\n2,5/8,15,wood,right\n")
    same(path, tmp_path)


def test_headings_in_two_tiers_are_not_changed_by_another_files_map(tmp_path, xlsx, csv_file):
    tiers = xlsx(
        {"A": [["", "Mould", "Hole"], ["No.", "diam (mm)", "diam (mm)"], ["1", 12, 2]]},
        merge=(),
    )
    plain = csv_file("No.,diam (mm)\n2,16\n")
    same([tiers, plain], tmp_path)


def test_what_was_not_sure_is_marked_and_nothing_else(csv_file):
    survey = bs.load_survey(csv_file("No.,Mold materal,Mould material,Shelf\n1,bone,wood,left\n"))
    look = draft_mapping(survey.columns, survey.problems).set_index("heading")["look"]
    assert look["No."] == ""
    assert look["Mould material"] == ""
    assert look["Shelf"] == "not known: carried through as it stands"
    assert look["Mold materal"] != ""


def test_a_correction_takes_effect(tmp_path, csv_file):
    path = csv_file("No.,Size,Stuff\n1,24,silk\n2,16,wool\n")
    survey = bs.load_survey(path)
    assert survey.buttons["diameter_mm"].isna().all()
    mapping = drafted(
        survey,
        tmp_path,
        Size={"unit": "lines", "step": "2 lines"},
        Stuff={"field": "cover_material"},
    )
    buttons = bs.load_survey(path, mapping=mapping).buttons
    assert buttons["diameter_lines_low"].tolist() == pytest.approx([23, 15])
    assert buttons["cover_material"].tolist() == ["silk", "wool"]


def test_a_file_in_which_no_table_was_recognised_can_be_mapped(tmp_path, csv_file):
    path = csv_file("Fund aus der Truhe\n\nKennung;Maß;Stoff\n1;16;silk\n2;17;wool\n")
    survey = bs.load_survey(path)
    assert survey.buttons.empty
    mapping = drafted(
        survey,
        tmp_path,
        [path],
        Kennung={"field": "button_id"},
        Maß={"field": "diameter", "unit": "mm"},
        Stoff={"field": "cover_material"},
    )
    rows = list(csv.DictReader(mapping.read_text(encoding="utf-8").splitlines()))
    assert [(row["heading"], row["column"], row["filled"]) for row in rows] == [
        ("Kennung", "A", "2"),
        ("Maß", "B", "2"),
        ("Stoff", "C", "2"),
    ]
    assert all(row["look"].startswith("no table was recognised") for row in rows)
    buttons = bs.load_survey(path, mapping=mapping).buttons
    assert buttons["diameter_mm"].tolist() == [16, 17]
    assert buttons["cover_material"].tolist() == ["silk", "wool"]


def test_one_map_for_each_survey_may_stand_in_a_folder(tmp_path, csv_file):
    first = csv_file("No.,Stuff\n1,silk\n", name="a.csv")
    second = csv_file("No.,Stuff\n1,bone\n", name="b.csv")
    maps = tmp_path / "maps"
    maps.mkdir()
    for name, field in (("a.csv", "cover_material"), ("b.csv", "mould_material")):
        (maps / name).write_text(f"heading,field,file\nStuff,{field},{name}\n", encoding="utf-8")
    buttons = bs.load_survey([first, second], mapping=maps).buttons
    assert buttons["cover_material"].tolist()[0] == "silk"
    assert buttons["mould_material"].tolist()[1] == "bone"


def test_a_prefix_parts_the_numbers_of_two_surveys_and_links_stay_within_each(tmp_path, csv_file):
    text = "No.,Set,Diam (mm),Found inside\n1,s1,20,\n2,s1,15,inside 1\n"
    paths = [csv_file(text, name="a.csv"), csv_file(text, name="b.csv")]
    plain = bs.load_survey(paths)
    assert (plain.problems["kind"] == "id-in-two-files").sum() == 4
    assert plain.buttons["found_inside"].tolist()[1::2] == ["1", "1"]
    mapping = tmp_path / "map.csv"
    mapping.write_text("heading,field,file,prefix\nNo.,button_id,b.csv,B-\n", encoding="utf-8")
    survey = bs.load_survey(paths, mapping=mapping)
    assert "id-in-two-files" not in set(survey.problems["kind"])
    assert survey.buttons["button_id"].tolist() == ["1", "2", "B-1", "B-2"]
    assert survey.buttons["button_id_wording"].tolist() == ["1", "2", "1", "2"]
    assert survey.buttons["found_inside"].tolist()[1::2] == ["1", "B-1"]
    assert survey.buttons["found_inside_wording"].tolist()[1::2] == ["inside 1"] * 2
    assert set_keys(survey.buttons).nunique() == 2


def test_a_prefix_beside_another_field_is_refused(tmp_path, csv_file):
    mapping = csv_file("heading,field,prefix\nSize,diameter,X\n", name="map.csv")
    with pytest.raises(bs.schemes.SchemeError, match="row of the button number"):
        bs.load_survey(csv_file("No.,Size\n1,16 mm\n"), mapping=mapping)


def test_a_draft_never_goes_over_what_is_there(tmp_path, csv_file):
    survey = bs.load_survey(csv_file("No.,Diam (mm)\n1,16\n"))
    there = tmp_path / "there.csv"
    there.write_text("mine", encoding="utf-8")
    with pytest.raises(CallError, match="already there"):
        write_draft(survey, [], str(there))
    assert there.read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("order", list(itertools.permutations(range(3)))[::2])
def test_reading_with_a_map_does_not_depend_on_the_order_of_its_rows(tmp_path, csv_file, order):
    path = csv_file("No.,Stuff,Maß\n1,silk,16\n")
    rows = ["No.,button_id,", "Stuff,cover_material,", "Maß,diameter,mm"]
    text = "\n".join(["heading,field,unit", *(rows[at] for at in order)])
    buttons = bs.load_survey(path, mapping=csv_file(text, name="map.csv")).buttons
    assert buttons["cover_material"].tolist() == ["silk"]
    assert buttons["diameter_mm"].tolist() == [16]


def test_where_no_size_or_number_is_known_the_draft_guesses_from_the_cells(csv_file):
    survey = bs.load_survey(csv_file(GERMAN))
    draft = draft_mapping(survey.columns, survey.problems, survey.buttons).set_index("heading")
    assert draft["look"].to_dict() == {
        "Knopf-Nr": "not known: every cell differs; if it is the button number, write button_id",
        "Durchm. (mm)": "not known: sizes in mm; if this is the diameter, write diameter",
        "Höhe mm": "not known: sizes in mm; if this is the diameter, write diameter",
        "Date": "",
        "Notes": "",
        "Kasten": "not known, and no column was taken for the button number and none for the "
        "diameter: is it this?",
    }
    assert draft["unit"]["Durchm. (mm)"] == "mm"
    assert draft["field"]["Durchm. (mm)"] == "not used"  # a guess is not read with


def test_a_guessed_draft_is_read_alike_until_it_is_corrected(csv_file, tmp_path):
    path = csv_file(GERMAN)
    same(path, tmp_path)
    (tmp_path / "mended").mkdir()
    fields = {"Knopf-Nr": {"field": "button_id"}, "Durchm. (mm)": {"field": "diameter"}}
    survey = bs.load_survey(path)
    mapping = drafted(survey, tmp_path / "mended", [path], **fields)
    buttons = bs.load_survey(path, mapping=mapping).buttons
    assert buttons["button_id"].tolist() == ["K1", "K2"]
    assert buttons["diameter_mm"].tolist() == [16.5, 15]
