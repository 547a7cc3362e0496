import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.schemes import limit
from buttonstudy.survey import delimited
from buttonstudy.survey.delimited import decode, find_separator, read_delimited
from buttonstudy.survey.problems import Problems

TEXT = "No;Ø;Date\n1;15,5 mm;c. 1840\n2;5/8″;1820–1860\n"


@pytest.mark.parametrize(
    ("encoding", "name"),
    [
        ("utf-8", "UTF-8"),
        ("utf-8-sig", "UTF-8"),
        ("utf-16", "UTF-16"),
        ("utf-16-le", "UTF-16"),
        ("utf-16-be", "UTF-16"),
    ],
)
def test_unicode_text_is_decoded_whatever_its_form(encoding, name):
    assert decode(TEXT.encode(encoding)) == (TEXT, name)


def test_text_that_is_not_utf8_is_windows_1252():
    text = "Ø;5/8”;1820–1860;papier-mâché"
    assert decode(text.encode("cp1252")) == (text, "Windows-1252")


def test_bytes_that_are_not_text_are_refused():
    with pytest.raises(ValueError, match="not text"):
        decode(bytes(range(256)) * 40)


@pytest.mark.parametrize(
    ("text", "separator"),
    [
        ("a,b,c\n1,2,3\n", ","),
        ("a;b;c\n1,5;2,5;3\n1,5;2;3,25\n", ";"),
        ("a\tb\n1,5\t2;3\n", "\t"),
        ('a,b\n"x;y;z","1;2"\n', ","),
        ("Title of the survey\n\na;b;c\n1;2;3\n4;5;6\n", ";"),
        ("alone\n1\n2\n", ","),
        ("", ","),
    ],
)
def test_the_separator_is_the_one_that_makes_a_regular_table(text, separator):
    assert find_separator(text) == separator


def test_rows_are_padded_and_keep_their_place():
    problems = Problems("a.csv")
    sheet, form = read_delimited(b"No,Diam,Date\n1,16 mm\n\n2,17 mm,1850\n", problems)
    assert [list(row) for row in sheet.rows] == [
        ["No", "Diam", "Date"],
        ["1", "16 mm", ""],
        ["", "", ""],
        ["2", "17 mm", "1850"],
    ]
    assert sheet.first_row == 1
    assert (form.encoding, form.separator) == ("UTF-8", "comma")
    assert problems.rows == []


def test_a_declared_separator_is_obeyed_and_its_line_counted():
    sheet, form = read_delimited(b"sep=;\r\nNo;Diam\r\n1;16 mm\r\n", Problems("a.csv"))
    assert form.separator == "semicolon"
    assert sheet.first_row == 2
    assert list(sheet.rows[0]) == ["No", "Diam"]


def test_an_unclosed_quotation_mark_is_told_with_its_row():
    rows = "".join(f"{n},16 mm\n" for n in range(60))
    problems = Problems("a.csv")
    read_delimited(f'No,Diam\n1,"5/8\n{rows}'.encode(), problems)
    kinds = {(row[3 - 1], row[7]) for row in problems.rows}
    assert (2, "quote-not-closed") in kinds


def test_a_file_that_is_not_text_is_told_not_raised():
    problems = Problems("a.csv")
    assert read_delimited(b"\x00\x01\x02" * 900, problems) == (None, None)
    assert problems.rows[0][5] == "This file is neither a spreadsheet nor text."


CELL = st.text(
    st.characters(exclude_characters=";\t\x00\r", exclude_categories=["Cs"]), max_size=12
)


@given(st.lists(st.lists(CELL, min_size=3, max_size=3), min_size=1, max_size=8))
def test_every_cell_comes_back_from_text_that_a_csv_writer_wrote(rows):
    buffer = io.StringIO(newline="")
    csv.writer(buffer).writerows([["No", "Diam", "Notes"], *rows])
    sheet, form = read_delimited(buffer.getvalue().encode(), Problems("a.csv"))
    assert form.separator == "comma"
    assert [list(row) for row in sheet.rows[1:]] == rows


def test_how_many_line_breaks_a_cell_may_have_is_a_limit_of_the_table(monkeypatch):
    text = b'No,Notes\n1,"a\nb\nc\nd"\n'
    usual = Problems("survey.csv")
    read_delimited(text, usual)
    assert not usual.rows
    monkeypatch.setattr(
        delimited, "limit", lambda name: 2 if name == "cell-line-breaks" else limit(name)
    )
    told = Problems("survey.csv")
    read_delimited(text, told)
    assert [(row[2], row[7]) for row in told.rows] == [(2, "quote-not-closed")]
    assert told.rows[0][5].startswith("One cell runs over 4 lines")
