"""Number formats, against openpyxl and LibreOffice, which read workbooks in their own way."""

import datetime as dt
import io
import re
import shutil
import subprocess
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


SHOWN = [  # format, value, what the size is read as: no source but the two programs' agreement
    ("General", 16, "16"),
    ("0.00", 16, "16"),
    ("# ?/?", 1.25, "1 1/4"),
    ("# ??/16", 0.625, "10/16"),
    ("?/?", 0.625, "5/8"),
    ("# ?/?;-# ?/?", 1.25, "1 1/4"),
    ('0" mm"', 16, "16 mm"),
    (r"0.0\ [$mm]", 16.5, "16.5 mm"),
    ('0" mm";[Red]-0" in"', 16, "16 mm"),
    (r"# ?/?\"", 0.625, "5/8 in"),
    ('0" L"', 24, "24 lines"),
    ("0 %", 16, "16"),
    ("d-mmm", dt.datetime(2026, 8, 5), "5-Aug"),
    ("dd.mm.", dt.datetime(2026, 8, 5), "5-Aug"),
    ("mmm-yy", dt.datetime(2016, 9, 1), "Sep-16"),
    ("yyyy-mm-dd", dt.datetime(2026, 8, 5), "2026-08-05"),
    ("mmm d", dt.datetime(2026, 8, 5), "2026-08-05"),
]


def test_sizes_that_libreoffice_wrote_are_worded_as_those_of_xlsx(tmp_path):
    program = shutil.which("soffice")
    if not program:
        pytest.skip("LibreOffice is not installed")
    path = tmp_path / "survey.xlsx"
    with xlsxwriter.Workbook(path) as book:
        for name in ("First", "Drawer"):
            sheet = book.add_worksheet(name)
            sheet.write_row(0, 0, ["No.", "Diameter"])
            for row, (form, value, _) in enumerate(SHOWN if name == "Drawer" else [], start=1):
                sheet.write(row, 0, str(row))
                sheet.write(row, 1, value, book.add_format({"num_format": form}))
    profile = f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}"
    told = [program, profile, "--headless", "--convert-to", "ods", "--outdir", tmp_path, path]
    subprocess.run(told, check=True, capture_output=True, timeout=120)
    ours, theirs = load_survey(path).buttons, load_survey(path.with_suffix(".ods")).buttons
    assert ours["diameter_wording"].tolist() == [words for _, _, words in SHOWN]
    assert theirs.drop(columns="file").equals(ours.drop(columns="file"))


FRACTION = (
    '<number:number-style style:name="N1"><number:fraction number:min-integer-digits="0"'
    ' number:min-denominator-digits="1"/></number:number-style>'
)
OF_EIGHTHS = FRACTION.replace('number:min-denominator-digits="1"', 'number:denominator-value="8"')
STYLE = '<style:style style:name="{}" style:family="table-cell" {}/>'
HAS = 'style:data-style-name="N1"'
FROM = 'style:parent-style-name="{}"'
CELL = '<table:table-cell office:value-type="float" office:value="1.25" {}/>'
STYLED = 'table:style-name="ce1"'
BY = 'table:default-cell-style-name="ce1"'


def ods(rows, styles, columns="", common=""):
    """Make a workbook of two sheets; see OpenDocument 1.3, 9.1, 16 and 19."""
    names = re.findall(r"(?:[<\s])(\w+):", rows + styles + columns + common + "office: table:")
    spaces = " ".join(f'xmlns:{name}="urn:{name}"' for name in sorted(set(names)))
    sheets = "".join(
        f'<table:table table:name="{name}">{columns}{some}</table:table>'
        for name, some in (("First", rows.replace("ce1", "ce0")), ("Drawer", rows))
    )
    into = io.BytesIO()
    with zipfile.ZipFile(into, "w") as archive:
        archive.writestr(
            "content.xml",
            f"<office:document-content {spaces}><office:automatic-styles>{styles}"
            f"</office:automatic-styles><office:body><office:spreadsheet>{sheets}"
            "</office:spreadsheet></office:body></office:document-content>",
        )
        archive.writestr(
            "styles.xml", f"<office:document-styles {spaces}>{common}</office:document-styles>"
        )
    return into.getvalue()


def row(*cells, about=""):
    return f"<table:table-row {about}>{''.join(cells)}</table:table-row>"


ODS = {
    "a cell's own style": (row(CELL.format(STYLED)), STYLE.format("ce1", HAS), "", {(1, 0)}),
    "its row's": (row(CELL.format(""), about=BY), STYLE.format("ce1", HAS), "", {(1, 0)}),
    "its column's": (
        row(CELL.format('table:number-columns-repeated="3"')),
        STYLE.format("ce1", HAS),
        f'<table:table-column table:number-columns-repeated="2"/><table:table-column {BY}/>',
        {(1, 2)},
    ),
    "that which it is derived from": (
        row(CELL.format(STYLED)),
        STYLE.format("ce1", FROM.format("mine")) + STYLE.format("mine", HAS),
        "",
        {(1, 0)},
    ),
    "repeated cells and rows": (
        row("<table:table-cell/>", CELL.format(f'{STYLED} table:number-columns-repeated="2"'),
            about='table:number-rows-repeated="2"'),
        STYLE.format("ce1", HAS),
        "",
        {(1, 1), (1, 2), (2, 1), (2, 2)},
    ),
    "an empty cell": (row(f"<table:table-cell {STYLED}/>"), STYLE.format("ce1", HAS), "", set()),
    "styles in a circle": (
        row(CELL.format(STYLED)),
        STYLE.format("ce1", FROM.format("ce2")) + STYLE.format("ce2", FROM.format("ce1")),
        "",
        set(),
    ),
    "a style that is not there": (row(CELL.format(STYLED)), "", "", set()),
}  # fmt: skip


@pytest.mark.parametrize(("rows", "styles", "columns", "places"), ODS.values(), ids=ODS)
def test_where_the_cells_of_an_ods_workbook_have_a_format(rows, styles, columns, places):
    data = ods(rows, FRACTION + styles, columns)
    assert number_formats(data, "Drawer", {0, 1, 2}) == dict.fromkeys(places, "# ?/?")
    assert number_formats(data, "Third", {0, 1, 2}) == {}


def test_styles_of_the_content_go_before_the_common_ones():
    rows, styles = row(CELL.format(STYLED)), STYLE.format("ce1", HAS)
    assert number_formats(ods(rows, styles, common=FRACTION), "Drawer", {0}) == {(1, 0): "# ?/?"}
    both = ods(rows, OF_EIGHTHS + styles, common=FRACTION)
    assert number_formats(both, "Drawer", {0}) == {(1, 0): "# ?/8"}


def test_an_ods_workbook_with_very_many_styles_is_told():
    many = "".join(STYLE.format(f"ce{number}", HAS) for number in range(100_001))
    with pytest.raises(UnreadFormatsError, match=r"^there are more than 100,000 of them$"):
        number_formats(ods(row(CELL.format(STYLED)), many), "Drawer", {0})
