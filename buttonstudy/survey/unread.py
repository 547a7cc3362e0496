"""Sheets that say of themselves that they hold no records.

A workbook may explain a survey, list its terms or show invented examples beside the records. A
sheet whose first filled cell says so, in the words below, is not read. If somebody nevertheless
noted buttons there, these rows are told, so that nothing is lost unseen. Of what such a sheet says
only the survey's name is taken.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from buttonstudy.schemes.tables import rows
from buttonstudy.survey.problems import NOT_READ, Problems
from buttonstudy.survey.sheets import Sheet, column_letter, wording

__all__ = ["EXAMPLE", "NOT_RECORDS", "record_sheets", "survey_name"]

NOT_RECORDS = "This sheet is not read as records."
"""The words that keep a sheet from being read."""

EXAMPLE = "Example"
"""How the numbers of invented example buttons begin."""


def record_sheets(sheets: Sequence[Sheet], problems: Problems) -> list[Sheet]:
    """Give the sheets that are to be read; rows of buttons on the others are told."""
    read = [sheet for sheet in sheets if not _says_no(sheet)]
    for sheet in sheets:
        if _says_no(sheet):
            _tell_buttons(sheet, problems)
    if sheets and not read:
        problems.add(
            "no-record-sheet",
            "Every sheet of this file says that it is not read as records.",
            f'Delete the words "{NOT_RECORDS}" from the sheet that holds the buttons.',
            level=NOT_READ,
        )
    return read


def survey_name(sheets: Sequence[Sheet]) -> str:
    """Give what a file's sheet about its survey says that it is called, on one line.

    Returns
    -------
    str
        What stands right of the question; empty if nothing does, or if no sheet asks.

    Examples
    --------
    >>> rows = [[f"About. {NOT_RECORDS}", ""], ["Name of the survey", "Our drawers"]]
    >>> survey_name([Sheet("About the survey", rows)])
    'Our drawers'
    """
    asked = {_folded(row["question"]) for row in rows("about_questions") if row["asks"] == "name"}
    answers = (
        " ".join(wording(answer).split())
        for sheet in sheets
        if _says_no(sheet)
        for cells in sheet.rows
        for question, answer in pairwise(cells)
        if isinstance(question, str) and _folded(question) in asked
    )
    return next(filter(None, answers), "")


def _says_no(sheet: Sheet) -> bool:
    first = next((cell for row in sheet.rows for cell in row if cell != ""), "")
    return NOT_RECORDS.casefold() in _folded(wording(first))


def _folded(text: str) -> str:
    return " ".join(text.split()).casefold()


def _tell_buttons(sheet: Sheet, problems: Problems) -> None:
    for row, number, letter in _numbered_rows(sheet):
        if not number.casefold().startswith(EXAMPLE.casefold()):
            problems.add(
                "button-on-unread-sheet",
                "A button stands here on a sheet that is not read as records.",
                "Move the row to the sheet of records.",
                level=NOT_READ,
                sheet=sheet.name,
                row=row,
                column=letter,
                wording=number,
            )


def _numbered_rows(sheet: Sheet) -> Iterator[tuple[int, str, str]]:
    """Give row, button number and column letter of each row below a heading for numbers."""
    from buttonstudy.survey.headings import field_of
    from buttonstudy.survey.tables import find_tables

    for table in find_tables(sheet).tables:
        of = [field_of(heading)[0] for heading in table.headings]
        if "button_id" not in of or len(set(of) - {""}) < 2:
            continue
        index = of.index("button_id")
        letter = column_letter(sheet.first_column + index)
        for row, cell in zip(table.row_numbers, table.column(index)):
            if number := wording(cell).strip():
                yield row, number, letter
