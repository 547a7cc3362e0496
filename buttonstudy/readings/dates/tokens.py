"""From a date's wording to tokens: years, decades, centuries, parts, marks and words.

The words are a table (``date_words.csv``) and so are reigns and named periods, since those are
what a button researcher may want to correct. Only figures and marks are patterns here. Each
token keeps the text it came from, so that a doubt can show it.
"""

import re
import unicodedata
from dataclasses import dataclass
from functools import cache

from buttonstudy.schemes.named_periods import named_periods
from buttonstudy.schemes.tables import rows

__all__ = ["Token", "date_tokens", "written"]

# Typographic dashes are kept apart from the hyphen: 1900–03 is a span, 1900-03 may be a month.
_SAME = str.maketrans(
    {
        "—": "–",
        "‒": "–",
        "―": "–",
        "−": "–",
        "‑": "-",
        "\xad": None,
        "’": "'",
        "‘": "'",
        "&": " and ",
    }
)

_FIGURES = r"""
  (?P<iso>\d{4}([-/.])\d{1,2}\2\d{1,2}
    (?:[t\ ]\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?:z|[-+]\d{2}(?::?\d{2})?)?)?
  )(?!\d)
| (?P<calendar>\d{1,2}([-/.])\d{1,2}\4\d{4})(?!\d)
| (?P<short_calendar>\d{1,2}/\d{1,2}/\d{2})(?!\d)
| (?P<century_mask>(?:1\d|20)(?:--|––|__|\?\?|xx|\.\.))(?![\w])
| (?P<decade_mask>(?:1\d|20)\d[-–_?x])(?![\w])
| (?P<decade>\d{3}0\s?'?s)(?![a-z])
| (?P<short_decade>'?\d0'?s)(?![a-z])
| (?P<century>(?<![a-z])c\.?\d{1,2}(?:st|nd|rd|th)?|\d{1,2}(?:st|nd|rd|th)c\.?)(?![\w])
"""
_REST = r"""
| (?P<ordinal>\d{1,2}(?:st|nd|rd|th))(?![a-z])
| (?P<year>\d{4})(?:\.0+)?(?![\d])
| (?P<number>\d+)
| (?P<question>\?+)
| (?P<approximate>[~≈])
| (?P<dash>[-–]+)
| (?P<slash>/)
| (?P<plus>\+)
| (?P<open>[(\[{])
| (?P<close>[)\]}])
| (?P<separator>[,;:.|])
| (?P<blank>[\s"']+)
| (?P<word>[^\s0-9,;:.|()\[\]{}/+~?–-]+|.)
"""


_KINDS = {
    "short_calendar": "short calendar",
    "short_decade": "short decade",
    "question": "uncertain",
    "approximate": "circa",
    "plus": "onwards",
}


@dataclass(frozen=True, slots=True)
class Token:
    """One piece of a date's wording.

    Parameters
    ----------
    kind
        What it is, such as ``"year"``, ``"part"`` or ``"word"`` (not known).
    text
        How it was written.
    value
        Its number where it has one: a year, the first year of a decade, a century's number.
    name
        Its meaning where that is a word: a part's, a role's or a period's name.
    glued
        True if no blank stood before it.
    """

    kind: str
    text: str
    value: int = 0
    name: str = ""
    glued: bool = False


def written(tokens: tuple[Token, ...] | list[Token]) -> str:
    """Put tokens back into words for a message."""
    return "".join(token.text if token.glued else f" {token.text}" for token in tokens).strip()


def date_tokens(text: str) -> tuple[Token, ...]:
    """Split a date's wording into tokens; nothing is dropped but blanks and quotation marks.

    Parameters
    ----------
    text
        Any text.

    Returns
    -------
    tuple of Token

    Examples
    --------
    >>> [(token.kind, token.value or token.name) for token in date_tokens("late 1840s")]
    [('part', 'late'), ('decade', 1840)]
    """
    plain = unicodedata.normalize("NFKC", text.translate(_SAME)).translate(_SAME)
    found = []
    glued = False
    for match in _pattern().finditer(plain):
        kind = match.lastgroup or "word"
        if kind != "blank":
            make = _phrase if kind == "phrase" else _figure
            found.append(make(kind, match[0], glued))
        glued = kind != "blank"
    return tuple(found)


def _figure(kind: str, text: str, glued: bool) -> Token:
    """Make the token of a figure or a mark."""
    digits = re.findall(r"[0-9]+", text)
    if kind in {"iso", "calendar"}:
        numbers = [int(number) for number in digits[:3]]
        year, *others = numbers if kind == "iso" else numbers[::-1]
        return Token(_in_calendar(others), text.strip(), year, "", glued)
    if kind == "century_mask":
        return Token("century mask", text, int(digits[0]) * 100, "", glued)
    if kind == "decade_mask":
        return Token("decade", text, int(digits[0]) * 10, "", glued)
    if kind == "decade":
        first = int(digits[0])
        return Token("decade" if first % 100 else "hundreds", text, first, "", glued)
    value = int(digits[0][:9]) if digits else 0
    return Token(_KINDS.get(kind, kind), text, value, "", glued)


def _in_calendar(others: list[int]) -> str:
    """Check a day and a month in figures; their order does not matter for the year."""
    real = 1 <= min(others) <= 12 and max(others) <= 31
    return "calendar" if real else "not in calendar"


def _phrase(_kind: str, text: str, glued: bool) -> Token:
    """Make the token of a phrase that the tables know."""
    kind, meaning = _phrases()[_key(text)]
    if meaning.isdigit():
        return Token(kind, text, int(meaning), "", glued)
    return Token(kind, text, 0, meaning, glued)


def _key(phrase: str) -> str:
    """Reduce a phrase to what does not depend on its points, hyphens and blanks."""
    return re.sub(r"[\s.\-–]+", "", phrase.lower())


@cache
def _phrases() -> dict[str, tuple[str, str]]:
    """Collect the known phrases: kind and meaning of each."""
    known = {}
    for row in rows("date_words"):
        for phrase in row["phrases"].split(";"):
            known[_key(phrase)] = (row["kind"], row["value"])
    for period in named_periods():
        for phrase in period.phrases:
            known[_key(phrase)] = ("period", period.name)
    return known


@cache
def _pattern() -> re.Pattern[str]:
    """Build the pattern of all tokens, longer phrases before shorter ones."""
    phrases = [phrase for row in rows("date_words") for phrase in row["phrases"].split(";")]
    phrases += [phrase for period in named_periods() for phrase in period.phrases]
    longest_first = sorted(set(phrases), key=lambda phrase: (-len(phrase), phrase))
    choices = "|".join(_spaced(phrase.lower()) for phrase in longest_first)
    known = rf"| (?P<phrase>(?<![a-z])(?:{choices})\.?(?![a-z]))"
    return re.compile(_FIGURES + known + _REST, re.VERBOSE | re.DOTALL | re.ASCII | re.IGNORECASE)


def _spaced(phrase: str) -> str:
    """Let a phrase be written with blanks, points or hyphens between its words."""
    words = re.split(r"([\s.\-]+)", phrase)
    return "".join(
        re.escape(word) if index % 2 == 0 else _between(word) for index, word in enumerate(words)
    )


def _between(gap: str) -> str:
    return r"\.?\s?" if "." in gap else r"[\s.\-–]+"
