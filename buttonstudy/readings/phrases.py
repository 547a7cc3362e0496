"""Finds the known phrases in a clause: terms, blanks and the small words that turn their sense.

The longest known run of words is taken first, so that "vegetable ivory" is never ivory and "not
opened" is never opened. Words that are terms of another field are known too: in "silk over
wood" under cover material, "wood" is not a new material but part of the story.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from buttonstudy.readings.blanks import blank_words
from buttonstudy.readings.wording import Word, clauses, composed, join_keys, key
from buttonstudy.schemes import ABSENT, Vocabulary, rows

__all__ = ["PARTING", "Found", "Lookup", "find_phrases", "lookup", "marks"]

_OPENED = "opened"
PARTING = frozenset({"adds", "links", "either", "but"})


@dataclass(frozen=True, slots=True)
class Found:
    """A run of words and what it was found to be.

    Parameters
    ----------
    kind
        ``"term"``, ``"state"``, ``"mark"``, ``"other"`` (a term of another field) or ``"word"``.
    value
        The term, state, mark's effect or other field; empty for a word that is not known.
    start, end
        Where it stands in the composed text, half-open.
    """

    kind: str
    value: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Lookup:
    """What each phrase means in one field, by its key.

    Parameters
    ----------
    field
        The field.
    own
        The field's term, or "absent".
    claims
        The fields that have the phrase as a term or as a wording for absent, this one among them.
    vaguer
        For a term the vaguer term that is left out beside it.
    longest
        The most words that a known phrase has.
    """

    field: str
    own: Mapping[str, str]
    claims: Mapping[str, Sequence[str]]
    vaguer: Mapping[str, str]
    longest: int

    def elsewhere(self, phrase: str) -> str:
        """Give the first other field that claims a phrase; empty if none does."""
        return next((field for field in self.claims.get(phrase, ()) if field != self.field), "")


@dataclass(frozen=True, slots=True)
class _Phrases:
    """All phrases of a vocabulary: each field's terms, the fields of each, the most words."""

    by_field: dict[str, dict[str, str]]
    claims: dict[str, list[str]]
    longest: int


@lru_cache(maxsize=64)
def lookup(field: str, vocabulary: Vocabulary) -> Lookup:
    """Make the lookup of a field; a wording belongs to the first term that claims it."""
    known = _phrases(vocabulary)
    vaguer = {term.term: term.vaguer for term in vocabulary.terms(field) if term.vaguer}
    own = known.by_field.get(field, {})
    return Lookup(field, own, known.claims, vaguer, known.longest + 1)


@lru_cache(maxsize=8)
def _phrases(vocabulary: Vocabulary) -> _Phrases:
    """Collect the phrases of all fields, in one pass."""
    by_field: dict[str, dict[str, str]] = {}
    claims: dict[str, list[str]] = {}
    longest = 1
    for term in vocabulary.entries:
        if term.field == _OPENED:
            continue  # its words, such as yes, say nothing in a cell of terms
        own = by_field.setdefault(term.field, {})
        for wording in term.wordings:
            parted = clauses(composed(wording))
            phrase = "".join(map(join_keys, parted))
            longest = max(longest, sum(map(len, parted)))
            own.setdefault(phrase, term.term)
            claims.setdefault(phrase, []).append(term.field)
    return _Phrases(by_field, claims, longest)


@cache
def marks() -> dict[str, str]:
    """Give the effect of each small word that turns the sense of what follows, by its key."""
    return {key(row["mark"]): row["effect"] for row in rows("wording_marks")}


def find_phrases(clause: list[Word], known: Lookup, *, own_only: bool = False) -> list[Found]:
    """Part one clause into its longest known phrases and its unknown words.

    Parameters
    ----------
    clause
        The clause's words.
    known
        The field's lookup.
    own_only
        True to leave the terms of other fields out of account.
    """
    found: list[Found] = []
    start = 0
    while start < len(clause):
        size, kind, value = _longest(clause, start, known, own_only)
        run = clause[start : start + size]
        found.append(Found(kind, value, run[0].start, run[-1].end))
        start += size
    return found


def _longest(clause: list[Word], start: int, known: Lookup, own_only: bool) -> tuple[int, str, str]:
    """Find the longest phrase from a word on: how many words, its kind and its value."""
    if clause[start].key == "?":
        return 1, "mark", "uncertain"
    for size in range(min(known.longest, len(clause) - start), 0, -1):
        run = clause[start : start + size]
        if run[-1].key == "?":
            continue
        ends = _parted(clause, start + size, 1)
        alone = ends and _parted(clause, start - 1, -1)
        kind, value = _meaning(join_keys(run), size > 1, ends, alone, known)
        if kind and not (kind == "other" and own_only):
            return size, kind, value
    return 1, "word", ""


def _parted(clause: list[Word], place: int, step: int) -> bool:
    """Tell whether a clause ends, or a joining word stands, at a place; doubts are passed over."""
    while 0 <= place < len(clause) and _doubts(clause[place].key):
        place += step
    return not 0 <= place < len(clause) or marks().get(clause[place].key) in PARTING


def _doubts(word: str) -> bool:
    return word == "?" or marks().get(word) == "uncertain"


def _meaning(phrase: str, several: bool, ends: bool, alone: bool, known: Lookup) -> tuple[str, str]:
    """Tell what a phrase is, if it is known at all.

    A single word such as "lost" is a blank only where a part ends: "shank lost", but not "lost
    wax". "Plain" is absent and a figure a term only where it stands alone: "plain silk" says
    nothing is absent, and "2 mm" does not say two holes.
    """
    own = known.own.get(phrase)
    weak = phrase.isdigit() or (own == ABSENT and phrase in marks())
    if own and (alone or several or not weak):
        return "term", own
    state = blank_words().get(phrase, "")
    if state and (several or (ends and not _doubts(phrase))):
        return "state", state
    if phrase in marks() or (phrase[0].isdigit() and not several):
        return "mark", marks().get(phrase, "describes")
    other = known.elsewhere(phrase)
    return ("other", other) if other else ("", "")
