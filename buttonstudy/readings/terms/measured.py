"""Sizes in cells of terms: 1/8 in is no number of holes."""

from dataclasses import replace
from functools import lru_cache

from buttonstudy.readings.lengths.tokens import LINES_OR_LENGTH, tokens
from buttonstudy.readings.phrases import Lookup, lookup
from buttonstudy.schemes import Vocabulary

__all__ = ["is_size", "without_figures"]

_UNITS = ("unit", LINES_OR_LENGTH)


def is_size(text: str) -> bool:
    """Tell whether a text holds a size: a fraction, a decimal, or a number with a unit.

    Examples
    --------
    >>> [is_size(text) for text in ('3/32"', "2.5", "3 mm", "3", "2 holes")]
    [True, True, True, False, False]
    """
    if not any(map(str.isnumeric, text)):
        return False
    found = tokens(text)
    return any(
        one.kind == "number" and (not one.text.isdigit() or then.kind in _UNITS)
        for one, then in zip(found, [*found[1:], found[0]])
    )


@lru_cache(maxsize=64)
def without_figures(field: str, vocabulary: Vocabulary) -> Lookup:
    """Make the lookup of a field in which a bare figure is no term."""
    known = lookup(field, vocabulary)
    own = {phrase: term for phrase, term in known.own.items() if not phrase.isdigit()}
    return replace(known, own=own)
