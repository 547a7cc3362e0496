"""Tells four kinds of blank apart: absent, not examined, unclear and not recorded.

"None", "not opened", "can't tell" and an empty cell are four different findings. Merged, they
would turn what nobody saw into what was not there. The wordings stand in ``blank_words.csv``.

A dash or another mark without a word is read as not recorded. Some mean "none" by a dash, but
most tables use it for an empty cell, and not recorded claims nothing. "N/a" is read likewise.
"None seen" and "none visible" are unclear: not seen is not absent.
"""

from functools import cache

from buttonstudy.readings.wording import Word, clauses, composed, join_keys, key
from buttonstudy.schemes import ABSENT, STATES, rows

__all__ = ["blank_state", "blank_words", "cautious"]

_DITTO = frozenset("\"'”“″〃’‘`´")
_CAUTIOUS = ("not examined", "unclear", ABSENT, "not recorded")


def blank_state(text: str) -> str:
    """Tell which kind of blank a cell's text is.

    Parameters
    ----------
    text
        What the cell says. Case, spacing, accents and end marks do not matter.

    Returns
    -------
    str
        ``"absent"``, ``"not examined"``, ``"unclear"`` or ``"not recorded"``; empty if the text
        says something else. With a question mark, "none?" is unclear. A lone ditto mark says
        something else.

    Examples
    --------
    >>> [blank_state(text) for text in ("None", "n/e", "can't tell", "?", "–", "", "bone")]
    ['absent', 'not examined', 'unclear', 'unclear', 'not recorded', 'not recorded', '']
    """
    parted = clauses(composed(text))
    if not any(word.key != "?" for clause in parted for word in clause):
        marks = set(text.split())
        ditto = bool(marks) and all(set(mark) <= _DITTO for mark in marks)
        return "unclear" if parted else "" if ditto else "not recorded"
    state = _whole(parted)
    doubted = any(word.key == "?" for clause in parted for word in clause)
    return "unclear" if doubted and state in (ABSENT, "not recorded") else state


def cautious(states: set[str]) -> str:
    """Give the one of several states that claims least about the button; empty if none."""
    return next((state for state in _CAUTIOUS if state in states), "")


@cache
def blank_words() -> dict[str, str]:
    """Give the state for each known wording's key."""
    words = {key(row["words"]): row["state"] for row in rows("blank_words")}
    unknown = set(words.values()) - set(STATES)
    if unknown:
        raise ValueError(f"blank_words.csv has states that the kit does not know: {unknown}")
    return words


def _whole(parted: list[list[Word]]) -> str:
    """Give the state of a wording all of whose clauses are blanks; empty if one is not."""
    joined = blank_words().get("".join(join_keys(clause) for clause in parted))
    if joined is not None:
        return joined
    keys = [found for clause in parted if (found := join_keys(clause))]
    return cautious({blank_words()[found] for found in keys}) if _all_known(keys) else ""


def _all_known(keys: list[str]) -> bool:
    return all(found in blank_words() for found in keys)
