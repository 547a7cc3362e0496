"""Finds one button's record, and shows what it says field by field."""

import difflib

import numpy as np
import pandas as pd

from buttonstudy.schemes import Field, fields, rows
from buttonstudy.study.evidence.answers import NOT_EXAMINED, NOT_RECORDED, UNCLEAR, answers
from buttonstudy.study.evidence.columns import column, length_bounds, texts

__all__ = ["NoSuchButtonError", "compared_fields", "find_record", "said_of"]

_NAMED = 5


class NoSuchButtonError(ValueError):
    """No record, or more than one, goes by that number; the message says what to do."""


def find_record(buttons: pd.DataFrame, button_id: str, file: str = "") -> int:
    """Find the record of a button by its number.

    Parameters
    ----------
    buttons
        One row per button.
    button_id
        The button's number or name, as the survey has it; case and outer blanks do not matter.
    file
        The survey file, needed only where several files use the same number.

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
    numbers = np.array([_folded(text) for text in texts(buttons, "button_id")], dtype=object)
    files = texts(buttons, "file")
    found = np.flatnonzero(numbers == _folded(button_id))
    if file:
        found = found[files[found] == file]
    if len(found) == 1:
        return int(found[0])
    where = f" in {file}" if file else ""
    if len(found) == 0:
        known = [text for text in texts(buttons, "button_id") if text]
        near = difflib.get_close_matches(button_id, known, _NAMED)
        hint = f" Near it: {', '.join(near)}." if near else ""
        raise NoSuchButtonError(
            f'No button is called "{button_id}"{where}.{hint} Use the number as the survey has it.'
        )
    places = list(dict.fromkeys(files[found]))
    if len(places) > 1:
        raise NoSuchButtonError(
            f'Several files have a button "{button_id}": {", ".join(places[:_NAMED])}. '
            f"Say which file is meant."
        )
    raise NoSuchButtonError(
        f'{len(found)} records are called "{button_id}"{where}. Give each its own number in the '
        f"survey."
    )


def compared_fields() -> tuple[Field, ...]:
    """List the fields by which buttons are compared, from ``resemblance_fields.csv``.

    Examples
    --------
    >>> [field.field for field in compared_fields()][:2]
    ['diameter', 'mould_diameter']
    """
    known = {field.field: field for field in fields()}
    return tuple(
        known[row["field"]] for row in rows("resemblance_fields") if row["compared"] == "yes"
    )


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
