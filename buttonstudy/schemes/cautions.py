"""Cautions: what can hurt someone who opens old buttons, and which materials call for it.

A report ends with the cautions that its own materials call for, and with those that hold whenever
a button is opened. They are the usual ones, kept short, and defer to local codes and licensed
practice.
"""

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from buttonstudy.schemes.tables import rows

__all__ = ["Caution", "cautions", "cautions_for"]


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution.

    Parameters
    ----------
    hazard
        What may hurt, or what the law guards.
    applies_to
        The (field, term) pairs that call for it; none if it holds whenever a button is opened.
    words
        Words that call for it wherever a survey writes them.
    says
        What to do and to leave.
    source
        Where it comes from.
    """

    hazard: str
    applies_to: tuple[tuple[str, str], ...]
    words: tuple[str, ...]
    says: str
    source: str


@cache
def cautions() -> tuple[Caution, ...]:
    """Give all cautions in the table's order."""
    return tuple(
        Caution(
            row["hazard"],
            _pairs(row["applies_to"]),
            tuple(word for word in row["words"].split("|") if word),
            row["says"],
            row["source"],
        )
        for row in rows("cautions")
    )


def cautions_for(
    field_terms: Mapping[str, Collection[str]], texts: Iterable[str] = ()
) -> tuple[Caution, ...]:
    """Give the cautions that some terms or words call for, and those that hold for every button.

    Parameters
    ----------
    field_terms
        The terms found, by field. A value of a record that joins several terms with ``"; "``
        must be parted first.
    texts
        What a survey's cells say.

    Examples
    --------
    >>> for_bone = cautions_for({"mould_material": ["bone"]})
    >>> [one.hazard for one in cautions_for({"mould_material": ["ivory"]}) if one not in for_bone]
    ['ivory and the law']
    >>> [one.hazard for one in cautions_for({}, ["green (Arsenic?)"]) if one.applies_to]
    ['arsenic in greens']
    """
    named = {found.lastgroup for text in texts for found in _hazard_words().finditer(text)}
    return tuple(
        one
        for number, one in enumerate(cautions())
        if not one.applies_to
        or any(term in field_terms.get(field, ()) for field, term in one.applies_to)
        or f"hazard{number}" in named
    )


@cache
def _hazard_words() -> re.Pattern[str]:
    """Find the words of all cautions, each caution's in a group of its own."""
    groups = (
        f"(?P<hazard{number}>{'|'.join(map(_as_written, one.words))})"
        for number, one in enumerate(cautions())
        if one.words
    )
    return re.compile(rf"\b(?:{'|'.join(groups)})s?\b", re.IGNORECASE)


def _as_written(words: str) -> str:
    """Let a hyphen or blanks part words, and any apostrophe or none stand in them."""
    return re.escape(words).replace(r"\ ", r"[\s\-]+").replace("'", "['\u2019\u02bc]?")


def _pairs(text: str) -> tuple[tuple[str, str], ...]:
    parted = (pair.partition(":") for pair in text.split("|") if pair)
    return tuple((field, term) for field, _, term in parted)
