"""One table's rows made into button records.

A row is a record if it holds something about a button; a row that holds only a remark (below the
table, or a group's title between rows) is told as such with its text. Columns that the kit does
not know are carried through under their own headings.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import pandas as pd

from buttonstudy.readings.terms.medium import MEDIUM_FIELDS
from buttonstudy.schemes import DateConvention, Vocabulary, fields, limit
from buttonstudy.survey import cells
from buttonstudy.survey.cells import Frame, Place
from buttonstudy.survey.coded import Coded, repeated
from buttonstudy.survey.finish import record_columns
from buttonstudy.survey.headings import Column
from buttonstudy.survey.holes import HOLE_SIZE, absent_holes, without_hole
from buttonstudy.survey.lengths import length_columns
from buttonstudy.survey.links import CONTAINED
from buttonstudy.survey.mapping import CONTAINS, MEDIUM
from buttonstudy.survey.problems import FOR_INFORMATION, Problems
from buttonstudy.survey.sum_rows import are_sums
from buttonstudy.survey.tables import Table, row_text


@dataclass(frozen=True, slots=True)
class Rules:
    """How cells are to be read: the date convention and the vocabulary in force."""

    convention: DateConvention
    vocabulary: Vocabulary


def read_records(
    table: Table,
    columns: Sequence[Column],
    whole: Sequence[Coded],
    sheet: str,
    rules: Rules,
    problems: Problems,
) -> pd.DataFrame:
    """Read one table.

    Parameters
    ----------
    table
        The table as found in its sheet.
    columns
        What each of its columns was taken for.
    whole
        The cells of each column, as the spreadsheet shows them.
    sheet
        The sheet's name.
    rules
        How cells are to be read.
    problems
        Where doubts are noted.

    Returns
    -------
    pandas.DataFrame
        One row per record: ``file, sheet, row``, the fields found with their wordings, and the
        columns that were not known.
    """
    numbers = np.array(table.row_numbers, dtype=np.intp)
    is_record = _records(table, columns, whole)
    _tell_remarks(table, ~is_record, sheet, problems)
    kept = [one.kept(is_record) for one in whole]
    numbers = numbers[is_record]
    places = [Place(problems, sheet, column_name(one), numbers) for one in columns]
    frame: Frame = {
        "file": repeated(problems.file, len(numbers)),
        "sheet": repeated(sheet, len(numbers)),
        "row": pd.Series(numbers, dtype="Int64"),
    }
    by_field: dict[str, list[int]] = {}
    for index, column in enumerate(columns):
        if column.field:
            by_field.setdefault(column.field, []).append(index)
    frame |= _understood(by_field, columns, kept, places, rules)
    frame |= _carried(columns, kept)
    return pd.DataFrame(frame)


def column_name(column: Column) -> str:
    """Name a column for a message: its letter and its heading."""
    return f"{column.letter}: {column.heading}" if column.heading else column.letter


def _understood(
    by_field: Mapping[str, Sequence[int]],
    columns: Sequence[Column],
    kept: Sequence[Coded],
    places: Sequence[Place],
    rules: Rules,
) -> Frame:
    frame: Frame = {}
    holes = [(kept[index], places[index]) for index in by_field.get(HOLE_SIZE, ())]
    solid = without_hole([one for one, _ in holes], rules.vocabulary)
    recorders = next((kept[index] for index in by_field.get("recorder", ())), None)
    for one in fields():
        held = by_field.get(one.field, ())
        if not held:
            continue
        column, place = kept[held[0]], places[held[0]]
        if one.kind in ("id", "text"):
            frame |= cells.text_column(one.field, column)
        elif one.kind == "term":
            frame |= cells.term_column(one.field, column, place, rules.vocabulary)
        elif one.kind == "opened":
            frame |= cells.opened_column(column, place, rules.vocabulary)
        elif one.kind == "count":
            frame |= cells.count_column(one.field, column, place)
        elif one.kind == "length":
            told = [(columns[i], kept[i], places[i]) for i in held]
            nothing = solid if one.field == HOLE_SIZE else ()
            frame |= length_columns(one.field, told, nothing, recorders)
    if solid:
        frame |= absent_holes(frame, holes, solid)
    dates = {
        role: (kept[by_field[role][0]], places[by_field[role][0]])
        for role in ("date", "date_from", "date_to")
        if role in by_field
    }
    if CONTAINS in by_field:
        frame[CONTAINED] = kept[by_field[CONTAINS][0]].texts()
    if MEDIUM in by_field:
        index = by_field[MEDIUM][0]
        without = [field for field in MEDIUM_FIELDS if field not in by_field]
        frame |= cells.medium_columns(without, kept[index], places[index], rules.vocabulary)
    if dates:
        frame |= cells.date_columns(dates, rules.convention)
    return frame


def _carried(columns: Sequence[Column], kept: Sequence[Coded]) -> Frame:
    """Carry unknown columns through under their own headings, never under a record column's.

    A list of materials is carried through too, since no field of the record holds the whole of it.
    """
    frame: Frame = {}
    for column, texts in zip(columns, kept):
        if column.field not in ("", MEDIUM) or not texts.is_filled().any():
            continue
        name = carried_name(column.heading or f"column {column.letter}")
        if name in frame:
            name = f"{name} ({column.letter})"
        frame[name] = texts.texts()
    return frame


def carried_name(heading: str) -> str:
    """Name the column that carries an unknown heading's cells.

    Examples
    --------
    >>> carried_name("Shelf"), carried_name("row")
    ('Shelf', 'row (as written)')
    """
    taken = heading in record_columns() or heading == CONTAINED
    return f"{heading} (as written)" if taken else heading


def _records(
    table: Table, columns: Sequence[Column], whole: Sequence[Coded]
) -> npt.NDArray[np.bool_]:
    """Tell which rows are records rather than remarks."""
    filled = np.zeros(len(table.rows), dtype=np.intp)
    for one in whole:
        filled += one.is_filled()
    usual = float(np.median(filled[filled > 0])) if filled.any() else 0.0
    sparse = (
        (filled <= 2) & (usual >= limit("usual-cells")) & np.array(table.after_blank, dtype=bool)
    )
    last = np.flatnonzero(filled > 2).max(initial=-1)
    below = np.arange(len(filled)) > last
    records = (filled > 0) & ~(sparse & below) & ~are_sums(whole)
    lone = np.flatnonzero(filled == 1)
    records[lone] &= _tell_of_a_button(columns, whole, lone)
    return records


def _tell_of_a_button(
    columns: Sequence[Column], whole: Sequence[Coded], rows: npt.NDArray[np.intp]
) -> npt.NDArray[np.bool_]:
    """Tell for rows with one filled cell whether that cell says something about a button."""
    telling = np.zeros(len(rows), dtype=bool)
    for column, one in zip(columns, whole):
        codes = one.codes[rows]
        if column.field == "button_id" or (column.field and column.index == 0):
            likely = [_like_an_id(one.wordings[code]) for code in codes]
            telling |= one.filled[codes] & np.array(likely, dtype=bool)
        elif column.field and column.field not in ("notes", "recorder", "photos"):
            telling |= one.filled[codes]
    return telling


def _like_an_id(text: str) -> bool:
    words = text.split()
    digits = any(character.isdigit() for character in text)
    return len(text.strip()) <= limit("id-length") and (
        len(words) == 1 or (digits and len(words) <= 3)
    )


def _tell_remarks(
    table: Table, rows: npt.NDArray[np.bool_], sheet: str, problems: Problems
) -> None:
    for index in map(int, np.flatnonzero(rows)):
        if text := row_text(table.rows[index]):
            problems.add(
                "remark",
                "This row was taken for a remark, not for a button.",
                "If it is a button, fill in at least its number and one more cell.",
                level=FOR_INFORMATION,
                sheet=sheet,
                row=table.row_numbers[index],
                wording=text,
            )
