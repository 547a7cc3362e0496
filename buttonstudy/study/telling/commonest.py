"""Which of several is the commonest, told so that a tie is never one winner.

Counts of shared sets are told rounded, so that 2.3 and 2.0 sets look the same to a reader. What
looks the same is named together, and where that is too much, none stands out.
"""

import math
from collections.abc import Sequence

from buttonstudy.schemes import limit
from buttonstudy.study.telling.words import count, listed

__all__ = ["alike_most", "commonest_words"]

_HALF = 0.5
_SLACK = 1e-6


def alike_most(counts: Sequence[float]) -> list[int]:
    """Give the places of the largest count and of all that are told as the same number.

    Parameters
    ----------
    counts
        Numbers of sets, or sums of weights; at least one.

    Examples
    --------
    >>> alike_most([2.0, 2.3, 1.2]), alike_most([6, 5])
    ([1, 0], [0])
    """
    told = [math.floor(number + _HALF + _SLACK) for number in counts]
    most = max(told)
    places = [place for place, number in enumerate(told) if number == most]
    return sorted(places, key=lambda place: -round(counts[place], 6))


def commonest_words(names: Sequence[str], counts: Sequence[float], of: str) -> str:
    """Name the commonest with its count; all that are as common, or that none stands out.

    Parameters
    ----------
    names, counts
        What is counted, and how many sets have it.
    of
        The sets that were examined, in words.

    Examples
    --------
    >>> commonest_words(["silk", "wool"], [7, 6], "20"), commonest_words(["a", "b"], [2, 2], "7")
    ('silk (7 of 20)', 'a and b (2 each of 7)')
    >>> commonest_words(["a", "b", "c", "d"], [1, 1, 1, 1], "6 sets")
    'none stands out (4 with 1 each of 6 sets)'
    """
    places = alike_most(counts)
    told = {count(counts[place]) for place in places}
    number = next(iter(told)) if len(told) == 1 else f"about {max(told, key=len).split()[-1]}"
    if len(places) > limit("ties-named"):
        return f"none stands out ({len(places)} with {number} each of {of})"
    named = listed(names[place] for place in places)
    return f"{named} ({number} of {of})" if len(places) == 1 else f"{named} ({number} each of {of})"
