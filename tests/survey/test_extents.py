"""Sheets made to reach further than any memory: told, however they hide it.

What .xlsx and .ods may hold is in ECMA-376-1, 18.3.1 and OpenDocument 1.3, 9.1. Each crafted sheet
is small, and would make a reader take up billions of cells.
"""

import io
import tracemalloc
import zipfile

import pytest
import xlsxwriter
from openpyxl import load_workbook

import buttonstudy as bs
from buttonstudy.schemes import limit
from buttonstudy.survey.beside import look_beside
from buttonstudy.survey.problems import Problems
from buttonstudy.survey.workbook import read_workbook

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
SHEET = f'<worksheet xmlns="{MAIN}">%s</worksheet>'
CELL = '<c r="%s"><v>1</v></c>'
FAR = CELL % "A1" + CELL % "XFD1048576"
ROW = '<row r="1">%s</row>'
DATA = f"<sheetData>{ROW}</sheetData>"
TOO_FAR = {
    "no extent stated": SHEET % (DATA % FAR),
    "a false extent stated": SHEET % ('<dimension ref="A1:B2"/>' + DATA % FAR),
    "more rows than there are": SHEET % (DATA % (CELL % "A1" + CELL % "Z99999999")),
    "small letters": SHEET % (DATA % FAR.lower()),
    "single quotes": SHEET % (DATA % FAR.replace('"', "'")),
    "blanks around the sign": SHEET % (DATA % FAR.replace("r=", "r = ")),
    "another attribute first": SHEET % (DATA % FAR.replace("<c ", '<c s="0" ')),
    "a prefix": f'<x:worksheet xmlns:x="{MAIN}"><x:sheetData><x:row>'
    + FAR.replace("<", "<x:").replace("<x:/", "</x:")
    + "</x:row></x:sheetData></x:worksheet>",
    "a prefix for the cells": SHEET
    % (DATA % FAR.replace("<c", f'<x:c xmlns:x="{MAIN}"').replace("</c", "</x:c")),
    "a prefix for all the cells": SHEET
    % f'<x:sheetData xmlns:x="{MAIN}"><!-- <sheetData></sheetData> -->{ROW % FAR}</x:sheetData>',
    "places by the rows only": SHEET
    % f'<sheetData><row r="1048576"><c><v>1</v></c></row><row r="3">{CELL % "XFD3"}</row></sheetData>',
    "places by counting": SHEET
    % f'<sheetData>{ROW % ("<c><v>1</v></c>" * 60)}<row r="999999"><c><v>1</v></c></row></sheetData>',
    "a false end in a remark": SHEET
    % f"<sheetData>{ROW % (CELL % 'A1')}<!-- </sheetData> -->{ROW % FAR}</sheetData>",
}
NOT_FOLLOWED = {
    "a false end in an attribute": SHEET
    % ('<sheetViews x="<sheetData></sheetData>"/>' + DATA % FAR),
    "a place given twice": SHEET % (DATA % '<c r="A1" r="XFD1048576"><v>1</v></c>'),
    "a place given twice, apart": SHEET % (DATA % '<c r="A1" t="n" r="XFD1048576"><v>1</v></c>'),
    "a document type": f'<!DOCTYPE x [<!ENTITY a "b">]>{SHEET % (DATA % FAR)}',
    "an end that is missing": SHEET % f"<sheetData>{ROW % FAR}",
}
FINE = {
    "a false extent that is too large": SHEET
    % ('<dimension ref="A1:XFD1048576"/>' + DATA % (CELL % "A1")),
    "a format in the last cell": SHEET % (DATA % (CELL % "A1" + '<c r="XFD1048576" s="0"/>')),
    "a small table far away": SHEET % (DATA % (CELL % "XFA1048000" + CELL % "XFC1048002")),
    "no cells": SHEET % "<sheetData/>",
}


def xlsx(sheet, part="xl/worksheets/sheet1.xml"):
    """A workbook with one more sheet that is good, and this one as its first."""
    book = io.BytesIO()
    with xlsxwriter.Workbook(book) as new:
        new.add_worksheet("Crafted")
        new.add_worksheet("Good").write_row(0, 0, ["No.", "Diam (mm)"])
        new.get_worksheet_by_name("Good").write_row(1, 0, ["1", 16])
    into = io.BytesIO()
    with zipfile.ZipFile(book) as old, zipfile.ZipFile(into, "w") as crafted:
        for name in old.namelist():
            crafted.writestr(name, sheet if name == part else old.read(name))
    return into.getvalue()


def ods(rows):
    spaces = "".join(
        f' xmlns:{name}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"'
        for name in ("office", "table", "text")
    )
    into = io.BytesIO()
    with zipfile.ZipFile(into, "w", zipfile.ZIP_DEFLATED) as book:
        kind = "application/vnd.oasis.opendocument.spreadsheet"
        book.writestr("mimetype", kind, compress_type=zipfile.ZIP_STORED)
        book.writestr("META-INF/manifest.xml", "<manifest/>")
        book.writestr(
            "content.xml",
            f"<office:document-content{spaces}><office:body><office:spreadsheet>"
            f'<table:table table:name="Crafted">{rows}</table:table>'
            f'<table:table table:name="Good">{row(cell())}</table:table>'
            "</office:spreadsheet></office:body></office:document-content>",
        )
    return into.getvalue()


def problem(tmp_path, data, kind, name="survey.xlsx"):
    path = tmp_path / name
    path.write_bytes(data)
    survey = bs.load_survey(path)
    found = survey.problems[survey.problems["kind"] == kind]
    assert found["sheet"].tolist() == ["Crafted"], survey.problems
    return survey, found["problem"].iloc[0]


@pytest.mark.parametrize("way", TOO_FAR)
def test_a_sheet_that_reaches_too_far_is_told_and_the_next_is_read(tmp_path, way):
    survey, says = problem(tmp_path, xlsx(TOO_FAR[way]), "sheet-too-large")
    assert says.startswith("This sheet reaches to row ")
    assert says.endswith(", more than 40,000,000 cells.")
    assert survey.buttons["diameter_mm"].tolist() == [16]


LONG = '<row r="1"><c r="%s"><v>1</v></c></row><row r="1000001"><c r="%s"><v>1</v></c></row>'


@pytest.mark.parametrize("columns", [("A1", "B1000001"), ("AA1", "AB1000001")])
def test_a_sheet_with_too_many_rows_is_told_before_it_is_taken_up(tmp_path, columns):
    crafted = SHEET % f"<sheetData>{LONG % columns}</sheetData>"
    survey, says = problem(tmp_path, xlsx(crafted), "sheet-too-large")
    last = columns[1].removesuffix("1000001")
    assert (
        says == f"This sheet reaches to row 1,000,001 and column {last}, more than 1,000,000 rows."
    )
    assert survey.buttons["diameter_mm"].tolist() == [16]


@pytest.mark.parametrize("way", NOT_FOLLOWED)
def test_a_sheet_that_cannot_be_followed_is_not_taken_up(tmp_path, way):
    survey, says = problem(tmp_path, xlsx(NOT_FOLLOWED[way]), "sheet-damaged")
    assert says == "This sheet cannot be read (how far its cells reach cannot be told)."
    assert survey.buttons["diameter_mm"].tolist() == [16]


@pytest.mark.parametrize("way", FINE)
def test_a_sheet_is_read_whatever_it_states_or_where_it_stands(tmp_path, way):
    path = tmp_path / "survey.xlsx"
    path.write_bytes(xlsx(FINE[way]))
    survey = bs.load_survey(path)
    assert not {"sheet-too-large", "sheet-damaged"} & set(survey.problems["kind"])
    assert survey.buttons["diameter_mm"].tolist() == [16]


@pytest.mark.parametrize("columns", [3, 26, 27, 60, 800])
def test_the_extent_of_a_sheet_holds_all_its_cells(columns):
    # openpyxl says how far the sheet reaches.
    book = io.BytesIO()
    with xlsxwriter.Workbook(book) as new:
        sheet = new.add_worksheet("Wide")
        for row in range(5, 40, 3):
            sheet.write_row(row, 1, ["x"] * (columns - 1))
    area = load_workbook(book)["Wide"]
    extent = look_beside(book.getvalue()).extents["Wide"]
    assert extent.first_row <= area.min_row
    assert extent.first_column <= area.min_column
    assert extent.last_row >= area.max_row
    assert extent.last_column >= area.max_column


def row(cells, repeated=1):
    return f'<table:table-row table:number-rows-repeated="{repeated}">{cells}</table:table-row>'


def cell(repeated=1, filled=True):
    value = ' office:value-type="float" office:value="1"' if filled else ""
    return f'<table:table-cell table:number-columns-repeated="{repeated}"{value}/>'


ODS_TOO_FAR = {
    "a row for a million": row(cell(60), 1_000_000),
    "a cell for thousands": row(cell()) + row(cell(filled=False), 9_999) + row(cell(16_000)),
    "blanks before a last cell": row(cell())
    + row(cell(filled=False), 999_999)
    + row(cell(16_000, filled=False) + cell()),
    "a text only": row(cell(60)).replace("/>", "><text:p>x</text:p></table:table-cell>")
    + row(cell(), 1_000_000),
}
ODS_TOO_LONG = row(cell()) + row(cell(2), 1_048_575)
ODS_FINE = {
    "blanks after the last cell": row(cell(16_000, filled=False)) + row(cell(), 3),
    "blank rows after the last": row(cell() + cell(16_000, filled=False))
    + row(cell(16_000, filled=False), 1_000_000),
}


@pytest.mark.parametrize("way", ODS_TOO_FAR)
def test_an_ods_sheet_that_unfolds_too_far_is_told(tmp_path, way):
    survey, says = problem(tmp_path, ods(ODS_TOO_FAR[way]), "sheet-too-large", "survey.ods")
    assert says.startswith("This sheet reaches to row 1")
    other = survey.problems[survey.problems["sheet"] == "Good"]
    assert other["problem"].tolist() == [
        "This sheet cannot be read (a workbook of this kind is read whole, and another of its "
        "sheets reaches too far)."
    ]


def test_an_ods_row_repeated_without_end_is_told(tmp_path):
    _, says = problem(tmp_path, ods(ODS_TOO_LONG), "sheet-too-large", "survey.ods")
    assert says == "This sheet reaches to row 1,048,576 and column B, more than 1,000,000 rows."


@pytest.mark.parametrize("way", ODS_FINE)
def test_blanks_around_an_ods_sheet_do_not_matter(tmp_path, way):
    path = tmp_path / "survey.ods"
    path.write_bytes(ods(ODS_FINE[way]))
    assert set(bs.load_survey(path).problems["kind"]) == {"no-headings", "text-outside-table"}


def test_an_ods_workbook_that_cannot_be_followed_is_not_opened(tmp_path):
    path = tmp_path / "survey.ods"
    path.write_bytes(ods(row(cell()).replace("</table:table-row>", "")))
    assert bs.load_survey(path).problems["problem"].tolist() == [
        "This workbook is damaged and cannot be opened (how far its sheets reach cannot be told)."
    ]


def test_merged_cells_of_ods_hold_in_all_their_rows_as_those_of_xlsx_do(tmp_path):
    # The same table with a set's number merged over two rows, in both kinds of workbook; the .ods
    # is written with odfpy.
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import CoveredTableCell, Table, TableCell, TableRow
    from odf.text import P

    rows = [["No.", "Set", "Diam (mm)"], ["1", "S1", "16"], ["2", None, "16"]]
    with xlsxwriter.Workbook(tmp_path / "merged.xlsx") as book:
        sheet = book.add_worksheet("One")
        for at, cells in enumerate(rows):
            sheet.write_row(at, 0, cells)
        sheet.merge_range(1, 1, 2, 1, "S1")
    book = OpenDocumentSpreadsheet()
    table = Table(name="One")
    for cells in rows:
        line = TableRow()
        for text in cells:
            if text is None:
                line.addElement(CoveredTableCell())
                continue
            one = TableCell(
                valuetype="string", **({"numberrowsspanned": 2} if text == "S1" else {})
            )
            one.addElement(P(text=text))
            line.addElement(one)
        table.addElement(line)
    book.spreadsheet.addElement(table)
    book.save(tmp_path / "merged.ods")
    sets = [
        bs.load_survey(tmp_path / f"merged.{kind}").buttons["set_id"] for kind in ("xlsx", "ods")
    ]
    assert sets[0].tolist() == sets[1].tolist() == ["S1", "S1"]


def test_a_workbook_that_holds_a_part_twice_is_not_read(tmp_path):
    book = io.BytesIO(xlsx(FINE["no cells"]))
    with zipfile.ZipFile(book, "a") as archive:
        archive.writestr("xl/worksheets/Sheet1.xml", TOO_FAR["no extent stated"])
    path = tmp_path / "survey.xlsx"
    path.write_bytes(book.getvalue())
    problems = bs.load_survey(path).problems
    assert problems["problem"].tolist() == [
        "This workbook is damaged and cannot be opened (it holds a part twice)."
    ]


def with_parts(data, parts):
    book = io.BytesIO(data)
    with zipfile.ZipFile(book, "a") as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return book.getvalue()


@pytest.mark.parametrize("other", ["xl/workbook.bin", "XL\\Workbook.BIN", "content.xml"])
def test_a_workbook_that_pretends_to_be_of_another_kind_is_not_read(tmp_path, other):
    with zipfile.ZipFile(io.BytesIO(ods(row(cell())))) as archive:
        content = archive.read("content.xml") if other == "content.xml" else b""
    path = tmp_path / "survey.xlsx"
    path.write_bytes(with_parts(xlsx(TOO_FAR["no extent stated"]), {other: content}))
    assert bs.load_survey(path).problems["problem"].tolist() == [
        "This workbook is damaged and cannot be opened (it holds workbooks of two kinds)."
    ]


def test_a_binary_workbook_is_to_be_saved_as_another_kind(tmp_path):
    path = tmp_path / "survey.xlsb"
    book = io.BytesIO()
    with zipfile.ZipFile(book, "w") as archive:
        archive.writestr("xl/workbook.bin", b"")
    path.write_bytes(book.getvalue())
    told = bs.load_survey(path).problems
    assert told["kind"].tolist() == ["binary-workbook"]
    assert (
        told["problem"].iloc[0].startswith("This is a binary workbook (.xlsb), which is not read")
    )
    assert told["what_to_do"].iloc[0] == (
        "Open it in your spreadsheet program, save it as .xlsx, and name that file."
    )


def test_what_a_glance_takes_a_narrow_sheet_for_is_within_the_limit():
    # Else every sheet would be followed tag by tag, at many times the time.
    book = io.BytesIO()
    with xlsxwriter.Workbook(book) as new:
        new.add_worksheet("Narrow").write(4, 25, "x")
    extent = look_beside(book.getvalue()).extents["Narrow"]
    assert 5 * 26 < extent.cells() <= limit("sheet-cells")


def test_blank_rows_above_a_wide_table_take_no_memory(tmp_path):
    corners = CELL % "A600000" + CELL % "ET600001"
    (tmp_path / "far.xlsx").write_bytes(xlsx(SHEET % (DATA % corners)))
    data = (tmp_path / "far.xlsx").read_bytes()
    tracemalloc.start()
    try:
        sheet, _ = read_workbook(data, Problems("far.xlsx"))
        _, most = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert (len(sheet.rows), sheet.first_row) == (2, 600_000)
    assert most < 20e6  # the blank rows alone would take 300 MB
