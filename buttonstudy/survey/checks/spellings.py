"""Recorders whose names are likely two spellings of one person's.

A recorder is known by the name alone, so "W. Dorrick" and "Wim Dorrick" count as two people. Which
names are one person's nobody can know from the names: likely pairs are told, none is merged.
"""

import re
import unicodedata
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.survey.checks.finding import Finding, words

_WORDS = re.compile(r"[^\W_]+")
_SEVERAL = re.compile(r"[&+;/]|\band\b", re.IGNORECASE)  # two people, not one name


@dataclass(frozen=True, slots=True)
class _Name:
    """A recorder's name as written, and its words in small letters, the surname last."""

    written: str
    words: tuple[str, ...]

    @property
    def letters(self) -> str:
        return "".join(self.words)

    @property
    def initials(self) -> str:
        return "".join(word[0] for word in self.words)


def spelling_findings(buttons: pd.DataFrame) -> Iterator[Finding]:
    """Tell each pair of names that are likely one recorder's, at the first record of the rarer."""
    written = words(buttons, "recorder").tolist()
    counts = Counter(filter(None, written))
    names = [name for name in map(_taken_apart, counts) if name.words]
    if not 2 <= len(names) <= limit("recorder-most-names"):
        return
    for one, other in combinations(names, 2):
        if _same_letters(one, other) or _shortened(one, other) or _near(one, other):
            likely = True
        else:
            likely = _sole_initials(one, other, names) or _sole_initials(other, one, names)
        if likely:
            rarer, usual = sorted((one.written, other.written), key=lambda name: counts[name])
            yield Finding(
                "recorder-spellings",
                written.index(rarer),
                f'"{rarer}" ({_records(counts[rarer])}) and "{usual}" ({_records(counts[usual])}) '
                "may be one recorder.",
                "recorder",
            )


def _taken_apart(written: str) -> _Name:
    """Take a name apart; one with its surname before a comma is turned round.

    Examples
    --------
    >>> _taken_apart("Dorrick, Wim").words, _taken_apart("T. O.").words
    (('wim', 'dorrick'), ('t', 'o'))
    """
    if _SEVERAL.search(written):
        return _Name(written, ())
    plain = unicodedata.normalize("NFKD", written).casefold()
    bare = "".join(sign for sign in plain if not unicodedata.combining(sign))
    surname, comma, given = bare.partition(",")
    turned = f"{given} {surname}" if comma else bare
    return _Name(written, tuple(_WORDS.findall(turned)))


def _same_letters(one: _Name, other: _Name) -> bool:
    return one.letters == other.letters


def _shortened(one: _Name, other: _Name) -> bool:
    """Tell whether two share a surname, and one's given names may be short for the other's."""
    surname = one.words[-1]
    given = list(zip(one.words[:-1], other.words[:-1]))
    return (
        surname == other.words[-1]
        and surname.isalpha()
        and len(surname) > 1
        and all(a == b or (min(len(a), len(b)) == 1 and a[0] == b[0]) for a, b in given)
    )


def _near(one: _Name, other: _Name) -> bool:
    """Tell whether two differ word by word by no more than a slip in a longer word."""
    from rapidfuzz import fuzz

    fewest, alike = limit("recorder-slip-letters"), limit("recorder-slip-alike")
    return len(one.words) == len(other.words) and all(
        a == b
        or (min(len(a), len(b)) >= fewest and (a + b).isalpha() and fuzz.ratio(a, b) >= alike)
        for a, b in zip(one.words, other.words)
    )


def _sole_initials(short: _Name, full: _Name, names: list[_Name]) -> bool:
    """Tell whether one name is the initials of the other, and of nobody else's there is."""
    if len(full.words) < 2 or short.letters != full.initials:
        return False
    others = [name for name in names if name.initials == full.initials]
    return full.letters != full.initials and all(
        _fits(name, full) for name in others if name.letters != short.letters
    )


def _fits(one: _Name, other: _Name) -> bool:
    """Tell whether two names differ by no more than initials for words: Jo V. and J. Vale."""
    return len(one.words) == len(other.words) and all(
        a == b or (min(len(a), len(b)) == 1 and a[0] == b[0])
        for a, b in zip(one.words, other.words)
    )


def _records(number: int) -> str:
    return f"{number:,} record{'' if number == 1 else 's'}"
