"""What is told around tables: files left out, rows outside, and tables without a row."""

from pathlib import Path

from buttonstudy.survey.problems import FOR_INFORMATION, NOT_READ, Problems
from buttonstudy.survey.sheets import Sheet
from buttonstudy.survey.tables import Found, Table

__all__ = ["left_out", "tell_around", "tell_no_rows"]


def left_out(path: Path) -> Problems:
    """Tell that a text about the folder was not read."""
    problems = Problems(path.name)
    problems.add(
        "file-left-out",
        "This file was not read: by its name it tells about the folder that it lies in.",
        "Nothing, if there are no buttons in it; else name the file itself.",
        level=FOR_INFORMATION,
    )
    return problems


def tell_around(sheet: Sheet, found: Found, any_table: bool, problems: Problems) -> None:
    """Tell rows that belong to no table, and a sheet that has no table at all."""
    tabular = [row for row, text in found.around if " | " in text]
    if not found.tables and found.around and (len(tabular) > 1 or not any_table):
        row, text = next((one for one in found.around if " | " in one[1]), found.around[0])
        problems.add(
            "no-headings",
            f"No row of headings was recognised in these {len(found.around)} rows, so none was "
            "read.",
            "Put a row of headings above the buttons (such as Button no., Diameter (mm), Date), or "
            "name the headings in a mapping file.",
            level=NOT_READ,
            sheet=sheet.name,
            row=row,
            wording=text[:200],
        )
    if not found.tables and not found.around and not any_table:
        problems.add(
            "sheet-empty",
            "This sheet is empty.",
            "Check that it is the right file.",
            level=NOT_READ,
            sheet=sheet.name,
        )
    for row, text in found.around:
        problems.add(
            "text-outside-table",
            "This row stands outside the table and was not read as a button.",
            "Nothing, if it is a title or a remark.",
            level=FOR_INFORMATION,
            sheet=sheet.name,
            row=row,
            wording=text,
        )
    for row in found.repeated:
        problems.add(
            "headings-again",
            "The headings stand here again; the rows below were read on.",
            "Nothing, if this is a new page of the same table.",
            level=FOR_INFORMATION,
            sheet=sheet.name,
            row=row,
        )


def tell_no_rows(table: Table, sheet: str, is_form: bool, problems: Problems) -> None:
    """Tell headings without rows: a form not yet filled in, or else perhaps the wrong file."""
    if not table.rows:
        problems.add(
            "no-rows",
            "There are headings but no rows below them.",
            "Nothing, if no button was noted yet."
            if is_form
            else "Check that it is the right file.",
            level=FOR_INFORMATION if is_form else NOT_READ,
            sheet=sheet,
            row=table.heading_row,
        )
