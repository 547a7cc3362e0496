"""Checks that cells whose formula came to nothing are told and not taken for blank.

However a sheet is written, they are those that openpyxl finds, which reads workbooks in its own
way.
"""

import io
import tracemalloc
import zipfile
from pathlib import Path

import pandas as pd
import pytest
import xlsxwriter
from openpyxl import load_workbook

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


MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
ERROR = '<c r="A1" t="e"><f>NA()</f><v>#N/A</v></c><c r="B1"><v>5</v></c>'
SHEET = f'<worksheet xmlns="{MAIN}"><sheetData><row r="1">%s</row></sheetData></worksheet>'
WRITTEN = {  # ways that ECMA-376-1, 18.3.1.4, and XML allow
    "plainly": SHEET % ERROR,
    "with single quotes": (SHEET % ERROR).replace('"', "'"),
    "type first": SHEET % ERROR.replace('r="A1" t="e"', 't="e" r="A1"'),
    "without places": SHEET % ERROR.replace(' r="A1"', "").replace(' r="B1"', ""),
    "with nothing in it": SHEET % ERROR.replace('t="e"><f>NA()</f><v>#N/A</v></c>', 't="e"/>'),
    "with a prefix": f'<x:worksheet xmlns:x="{MAIN}"><x:sheetData><x:row r="1">'
    + ERROR.replace("<", "<x:").replace("<x:/", "</x:")
    + "</x:row></x:sheetData></x:worksheet>",
    "with a sign of XML": SHEET % ERROR.replace("#N/A", "&#35;N/A"),
    "without a formula": SHEET % ERROR.replace("<f>NA()</f>", ""),
    "with a shared formula": SHEET % ERROR.replace("<f>NA()</f>", '<f t="shared" si="0"/>'),
    "with a blank kept": SHEET % ERROR.replace("<v>", '<v xml:space="preserve">'),
    "in a remark": SHEET % f"<!-- {ERROR} -->{ERROR.replace('A1', 'A2').replace('B1', 'B2')}",
}


def errors(data):
    extents = look_beside(data).extents
    return {name: extent.errors for name, extent in extents.items() if extent.errors}


def with_sheet(xml):
    """A workbook whose only sheet is written so."""
    book, into = io.BytesIO(), io.BytesIO()
    with xlsxwriter.Workbook(book) as new:
        new.add_worksheet("One")
    with zipfile.ZipFile(book) as old, zipfile.ZipFile(into, "w", zipfile.ZIP_DEFLATED) as crafted:
        for name in old.namelist():
            crafted.writestr(name, xml if "worksheets/sheet" in name else old.read(name))
    return into.getvalue()


@pytest.mark.parametrize("way", WRITTEN)
def test_they_are_found_however_the_sheet_is_written(way):
    data = with_sheet(WRITTEN[way])
    cells = [cell for row in load_workbook(io.BytesIO(data), data_only=True)["One"] for cell in row]
    expected = {
        (cell.row, cell.column - 1): cell.value
        for cell in cells
        if cell.data_type == "e" and cell.value
    }
    assert errors(data) == ({"One": expected} if expected else {})
    assert bool(expected) == (way != "with nothing in it")


@pytest.mark.parametrize("way", ["plainly", "with single quotes"])
def test_a_long_sheet_is_never_held_whole(way):
    text = '<c r="A2" t="inlineStr"><is><t>' + "x" * 30_000 + "</t></is></c>"
    data = with_sheet((SHEET % (ERROR + text * 1_000)).replace(*('""' if way[0] == "p" else "\"'")))
    tracemalloc.start()
    try:
        assert errors(data) == {"One": {(1, 0): "#N/A"}}
        assert tracemalloc.get_traced_memory()[1] < 10_000_000  # of 30 million bytes
    finally:
        tracemalloc.stop()


def test_those_at_the_edge_of_what_is_read_at_once_are_found():
    cells = "".join(ERROR.replace("A1", f"A{n}").replace("B1", f"B{n}") for n in range(1, 40_001))
    edges = len(cells) // 1_000_000
    assert edges >= 2
    for shift in range(0, 60, 7):
        xml = (SHEET % cells).replace("<row", " " * shift + "<row")
        assert len(errors(with_sheet(xml))["One"]) == 40_000


def test_each_is_found_at_its_place(tmp_path: Path) -> None:
    found = errors(workbook(tmp_path / "a.xlsx").read_bytes())
    assert found == {"Buttons & more": {(4, 2): "#DIV/0!", (5, 3): "#N/A", (5, 4): "#NAME?"}}


def test_what_is_no_workbook_has_none() -> None:
    assert look_beside(b"no workbook").extents is None


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
