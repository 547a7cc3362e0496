"""Rows that add others up ("Total", "Summe"), told from rows of buttons by their first word."""

import re
from collections.abc import Callable, Sequence
from functools import cache

import numpy as np
import numpy.typing as npt

from buttonstudy.schemes.tables import rows
from buttonstudy.survey.coded import Coded

__all__ = ["are_sums"]

_MORE = r"\s*[:=]|\s+[^\W\d]{3}|\s+\S+\s+[^\W\d]{3}"
_NUMBER = re.compile(r"[\s\d.,]*(?:mm|cm)?\s*")


def are_sums(whole: Sequence[Coded]) -> npt.NDArray[np.bool_]:
    """Tell for each row whether its first filled cell says that the row adds others up.

    The word alone says so. With other words after it ("Total buttons"), it does only where nothing
    but numbers follows in the row: a button may have such a name, but then more is told of it.
    """
    alone = np.zeros(len(whole[0].codes), dtype=bool)
    begun, to_see = alone.copy(), ~alone
    for one in whole:
        alone |= to_see & _of(one, _is_sum)
        here = to_see & _of(one, _begins_sum)
        begun = (begun & _of(one, _is_number)) | here if begun.any() else here
        to_see &= ~_of(one, bool)
        if not (begun.any() or to_see.any()):
            break
    return alone | begun


def _of(column: Coded, tell: Callable[[str], bool]) -> npt.NDArray[np.bool_]:
    """Tell something of each distinct wording and spread it over the rows."""
    told = np.fromiter(map(tell, column.wordings), dtype=bool, count=len(column.wordings))
    spread: npt.NDArray[np.bool_] = told[column.codes]
    return spread


@cache
def _sums() -> frozenset[str]:
    return frozenset(row["word"] for row in rows("sum_words"))


@cache
def _with_more() -> re.Pattern[str]:
    """Give the pattern of a word for a sum with more after it."""
    return re.compile(f"(?:{'|'.join(map(re.escape, sorted(_sums())))})(?:{_MORE})")


def _is_sum(text: str) -> bool:
    return text.strip(" .:=").casefold() in _sums()


def _begins_sum(text: str) -> bool:
    """Tell whether a word for a sum begins the text, with a colon or other words after it.

    Examples
    --------
    >>> _begins_sum("Total buttons"), _begins_sum("Sum: 12"), _begins_sum("Count 12")
    (True, True, False)
    """
    return bool(_with_more().match(text.strip().casefold()))


def _is_number(text: str) -> bool:
    return bool(_NUMBER.fullmatch(text))
