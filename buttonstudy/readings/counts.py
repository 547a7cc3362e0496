"""How many, as far as it could be counted: "2", "at least 2", "1 or 2", "2+".

A count that could not be finished is a bound, not a number: "at least 2 layers" may be two or
more. It is kept as its lowest and highest possible value.
"""

import re
from dataclasses import dataclass
from functools import cache

from buttonstudy.readings.blanks import blank_state
from buttonstudy.readings.doubt import Doubt
from buttonstudy.schemes import rows
from buttonstudy.schemes.limits import limit

__all__ = ["CountReading", "read_count"]

_NUMBER = r"(\d{1,4}(?:[.,]\d+)?)"
_UNITS = r"(?:\s*(?:layers?|plies|ply|thick(?:nesses)?|pieces?|covers?))?"
_FORMS = (
    (re.compile(rf"(?:at least|min(?:imum)?\.?|not (?:less|fewer) than|>=|≥)\s*{_NUMBER}{_UNITS}"), "low"),
    (re.compile(rf"{_NUMBER}{_UNITS}\s*(?:\+|or more|at least|or over|and more|plus){_UNITS}"), "low"),
    (re.compile(rf"(?:more than|over|>)\s*{_NUMBER}{_UNITS}"), "above"),
    (re.compile(rf"(?:up to|at most|max(?:imum)?\.?|not more than|<=|≤)\s*{_NUMBER}{_UNITS}"), "high"),
    (re.compile(rf"(?:between\s+)?{_NUMBER}\s*(?:-|–|—|to|or|and|/)\s*{_NUMBER}{_UNITS}"), "range"),
    (re.compile(rf"{_NUMBER}{_UNITS}"), "exact"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class CountReading:
    """What one cell says about a number of things.

    Parameters
    ----------
    text
        The cell's wording.
    low, high
        Lowest and highest possible number; None where there is no bound or nothing was read.
    state
        One of the four kinds of blank, or ``""``. Absent comes with a count of 0.
    doubts
        What was doubtful.
    """

    text: str
    low: int | None
    high: int | None
    state: str
    doubts: tuple[Doubt, ...]


def read_count(text: str) -> CountReading:
    """Read a count with its bounds.

    Examples
    --------
    >>> [(one.low, one.high) for one in map(read_count, ("2", "at least 2", "1 or 2", "none"))]
    [(2, 2), (2, None), (1, 2), (0, 0)]
    >>> read_count("2.5").doubts[0].says
    '"2.5" is not a whole number.'
    """
    if state := blank_state(text):
        bound = 0 if state == "absent" else None
        return CountReading(text, bound, bound, state, ())
    plain = _plain(text)
    doubts = ()
    if plain.endswith("?"):
        plain = plain.rstrip(" ?")
        doubts = (_uncertain(text),)
    if plain in ("several", "many", "multiple"):
        return CountReading(text, 2, None, "", (_several(text),))
    for form, kind in _FORMS:
        if found := form.fullmatch(plain):
            return _bounded(text, [one for one in found.groups()], kind, doubts)
    return CountReading(text, None, None, "", (_not_read(text, "is not a number of layers"),))


def _bounded(text: str, figures: list[str], kind: str, doubts: tuple[Doubt, ...]) -> CountReading:
    if any(not figure.isdigit() for figure in figures):
        return CountReading(text, None, None, "", (_not_read(text, "is not a whole number"),))
    numbers = [int(figure) for figure in figures]
    if max(numbers) > limit("count-largest"):
        return CountReading(text, None, None, "", (_not_read(text, "is more than can be"),))
    if numbers != sorted(numbers):
        return CountReading(text, None, None, "", (_not_read(text, "runs backwards"),))
    first, last = numbers[0], numbers[-1]
    bounds = {
        "low": (first, None),
        "above": (first + 1, None),
        "high": (0, first),
        "range": (first, last),
        "exact": (first, first),
    }
    low, high = bounds[kind]
    return CountReading(text, low, high, "absent" if high == 0 else "", doubts)


def _plain(text: str) -> str:
    words = " ".join(text[: int(limit("count-text-longest"))].casefold().split())
    return _number_words().sub(lambda found: _figures()[found[0]], words)


@cache
def _figures() -> dict[str, str]:
    return {row["words"]: row["low"] for row in rows("count_words")}


@cache
def _number_words() -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, _figures()))})\b")


def _quoted(text: str) -> str:
    return f'"{" ".join(text.split())[:60]}"'


def _uncertain(text: str) -> Doubt:
    return Doubt(
        "count-uncertain",
        f"{_quoted(text)} is marked as uncertain; the number was used as it stands.",
        'Write a bound such as "at least 2" if it could not be counted to the end.',
    )


def _several(text: str) -> Doubt:
    return Doubt(
        "count-several",
        f"{_quoted(text)} was read as at least 2.",
        "Write the number, or a bound such as at least 2.",
    )


def _not_read(text: str, why: str) -> Doubt:
    return Doubt(
        "count-not-read",
        f"{_quoted(text)} {why}.",
        "Write a whole number, a bound such as at least 2, or none.",
        fatal=True,
    )
