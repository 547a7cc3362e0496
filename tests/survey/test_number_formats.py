"""Number formats, against openpyxl, which reads workbooks in its own way."""

import datetime as dt
import io
import zipfile

import pytest
import xlsxwriter
from openpyxl import load_workbook
from openpyxl.styles.numbers import BUILTIN_FORMATS

from buttonstudy.schemes import rows
from buttonstudy.survey.number_formats import number_formats

FORMATS = ["General", "0.00", "# ?/?", "d-mmm", "mmm-yy", '0" mm"', r"# ??/??\"", "@", "yyyy-mm-dd"]
ELSEWHERE = {  # the same sheet as other programs write it
    "other order": lambda xml: xml.replace(b'<c r="', b'<c cm="0" r="'),
    "type before style": lambda xml: xml.replace(b' s="', b' t="n" s="'),
    "with a prefix": lambda xml: xml.replace(b"<c ", b"<x:c ").replace(b"</c>", b"</x:c>"),
    "single quotes": lambda xml: xml.replace(b'"', b"'"),
}


def workbook():
    """Two sheets of numbers and dates, a format each; openpyxl's answer beside it."""
    into = io.BytesIO()
    with xlsxwriter.Workbook(into) as book:
        for name in ("First", "Sizes & dates"):
            sheet = book.add_worksheet(name)
            for row in range(40):
                for column in (0, 3, 27):
                    form = book.add_format({"num_format": FORMATS[(row + column) % len(FORMATS)]})
                    if row % 3:
                        sheet.write_number(row, column, 1.25, form)
                    else:
                        sheet.write_datetime(row, column, dt.datetime(2026, 8, 5), form)
            sheet.write(0, 1, "text")
    return into.getvalue()


def by_openpyxl(data, sheet, columns):
    cells = (cell for row in load_workbook(io.BytesIO(data))[sheet].iter_rows() for cell in row)
    return {
        (cell.row, cell.column - 1): cell.number_format
        for cell in cells
        if cell.column - 1 in columns and cell.number_format != "General"
    }


def rewritten(data, sheet_xml):
    into = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(into, "w") as new:
        for name in old.namelist():
            content = old.read(name)
            new.writestr(name, sheet_xml(content) if "worksheets/sheet" in name else content)
    return into.getvalue()


@pytest.mark.parametrize("columns", [{0}, {3, 27}, {1}, set()])
def test_they_are_those_that_an_independent_reader_finds(columns):
    data = workbook()
    found = number_formats(data, "Sizes & dates", columns)
    assert found == by_openpyxl(data, "Sizes & dates", columns)
    assert bool(found) == bool(columns - {1})


@pytest.mark.parametrize("way", ELSEWHERE)
def test_they_are_found_however_the_sheet_is_written(way):
    data = workbook()
    assert number_formats(rewritten(data, ELSEWHERE[way]), "First", {0, 27}) == by_openpyxl(
        data, "First", {0, 27}
    )


def test_implied_formats_agree_with_an_independent_library():
    # openpyxl's list; for amounts (37 to 40) it has those of the United States, with "_)".
    for row in rows("number_formats"):
        number = int(row["id"])
        if not 37 <= number <= 40:
            assert row["format"] == BUILTIN_FORMATS[number], number


@pytest.mark.parametrize("data", [b"", b"PK\x03\x04 no archive", b"plain text"])
def test_what_is_no_workbook_has_none(data):
    assert number_formats(data, "First", {0}) == {}


def test_a_sheet_that_is_not_there_has_none():
    assert number_formats(workbook(), "Third", {0}) == {}
