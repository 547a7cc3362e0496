"""The nearest known name for one that is not known."""

from collections.abc import Iterable

__all__ = ["suggestion"]


def suggestion(words: str, known: Iterable[str]) -> str:
    """Return a sentence that offers the nearest name, or all names if none is near.

    Examples
    --------
    >>> suggestion("size", ["sizes", "fills"])
    'Did you mean sizes?'
    >>> suggestion("glass", ["sizes", "fills"])
    'There are: fills, sizes.'
    """
    from difflib import get_close_matches

    names = sorted(known)
    near = get_close_matches(words.casefold(), names, n=1)
    if near:
        return f"Did you mean {near[0]}?"
    return f"There are: {', '.join(names)}." if names else "There are none."
