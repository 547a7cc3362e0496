"""Numbers in words turned into figures, so that half an inch is read as 1/2 inch.

Only what can stand before a unit is turned: parts (half, three quarters, five eighths), whole
numbers before a unit, and the two joined with "and". Everything else stays as it is.
"""

import re
from fractions import Fraction
from functools import cache

from buttonstudy.schemes.tables import rows
from buttonstudy.schemes.units import unit_marks

__all__ = ["in_figures", "spelt_numbers"]


@cache
def spelt_numbers(kind: str) -> dict[str, Fraction]:
    """Give the value of each number word of a kind, ``"whole"`` or ``"part"``."""
    return {
        row["word"]: Fraction(row["value"]) for row in rows("number_words") if row["kind"] == kind
    }


def in_figures(text: str) -> str:
    """Write a size's number words in figures.

    Examples
    --------
    >>> in_figures("one and a half inches"), in_figures("three quarters of an inch")
    ('1 1/2 inches', '3/4 inch')
    >>> in_figures("an inch and a quarter"), in_figures("1 and 1/2 in")
    ('1 1/4 inch', '1 1/2 in')
    """
    text = _parts().sub(_part, text)
    text = _wholes().sub(lambda found: _whole(found[0]), text)
    text = _UNIT_AND.sub(r"\1 \3 \2", text)
    return _AND.sub(r"\1 \2", text)


_AND = re.compile(r"\b(\d+) +and +(\d+/\d+)", re.IGNORECASE)
_UNIT_AND = re.compile(
    r"\b(\d+)[ -]+(inch|inches|lines?|lignes?) +and +(\d+/\d+)(?! *[a-z\"‴])", re.IGNORECASE
)


@cache
def _parts() -> re.Pattern[str]:
    wholes, parts = "|".join(spelt_numbers("whole")), "|".join(spelt_numbers("part"))
    return re.compile(
        rf"\b(?:({wholes}|\d+|an?)[ -]+)?({parts})\b(?: +of)?(?: +an?\b)?", re.IGNORECASE
    )


@cache
def _wholes() -> re.Pattern[str]:
    wholes = "|".join(spelt_numbers("whole"))
    units = "|".join(mark for mark in unit_marks() if len(mark) > 1 and mark.isalpha())
    return re.compile(
        rf"\b(?:(?:{wholes})(?=[ -]+(?:(?:{units})\b|and +\d))|an?(?= +(?:inch|line|ligne)\b))",
        re.IGNORECASE,
    )


def _part(found: re.Match[str]) -> str:
    part = spelt_numbers("part")[found[2].casefold()]
    return f"{_whole(found[1] or 'one')}/{part.denominator}"


def _whole(word: str) -> str:
    return str(spelt_numbers("whole").get(word.casefold(), 1 if word.isalpha() else word))
