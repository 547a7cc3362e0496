"""Number formats, against openpyxl, which reads workbooks in its own way."""

import datetime as dt
import io
import re
import zipfile

import pytest
import xlsxwriter
from openpyxl import load_workbook
from openpyxl.styles.numbers import BUILTIN_FORMATS

from buttonstudy.schemes import rows
from buttonstudy.survey.load import load_survey
from buttonstudy.survey.number_formats import UnreadFormatsError, number_formats

FORMATS = ["General", "0.00", "# ?/?", "d-mmm", "mmm-yy", '0" mm"', r"# ??/??\"", "@", "yyyy-mm-dd"]
MAIN = b"http://schemas.openxmlformats.org/spreadsheetml/2006/main"
ELSEWHERE = {  # the same sheet as other programs write it
    "other order": lambda xml: xml.replace(b'<c r="', b'<c cm="0" r="'),
    "type before style": lambda xml: xml.replace(b' s="', b' t="n" s="'),
    "with a prefix": lambda xml: (
        xml.replace(b"<c ", b"<x:c ")
        .replace(b"</c>", b"</x:c>")
        .replace(b"<worksheet", b'<worksheet xmlns:x="%s"' % MAIN)
    ),
    "single quotes": lambda xml: xml.replace(b'"', b"'"),
    "no places": lambda xml: re.sub(rb'<c r="\w+"', b"<c", xml),
    "one cell in other order": lambda xml: re.sub(rb'<c (r="A5") (s="\d+")', rb"<c \2 \1", xml),
    "cells without a style": lambda xml: re.sub(rb'(<c r="A\d+") s="\d+"', rb"\1", xml),
}
MM_IN = (
    '<numFmt numFmtId="164" formatCode="0&quot; mm&quot;"/>',
    '<dxfs count="1"><dxf><numFmt numFmtId="164" formatCode="0&quot; in&quot;"/></dxf></dxfs>',
)


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
        if cell.column - 1 in columns and cell.value is not None and cell.number_format != "General"
    }


def rewritten(data, sheet_xml=bytes, styles_xml=bytes):
    into = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(into, "w") as new:
        for name in old.namelist():
            content = old.read(name)
            change = sheet_xml if "worksheets/sheet" in name else bytes
            new.writestr(name, (styles_xml if name == "xl/styles.xml" else change)(content))
    return into.getvalue()


@pytest.mark.parametrize("columns", [{0}, {3, 27}, {1}, set()])
def test_they_are_those_that_an_independent_reader_finds(columns):
    data = workbook()
    found = number_formats(data, "Sizes & dates", columns)
    assert found == by_openpyxl(data, "Sizes & dates", columns)
    assert bool(found) == bool(columns - {1})


@pytest.mark.parametrize("way", ELSEWHERE)
def test_they_are_found_however_the_sheet_is_written(way):
    data = rewritten(workbook(), ELSEWHERE[way])
    assert number_formats(data, "First", {0, 27}) == by_openpyxl(data, "First", {0, 27}) != {}


@pytest.mark.parametrize("way", ["as it is", *ELSEWHERE])
def test_a_cell_without_a_style_is_of_the_first(way):
    # The first style has a format here, as no program writes it by itself; openpyxl follows it.
    def first_style(xml):
        changed = re.sub(rb'(<cellXfs[^>]*><xf numFmtId=)"0"', rb'\1"12"', xml)
        assert changed != xml
        return changed

    data = rewritten(workbook(), ELSEWHERE.get(way, bytes), first_style)
    for column in (0, 1, 27):
        found = number_formats(data, "First", {column})
        assert found == by_openpyxl(data, "First", {column})
        assert bool(found) == (way != "no places" or column != 27)


def test_formats_of_conditional_formatting_are_others():
    def with_conditional(xml):
        text = xml.decode()
        assert text.count('numFmtId="164"') > 1
        text = re.sub(r'<numFmt numFmtId="164" [^>]*>', MM_IN[0], text)
        return re.sub(r"<dxfs[^>]*/>", MM_IN[1], text).encode()

    data = rewritten(workbook(), styles_xml=with_conditional)
    found = number_formats(data, "First", {0})
    assert found == by_openpyxl(data, "First", {0})
    assert '0" mm"' in found.values()
    assert '0" in"' not in found.values()


def test_a_long_list_of_styles_is_read_to_its_end():
    def longer(xml):
        return xml.replace(b"<fonts", b"<!--" + b"x" * 3_000_000 + b"--><fonts").replace(
            b"<fills", b"<!--" + b"x" * 3_000_000 + b"--><fills"
        )

    data = rewritten(workbook(), styles_xml=longer)
    assert number_formats(data, "First", {0}) == by_openpyxl(workbook(), "First", {0}) != {}


def test_formats_that_cannot_be_read_are_told(tmp_path):
    book = io.BytesIO()
    with xlsxwriter.Workbook(book) as new:
        sheet = new.add_worksheet("Drawer")
        sheet.write_row(0, 0, ["No.", "Diameter"])
        sheet.write_row(1, 0, ["1", 16], new.add_format({"num_format": '0" mm"'}))
    many = b"<cellXfs>" + b"<xf/>" * 100_001
    data = rewritten(book.getvalue(), styles_xml=lambda xml: re.sub(rb"<cellXfs[^>]*>", many, xml))
    with pytest.raises(UnreadFormatsError, match=r"^there are more than 100,000 of them$"):
        number_formats(data, "Drawer", {1})
    path = tmp_path / "survey.xlsx"
    path.write_bytes(data)
    told = load_survey(path).problems.query("kind == 'formats-not-read'")
    assert told[["file", "sheet", "level"]].to_numpy().tolist() == [
        ["survey.xlsx", "Drawer", "to confirm"]
    ]
    assert told["problem"].iloc[0] == (
        "The formats of this workbook's cells cannot be read (there are more than 100,000 of "
        "them). A unit that only a format shows, or a fraction that was turned into a date, was "
        "not seen."
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
