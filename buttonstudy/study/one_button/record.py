"""Finds one button's record, and shows what it says field by field."""

import re
from collections.abc import Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import Field, fields, limit, rows
from buttonstudy.study.evidence.answers import NOT_EXAMINED, NOT_RECORDED, UNCLEAR, answers
from buttonstudy.study.evidence.columns import column, length_bounds, texts
from buttonstudy.study.evidence.keys import set_keys
from buttonstudy.study.telling.words import listed

__all__ = [
    "NoSuchButtonError",
    "compared_fields",
    "find_record",
    "record_findings",
    "record_table",
    "said_of",
    "trait_fields",
]

_NAMED = 5


class NoSuchButtonError(ValueError):
    """No record, or more than one, goes by that number; the message says what to do.

    Attributes
    ----------
    places
        Files, or sheets of one file, that each have a button of this number.
    """

    def __init__(self, message: str, places: Sequence[str] = ()) -> None:
        super().__init__(message)
        self.places = tuple(places)


def find_record(buttons: pd.DataFrame, button_id: str, within: str = "") -> int:
    """Find the record of a button by its number.

    Parameters
    ----------
    buttons
        One row per button.
    button_id
        The button's number or name, as the survey has it; case and outer blanks do not matter.
    within
        The survey file or the sheet that holds the button, needed only where several have a
        button of the same number.

    Returns
    -------
    int
        The record's place, counted from 0.

    Raises
    ------
    NoSuchButtonError
        If no record has that number, or more than one has.

    Examples
    --------
    >>> find_record(pd.DataFrame({"button_id": ["A1", "A2"]}), "a2")
    1
    """
    numbers = texts(buttons, "button_id")
    if not button_id.strip():
        raise NoSuchButtonError("No button's number was given. Say which button is meant.")
    same = [_folded(number) == _folded(button_id) for number in numbers]
    found = np.flatnonzero(np.array(same, dtype=bool))
    if len(found) == 0:
        near = _nearest(numbers, button_id)
        raise NoSuchButtonError(f'No button is called "{button_id}". {near}')
    if within:
        found = _narrowed(buttons, found, button_id, within)
    if len(found) > 1:
        raise _several(buttons, found, button_id)
    return int(found[0])


def _narrowed(
    buttons: pd.DataFrame, found: NDArray[np.int64], button_id: str, within: str
) -> NDArray[np.int64]:
    """Keep the records of one file or sheet; a path stands for its file."""
    files, sheets = texts(buttons, "file"), texts(buttons, "sheet")
    wanted = {_folded(within), _folded(within.replace("\\", "/").rsplit("/", 1)[-1])}
    near = [bool(wanted & _names_of(files[place], sheets[place])) for place in found]
    if not any(near):
        where = _where(files[found], sheets[found])
        told = f'There is no button "{button_id}" in "{within}".'
        there = listed(name for name in where[:_NAMED] if name)
        raise NoSuchButtonError(f"{told} There is one in {there}." if there else told, where)
    return found[np.array(near)]


def _several(buttons: pd.DataFrame, found: NDArray[np.int64], button_id: str) -> NoSuchButtonError:
    """Say where the records of one number are, and how to tell them apart."""
    where = _where(texts(buttons, "file")[found], texts(buttons, "sheet")[found])
    if len(where) > 1:
        return NoSuchButtonError(
            f'More than one button is called "{button_id}": there is one in '
            f"{listed(where[:_NAMED])}. Say in which of them the one meant is.",
            where,
        )
    rows_of = column(buttons, "row").iloc[found].dropna()
    told = f" of {where[0]}" if where[0] else ""
    lines = f" (rows {listed(str(row) for row in rows_of[:_NAMED])})" if len(rows_of) else ""
    return NoSuchButtonError(
        f'{len(found)} records{told} are called "{button_id}"{lines}. Give each a number of its '
        f"own in the survey."
    )


def _names_of(file: str, sheet: str) -> set[str]:
    return {_folded(name) for name in (file, sheet, _place(file, sheet)) if name}


def _where(files: NDArray[np.object_], sheets: NDArray[np.object_]) -> list[str]:
    """Name the files that hold the records, or the sheets where all are in one file."""
    if len(set(files)) > 1:
        return list(dict.fromkeys(map(str, files)))
    return list(dict.fromkeys(map(_place, files, sheets)))


def _place(file: str, sheet: str) -> str:
    return f"{file}, sheet {sheet}" if sheet else str(file)


def _nearest(numbers: NDArray[np.object_], button_id: str) -> str:
    """Name the numbers most like the one asked for, or some of those there are."""
    from rapidfuzz import fuzz, process

    known = {_folded(number): str(number) for number in numbers if number.strip()}
    if not known:
        return "No record of the survey has a number."
    plain = {number: _plain(number) for number in known}
    found = process.extract(_plain(button_id), plain, scorer=fuzz.ratio, limit=_NAMED)
    near = [known[number] for _, score, number in found if score >= limit("near-number")]
    if near:
        are = "The nearest is" if len(near) == 1 else "The nearest there are:"
        return f"{are} {', '.join(near)}."
    return f"None is near it; there are such as {', '.join(list(known.values())[:_NAMED])}."


def _plain(number: str) -> str:
    """Leave out what is easily written otherwise: case, marks between, noughts before.

    Examples
    --------
    >>> _plain("CA-006") == _plain("ca 6")
    True
    """
    return re.sub(r"[\W_]+", "", re.sub(r"(?<!\d)0+(?=\d)", "", number.casefold()))


def record_findings(buttons: pd.DataFrame, row: int) -> list[str]:
    """Say which record it is, where it stands, its date, and the set that is left out with it.

    Parameters
    ----------
    buttons
        One row per button.
    row
        The record's place, as :func:`find_record` gives it.
    """
    record = buttons.iloc[[row]]
    number, kept, recorder = (
        str(texts(record, name)[0]) for name in ("button_id", "set_id", "recorder")
    )
    place = _place(str(texts(record, "file")[0]), str(texts(record, "sheet")[0]))
    line = column(record, "row").iloc[0]
    stands = f" It stands in {place}{f', row {line}' if pd.notna(line) else ''}." if place else ""
    hand = f" Noted by {recorder.rstrip('.')}." if recorder else ""
    keys = set_keys(buttons).to_numpy()
    matching = int((keys == keys[row]).sum())
    left_out = (
        f"The {matching:,} records of its set are left out of all that is counted below: matching "
        f"buttons are one piece of evidence."
        if matching > 1
        else "It is itself left out of all that is counted below."
    )
    return [
        f"Button {number}{f' of set {kept}' if kept else ''}.{stands}{hand} {_dated(record)}",
        left_out,
    ]


def _dated(record: pd.DataFrame) -> str:
    years = [column(record, name).iloc[0] for name in ("year_from", "year_to")]
    if all(pd.isna(year) for year in years):
        return "It has no date, so that it is held against all periods together."
    return f"It is dated {_years(record)}."


def _years(record: pd.DataFrame) -> str:
    first, last = (column(record, name).iloc[0] for name in ("year_from", "year_to"))
    if pd.isna(first) and pd.isna(last):
        return NOT_RECORDED
    if pd.isna(first):
        return f"{last} or earlier"
    if pd.isna(last):
        return f"{first} or later"
    return str(first) if first == last else f"{first} to {last}"


def record_table(buttons: pd.DataFrame, row: int) -> pd.DataFrame:
    """List what a record says, field by field, beside the cell as it was written.

    Returns
    -------
    DataFrame
        ``label``, ``says`` and ``wording`` (blank where the cell was), for each field with a
        size, date, term or count.
    """
    record = buttons.iloc[[row]]
    shown = [field for field in fields() if field.kind not in ("id", "text")]
    return pd.DataFrame(
        {
            "label": [field.label for field in shown],
            "says": [
                _years(record) if field.kind == "date" else said_of(record, field)[0]
                for field in shown
            ],
            "wording": [texts(record, f"{field.field}_wording")[0] for field in shown],
        }
    )


def compared_fields() -> tuple[Field, ...]:
    """List the fields by which buttons are compared, from ``resemblance_fields.csv``.

    Examples
    --------
    >>> [field.field for field in compared_fields()][:2]
    ['diameter', 'mould_diameter']
    """
    return _fields_with("compared")


def trait_fields() -> tuple[Field, ...]:
    """List the fields whose answers are traits of a button, from ``resemblance_fields.csv``.

    What befell a button since it was made is none.

    Examples
    --------
    >>> "cover_condition" in [field.field for field in trait_fields()]
    False
    """
    return _fields_with("trait")


def _fields_with(column: str) -> tuple[Field, ...]:
    known = {field.field: field for field in fields()}
    return tuple(known[row["field"]] for row in rows("resemblance_fields") if row[column] == "yes")


def said_of(buttons: pd.DataFrame, field: Field) -> list[str]:
    """Word what each record says of a field: its terms, its size, its count, or why nothing.

    Examples
    --------
    >>> size = compared_fields()[0]
    >>> said_of(pd.DataFrame({"diameter_mm": [16.0, None]}), size)
    ['16 mm', 'not recorded']
    """
    if field.kind == "length":
        _, best, _ = length_bounds(buttons, field.field)
        closed = (column(buttons, "opened") == "not opened").fillna(False).to_numpy(dtype=bool)
        blank = np.where(closed & field.inside, NOT_EXAMINED, NOT_RECORDED)
        return [
            str(missing) if np.isnan(size) else f"{size:.4g} mm"
            for size, missing in zip(best, blank)
        ]
    if field.kind == "count":
        found = answers(buttons, field.field)
        labels = np.array([*found.has.columns, ""], dtype=object)
        place = np.column_stack([found.has, ~found.examined]).argmax(axis=1)
        states = (NOT_RECORDED, UNCLEAR, NOT_EXAMINED)
        told = texts(buttons, f"{field.field}_state")
        other = np.where(np.isin(told, states), told, NOT_RECORDED)
        return [str(text) for text in np.where(found.examined, labels[place], other)]
    wording = texts(buttons, field.field)
    return [str(text) if text.strip() else NOT_RECORDED for text in wording]


def _folded(text: str) -> str:
    return " ".join(str(text).casefold().split())
