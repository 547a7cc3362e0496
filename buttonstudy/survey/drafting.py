"""A mapping file drafted from what was recognised, for the researcher to correct.

Each heading of each sheet gets a row with the field and unit it was taken for. Those that call for
a look are marked. Reading with the draft as it stands gives the same records as reading without.
"""

from collections.abc import Iterator, Sequence
from pathlib import Path

import pandas as pd

from buttonstudy.survey.files import display_names, find_files, read_file
from buttonstudy.survey.grid import is_written
from buttonstudy.survey.guessing import guessed
from buttonstudy.survey.headings import (
    BY_MAPPING,
    BY_NEAR_SPELLING,
    field_of,
    proposed_field,
    stated_step,
)
from buttonstudy.survey.mapping import NOT_USED
from buttonstudy.survey.problems import Problems
from buttonstudy.survey.sheets import Sheet, column_letter, wording

DRAFT_COLUMNS = (
    "heading",
    "field",
    "unit",
    "step",
    "prefix",
    "file",
    "sheet",
    "look",
    "column",
    "filled",
)
NO_TABLE = "no table"
_NO_TABLE = "no table was recognised here: is this a heading, and what does it mean?"
_NEAR = "taken from a near spelling: is it right?"
_UNKNOWN = "not known: carried through as it stands"
_PERHAPS = "not known: perhaps {0}; if it is, write {0}"
_AGAIN = "another column holds this field: carried through as it stands"


def draft_mapping(
    columns: pd.DataFrame, problems: pd.DataFrame, buttons: pd.DataFrame | None = None
) -> pd.DataFrame:
    """Draft a mapping file.

    Parameters
    ----------
    columns
        What each heading was taken for: ``survey.columns``.
    problems
        ``survey.problems``, which tell headings that claim a field another column holds.
    buttons
        ``survey.buttons``, from whose cells a meaning is guessed where a table lacks the button
        number or the diameter; without it nothing is guessed.

    Returns
    -------
    pandas.DataFrame
        :data:`DRAFT_COLUMNS`, all texts but `filled`: what a mapping file holds, then what to
        look at (blank where the heading was recognised), the column's letter and how many cells
        are filled. Columns without a heading are left out: nothing can name them.

    Examples
    --------
    >>> columns = pd.DataFrame([("a.csv", "", "A", "No.", "button_id", "", "heading", 3),
    ...     ("a.csv", "", "B", "Drawer", "", "", "not known", 2)], columns=["file", "sheet",
    ...     "column", "heading", "field", "unit", "how", "filled"])
    >>> problems = pd.DataFrame({"file": [], "sheet": [], "wording": [], "kind": []})
    >>> draft_mapping(columns, problems)[["heading", "field", "look"]].values.tolist()[1]
    ['Drawer', 'not used', 'not known: carried through as it stands']
    """
    asked = problems[problems["kind"] == "heading-perhaps"]
    perhaps = set(zip(asked["file"], asked["sheet"], asked["wording"]))
    again = problems[problems["kind"] == "heading-twice"]
    twice = set(zip(again["file"], again["sheet"], again["wording"]))
    rows = []
    known = columns[columns["heading"] != ""].fillna("")
    guesses = guessed(known, buttons) if buttons is not None else {}
    for one in known.drop_duplicates(["file", "sheet", "heading"]).itertuples():
        claimed = (one.file, one.sheet, one.heading) in twice
        step = stated_step(str(one.heading)) if one.field else None
        maybe = ""
        if (one.file, one.sheet, one.heading) in perhaps:
            maybe = proposed_field(str(one.heading), ())
        guess = guesses.get((str(one.file), str(one.sheet), str(one.heading)))
        rows.append(
            (
                one.heading,
                one.field or NOT_USED,
                guess.unit if guess else one.unit,
                f"{step!r} mm" if step else "",
                "",
                one.file,
                one.sheet,
                guess.look
                if guess
                else _PERHAPS.format(maybe)
                if maybe
                else _look(str(one.how), str(one.field), claimed),
                one.column,
                one.filled,
            )
        )
    return pd.DataFrame(rows, columns=list(DRAFT_COLUMNS))


def unrecognised_columns(paths: Sequence[str | Path], problems: pd.DataFrame) -> pd.DataFrame:
    """Give what may be headings in sheets in which no table was recognised.

    Parameters
    ----------
    paths
        What ``load_survey`` was given.
    problems
        ``survey.problems``, which name the first row of such sheets that looks like headings.

    Returns
    -------
    pandas.DataFrame
        The columns of ``survey.columns``, none of them taken as sure.
    """
    without = problems[problems["kind"] == "no-headings"]
    rows = dict(zip(zip(without["file"], without["sheet"]), without["row"]))
    found = find_files(paths) if rows else []
    columns = [
        (name, sheet.name, *column)
        for path, name in zip(found, display_names(found))
        for sheet in read_file(path, name, Problems(name)).sheets
        if (name, sheet.name) in rows
        for column in _cells(sheet, int(rows[name, sheet.name]))
    ]
    names = ["file", "sheet", "column", "heading", "field", "unit", "how", "filled"]
    return pd.DataFrame(columns, columns=names)


def _cells(sheet: Sheet, row: int) -> Iterator[tuple[str, str, str, str, str, int]]:
    """Give each text of a row as a heading, with how many cells are filled below it."""
    at = row - sheet.first_row
    below = sheet.rows[at + 1 :]
    for index, cell in enumerate(sheet.rows[at]):
        heading = " ".join(wording(cell).split())
        if heading:
            filled = int(below.columns[index].where(is_written).sum())
            letter = column_letter(sheet.first_column + index)
            yield letter, heading, *field_of(heading), NO_TABLE, filled


def _look(how: str, field: str, again: bool) -> str:
    """Say what to look at; nothing where the heading or a mapping file was clear."""
    if how == NO_TABLE:
        return _NO_TABLE
    if field:
        return _NEAR if how == BY_NEAR_SPELLING else ""
    if how == BY_MAPPING:
        return ""
    return _AGAIN if again else _UNKNOWN
