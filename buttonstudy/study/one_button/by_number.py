"""Finds one button's record by its number, or says what there is instead."""

import re
from collections.abc import Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import limit
from buttonstudy.study.evidence.columns import column, texts
from buttonstudy.study.telling.words import some_of

__all__ = ["NoSuchButtonError", "find_record", "place_in_words"]


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
        there = some_of([name for name in where if name])
        raise NoSuchButtonError(f"{told} There is one in {there}." if there else told, where)
    return found[np.array(near)]


def _several(buttons: pd.DataFrame, found: NDArray[np.int64], button_id: str) -> NoSuchButtonError:
    """Say where the records of one number are, and how to tell them apart."""
    where = _where(texts(buttons, "file")[found], texts(buttons, "sheet")[found])
    if len(where) > 1:
        return NoSuchButtonError(
            f'More than one button is called "{button_id}": there is one in '
            f"{some_of(where)}. Say in which of them the one meant is.",
            where,
        )
    rows_of = column(buttons, "row").iloc[found].dropna()
    told = f" of {where[0]}" if where[0] else ""
    lines = f" (rows {some_of([str(row) for row in rows_of])})" if len(rows_of) else ""
    return NoSuchButtonError(
        f'{len(found)} records{told} are called "{button_id}"{lines}. Give each a number of its '
        f"own in the survey."
    )


def _names_of(file: str, sheet: str) -> set[str]:
    return {_folded(name) for name in (file, sheet, place_in_words(file, sheet)) if name}


def _where(files: NDArray[np.object_], sheets: NDArray[np.object_]) -> list[str]:
    """Name the files that hold the records, or the sheets where all are in one file."""
    if len(set(files)) > 1:
        return list(dict.fromkeys(map(str, files)))
    return list(dict.fromkeys(map(place_in_words, files, sheets)))


def place_in_words(file: str, sheet: str) -> str:
    """Name the file that holds a record, and its sheet if it has any."""
    return f"{file}, sheet {sheet}" if sheet else str(file)


def _nearest(numbers: NDArray[np.object_], button_id: str) -> str:
    """Name the numbers most like the one asked for, or some of those there are."""
    from rapidfuzz import fuzz, process

    known = {_folded(number): str(number) for number in numbers if number.strip()}
    if not known:
        return "No record of the survey has a number."
    most = int(limit("named-at-most"))
    plain = {number: _plain(number) for number in known}
    found = process.extract(_plain(button_id), plain, scorer=fuzz.ratio, limit=most)
    near = [known[number] for _, score, number in found if score >= limit("near-number")]
    if near:
        are = "The nearest is" if len(near) == 1 else "The nearest there are:"
        return f"{are} {', '.join(near)}."
    return f"None is near it; there are such as {', '.join(list(known.values())[:most])}."


def _plain(number: str) -> str:
    """Leave out what is easily written otherwise: case, marks between, noughts before.

    Examples
    --------
    >>> _plain("CA-006") == _plain("ca 6")
    True
    """
    return re.sub(r"[\W_]+", "", re.sub(r"(?<!\d)0+(?=\d)", "", number.casefold()))


def _folded(text: str) -> str:
    return " ".join(str(text).casefold().split())
