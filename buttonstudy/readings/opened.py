"""Reads whether a button was opened: "yes", "half open, damaged", "opened 3/2019", "on garment".

Whether anybody could look inside decides whether a missing feature is absent or was never
examined, so nothing is guessed here: a wording that is unsure or says two things is told and
not read. A date alone is read as the day of opening, and told.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache

from buttonstudy.readings.blanks import blank_state
from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.phrases import marks
from buttonstudy.readings.wording import Word, clauses, composed, join_keys, key
from buttonstudy.schemes import OPENED, Vocabulary, rows

__all__ = ["OpenedReading", "read_opened"]

_OPENED, _PARTLY, _CLOSED = OPENED
_DATED = re.compile(r"\b\d{1,2}[/.-]\d{1,2}[/.-]\d{2,4}\b|\b\d{1,2}[/.-]\d{4}\b|\b(?:19|20)\d\d\b")
_UNSURE = "uncertain"


@dataclass(frozen=True, slots=True)
class OpenedReading:
    """What a cell says of opening.

    Parameters
    ----------
    text
        The cell's wording, unchanged.
    opened
        ``"opened"``, ``"partly opened"`` or ``"not opened"``; empty if the cell does not say.
    doubts
        What the researcher should know or confirm.
    """

    text: str
    opened: str
    doubts: tuple[Doubt, ...] = ()


def read_opened(text: str, vocabulary: Vocabulary | None = None) -> OpenedReading:
    """Read whether a button was opened, partly or wholly, or left closed.

    Parameters
    ----------
    text
        What the cell says.
    vocabulary
        One with further words for it, which go before the kit's.

    Examples
    --------
    >>> [read_opened(text).opened for text in ("x", "half open", "n/e", "opened 3/2019", "-")]
    ['opened', 'partly opened', 'not opened', 'opened', '']
    """
    line = composed(text)
    parted = clauses(line)
    taught = _taught(vocabulary) if vocabulary else {}
    whole = taught.get(key(line)) or _words().get(key(line), "")
    said = {whole} if whole else {value for clause in parted for value in _within(clause)}
    if _UNSURE in said or (said and "?" in line):
        return OpenedReading(text, "", (_not_understood(text, "is not sure"),))
    if _PARTLY in said and _CLOSED not in said:
        said = {_PARTLY}
    if len(said) == 1:
        return OpenedReading(text, said.pop())
    if said:
        return OpenedReading(text, "", (_not_understood(text, "says yes and no about"),))
    state = blank_state(line)
    if state in ("absent", "not examined"):
        return OpenedReading(text, _CLOSED)
    if _DATED.search(line) and not state:
        return OpenedReading(text, _OPENED, (_dated(text),))
    return OpenedReading(text, "", () if state else (_not_understood(text, "does not say"),))


def _within(clause: list[Word]) -> Iterator[str]:
    """Give what the phrases of a clause say, the longest first; a denial turns "opened" round."""
    if whole := _words().get(join_keys(clause)):
        yield whole
        return
    denied = False
    start = 0
    while start < len(clause):
        size, value = _longest(clause, start)
        denied = denied or value == "negative"
        if value in (_OPENED, _PARTLY) and denied:
            yield _CLOSED
        elif value not in ("", "negative"):
            yield value
        start += size


def _longest(clause: list[Word], start: int) -> tuple[int, str]:
    """Find the longest phrase from a word on: how many words, and what it says."""
    for size in range(min(_most_words(), len(clause) - start), 0, -1):
        phrase = join_keys(clause[start : start + size])
        if phrase in _anywhere():
            return size, _anywhere()[phrase]
        if phrase in marks() and marks()[phrase] in ("negative", _UNSURE):
            return size, marks()[phrase]
    return 1, ""


@lru_cache(maxsize=8)
def _taught(vocabulary: Vocabulary) -> dict[str, str]:
    """Give what a user's own words say, by their keys."""
    own = vocabulary.wordings("opened")
    return {key(wording): term.term for term in own for wording in term.wordings}


@cache
def _words() -> dict[str, str]:
    return {key(row["words"]): row["opened"] for row in rows("opened_words")}


@cache
def _anywhere() -> dict[str, str]:
    found = (row for row in rows("opened_words") if row["anywhere"] == "yes")
    return {key(row["words"]): row["opened"] for row in found}


@cache
def _most_words() -> int:
    return max(sum(map(len, clauses(row["words"]))) for row in rows("opened_words"))


def _dated(text: str) -> Doubt:
    return Doubt(
        "opened-date-only",
        f'"{_shown(text)}" is only a date; it is read as opened on that day.',
        "Write yes, partly or no, and move the date to the notes.",
    )


def _not_understood(text: str, why: str) -> Doubt:
    return Doubt(
        "opened-not-understood",
        f'"{_shown(text)}" {why} whether the button was opened.',
        "Write yes, partly or no.",
        fatal=True,
    )


def _shown(text: str) -> str:
    flat = " ".join(text.split())
    return f"{flat[:59]}…" if len(flat) > 60 else flat
