"""A size wording parted into tokens: numbers, units, words for dimensions, and what joins them.

The words and marks that people use are a table (``size_words.csv``), so that one can be added
without touching code. A token that the table does not know is a plain word, and is told to the
reader as not understood.
"""

import re
from functools import cache
from typing import NamedTuple

from buttonstudy.readings.numbers import NUMBER, plain_digits
from buttonstudy.readings.spelt import in_figures, spelt_numbers
from buttonstudy.schemes.tables import rows
from buttonstudy.schemes.units import plain_marks, unit_marks

__all__ = ["LINES_OR_LENGTH", "Token", "tokens"]

LINES_OR_LENGTH = "l"
_GLUED = r"(?i:mm|cm|ins?|inch|inches|l|h|w|d|di|diam)"
_TOKEN = re.compile(
    rf"""
    (?P<number> {NUMBER} )
  | (?P<bad> \.?\d [\d.,/:]* )                     # 5/8/2026, 1.2.3
  | (?P<word> {_GLUED} (?= [xX][ ]?\d )                 # 15mmx16
            | [xX] (?= \.\d )
            | [^\W\d_]+ \.? )
  | (?P<stop> \. (?! [ ]*\d ) )                    # the end of a sentence
  | (?P<mark> \S )
    """,
    re.VERBOSE,
)


_BREAKS = str.maketrans("\r\n\t", ";; ")
_UNKNOWN = ("word", "")


class Token(NamedTuple):
    """One piece of a size wording.

    Parameters
    ----------
    kind
        ``"number"``, ``"bad"`` (figures that are no number), ``"unit"``, ``"l"`` (lines or
        length), ``"word"`` (not known), or a role of the table ``size_words.csv``.
    text
        As written.
    value
        What it stands for: the unit's, dimension's or part's name.
    glued
        True if nothing parts it from the token before.
    """

    kind: str
    text: str
    value: str
    glued: bool


def tokens(text: str) -> list[Token]:
    """Part a size wording into tokens; blanks are dropped.

    Examples
    --------
    >>> [(token.kind, token.value or token.text) for token in tokens("Ø c.1¼″ (32 mm)")]
    [('dimension', 'diameter'), ('about', 'c.'), ('number', '1 1/4'), ('unit', 'in'),
     ('open', '('), ('number', '32'), ('unit', 'mm'), ('close', ')')]
    """
    plain = plain_digits(plain_marks(text)).translate(_BREAKS).replace("+/-", "±")
    found = _parted(plain)
    if any(token.kind == "spelt" or token.value == "and" for token in found):
        figures = in_figures(plain)
        return _parted(figures) if figures != plain else found
    return found


def _parted(plain: str) -> list[Token]:
    known = _known()
    found: list[Token] = []
    end = -1
    for match in _TOKEN.finditer(plain):
        kind, written = match.lastgroup or "", match[0]
        value = ""
        if kind == "stop":
            continue
        if kind != "number" and kind != "bad":
            kind, value = known.get(written.casefold().rstrip(".") or written, _UNKNOWN)
        found.append(Token(kind, written, value, match.start() == end))
        end = match.end()
    return found


@cache
def _known() -> dict[str, tuple[str, str]]:
    """Map each known word or mark, in lower case, to its kind and meaning."""
    known = {mark: ("unit", unit) for mark, unit in unit_marks().items()}
    known |= {row["word"].casefold(): (row["role"], row["meaning"]) for row in rows("size_words")}
    known |= dict.fromkeys((*spelt_numbers("whole"), *spelt_numbers("part"), "an"), ("spelt", ""))
    known["l"] = (LINES_OR_LENGTH, "lines")
    return known
