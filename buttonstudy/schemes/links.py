"""What a chain of buttons, each found inside the next, may not do: lead back to its beginning."""

from collections.abc import Mapping

__all__ = ["leads_back"]


def leads_back(place: int, outer_of: Mapping[int, int]) -> bool:
    """Say whether going outward from a record leads back to it.

    Parameters
    ----------
    place
        The record's place.
    outer_of
        For each record found inside another, the place of that other.

    Examples
    --------
    >>> leads_back(0, {0: 1, 1: 0}), leads_back(2, {2: 0, 0: 1, 1: 0}), leads_back(0, {0: 1})
    (True, False, False)
    """
    outer, passed = outer_of.get(place), {place}
    while outer is not None and outer not in passed:
        passed.add(outer)
        outer = outer_of.get(outer)
    return outer == place
