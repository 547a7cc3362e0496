"""Sizes in cells of terms: 1/8 in is no number of holes."""

import re
from dataclasses import replace
from functools import lru_cache

from buttonstudy.readings.lengths.tokens import LINES_OR_LENGTH, tokens
from buttonstudy.readings.phrases import Lookup, lookup
from buttonstudy.schemes import Vocabulary

__all__ = ["is_size", "is_whole", "sizes_in", "without_figures", "without_noughts"]

_WHOLE = re.compile(r"\s*(\d+)(?:[.,]0+)?\s*", re.ASCII)
_UNITS = ("unit", LINES_OR_LENGTH)


def is_size(text: str) -> bool:
    """Tell whether a text holds a size: a fraction, a decimal, or a number with a unit.

    A bare "2.0" is none: so does a table write the number 2 where other cells of it are empty.

    Examples
    --------
    >>> [is_size(text) for text in ('3/32"', "2.5", "3 mm", "3", "2 holes", "2.0")]
    [True, True, True, False, False, False]
    """
    return not is_whole(text) and bool(sizes_in(text))


def sizes_in(text: str) -> tuple[str, ...]:
    """Give the sizes that a text holds, as they are written.

    Examples
    --------
    >>> sizes_in('2 holes 1/16"'), sizes_in("pierced 2 mm")
    (('1/16"',), ('2 mm',))
    """
    if not any(map(str.isnumeric, text)):
        return ()
    found = tokens(text)
    return tuple(
        f"{one.text}{'' if then.glued else ' '}{then.text}" if then.kind in _UNITS else one.text
        for one, then in zip(found, [*found[1:], found[0]])
        if one.kind == "number" and (not one.text.isdigit() or then.kind in _UNITS)
    )


def is_whole(text: str) -> bool:
    """Tell whether a text is a whole number, with or without noughts behind its point.

    Examples
    --------
    >>> [is_whole(text) for text in ("2", "2.0", "2,00", "2.5", "2 mm", "")]
    [True, True, True, False, False, False]
    """
    return bool(_WHOLE.fullmatch(text))


def without_noughts(text: str) -> str:
    """Give a whole number without the noughts behind its point; any other text as it is."""
    whole = _WHOLE.fullmatch(text)
    return whole[1] if whole else text


@lru_cache(maxsize=64)
def without_figures(field: str, vocabulary: Vocabulary) -> Lookup:
    """Make the lookup of a field in which a bare figure is no term."""
    known = lookup(field, vocabulary)
    own = {phrase: term for phrase, term in known.own.items() if not phrase.isdigit()}
    return replace(known, own=own)
