"""A marked copy of a survey: every problem at its cell, and a list that leads to the cells.

The survey file itself is only read. The copy is a new workbook with all its sheets and cells as
they were read, each problem cell coloured and commented, and in front a sheet that lists all
problems with links. The list says that it is not read as records, so a copy that was mended is
understood as the survey is; but remarks, colours and formulas of the survey file are not in it.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.errors import CallError, PublishError
from buttonstudy.publish.marked_sheets import Mark, SheetWriter
from buttonstudy.publish.names import safe_name
from buttonstudy.publish.places import new_file
from buttonstudy.publish.problem_sheet import (
    PlacedProblem,
    column_index,
    placed_problems,
    write_problem_sheet,
)
from buttonstudy.publish.workbook_style import LEVEL_TINTS, Styles, new_workbook
from buttonstudy.survey.coded import coded_columns
from buttonstudy.survey.exported import is_exported_survey
from buttonstudy.survey.files import SurveyFile, display_names, find_files, read_file
from buttonstudy.survey.headings import Column
from buttonstudy.survey.load import DEMO, demo_folder
from buttonstudy.survey.problems import Problems
from buttonstudy.survey.saved import is_saved_survey
from buttonstudy.survey.sheets import Sheet, wording
from buttonstudy.survey.shown import shown_cells
from buttonstudy.survey.tables import Table

if TYPE_CHECKING:
    import pandas as pd

    from buttonstudy.survey.load import Survey

__all__ = ["write_marked"]

_NAME_LONGEST = 31  # letters of a sheet's name (ECMA-376 leaves it open; Microsoft's limit)
_LIST = "Problems"


def write_marked(survey: "Survey", paths: Sequence[str | Path], to: str | Path) -> list[Path]:
    """Write marked copies.

    Parameters
    ----------
    survey
        What ``load_survey(paths)`` gave.
    paths
        The survey files, or folders of them.
    to
        A new file that ends with .xlsx, for one survey file; or a folder, which gets one marked
        copy for each survey file.

    Returns
    -------
    list of pathlib.Path
        The files written.

    Raises
    ------
    CallError
        If something is already there, or several survey files are to go into one workbook.
    PublishError
        If a file changed since it was read, does not fit a workbook, or cannot be written.
    """
    if any(is_saved_survey(path) or is_exported_survey(path) for path in paths):
        raise CallError("A marked copy is made of the survey files themselves. Name those.")
    files = find_files([demo_folder() if path == DEMO else path for path in paths])
    names = display_names(files)
    places = _places(names, Path(to))
    for path, name, place in zip(files, names, places):
        file = read_file(path, name, Problems(name))
        if file.sha256 not in set(survey.sources["sha256"]):
            raise PublishError(f"{name} was changed while it was being checked. Try again.")
        write_aside(place, _marked(survey, file), fresh=True)
    return places


def _places(names: Sequence[str], to: Path) -> list[Path]:
    """Choose a new file for each survey file, and refuse before anything is written."""
    if to.suffix.lower() == ".xlsx":
        if len(names) > 1:
            raise CallError(
                f"These are {len(names)} survey files, and a workbook is a marked copy of one. "
                "Name a folder instead, which then holds a marked copy of each."
            )
        return [new_file(to, ".xlsx")]
    if to.suffix and not to.is_dir():
        raise CallError(f"{to}: name a workbook (.xlsx), or a folder for several.")
    if not to.parent.is_dir():
        raise CallError(f"There is no folder {to.parent}. Make it first, or choose another.")
    to.mkdir(exist_ok=True)
    stems = [safe_name(Path(name).stem, "survey") for name in names]
    if len(set(stems)) < len(stems):
        stems = [f"{stem}-{number}" for number, stem in enumerate(stems, start=1)]
    return [new_file(to / f"{stem}-marked.xlsx", ".xlsx") for stem in stems]


def _marked(survey: "Survey", file: SurveyFile) -> bytes:
    problems = survey.problems[survey.problems["file"] == file.name]
    columns = survey.columns[survey.columns["file"] == file.name]
    placed = placed_problems(problems, columns, file.sheets)
    names = _sheet_names(file)
    content = BytesIO()
    with new_workbook(content) as book:
        front = book.add_worksheet(_free(_LIST, names.values()))
        writer = SheetWriter(book)
        for sheet in file.sheets:
            shown = _shown(sheet, columns[columns["sheet"] == sheet.name], file)
            marks = _marks([one for one in placed if one.sheet == sheet.name])
            writer.write(book.add_worksheet(names[sheet.name]), shown, marks)
        write_problem_sheet(front, file.name, placed, names, Styles(book))
    return content.getvalue()


def _shown(sheet: Sheet, columns: "pd.DataFrame", file: SurveyFile) -> Sheet:
    """Give a sheet with its sizes as the spreadsheet program shows them."""
    taken = [
        Column(column_index(letters) - sheet.first_column, letters, "", field, unit)
        for letters, field, unit in columns[["column", "field", "unit"]].astype("str").to_numpy()
    ]
    numbers = range(sheet.first_row, sheet.first_row + len(sheet.rows))
    whole = Table((), sheet.first_row, sheet.rows, numbers, ())
    cells = coded_columns(sheet.rows)
    told = Problems(file.name)  # in reading the survey
    shown = {
        (row, index): new
        for index, words in shown_cells(whole, taken, cells, sheet, file.data, told).items()
        for row, (old, new) in enumerate(zip(whole.column(index), words))
        if new != wording(old)
    }
    return replace(sheet, rows=sheet.rows.with_cells(shown))


def _marks(problems: Sequence[PlacedProblem]) -> dict[tuple[int, int], Mark]:
    """Join what is told about each cell of one sheet, the gravest first."""
    order = list(LEVEL_TINTS)
    told: dict[tuple[int, int], list[PlacedProblem]] = {}
    for one in sorted(problems, key=lambda one: order.index(one.level)):
        if one.cell:
            told.setdefault(one.cell, []).append(one)
    return {cell: Mark(some[0].level, "\n\n".join(map(_says, some))) for cell, some in told.items()}


def _says(one: PlacedProblem) -> str:
    return f"{one.level.upper()}: {one.problem}\n{one.what_to_do}"


def _sheet_names(file: SurveyFile) -> dict[str, str]:
    """Give each sheet of the survey a name that a workbook allows."""
    names: dict[str, str] = {}
    for sheet in file.sheets:
        names[sheet.name] = _free(sheet.name or Path(file.name).stem, names.values())
    return names


def _free(wanted: str, taken: Iterable[str]) -> str:
    """Make a sheet's name that is allowed and not taken; case does not tell names apart.

    Examples
    --------
    >>> _free("Coats [1]: old/new", []), _free("problems", ["Problems"])
    ('Coats _1__ old_new', 'problems (2)')
    """
    plain = re.sub(r"[\[\]:*?/\\\x00-\x1f]", "_", wanted).strip("' ") or "Sheet"
    held = {name.casefold() for name in taken}
    name, number = plain[:_NAME_LONGEST].rstrip("' "), 1
    while name.casefold() in held:
        number += 1
        ending = f" ({number})"
        name = plain[: _NAME_LONGEST - len(ending)].rstrip("' ") + ending
    return name
