"""The reader of tables: the kit's own, and a user's with its faults told by place."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buttonstudy.schemes import SchemeError, read_scheme_file, rows
from buttonstudy.schemes.tables import scheme_rows

COLUMNS = ("label", "year_from", "year_to")

READABLE = [
    pytest.param(b"label,year_from,year_to\nEarly,1800,1849\n", id="plain"),
    pytest.param(
        b"\xef\xbb\xbflabel,year_from,year_to\r\nEarly,1800,1849\r\n", id="byte order mark"
    ),
    pytest.param(b"label;year_from;year_to\nEarly;1800;1849\n", id="semicolons"),
    pytest.param(b"label\tyear_from\tyear_to\nEarly\t1800\t1849", id="tabs"),
    pytest.param(b'"label","year_from","year_to"\n" Early ","1800","1849"\n', id="quoted"),
    pytest.param(b"\n\nlabel,year_from,year_to,\n,,,\nEarly,1800,1849,\n", id="blank rows"),
    pytest.param(b"year_to,label,year_from\n1849,Early,1800\n", id="other order"),
]

FAULTY = [
    pytest.param(b"", "own.csv: the file is empty. It needs a row of headings.", id="empty"),
    pytest.param(
        b"label,year_from,year_to\n",
        "own.csv: there is no row below the headings. Add the table's rows, or name one of the "
        "kit's own schemes instead.",
        id="headings only",
    ),
    pytest.param(
        b"label,from\nEarly,1800\n",
        'own.csv, row 1: the headings lack year_from, year_to (read: "label, from"). '
        "Name the columns label, year_from, year_to.",
        id="columns missing",
    ),
    pytest.param(
        b"label,label,year_from,year_to\n",
        'own.csv, row 1: the heading "label" stands twice. Give each column its own heading.',
        id="heading twice",
    ),
    pytest.param(
        b"label,year_from,year_to\n\nEarly, or so,1800,1849\n",
        'own.csv, row 3: "1849" stands beyond the last heading. '
        "Put quotation marks around a text that holds a comma.",
        id="cell too many",
    ),
    pytest.param(
        "label,year_from,year_to\nFrühzeit,1800,1849\n".encode("cp1252"),
        "own.csv: this is not UTF-8 text. In the spreadsheet program, save the table as "
        '"CSV UTF-8".',
        id="other encoding",
    ),
    pytest.param(
        b'label,year_from,year_to\n"Early,1800,1849\n',
        "own.csv: this is not a readable CSV table (unexpected end of data). Check its quotation "
        "marks, or save it again as CSV.",
        id="open quotation mark",
    ),
]


@pytest.mark.parametrize("content", READABLE)
def test_a_users_table_is_read_in_every_common_form(
    content: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("own.csv").write_bytes(content)
    (row,) = read_scheme_file("own.csv", COLUMNS)
    assert (row["label"], row["year_from"], row["year_to"]) == ("Early", "1800", "1849")


@pytest.mark.parametrize(("content", "message"), FAULTY)
def test_a_faulty_table_is_refused_with_place_and_remedy(
    content: bytes, message: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("own.csv").write_bytes(content)
    with pytest.raises(SchemeError) as told:
        read_scheme_file("own.csv", COLUMNS)
    assert str(told.value) == message


def test_a_missing_file_and_a_folder_are_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("folder.csv").mkdir()
    for name, reason in (
        ("none.csv", "No such file or directory"),
        ("folder.csv", "Is a directory"),
    ):
        with pytest.raises(SchemeError, match=rf"{name}: cannot be read \({reason}\)"):
            read_scheme_file(name, COLUMNS)


def test_rows_are_numbered_as_a_spreadsheet_shows_them(tmp_path: Path) -> None:
    own = tmp_path / "own.csv"
    own.write_text('label,note\n\n"two\nlines",x\nlast,y\n', encoding="utf-8")
    found = read_scheme_file(own, ("label",))
    assert [row.number for row in found] == [3, 4]
    assert str(found[1].error("note", "is wrong", "Mend it.")) == (
        f'{own}, row 4, column note: "y" is wrong. Mend it.'
    )


@pytest.mark.parametrize("text", ["", "18x7", "1837.0", "-5", "１８３７", "18370"])
def test_a_year_must_be_a_whole_number_of_four_figures(text: str, tmp_path: Path) -> None:
    own = tmp_path / "own.csv"
    own.write_text(f"label,year\nx,{text}\n", encoding="utf-8")
    (row,) = read_scheme_file(own, ("label", "year"))
    with pytest.raises(SchemeError, match="row 2, column year"):
        row.year("year")


def test_an_unknown_table_or_scheme_is_named_with_the_known_ones() -> None:
    with pytest.raises(SchemeError, match='The kit has no table called "nothing"'):
        rows("nothing")
    with pytest.raises(SchemeError) as told:
        scheme_rows("period_schemes", "regins", COLUMNS, "period scheme")
    assert str(told.value) == (
        'There is no period scheme called "regins". Use one of: british-reigns, centuries, '
        "half-centuries, twenty-years, decades; or give the path of your own CSV file."
    )


@given(content=st.binary(max_size=300))
@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_file_is_read_or_refused_in_words(content: bytes, tmp_path: Path) -> None:
    own = tmp_path / "own.csv"
    own.write_bytes(content)
    told = ""
    try:
        found = read_scheme_file(own, ())
    except SchemeError as error:
        told, found = str(error), ()
    assert bool(found) != told.startswith(str(own))
