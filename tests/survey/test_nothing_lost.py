"""Nothing lost: what stands in a messy survey is in the records or among the problems.

Workbooks and text tables are generated with all that real ones have: titles, blank rows, headings
in any order and twice, headings that nobody knows, remarks below, sums, cells of every type. What
stands in a workbook is asked of openpyxl, which the kit does not read with.
"""

import csv
import datetime as dt
from pathlib import Path

import xlsxwriter
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

import buttonstudy as bs

QUICK = settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
    max_examples=25,
    deadline=None,
)
HEADINGS = st.sampled_from(
    [
        "No.",
        "Button no.",
        "Set",
        "Diam (mm)",
        "Size [L]",
        "Date",
        "Mould",
        "Mold material",
        "Medium",
        "Opened",
        "Accepted",
        "Found inside",
        "Notes",
        "Drawer",
        "",
        "file",
        "=1+1",
    ]
)
TEXT = st.sampled_from(
    [
        "",
        "1",
        "16",
        "5/8 in",
        "12,5 mm",
        "c. 1840",
        "Victorian",
        "wood",
        "none",
        "no",
        "?",
        "all",
        "Total",
        "a remark of some length about the buttons of my aunt",
        "=1+1",
        "'=1+1",
        "<b>x</b>",
        " ",
        "No.",
        "Date",
        "\N{EN DASH}",
        "é\n2",
    ]
)
CELL = TEXT | st.sampled_from([16, 0.625, 1e9, -3.5, True, dt.datetime(2021, 8, 5)])


def grids(headings):
    """Rows of headings, each with rows of cells below."""
    return headings.flatmap(
        lambda row: st.tuples(
            st.just(row), st.lists(st.lists(CELL, min_size=len(row), max_size=len(row)), max_size=8)
        )
    )


GRID = grids(st.lists(HEADINGS, min_size=1, max_size=6))
TABLE = grids(
    st.lists(HEADINGS, max_size=4).flatmap(lambda some: st.permutations(["No.", "Date", *some]))
)
TITLE = st.lists(st.sampled_from(["", "A list of mine", "Drawer 2, measured wet"]), max_size=3)


def written(grid, title):
    headings, rows = grid
    return [*([text] for text in title), headings, *rows]


def rows_told(survey, sheet):
    """Rows that are in the records, or that a problem names; None if the sheet is told whole."""
    problems = survey.problems[survey.problems["sheet"] == sheet]
    records = survey.buttons[survey.buttons["sheet"] == sheet]
    whole = problems["kind"].isin(["no-headings", "no-rows"]) | (
        (problems["level"] == "not read") & problems["row"].isna()
    )
    headings = set(survey.columns.loc[survey.columns["sheet"] == sheet, "heading"])
    told = {*records["row"].dropna(), *problems["row"].dropna()}
    return None if whole.any() else told, headings


@QUICK
@given(GRID, TITLE, GRID)
@example((["No.", "Date"], [["1", "c. 1840"], ["", ""], ["Total", "1"]]), ["A list"], (["x"], []))
def test_every_filled_row_of_a_workbook_is_in_the_records_or_the_problems(
    tmp_path, first, title, second
):
    path = tmp_path / "messy.xlsx"
    with xlsxwriter.Workbook(path, {"strings_to_formulas": False, "remove_timezone": True}) as book:
        date = book.add_format({"num_format": "d-mmm"})
        for name, grid in (("One", written(first, title)), ("Two", written(second, []))):
            sheet = book.add_worksheet(name)
            for at, cells in enumerate(grid):
                for column, cell in enumerate(cells):
                    if isinstance(cell, dt.datetime):
                        sheet.write_datetime(at, column, cell, date)
                    elif cell != "":
                        sheet.write(at, column, cell)
    survey = bs.load_survey(path)
    for sheet in load_workbook(path):
        told, headings = rows_told(survey, sheet.title)
        for number, cells in enumerate(sheet.iter_rows(values_only=True), start=1):
            texts = [str(cell).strip() for cell in cells if cell is not None]
            if (
                told is not None
                and any(texts)
                and not set(texts) <= {" ".join(headings), *headings}
            ):
                assert number in told, (sheet.title, number, cells)


@QUICK
@given(TABLE, TITLE)
def test_every_cell_of_a_record_is_in_its_row_of_the_record(tmp_path, grid, title):
    path = tmp_path / "messy.csv"
    rows = [[str(cell) for cell in cells] for cells in written(grid, title)]
    with path.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows(rows)
    survey = bs.load_survey(path)
    for _, record in survey.buttons.iterrows():
        kept = " | ".join(str(value) for value in record)
        for cell in rows_by_number(path)[record["row"]]:
            assert said(cell) in kept, (cell, kept)


def said(cell):
    """The cell without the apostrophe that keeps a text from being run, and without blanks."""
    return (cell[1:] if cell.startswith("'=") else cell).strip()


def rows_by_number(path: Path) -> dict[int, list[str]]:
    """Rows as a spreadsheet program shows them: a line break in a cell makes no new row."""
    with path.open(newline="", encoding="utf-8") as file:
        return dict(enumerate(csv.reader(file), start=1))
