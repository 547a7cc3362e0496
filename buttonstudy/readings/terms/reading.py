"""Reads a cell of construction terms: "Turned wood (beech?), part of the edge lost".

A wording goes through three steps. It is parted into clauses and known phrases
(:mod:`~buttonstudy.readings.phrases`), the phrases of each part are understood with the small
words that deny, doubt or turn them (:mod:`~buttonstudy.readings.terms.parts`), and the parts are
weighed against each other here. The first part that says something decides whether the cell
names terms or a kind of blank, since people put the main thing first. A term that is not known
is kept as it is written: a new word is evidence, not an error.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache

from buttonstudy.readings.blanks import blank_state, cautious
from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.lengths.mangled import reads_as_date
from buttonstudy.readings.phrases import Lookup, find_phrases, lookup
from buttonstudy.readings.terms import doubts as term_doubts
from buttonstudy.readings.terms.measured import (
    is_size,
    sizes_in,
    without_figures,
    without_noughts,
)
from buttonstudy.readings.terms.parts import Part, alternatives, parts_of
from buttonstudy.readings.wording import clauses, composed, key
from buttonstudy.schemes import ABSENT, Vocabulary, limit, rows

__all__ = ["TermReading", "read_terms"]

_LOOKS = "cover_colour"
_HOLE = "mould_hole"
_SHORT_BESIDE = 2
_SHORT_ALONE = 4
_LIST = re.compile(r"[;,/+\r\n&]|\band\b", re.IGNORECASE)
_LINES = re.compile(r"[;\r\n]")
_LISTED = ("break", "comma", "adds")


@dataclass(frozen=True, slots=True)
class TermReading:
    """What a cell of terms says.

    Parameters
    ----------
    text
        The cell's wording, unchanged.
    terms
        The preferred terms, in alphabetical order, each once.
    state
        One of "absent", "not examined", "unclear", "not recorded" where the cell names no
        term; else empty.
    unknown
        Terms that the vocabulary does not know, as they are written, in the cell's order.
    passed
        Words that were not understood beside what was, in the cell's order.
    beside
        Words that are known for other fields, such as a colour beside a material, and say nothing
        in this one, in the cell's order.
    doubts
        What the researcher should know or confirm.
    """

    text: str
    terms: tuple[str, ...] = ()
    state: str = ""
    unknown: tuple[str, ...] = ()
    passed: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()
    doubts: tuple[Doubt, ...] = ()


def read_terms(text: str, field: str, vocabulary: Vocabulary) -> TermReading:
    """Read a cell of terms.

    Parameters
    ----------
    text
        What the cell says.
    field
        The record's field, such as ``"mould_material"``.
    vocabulary
        Its terms and their synonyms.

    Returns
    -------
    TermReading
        Terms, unknown terms, or else a state; never nothing.

    Examples
    --------
    >>> from buttonstudy.schemes import vocabulary
    >>> read_terms("Molds of bone / hard wood", "mould_material", vocabulary()).terms
    ('bone', 'wood')
    >>> read_terms("not opened", "padding", vocabulary()).state
    'not examined'
    >>> reading = read_terms("ivry", "mould_material", vocabulary())
    >>> reading.unknown, reading.doubts[0].remedy
    (('ivry',), 'Is ivory meant? Then write that; otherwise add it to your own vocabulary table.')
    """
    if len(text) > limit("term-text-longest"):
        return TermReading(text, state="not recorded", doubts=(term_doubts.too_long(text),))
    line = composed(text)
    if field == _HOLE and reads_as_date(line):
        return TermReading(text, state="not recorded", doubts=(term_doubts.hole_date(text),))
    line = without_noughts(line) if field == _HOLE else line
    measured = field == _HOLE and is_size(line)
    known = (without_figures if measured else lookup)(field, vocabulary)
    whole = known.own.get(key(line), "") if "?" not in line else ""
    if whole:
        terms, state = ((), ABSENT) if whole == ABSENT else ((whole,), "")
        return TermReading(text, terms, state)
    parts = _unlabelled(_parts(line, known, looks=field == _LOOKS))
    state = blank_state(line)
    if state:
        return TermReading(text, state=state, doubts=_states_doubted(text, parts, state))
    pointing = any(part.points for part in parts) and not any(map(_tells, parts))
    if pointing or not key(line):
        doubt = term_doubts.points_elsewhere(text)
        return TermReading(text, state="not recorded", doubts=(doubt,))
    first = next(filter(_tells, parts), None)
    if first is None and measured:
        doubt = term_doubts.hole_size(text)
        return TermReading(text, state="not recorded", doubts=(doubt,))
    remarked = [part.remarks for part in parts if part.left]
    if first is None and (key(line) in _ticks() or (remarked and all(remarked))):
        doubt = term_doubts.names_nothing(text, field)
        return TermReading(text, state="not recorded", doubts=(doubt,))
    if first is None:
        return _unsaid(text, line, parts, field, vocabulary)
    if first.terms or any(part.terms and part.contrasts for part in parts):
        reading = _named(text, parts, field, vocabulary)
    else:
        reading = _blank(text, parts)
    return _beside_size(reading, sizes_in(line)) if measured else reading


def _beside_size(reading: TermReading, sizes: tuple[str, ...]) -> TermReading:
    """Tell of the hole's size beside its kind, which is passed over."""
    taken = _listed((*reading.terms, *reading.unknown)) or reading.state
    doubt = term_doubts.size_beside(" … ".join(sizes), taken)
    passed, doubts = (*reading.passed, *sizes), (*reading.doubts, doubt)
    return replace(reading, passed=passed, doubts=doubts)


@cache
def _ticks() -> frozenset[str]:
    return frozenset(key(row["words"]) for row in rows("tick_words"))


def _tells(part: Part) -> bool:
    """Tell whether a part decides what kind of thing the cell says."""
    return bool(part.terms) or part.state not in ("", "not recorded")


def _unlabelled(parts: list[Part]) -> list[Part]:
    """Leave out what stands before a colon where something telling stands behind it."""
    colon = next((place for place, part in enumerate(parts) if part.joined == "colon"), 0)
    return parts[colon:] if any(map(_tells, parts[colon:])) else parts


def _parts(line: str, known: Lookup, *, looks: bool) -> list[Part]:
    """Understand a text's parts; if they name nothing, try without other fields' terms."""
    parted = clauses(line)
    parts = parts_of(line, [find_phrases(clause, known) for clause in parted], looks=looks)
    said = any(part.state or part.denies for part in parts)
    if any(part.terms for part in parts) or (said and not any(part.contrasts for part in parts)):
        return parts
    found = [find_phrases(clause, known, own_only=True) for clause in parted]
    again = parts_of(line, found, looks=looks)
    return again if any(part.terms for part in again) else parts


def _named(text: str, parts: list[Part], field: str, vocabulary: Vocabulary) -> TermReading:
    """Read a cell that names terms."""
    open_parts = alternatives(parts)
    sure = [part for part in parts if not any(part is other for other in open_parts)]
    named = {term for part in sure for term in part.terms}
    terms = tuple(sorted(named - _needless(named, lookup(field, vocabulary).vaguer)))
    taken = _listed(terms) if terms else "unclear"
    over = [part for part in sure if part.left and part.strange]
    listed = bool(terms) or not open_parts
    new = [part for part in over if listed and _lists(part)]
    unknown = _once(part.left for part in new)
    passed = _passed(part for part in sure if part not in new)
    prose = sum(map(len, clauses(composed(text)))) > limit("term-prose")
    tests = (
        (prose and bool(terms), term_doubts.prose),
        (bool(open_parts), term_doubts.either),
        (bool(terms) and any(part.doubts for part in parts), term_doubts.uncertain),
        (bool(terms) and any(part.turns for part in parts), term_doubts.qualified),
        (any(part.state not in ("", "not recorded") for part in parts), term_doubts.beside_blank),
    )
    doubts = [make(text, taken) for holds, make in tests if holds]
    doubts += [term_doubts.unknown_term(wording, field, vocabulary) for wording in unknown]
    if passed:
        doubts.append(term_doubts.more_words(" … ".join(passed), taken))
    state = "" if terms or unknown else "unclear"
    beside = tuple(wording for part in parts for wording in part.beside)
    return TermReading(text, terms, state, unknown, passed, beside, tuple(doubts))


def _blank(text: str, parts: list[Part]) -> TermReading:
    """Read a cell whose first telling part is a kind of blank."""
    state = cautious({part.state for part in parts if part.state})
    if state == ABSENT and any(part.doubts for part in parts):
        state = "unclear"
    doubts = list(_states_doubted(text, parts, state))
    if any(part.terms for part in parts):
        doubts.append(term_doubts.beside_blank(text, state))
    passed = _passed(parts)
    if passed:
        doubts.append(term_doubts.more_words(" … ".join(passed), state))
    return TermReading(text, state=state, passed=passed, doubts=tuple(doubts))


def _passed(parts: Iterable[Part]) -> tuple[str, ...]:
    """Give the wordings of some parts that say nothing known."""
    return tuple(
        wording
        for part in parts
        for wording in ((part.left,) if part.left and part.strange else part.over)
    )


def _unsaid(
    text: str, line: str, parts: list[Part], field: str, vocabulary: Vocabulary
) -> TermReading:
    """Read a cell that holds no known term: keep its words as new terms."""
    if not any(part.left for part in parts) and any(part.denies for part in parts):
        return TermReading(text, state="unclear", doubts=(term_doubts.negated(text),))
    pieces = _LIST.split(line)
    if any(sum(map(len, clauses(piece))) > _SHORT_ALONE for piece in pieces):
        pieces = _LINES.split(line)
    known = lookup(field, vocabulary)
    unknown = _once(_undoubted(piece, known) for piece in pieces) or _once(_LINES.split(line))
    doubts = [term_doubts.unknown_term(wording, field, vocabulary) for wording in unknown]
    if any(part.doubts for part in parts):
        doubts.append(term_doubts.uncertain(text, "written"))
    return TermReading(text, unknown=unknown, doubts=tuple(doubts))


def _undoubted(piece: str, known: Lookup) -> str:
    """Take the marks of doubt off both ends of a wording, keeping closing brackets."""
    found = [item for clause in clauses(piece) for item in find_phrases(clause, known)]
    sure = [item for item in found if (item.kind, item.value) != ("mark", "uncertain")]
    if not sure or sure == found:
        return piece
    start = sure[0].start if found[0] != sure[0] else 0
    end = sure[-1].end if found[-1] != sure[-1] else len(piece)
    return piece[start:end]


def _states_doubted(text: str, parts: list[Part], taken: str) -> tuple[Doubt, ...]:
    """Tell of a cell whose parts say different kinds of blank."""
    said = {part.state for part in parts if part.state}
    return (term_doubts.two_states(text, taken),) if len(said) > 1 else ()


def _lists(part: Part) -> bool:
    """Tell whether a part looks like one more entry of a list and not like a remark.

    What is doubted is a remark, and so is a hazard: "silk, arsenic?" is no cover of arsenic.
    """
    short = part.strange <= _SHORT_BESIDE
    return short and part.joined in _LISTED and not (part.doubts or part.remarks)


def _needless(terms: set[str], vaguer: Mapping[str, str]) -> set[str]:
    """Give the terms that are only vaguer words for others named with them."""
    needless = set()
    for term in terms:
        while term in vaguer and vaguer[term] not in needless:
            term = vaguer[term]
            needless.add(term)
    return needless


def _once(wordings: Iterable[str]) -> tuple[str, ...]:
    """Give each wording once, in order, with its blanks tidied; empty ones are left out."""
    tidy = (" ".join(wording.split()).strip(" .?") for wording in wordings)
    return tuple(dict.fromkeys(filter(None, tidy)))


def _listed(terms: tuple[str, ...]) -> str:
    return " and ".join(terms)
