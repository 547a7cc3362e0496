"""Cautions: what can hurt someone who opens old buttons, and which materials call for it.

A report ends with the cautions that its own materials call for, and with those that hold whenever
a button is opened. They defer to local codes and licensed practice.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cache

from buttonstudy.schemes.tables import rows

__all__ = ["Caution", "cautions", "cautions_for"]


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: the hazard, the (field, term) pairs that call for it, what it says, its source.

    Without pairs it holds whenever a button is opened.
    """

    hazard: str
    applies_to: tuple[tuple[str, str], ...]
    says: str
    source: str


@cache
def cautions() -> tuple[Caution, ...]:
    """Give all cautions, in the table's order."""
    return tuple(
        Caution(row["hazard"], _pairs(row["applies_to"]), row["says"], row["source"])
        for row in rows("cautions")
    )


def _pairs(text: str) -> tuple[tuple[str, str], ...]:
    parted = (pair.partition(":") for pair in text.split("|") if pair)
    return tuple((field, term) for field, _, term in parted)


def cautions_for(terms: Mapping[str, Collection[str]]) -> tuple[Caution, ...]:
    """Give the cautions that some terms call for, and those that always hold.

    Parameters
    ----------
    terms
        Terms found, by field.

    Examples
    --------
    >>> [one.hazard for one in cautions_for({"mould_material": ["ivory", "bone"]})]
    ['opening any button', 'blades and needles', 'dust', 'ivory', 'local rules']
    """
    return tuple(
        one
        for one in cautions()
        if not one.applies_to
        or any(term in terms.get(field, ()) for field, term in one.applies_to)
    )
