"""Files that are damaged, or made to do harm: told in a sentence, with what to do.

The damaged ones stand for what `tests/fuzz.py` and `tests/fuzz_guided.py` found.
"""

import csv
import io
import os
import re
import struct
import subprocess
import sys
import zipfile

import pytest
import xlsxwriter

import buttonstudy as bs
from buttonstudy.publish.drafting import write_draft
from buttonstudy.survey.old_workbooks import OLD_WORKBOOK

PARTS = ("xl/worksheets/sheet1.xml", "xl/workbook.xml", "xl/sharedStrings.xml", "xl/styles.xml")


def workbook():
    into = io.BytesIO()
    with xlsxwriter.Workbook(into) as book:
        book.add_worksheet("One").write_row(0, 0, ["Button no.", "Diameter (mm)", "Date"])
    return into.getvalue()


def changed(data, part, content):
    """A workbook with other content in one part."""
    into = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(into, "w") as new:
        for name in old.namelist():
            new.writestr(name, content if name == part else old.read(name))
    return into.getvalue()


def told(path, data, name="survey.xlsx"):
    file = path / name
    file.write_bytes(data)
    survey = bs.load_survey(file)
    assert file.read_bytes() == data
    return survey


@pytest.mark.parametrize("part", PARTS)
def test_a_damaged_part_of_a_workbook_is_told_or_does_not_matter(tmp_path, part):
    data = bytearray(workbook())
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        entry = archive.getinfo(part)
    begin = entry.header_offset + 30 + len(part)
    data[begin : begin + entry.compress_size] = b"\xff" * entry.compress_size
    survey = told(tmp_path, bytes(data))
    assert set(survey.problems["kind"]) & {"file-damaged", "sheet-damaged", "no-rows"}


def test_a_workbook_without_sheets_is_told(tmp_path):
    empty = b'<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>'
    survey = told(tmp_path, changed(workbook(), "xl/workbook.xml", empty))
    (problem,) = survey.problems.to_dict("records")
    assert (problem["file"], problem["level"]) == ("survey.xlsx", "not read")
    assert problem["problem"] == "No sheet was found in this workbook."


def test_a_heading_named_like_a_column_of_the_record_can_be_mapped(tmp_path):
    survey = told(tmp_path, b"row,Height (mm),Date\n7,5,1840\n8,6,1850\n", "survey.csv")
    assert survey.buttons["row (as written)"].tolist() == ["7", "8"]
    draft = write_draft(survey, [tmp_path / "survey.csv"]).splitlines()
    assert any(line.startswith("row,") and "every cell differs" in line for line in draft)


def endless():
    """An old workbook whose directory is a chain of blocks that leads back to itself."""
    end, free = 0xFFFFFFFE, 0xFFFFFFFF
    header = struct.pack(
        "<8s16xHHHHH6xIIIIIIIIII",
        OLD_WORKBOOK,
        62,
        3,
        0xFFFE,
        9,
        6,
        0,
        1,
        1,
        0,
        4096,
        end,
        0,
        end,
        0,
        0,
    )
    header += struct.pack("<108I", *[free] * 108)
    blocks = struct.pack("<128I", 0xFFFFFFFD, 1, *[free] * 126)
    return header + blocks + bytes(512)


def test_an_old_workbook_without_end_is_told(tmp_path):
    data = endless()
    assert len(data) == 1536
    survey = told(tmp_path, data, "survey.xls")
    (problem,) = survey.problems.to_dict("records")
    assert problem["kind"] == "file-damaged"
    assert "(its inner order is broken, or it needs more than " in problem["problem"]
    assert problem["what_to_do"].startswith("Open it in your spreadsheet program, let it repair")


NOT_LOOKED_AT = [
    (
        subprocess.TimeoutExpired("python", 60),
        "This workbook could not be read within 60 seconds: it is damaged, or the computer has "
        "too much else to do.",
        "Try once more. ",
    ),
    (
        OSError(11, "Resource temporarily unavailable"),
        "This workbook was not read: an old one (.xls) is first looked at by a program of its own, "
        "which could not be started (resource temporarily unavailable).",
        "Close other programs and try again, ",
    ),
]


@pytest.mark.parametrize(("error", "says", "remedy"), NOT_LOOKED_AT)
def test_why_an_old_workbook_was_not_looked_at_is_told(tmp_path, monkeypatch, error, says, remedy):
    def fail(*_, **__):
        raise error

    monkeypatch.setattr("buttonstudy.survey.old_workbooks.subprocess.run", fail)
    (problem,) = told(tmp_path, endless(), "survey.xls").problems.to_dict("records")
    assert (problem["problem"], problem["level"]) == (says, "not read")
    assert problem["what_to_do"].startswith(remedy)


@pytest.mark.skipif(sys.platform != "linux", reason="the limit of memory is not heeded there")
def test_a_file_beside_an_old_workbook_is_not_run(tmp_path, monkeypatch):
    (tmp_path / "resource.py").write_text("from pathlib import Path; Path('run').touch()")
    monkeypatch.chdir(tmp_path)
    assert told(tmp_path, endless(), "survey.xls").problems["kind"].tolist() == ["file-damaged"]
    assert not (tmp_path / "run").exists()


def test_what_the_reader_of_workbooks_did_not_foresee_is_told(tmp_path, monkeypatch):
    class PanicException(BaseException):
        """As the reader's own, which is no Exception and cannot be imported."""

    def panic(*_):
        raise PanicException("slice index starts at 31744")

    monkeypatch.setattr("buttonstudy.survey.workbook.CalamineWorkbook.from_filelike", panic)
    (problem,) = told(tmp_path, workbook()).problems.to_dict("records")
    assert problem["problem"].startswith("This workbook is damaged and cannot be opened (slice")


def test_a_text_table_far_too_large_is_told_before_it_fills_the_memory(tmp_path):
    wide = b"Button no.,Diameter (mm)\n1,16" + b"," * 100_000 + b"\n" * 1_000 + b"2,17\n"
    (problem,) = told(tmp_path, wide, "survey.csv").problems.to_dict("records")
    assert problem["kind"] == "sheet-too-large"
    assert problem["problem"] == (
        "This table is more than 40,000,000 cells large: row 400 is not its last, and its widest "
        "row has 100,002 cells."
    )


def test_a_cell_too_long_is_told_with_the_lines_that_it_took_in(tmp_path):
    before = csv.field_size_limit(1_000_000)  # as other packages set it
    text = 'Button no.,Diameter (mm),Notes\n1,16,"open\n' + "2,17,a\n" * 30_000 + "3,18,last\n"
    try:
        survey = told(tmp_path, text.encode(), "survey.csv")
        assert csv.field_size_limit() == 1_000_000
    finally:
        csv.field_size_limit(before)
    first = survey.problems.iloc[0]
    assert (first["kind"], first["level"], first["row"]) == ("cell-not-readable", "not read", 2)
    lines = int(re.search(r"From here on ([\d,]+) lines", first["problem"])[1].replace(",", ""))
    assert lines + len(survey.buttons) == 30_002
    assert survey.buttons["button_id"].iloc[-1] == "3"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes of this kind are not made here")
def test_what_may_have_no_end_is_not_read(tmp_path):
    os.mkfifo(tmp_path / "pipe.csv")
    (problem,) = bs.load_survey(tmp_path / "pipe.csv").problems.to_dict("records")
    assert problem["problem"] == "This is no file that can be read to its end."
    assert (problem["file"], problem["level"]) == ("pipe.csv", "not read")


def test_links_that_lead_in_a_circle_are_told(tmp_path):
    (tmp_path / "one.csv").symlink_to(tmp_path / "two.csv")
    (tmp_path / "two.csv").symlink_to(tmp_path / "one.csv")
    problems = bs.load_survey(tmp_path).problems
    assert set(problems["level"]) == {"not read"}
