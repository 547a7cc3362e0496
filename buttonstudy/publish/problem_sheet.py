"""Problems with their cells, and the sheet of a marked copy that lists them with links."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from buttonstudy.publish.workbook_style import (
    LEVEL_TINTS,
    LONGEST_TEXT,
    Styles,
    set_height,
    set_to_print,
)
from buttonstudy.readings.formula_marks import harmless
from buttonstudy.survey.problems import NOT_READ
from buttonstudy.survey.sheets import Sheet, column_letter
from buttonstudy.survey.unread import NOT_RECORDS

if TYPE_CHECKING:
    import pandas as pd
    from xlsxwriter.worksheet import Worksheet

__all__ = ["PlacedProblem", "column_index", "placed_problems", "write_problem_sheet"]

_COLUMN = re.compile(r"([A-Z]{1,3})\b")
_MOST_LINKS = 65_530  # on one sheet (Microsoft: "Excel specifications and limits")
_TOP = 4
_ABOUT = (
    "The survey file itself was not changed: mend it there. In this copy each cell of the list is "
    "coloured and has a comment. It holds what the cells say and no more: remarks on cells, "
    "colours and formulas of your file are not in it, so it does not replace your file. What is "
    "right as it is can be accepted: write its code into a column headed Accepted, in its row."
)
_HEADINGS = (
    ("Level", 15),
    ("Cell", 24),
    ("What stands there", 30),
    ("Problem", 70),
    ("What to do", 60),
    ("Code to accept it", 24),
)


@dataclass(frozen=True, slots=True)
class PlacedProblem:
    """One problem and its cell: row 1-based, column 0-based; None where it is about no row.

    Its code is empty where it cannot be accepted.
    """

    level: str
    sheet: str
    cell: tuple[int, int] | None
    wording: str
    problem: str
    what_to_do: str
    code: str


def placed_problems(
    problems: "pd.DataFrame", columns: "pd.DataFrame", sheets: Sequence[Sheet]
) -> list[PlacedProblem]:
    """Find the cell of each problem in one file.

    A problem of a whole row stands at the button's number, or else at the row's first cell.

    Parameters
    ----------
    problems, columns
        The survey's, of this file only.
    sheets
        The file's sheets.
    """
    first = {sheet.name: sheet.first_column for sheet in sheets}
    numbered = columns[columns["field"] == "button_id"]
    letters = map(str, numbered["column"])
    first |= dict(zip(map(str, numbered["sheet"]), map(column_index, letters)))
    rows = [
        None if missing else int(row)
        for row, missing in zip(problems["row"], problems["row"].isna())
    ]
    words = problems.drop(columns="row").astype("str").fillna("").to_dict("records")
    return [
        PlacedProblem(
            one["level"],
            one["sheet"],
            _cell(row, one["column"], first.get(one["sheet"])),
            one["wording"],
            one["problem"],
            one["what_to_do"],
            "" if one["level"] == NOT_READ else one["kind"],
        )
        for row, one in zip(rows, words)
    ]


def _cell(row: int | None, column: str, first: int | None) -> tuple[int, int] | None:
    if row is None or first is None:
        return None
    found = _COLUMN.match(column)
    return row, column_index(found[1]) if found else first


def column_index(letters: str) -> int:
    """Give a column's place, counted from 0.

    Examples
    --------
    >>> column_index("A"), column_index("AA")
    (0, 26)
    """
    place = 0
    for letter in letters:
        place = place * 26 + ord(letter) - ord("A") + 1
    return place - 1


def write_problem_sheet(
    to: "Worksheet",
    file: str,
    problems: Sequence[PlacedProblem],
    names: Mapping[str, str],
    styles: Styles,
) -> None:
    """List the problems of one file, each with a link to its cell.

    Parameters
    ----------
    to
        An empty sheet of the workbook.
    file
        The survey file's name.
    problems
        They are listed by level, the gravest first.
    names
        What each sheet of the file is called in this workbook.
    styles
        The workbook's formats.
    """
    to.write_string(0, 0, f"Problems in {file}. {NOT_RECORDS}", styles.title)
    to.write_string(1, 0, _ABOUT)
    for column, (heading, width) in enumerate(_HEADINGS):
        to.set_column(column, column, width)
        to.write_string(_TOP - 1, column, heading, styles.heading)
    order = list(LEVEL_TINTS)
    widths = [width for _, width in _HEADINGS[2:]]
    for row, one in enumerate(sorted(problems, key=lambda one: order.index(one.level)), _TOP):
        to.write_string(row, 0, one.level, styles.levels[one.level])
        _write_place(to, row, one, names.get(one.sheet, one.sheet), styles)
        texts = (one.wording, one.problem, one.what_to_do, one.code)
        set_height(to, row, texts, widths)
        for column, text in enumerate(texts, start=2):
            form = styles.harmless if harmless(text) != text else styles.wrapped
            to.write_string(row, column, text[:LONGEST_TEXT], form)
    if not problems:
        to.write_string(_TOP, 0, "None was found.")
    to.freeze_panes(_TOP, 0)
    set_to_print(to, _TOP - 1, 1)


def _write_place(to: "Worksheet", row: int, one: PlacedProblem, sheet: str, styles: Styles) -> None:
    if one.cell is None:
        to.write_string(row, 1, sheet, styles.wrapped)
        return
    cell = f"{column_letter(one.cell[1])}{one.cell[0]}"
    if row < _MOST_LINKS:
        quoted = sheet.replace("'", "''")
        to.write_url(row, 1, f"internal:'{quoted}'!{cell}", styles.link, f"{sheet} {cell}")
    else:
        to.write_string(row, 1, f"{sheet} {cell}", styles.wrapped)
