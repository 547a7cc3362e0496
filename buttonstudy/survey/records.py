"""One table's rows made into button records.

A row is a record if it holds something about a button; a row that holds only a remark (below the
table, or a group's title between rows) is told as such with its text. Columns that the kit does
not know are carried through under their own headings.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
import numpy.typing as npt
import pandas as pd

from buttonstudy.schemes import DateConvention, Vocabulary, fields, limit
from buttonstudy.schemes.tables import rows
from buttonstudy.survey import cells
from buttonstudy.survey.cells import Frame, Place
from buttonstudy.survey.coded import Coded, coded
from buttonstudy.survey.finish import record_columns
from buttonstudy.survey.headings import Column
from buttonstudy.survey.lengths import length_columns
from buttonstudy.survey.problems import FOR_INFORMATION, Problems
from buttonstudy.survey.sheets import Cell
from buttonstudy.survey.tables import Table, row_text


@dataclass(frozen=True, slots=True)
class Rules:
    """How cells are to be read: the date convention and the vocabulary in force."""

    convention: DateConvention
    vocabulary: Vocabulary


def read_records(
    table: Table,
    columns: Sequence[Column],
    sheet: str,
    rules: Rules,
    problems: Problems,
    shown: Mapping[int, Sequence[Cell]],
) -> pd.DataFrame:
    """Read one table.

    Parameters
    ----------
    table
        The table as found in its sheet.
    columns
        What each of its columns was taken for.
    sheet
        The sheet's name.
    rules
        How cells are to be read.
    problems
        Where doubts are noted.
    shown
        Column index to cells as the spreadsheet shows them, where that differs from their values.

    Returns
    -------
    pandas.DataFrame
        One row per record: ``file, sheet, row``, the fields found with their wordings, and the
        columns that were not known.
    """
    numbers = np.array(table.row_numbers, dtype=np.intp)
    raw = list(zip(*table.rows)) if table.rows else [()] * len(columns)
    whole = [coded(shown.get(one.index, raw[one.index])) for one in columns]
    is_record = _records(table, columns, whole)
    _tell_remarks(table, ~is_record, sheet, problems)
    kept = [one.kept(is_record) for one in whole]
    numbers = numbers[is_record]
    places = [Place(problems, sheet, column_name(one), numbers) for one in columns]
    frame: Frame = {
        "file": pd.Series([problems.file] * len(numbers), dtype="str"),
        "sheet": pd.Series([sheet] * len(numbers), dtype="str"),
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
            frame |= cells.opened_column(column, place)
        elif one.kind == "count":
            frame |= cells.count_column(one.field, column, place)
        elif one.kind == "length":
            frame |= length_columns(one.field, [(columns[i], kept[i], places[i]) for i in held])
    dates = {
        role: (kept[by_field[role][0]], places[by_field[role][0]])
        for role in ("date", "date_from", "date_to")
        if role in by_field
    }
    if dates:
        frame |= cells.date_columns(dates, rules.convention)
    return frame


def _carried(columns: Sequence[Column], kept: Sequence[Coded]) -> Frame:
    """Carry unknown columns through under their own headings, never under a record column's."""
    frame: Frame = {}
    reserved = set(record_columns())
    for column, texts in zip(columns, kept):
        if column.field or not texts.is_filled().any():
            continue
        name = column.heading or f"column {column.letter}"
        if name in reserved:
            name = f"{name} (as written)"
        if name in frame:
            name = f"{name} ({column.letter})"
        frame[name] = texts.texts()
    return frame


def _records(
    table: Table, columns: Sequence[Column], whole: Sequence[Coded]
) -> npt.NDArray[np.bool_]:
    """Tell which rows are records rather than remarks."""
    filled = np.zeros(len(table.rows), dtype=np.intp)
    telling = np.zeros(len(table.rows), dtype=bool)
    for column, one in zip(columns, whole):
        here = one.is_filled()
        filled += here
        if column.field == "button_id" or (column.field and column.index == 0):
            likely = np.array([_like_an_id(text) for text in one.wordings], dtype=bool)
            telling |= here & likely[one.codes]
        elif column.field and column.field not in ("notes", "recorder", "photos"):
            telling |= here
    usual = float(np.median(filled[filled > 0])) if filled.any() else 0.0
    lone = filled <= 1
    sparse = (
        (filled <= 2) & (usual >= limit("usual-cells")) & np.array(table.after_blank, dtype=bool)
    )
    sums = np.array([_is_sum(cells) for cells in table.rows], dtype=bool)
    last = np.flatnonzero(filled > 2).max(initial=-1)
    below = np.arange(len(filled)) > last
    return (filled > 0) & ~(lone & ~telling) & ~(sparse & below) & ~sums


def _like_an_id(text: str) -> bool:
    words = text.split()
    digits = any(character.isdigit() for character in text)
    return len(text.strip()) <= limit("id-length") and (
        len(words) == 1 or (digits and len(words) <= 3)
    )


@cache
def _sums() -> frozenset[str]:
    return frozenset(row["word"] for row in rows("sum_words"))


def _is_sum(row: Sequence[object]) -> bool:
    first = next((cell for cell in row if cell != ""), "")
    return isinstance(first, str) and first.strip(" .:").casefold() in _sums()


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
