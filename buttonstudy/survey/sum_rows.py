"""Rows that add others up ("Total", "Summe"), told from rows of buttons by their first word."""

import re
from collections.abc import Callable, Sequence
from functools import cache

import numpy as np
import numpy.typing as npt

from buttonstudy.schemes.tables import rows
from buttonstudy.schemes.units import unit_named
from buttonstudy.survey.coded import Coded

__all__ = ["are_sums"]

# A colon, comma or bracket, a word or a sign; but "Count 12" and "Count no. 12" may be names.
_MORE = r"\s*[:=,;(\[]|\s+(?!(?:no|nr|#)\W*\d)(?:[^\W\d]{2}|[^\w\s])"
_FIGURES = re.compile(r"[\s\d.,/£$€%]+")


def are_sums(whole: Sequence[Coded]) -> npt.NDArray[np.bool_]:
    """Tell for each row whether its first filled cell says that the row adds others up.

    The word alone says so. With more after it ("Total buttons", "Total (mm)"), it does only where
    nothing but numbers follows in the row: a button may have such a name, but then more is told
    of it.
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
    """Tell whether a word for a sum begins the text, with words or signs after it.

    Examples
    --------
    >>> [_begins_sum(text) for text in ("Total buttons", "Sum: 12", "Total (mm)", "Total no. of")]
    [True, True, True, True]
    >>> [_begins_sum(text) for text in ("Count 12", "Count No. 12", "Totalia", "Sum B")]
    [False, False, False, False]
    """
    return bool(_with_more().match(text.strip().casefold()))


def _is_number(text: str) -> bool:
    """Tell whether a text is empty, or figures with no more than a unit beside them."""
    rest = _FIGURES.sub("", text)
    return not rest or bool(unit_named(rest))
