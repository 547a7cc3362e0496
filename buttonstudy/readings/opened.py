"""Whether a button was opened, as its recorder wrote it.

This cell decides whether blanks in the inside features mean that nobody could see, so a wording
that is not understood is told and never guessed.
"""

from dataclasses import dataclass
from functools import cache

from buttonstudy.readings.blanks import blank_state
from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.wording import Word, clauses, composed, join_keys, key
from buttonstudy.schemes import rows

__all__ = ["OpenedReading", "read_opened"]


@dataclass(frozen=True, slots=True)
class OpenedReading:
    """What one cell says about opening.

    Parameters
    ----------
    text
        The cell's wording.
    opened
        ``"opened"``, ``"partly opened"``, ``"not opened"``, or ``""`` if the cell does not say.
    doubts
        What was doubtful.
    """

    text: str
    opened: str
    doubts: tuple[Doubt, ...]


def read_opened(text: str) -> OpenedReading:
    """Read whether a button was opened; words after the answer, such as a date, may follow.

    Examples
    --------
    >>> [read_opened(text).opened for text in ("Yes", "opened 3/2019", "partly", "not opened", "")]
    ['opened', 'opened', 'partly opened', 'not opened', '']
    >>> read_opened("perhaps").doubts[0].says
    '"perhaps" does not say whether the button was opened.'
    """
    words = _opened_words()
    whole = words.get(key(text), "")
    if whole:
        return OpenedReading(text, whole, ())
    parted = clauses(composed(text))
    if any(word.key == "?" for clause in parted for word in clause):
        return OpenedReading(text, "", () if blank_state(text) else (_not_understood(text),))
    found = dict.fromkeys(filter(None, map(_of_clause, parted)))
    if len(found) == 1:
        return OpenedReading(text, next(iter(found)), ())
    if not found and blank_state(text):
        return OpenedReading(text, "", ())
    return OpenedReading(text, "", (_not_understood(text),))


def _of_clause(clause: list[Word]) -> str:
    """Read the longest known wording with which a clause begins."""
    words = _opened_words()
    for length in range(min(len(clause), 3), 0, -1):
        if found := words.get(join_keys(clause[:length])):
            return found
    return ""


@cache
def _opened_words() -> dict[str, str]:
    return {key(row["words"]): row["opened"] for row in rows("opened_words")}


def _not_understood(text: str) -> Doubt:
    return Doubt(
        "opened-not-understood",
        f'"{" ".join(text.split())[:60]}" does not say whether the button was opened.',
        "Write yes, partly or no.",
        fatal=True,
    )
