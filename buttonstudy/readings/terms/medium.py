"""A museum's list of materials and techniques read into mould, cover and decoration.

Museum records name all that an object is made of in one text, "Silver, enamel" or "Gouache on
ivory, glass". Each piece of the list goes where the vocabulary knows its words: textiles to the
cover, works and things laid on to the decoration, every other material to the mould, which for an
uncovered button stands for the button itself. A table holds the exceptions with their reasons.
"""

import re
from dataclasses import dataclass
from functools import cache

from buttonstudy.readings.blanks import blank_state
from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.terms.reading import read_terms
from buttonstudy.schemes import Vocabulary, limit
from buttonstudy.schemes.tables import rows

__all__ = ["MEDIUM_FIELDS", "MediumReading", "read_medium"]

MEDIUM_FIELDS = ("mould_material", "cover_material", "decoration")
_MOULD, _COVER, _WORK = MEDIUM_FIELDS
_PIECES = re.compile(r"[,;/\n&+|]|\b(?:and|with|on|over)\b", re.IGNORECASE)
_SHOWN = 60


@dataclass(frozen=True, slots=True)
class MediumReading:
    """What a list of materials says.

    Parameters
    ----------
    text
        As written.
    mould_material, cover_material, decoration
        Preferred terms in alphabetical order.
    unknown
        The pieces of the list that name nothing known.
    doubts
        What was not known.
    """

    text: str
    mould_material: tuple[str, ...] = ()
    cover_material: tuple[str, ...] = ()
    decoration: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()
    doubts: tuple[Doubt, ...] = ()

    def terms(self, field: str) -> tuple[str, ...]:
        """Give the terms of one of :data:`MEDIUM_FIELDS`."""
        return {_MOULD: self.mould_material, _COVER: self.cover_material}.get(
            field, self.decoration
        )


def read_medium(text: str, vocabulary: Vocabulary) -> MediumReading:
    """Read a list of materials and techniques.

    Parameters
    ----------
    text
        What the cell says.
    vocabulary
        Preferred terms and their synonyms.

    Examples
    --------
    >>> from buttonstudy.schemes import vocabulary
    >>> reading = read_medium("Enameled metal, silk, steel beads", vocabulary())
    >>> reading.mould_material, reading.cover_material, reading.decoration
    (('metal',), ('silk',), ('beads', 'enamel'))
    """
    if blank_state(text) or len(text) > limit("term-text-longest"):
        return MediumReading(text)
    found: dict[str, set[str]] = {field: set() for field in MEDIUM_FIELDS}
    unknown = []
    for piece in filter(None, (piece.strip(" .()[]") for piece in _PIECES.split(text))):
        here = _piece(piece, vocabulary)
        for field, terms in here.items():
            found[field].update(terms)
        if not any(here.values()) and any(map(str.isalpha, piece)):
            unknown.append(piece)
    mould, cover, work = (tuple(sorted(found[field])) for field in MEDIUM_FIELDS)
    doubts = (_unknown(unknown, nothing=not (mould or cover or work)),) if unknown else ()
    return MediumReading(text, mould, cover, work, tuple(unknown), doubts)


def _piece(piece: str, vocabulary: Vocabulary) -> dict[str, tuple[str, ...]]:
    """Place one piece: a thing laid on by itself, else its material and its work."""
    work = _taken(piece, _WORK, vocabulary)
    if any(_exceptions().get((_WORK, term)) == "its own" for term in work):
        return {_WORK: work}
    mould = _taken(piece, _MOULD, vocabulary)
    cover = () if mould else _taken(piece, _COVER, vocabulary)
    return {_MOULD: mould, _COVER: cover, _WORK: work}


def _taken(piece: str, field: str, vocabulary: Vocabulary) -> tuple[str, ...]:
    terms = read_terms(piece, field, vocabulary).terms
    return tuple(term for term in terms if _exceptions().get((field, term)) != "no")


@cache
def _exceptions() -> dict[tuple[str, str], str]:
    return {(row["field"], row["term"]): row["taken"] for row in rows("medium_terms")}


def _unknown(pieces: list[str], *, nothing: bool) -> Doubt:
    told = ", ".join(f'"{" ".join(piece.split())[:_SHOWN]}"' for piece in pieces)
    several = len(pieces) > 1
    return Doubt(
        "medium-unknown",
        f"{told} {'name' if several else 'names'} no known material or work.",
        "Write the material in its own column, or add the word to your own vocabulary table.",
        note=not nothing,
    )
