"""Button numbers made unique, and links between buttons kept within their file.

Two surveys may both have a button 14. Numbers stay as they are written unless a mapping file gives
a survey a prefix; a clash is told. In the column "found inside" a wording may be a number alone or
hold it among words ("inside button A1, under the silk"). Numbers are looked up in the same file
only, as they are written there: number 14 of another survey is another button.

Some note the link the other way round, in the outer button's row: "contains A2". It is then
written into the row of the button that it names, unless something stands there.
"""

import re
from collections.abc import Collection, Mapping, Sequence

import numpy as np
import pandas as pd

from buttonstudy.schemes import limit, rows
from buttonstudy.survey.headings import Column

CONTAINED = "contains_wording"
"""The column of the record, where a survey has one, that names the buttons found inside."""
_INSIDE = "found_inside_wording"
_WORD = re.compile(r"[^\s,;:()\[\]]+")
_THING = re.compile(r"\s+(?!(?:of|in|on|under|from|with)\b)[^\W\d]")


def prefixed(frame: pd.DataFrame, columns: Sequence[Column]) -> pd.DataFrame:
    """Put the prefix that a mapping file gives before the button numbers of one table.

    The wording stays as it is, so that links within the file still find their button.
    """
    prefix = next((one.prefix for one in columns if one.field == "button_id"), "")
    return frame.assign(button_id=prefix + frame["button_id"]) if prefix else frame


def linked_records(buttons: pd.DataFrame) -> pd.DataFrame:
    """Let `found_inside` be the outer button's number wherever exactly one is named.

    Elsewhere it stays as written, and a check tells why.
    """
    buttons = _turned(buttons)
    clear = {place: found[0] for place, found in named_records(buttons).items() if len(found) == 1}
    if not clear:
        return buttons
    inside = buttons["found_inside"].astype(object)
    inside.iloc[list(clear)] = buttons["button_id"].iloc[list(clear.values())].to_numpy()
    return buttons.assign(found_inside=inside.astype("str"))


def _turned(buttons: pd.DataFrame) -> pd.DataFrame:
    """Write what outer buttons say of their inside into the rows of the inner ones."""
    found = contained_records(buttons)
    if not found:
        return buttons
    said = buttons[_INSIDE].astype(object)
    numbers = buttons["button_id_wording"]
    for outer, inner in found.items():
        for place in inner:
            if pd.isna(said.iloc[place]) and pd.notna(numbers.iloc[outer]):
                said.iloc[place] = numbers.iloc[outer]
    told = said.astype("str")
    own = buttons["found_inside"].astype("str")
    return buttons.assign(found_inside=own.fillna(told), found_inside_wording=told)


def contained_records(buttons: pd.DataFrame) -> dict[int, tuple[int, ...]]:
    """Give the records that are said to have been found inside others, by the outer's place.

    Examples
    --------
    >>> contained_records(pd.DataFrame({"file": ["a", "a"], "button_id_wording": ["A1", "A2"],
    ...     "contains_wording": ["an older one, A2", None]}))
    {0: (1,)}
    """
    return _records(buttons, CONTAINED) if CONTAINED in buttons else {}


def named_records(buttons: pd.DataFrame) -> dict[int, tuple[int, ...]]:
    """Give the records that each wording names.

    Parameters
    ----------
    buttons
        The record, with ``file``, ``button_id_wording`` and ``found_inside_wording``.

    Returns
    -------
    dict
        Place of each record found inside something, from 0, to the places of the records named:
        none, one, or several where it is not clear which.

    Examples
    --------
    >>> buttons = pd.DataFrame({"file": ["a", "a"], "button_id_wording": ["A1", "A2"],
    ...     "found_inside_wording": [None, "inside A1, under the silk"]})
    >>> named_records(buttons)
    {1: (0,)}
    """
    return _records(buttons, _INSIDE)


def _records(buttons: pd.DataFrame, column: str) -> dict[int, tuple[int, ...]]:
    """Give the records that each wording of a column names."""
    said = buttons[column]
    blank = {"", *(row["words"] for row in rows("blank_words"))}
    worded = said[said.notna().to_numpy()]
    folded = {at: _folded(text) for at, text in zip(np.flatnonzero(said.notna()).tolist(), worded)}
    wanted = [place for place, text in folded.items() if text not in blank]
    if not wanted:
        return {}
    by_number: dict[tuple[str, str], list[int]] = {}
    for place, (file, number) in enumerate(zip(buttons["file"], buttons["button_id_wording"])):
        if isinstance(number, str) and number.strip():
            by_number.setdefault((file, _folded(number)), []).append(place)
    files = buttons["file"].tolist()
    return {place: _named(folded[place], files[place], by_number) for place in wanted}


def _named(
    text: str, file: str, by_number: Mapping[tuple[str, str], Sequence[int]]
) -> tuple[int, ...]:
    """Find what the whole wording names, else what single words of it name."""
    if whole := by_number.get((file, text)):
        return tuple(whole)
    words = (word for word in _WORD.finditer(text) if not _counts(word))
    found = [by_number.get((file, word[0].strip(".")), ()) for word in words]
    return tuple(dict.fromkeys(place for places in found for place in places))


def _counts(word: re.Match[str]) -> bool:
    """Tell a bare number that counts what follows it, as in "3 layers of silk"."""
    return word[0].isdigit() and bool(_THING.match(word.string, word.end()))


def doubtful_links(
    buttons: pd.DataFrame, named: Mapping[int, tuple[int, ...]], column: str = _INSIDE
) -> dict[int, tuple[str, ...]]:
    """Give the links for which numbers were taken out of a wording that may hold another one.

    Parameters
    ----------
    buttons
        The record.
    named
        As :func:`named_records` or :func:`contained_records` gives it.
    column
        The column of the record with the wordings.

    Returns
    -------
    dict
        Place of each such record, from 0, to the other words that may be, or belong to, a number:
        those with figures in them, and short ones in capitals before bare figures.

    Examples
    --------
    >>> buttons = pd.DataFrame({"file": "a", "button_id_wording": ["1", "2", "3", "4"],
    ...     "found_inside_wording": [None, "inside 1", "CA 1", "button 1 of tray 9"]})
    >>> doubtful_links(buttons, named_records(buttons))
    {2: ('CA',), 3: ('9',)}
    """
    if not named:
        return {}
    said, numbers = buttons[column], buttons["button_id_wording"]
    others = {
        place: _like_numbers(said.iloc[place], {_folded(numbers.iloc[one]) for one in found})
        for place, found in named.items()
        if found
    }
    return {place: words for place, words in others.items() if words}


def _like_numbers(text: str, numbers: Collection[str]) -> tuple[str, ...]:
    """Give the words of a wording that may be numbers, or the beginning of those that it names."""
    if _folded(text) in numbers:
        return ()
    words = [word.strip(".") for word in _WORD.findall(text)]
    return tuple(
        word
        for word, then in zip(words, [*words[1:], ""])
        if word.casefold() not in numbers
        and (
            any(map(str.isdigit, word))
            or (word.isupper() and len(word) <= limit("link-letters") and then.isdigit())
        )
    )


def _folded(text: str) -> str:
    return " ".join(text.casefold().split())
