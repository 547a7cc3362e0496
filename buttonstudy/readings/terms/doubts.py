"""The sentences that tell what was doubtful in a cell of terms, and what to do about it."""

from functools import cache

from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.phrases import lookup
from buttonstudy.readings.wording import clauses, composed, key
from buttonstudy.schemes import Vocabulary, fields, limit

__all__ = [
    "beside_blank",
    "either",
    "hole_date",
    "hole_size",
    "more_words",
    "names_nothing",
    "negated",
    "points_elsewhere",
    "prose",
    "qualified",
    "size_beside",
    "too_long",
    "two_states",
    "uncertain",
    "unknown_term",
]

_MOST_WORDS = 4
_LONGEST = 80


def unknown_term(wording: str, field: str, vocabulary: Vocabulary) -> Doubt:
    """Tell of a term that is not known, with the nearest known ones."""
    says = f"{_shown(wording)} is not a known term for {_label(field)}; it is kept as written."
    elsewhere = lookup(field, vocabulary).elsewhere(key(wording))
    if elsewhere:
        says += f" It is a term for {_label(elsewhere)}."
    near = _nearest(wording, field, vocabulary)
    asked = f"Is {' or '.join(near)} meant? Then write that; otherwise add" if near else "Add"
    return Doubt("term-unknown", says, f"{asked} it to your own vocabulary table.")


def uncertain(wording: str, taken: str) -> Doubt:
    """Tell that the recorder was not sure."""
    return Doubt(
        "term-uncertain",
        f"{_shown(wording)} is marked as uncertain; it is read as {taken}.",
        'Take the mark of doubt away, or write "unclear" if it should not be counted.',
    )


def either(wording: str, taken: str) -> Doubt:
    """Tell that one of several terms is meant and nobody knows which."""
    return Doubt(
        "term-either",
        f"{_shown(wording)} names one or the other; it is read as {taken}.",
        'Name the right one, or join them with "and" if both are there.',
    )


def negated(wording: str) -> Doubt:
    """Tell that a cell says only what the feature is not."""
    return Doubt(
        "term-negated",
        f"{_shown(wording)} says what it is not; it is read as unclear.",
        'Write what it is, or "absent" or "not examined".',
    )


def qualified(wording: str, taken: str) -> Doubt:
    """Tell that words beside a term may change what it means."""
    return Doubt(
        "term-qualified",
        f"{_shown(wording)} may say something other than {taken}.",
        "Check that this is right; the wording is kept.",
    )


def prose(wording: str, taken: str) -> Doubt:
    """Tell that what was read from a long text may be only mentioned in it."""
    return Doubt(
        "term-prose",
        f"{_shown(wording)} is a long text; it is read as {taken}.",
        "Write the terms alone into this cell, and move the rest to the notes.",
    )


def more_words(wording: str, taken: str) -> Doubt:
    """Tell of words that were not understood beside what was."""
    return Doubt(
        "term-more-words",
        f"{_shown(wording)} was passed over; the cell is read as {taken}.",
        "Nothing needs doing if that is right; the wording is kept.",
        note=True,
    )


def beside_blank(wording: str, taken: str) -> Doubt:
    """Tell that a cell names a term and a kind of blank."""
    return Doubt(
        "term-beside-blank",
        f"{_shown(wording)} names a term and also a blank; it is read as {taken}.",
        "Leave one of them, and move the rest to the notes.",
    )


def two_states(wording: str, taken: str) -> Doubt:
    """Tell that a cell names two kinds of blank."""
    return Doubt(
        "term-two-states",
        f"{_shown(wording)} names two kinds of blank; it is read as {taken}.",
        "Leave the one that is right.",
    )


def too_long(wording: str) -> Doubt:
    """Tell that a cell is too long to be read as terms."""
    return Doubt(
        "term-too-long",
        f"{_shown(wording)} is too long to be read as terms, so nothing was read here.",
        "Write the terms alone into this cell, and move the rest to the notes.",
        fatal=True,
    )


def hole_size(wording: str) -> Doubt:
    """Tell that a hole's size stands where its kind should."""
    return Doubt(
        "term-hole-size",
        f"{_shown(wording)} is the hole's size and not its kind, so nothing was read here.",
        "Put sizes into a column named Hole diameter; here write pierced, several holes or absent.",
        fatal=True,
    )


def size_beside(wording: str, taken: str) -> Doubt:
    """Tell that a hole's size stands beside its kind."""
    return Doubt(
        "term-size-beside",
        f"{_shown(wording)} is the hole's size and was passed over; the cell is read as {taken}.",
        "Put sizes into a column named Hole diameter.",
    )


def hole_date(wording: str) -> Doubt:
    """Tell that a date stands where a hole's kind should."""
    return Doubt(
        "term-hole-date",
        f"{_shown(wording)} is a date and no kind of hole, so nothing was read here. Perhaps the "
        "spreadsheet program turned a fraction such as 1/8 into it.",
        "Put sizes into a column named Hole diameter, in cells formatted as text; here write "
        "pierced, several holes or absent.",
        fatal=True,
    )


def points_elsewhere(wording: str) -> Doubt:
    """Tell that the words stand in another place."""
    return Doubt(
        "term-elsewhere",
        f"{_shown(wording)} points to another place, so nothing was read here.",
        "Write the words themselves into this cell.",
        fatal=True,
    )


def names_nothing(wording: str, field: str) -> Doubt:
    """Tell that a cell holds only a mark, or only a hazard."""
    return Doubt(
        "term-names-nothing",
        f"{_shown(wording)} names no {_label(field).lower()}, so nothing was read here.",
        'Write the term, or "absent", "not examined" or "unclear"; the wording is kept.',
        fatal=True,
    )


def _shown(wording: str) -> str:
    """Put a wording in quotation marks, on one line and shortened."""
    flat = " ".join(wording.split())
    return f'"{flat[: _LONGEST - 1]}…"' if len(flat) > _LONGEST else f'"{flat}"'


@cache
def _labels() -> dict[str, str]:
    return {field.field: field.label for field in fields()}


def _label(field: str) -> str:
    return _labels().get(field, field)


def _nearest(wording: str, field: str, vocabulary: Vocabulary) -> list[str]:
    """Give the known terms with a wording a slip of the pen from this one or a word of it."""
    from rapidfuzz.distance import OSA  # slow to load and rarely needed

    fewest, long = limit("near-term-fewest"), limit("near-term-long")
    own, claims = lookup(field, vocabulary).own, lookup(field, vocabulary).claims
    known = [phrase for phrase in own if len(phrase) >= fewest]
    single = [word.key for clause in clauses(composed(wording)) for word in clause]
    if len(single) > _MOST_WORDS:
        return []
    best: dict[str, int] = {}
    for asked in {word for word in (key(wording), *single) if len(word) >= fewest}:
        if asked in claims and asked not in own:
            continue  # spelt right, and a term of another field
        most = int(limit("near-term-slips")) + (len(asked) >= long)
        for phrase in known:
            slips = OSA.distance(asked, phrase, score_cutoff=most)
            if slips <= most:
                best[own[phrase]] = min(slips, best.get(own[phrase], slips))
    ranked = sorted(best, key=lambda term: (best[term], term))
    return ranked[: int(limit("suggestions"))]
