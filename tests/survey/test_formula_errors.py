"""Checks that cells whose formula came to nothing are told and not taken for blank."""

from pathlib import Path

import pandas as pd
import xlsxwriter

from buttonstudy.survey.beside import look_beside
from buttonstudy.survey.load import load_survey


def workbook(path: Path) -> Path:
    book = xlsxwriter.Workbook(path)
    book.add_worksheet("Empty")
    sheet = book.add_worksheet("Buttons & more")
    sheet.write_row(2, 1, ["Button no.", "Diameter (mm)", "Mould material", "Notes"])
    sheet.write_row(3, 1, ["A1", "", "wood", "kept"])
    sheet.write_formula(3, 2, "=1/0", None, "#DIV/0!")
    sheet.write_row(4, 1, ["A2", "", "", ""])
    sheet.write_formula(4, 2, "=11+5", None, 16)
    sheet.write_formula(4, 3, "=NA()", None, "#N/A")
    sheet.write_formula(4, 4, "=nonsense", None, "#NAME?")
    book.close()
    return path


def test_each_is_found_at_its_place(tmp_path: Path) -> None:
    beside = look_beside(workbook(tmp_path / "a.xlsx").read_bytes())
    assert beside.errors == {
        "Buttons & more": {(4, 2): "#DIV/0!", (5, 3): "#N/A", (5, 4): "#NAME?"}
    }


def test_what_is_no_workbook_has_none() -> None:
    assert look_beside(b"no workbook").errors == {}


def test_they_are_told_with_their_cell_and_kept_as_they_show(tmp_path: Path) -> None:
    survey = load_survey(workbook(tmp_path / "a.xlsx"))
    first, second = survey.buttons.to_dict("records")
    assert first["diameter_wording"] == "#DIV/0!"
    assert (second["diameter_mm"], second["notes"]) == (16, "#NAME?")
    assert pd.isna(second["mould_material"])
    told = survey.problems[survey.problems["kind"] == "formula-error"]
    assert list(zip(told["row"], told["column"], told["wording"], told["level"])) == [
        (4, "C: Diameter (mm)", "#DIV/0!", "not read"),
        (5, "D: Mould material", "#N/A", "not read"),
    ]
    assert told["problem"].iloc[0] == (
        "The formula in this cell came to nothing and shows #DIV/0!."
    )
    assert len(survey.problems) == 2
