"""Counts as people write them: exact, bounded, or a word for why there is none.

"At least 2" is two to unknown, and so is "2 visible": what is seen is the least there is. Bounds
are kept as they stand, since a bound taken for a count would tell layers that nobody saw.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from buttonstudy.readings.blanks import blank_state
from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.lengths.doubts import quoted
from buttonstudy.readings.lengths.mangled import months, reads_as_date
from buttonstudy.readings.numbers import plain_digits
from buttonstudy.readings.spelt import spelt_numbers
from buttonstudy.schemes.limits import limit
from buttonstudy.schemes.tables import rows

__all__ = ["CountReading", "read_count"]

_TOKEN = re.compile(r"\d+(?:[.,]\d+)*|[^\W\d_]+|>=|=>|<=|=<|[^\s\w.,;:()\[\]\"'!]")
_LONGEST_PHRASE = 3
_REMEDY = "Write a whole number, or bounds such as 1-2, at least 2, or up to 3."


@dataclass(frozen=True, slots=True)
class CountReading:
    """What one cell says about a number of things.

    Parameters
    ----------
    text
        The cell's wording.
    low, high
        The fewest and the most there can be, both included; None for unknown.
    state
        ``"counted"``, ``"bounded"``, ``"absent"`` (none: 0 to 0), ``"not examined"``,
        ``"unclear"`` or ``"not recorded"``; ``""`` if the cell could not be read.
    doubts
        What was doubtful; a fatal doubt means that nothing was read.
    """

    text: str
    low: int | None
    high: int | None
    state: str
    doubts: tuple[Doubt, ...]


def read_count(text: str) -> CountReading:
    """Read the count in one cell.

    Examples
    --------
    >>> texts = ("two", "at least 2", "1 or 2", "2 visible")
    >>> [(one.low, one.high) for one in map(read_count, texts)]
    [(2, 2), (2, None), (1, 2), (2, None)]
    >>> [(one.low, one.high, one.state) for one in map(read_count, ("none", "not opened"))]
    [(0, 0, 'absent'), (None, None, 'not examined')]
    >>> read_count("2.5").doubts[0].says
    '"2.5" is not a whole number.'
    """
    if len(text) > limit("count-text-longest"):
        return _refused(text, "count-too-long", f"The cell holds {len(text):,} characters.")
    if state := blank_state(text):
        none = 0 if state == "absent" else None
        return CountReading(text, none, none, state, ())
    items = list(_items(plain_digits(text).casefold()))
    bounds = "date" if reads_as_date(text) else _bounds(items)
    if isinstance(bounds, str):
        return _refused(text, *_WHY[bounds])
    low, high = bounds
    state = "bounded" if low != high else "counted" if low else "absent"
    return CountReading(text, low, high, state, tuple(_doubts(text, items)))


_WHY = {
    "date": ("count-date", "{} reads like a date, not like a count."),
    "part": ("count-not-whole", "{} is not a whole number."),
    "negative": ("count-negative", "{} is below zero."),
    "reversed": ("count-range-reversed", "The range {} runs from more to fewer."),
    "many": ("count-impossible", "{} is more than can be right."),
    "unclear": ("count-not-read", "It is not clear what count {} gives."),
}
_COUNTS = ("number", "some")
_SILENT = ("word", "filler", "about", "query")


def _items(text: str) -> Iterator[tuple[str, str]]:
    """Part a wording into roles and words, the longest known phrases first."""
    tokens = _TOKEN.findall(text)
    at, counted = 0, False
    while at < len(tokens):
        for size in range(min(_LONGEST_PHRASE, len(tokens) - at), 0, -1):
            phrase = " ".join(tokens[at : at + size])
            if phrase in _known():
                break
        figure = "number" if phrase[0].isdecimal() else "word"
        role, word = _known().get(phrase, (figure, phrase))
        if counted and role in ("from", "upto"):
            role += " after"
        counted = counted or role in _COUNTS
        yield role, word
        at += size


@cache
def _known() -> dict[str, tuple[str, str]]:
    """Map each known phrase to its role and, for a number, its figure."""
    known = {word: ("number", str(value)) for word, value in spelt_numbers("whole").items()}
    known |= {month: ("date", month) for month in months()}
    known |= {
        row["words"]: (row["role"], row["value"] or row["words"]) for row in rows("count_words")
    }
    return known


def _bounds(items: Sequence[tuple[str, str]]) -> tuple[int, int | None] | str:
    """Turn roles and numbers into the fewest and the most, or name what is wrong."""
    roles = [role for role, _ in items]
    figures = [word.replace(",", ".") for role, word in items if role in _COUNTS]
    if "date" in roles:
        return "date"
    if not 1 <= len(figures) <= 2 or any(figure.count(".") > 1 for figure in figures):
        return "unclear"
    if any(float(figure) % 1 for figure in figures):
        return "part"
    first, last = int(float(figures[0])), int(float(figures[-1]))
    if max(first, last) > limit("count-largest"):
        return "many"
    shape = " ".join(role for role in roles if role not in _SILENT)
    return _shaped(shape.removesuffix(" range"), first, last)


def _shaped(shape: str, first: int, last: int) -> tuple[int, int | None] | str:
    match shape:
        case "number":
            return first, first
        case "number range number" | "between number and number":
            return (first, last) if first <= last else "reversed"
        case "some" | "from number" | "number from after" | "number range number from after":
            return first, None
        case "above number":
            return first + 1, None
        case "upto number" | "number upto after":
            return 0, first
        case "below number" if first > 0:
            return 0, first - 1
        case "range number":
            return "negative"
    return "unclear"


def _refused(text: str, kind: str, says: str) -> CountReading:
    doubt = Doubt(kind, says.format(quoted(text)), _REMEDY, fatal=True)
    return CountReading(text, None, None, "", (doubt,))


def _doubts(text: str, items: Sequence[tuple[str, str]]) -> Iterator[Doubt]:
    """Say what was doubtful about a count that was read."""
    roles = [role for role, _ in items]
    if "some" in roles:
        says = f"{quoted(text)} is vague; it was read as at least {dict(items)['some']}."
        yield Doubt("count-vague", says, _REMEDY)
    if "about" in roles or "query" in roles:
        says = f"{quoted(text)} is marked as uncertain; it was read as it stands."
        yield Doubt("count-uncertain", says, "Write bounds instead, such as 1-2 or at least 2.")
    if words := [word for role, word in items if role == "word"]:
        says = f"These words were not understood: {quoted(' '.join(words))}."
        yield Doubt("count-words", says, "Check the count; move other remarks to the notes.")
