"""File names from words.

Figures, tables and reports are named after words that may come from a survey: a button's number
such as ``1912/10``, a term, a file name. What comes out here is a plain name that every file
system takes and that cannot lead out of its folder.
"""

import re
import unicodedata

__all__ = ["safe_name"]

_LONGEST = 80
_RESERVED = {"con", "prn", "aux", "nul"} | {
    f"{port}{n}" for port in ("com", "lpt") for n in range(10)
}


def safe_name(words: str, otherwise: str = "unnamed") -> str:
    """Return a file name, without ending, made from any words.

    Letters and digits of every script stay; all else becomes a hyphen. The name is in lower
    case, so that two names never differ in case alone.

    Parameters
    ----------
    words
        Any text, trusted or not.
    otherwise
        The name when nothing usable is left.

    Examples
    --------
    >>> safe_name("Size classes by period")
    'size-classes-by-period'
    >>> safe_name("../../1912/10 (b)")
    '1912-10-b'
    >>> safe_name("***")
    'unnamed'
    """
    folded = unicodedata.normalize("NFKC", words).casefold()
    name = re.sub(r"[\W_]+", "-", unicodedata.normalize("NFC", folded)).strip("-")
    while len(name.encode()) > _LONGEST:
        name = name[:-1].rstrip("-")
    return f"{name}-" if name in _RESERVED else name or otherwise
