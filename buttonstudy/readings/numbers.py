"""Numbers as people write them, exactly, with the step that they are written to.

A size such as 1¼, 1 1/4, 1-1/4, 1.25 or 1,25 is one value, but the way it is written tells how
finely it was measured: quarters, or hundredths. Both are kept as exact fractions, so that an
eighth of an inch stays an eighth. A decimal comma is a decimal point; button sizes do not reach
the thousands.
"""

import re
import unicodedata
from fractions import Fraction
from functools import cache, lru_cache
from typing import Literal, NamedTuple

__all__ = ["NUMBER", "Number", "plain_digits", "read_number"]

# What follows a number must not carry it on: 5/8/2026 and 1.2.3 are no numbers.
NUMBER = r"""
    (?: (?: \d++ (?: - | [ ]++ ) )? \d++ (?: [ ]?/ | /[ ] ) \d++    # 5/8, 1 5/8, 1-5/8
      | \d++ (?: [.,] \d++ )?                                        # 16, 15.9, 15,9
      | (?: (?<![^\W\d_]) | (?<=[\d ][xX]) ) [.] \d++              # .625, but not c.16
    ) (?! [.,/:]? \d )
"""
_FRACTION = re.compile(r"(?:(\d+)(?:-| +))?(\d+) ?/ ?(\d+)")
_RAISED = re.compile(r"[⁰¹²³⁴-⁹]+(?=/)")
_MIDDLE_DOT = re.compile(r"(?<=\d)·(?=\d)")
_LONGEST = 12  # digits; a size never needs more, and longer ones only cost time


class Number(NamedTuple):
    """A number and how finely it is written.

    Parameters
    ----------
    text
        As written, in plain digits.
    over, under
        Its exact value as a fraction, not always in lowest terms.
    parts
        It is written to this part of one: 8 for 5/8, 10 for 15.9, 1 for 16.
    form
        ``"whole"``, ``"decimal"`` or ``"fraction"``.
    """

    text: str
    over: int
    under: int
    parts: int
    form: Literal["whole", "decimal", "fraction"]

    @property
    def value(self) -> Fraction:
        """The exact value."""
        return Fraction(self.over, self.under)

    @property
    def step(self) -> Fraction:
        """The distance to the next number written in the same way."""
        return Fraction(1, self.parts)


@lru_cache(maxsize=4096)
def read_number(text: str) -> Number | None:
    """Read one number in plain digits; see `plain_digits`.

    Parameters
    ----------
    text
        Only the number: whole, decimal, fraction, or mixed with a space or a hyphen.

    Returns
    -------
    Number or None
        None if this is no number, or one that nobody can mean (1/0, 1 9/8, thirteen digits).

    Examples
    --------
    >>> read_number("1-1/4").value, read_number("1-1/4").step
    (Fraction(5, 4), Fraction(1, 4))
    >>> read_number("15,90").value, read_number("15,90").step
    (Fraction(159, 10), Fraction(1, 100))
    >>> read_number("10/16").step, read_number("1 9/8")
    (Fraction(1, 16), None)
    """
    if len(text) > 3 * _LONGEST:
        return None
    if "/" in text:
        return _fraction(text)
    whole, _, decimals = text.replace(",", ".").partition(".")
    if not (whole + decimals).isdecimal() or max(len(whole), len(decimals)) > _LONGEST:
        return None
    parts = 10 ** len(decimals)
    return Number(text, int(whole + decimals), parts, parts, "decimal" if decimals else "whole")


def _fraction(text: str) -> Number | None:
    found = _FRACTION.fullmatch(text)
    if found is None:
        return None
    whole, over, under = int(found[1] or 0), int(found[2]), int(found[3])
    if under == 0 or (whole and over >= under):
        return None
    return Number(text, whole * under + over, under, under, "fraction")


def plain_digits(text: str) -> str:
    """Write out fraction characters, odd slashes, dashes and blanks in plain ones.

    A vulgar fraction is set off from the figure before it: 1¼ is one and a quarter, while the
    usual compatibility form of Unicode would make it 11/4.

    Examples
    --------
    >>> plain_digits("1¼"), plain_digits("1⁵⁄₈"), plain_digits("15–16"), plain_digits("15·5")
    ('1 1/4', '1 5/8', '15-16', '15.5')
    """
    if text.isascii():
        return text
    text = text.translate(_plain())
    text = _RAISED.sub(lambda found: " " + unicodedata.normalize("NFKC", found[0]), text)
    return _MIDDLE_DOT.sub(".", text.translate(_lowered())).strip()


@cache
def _plain() -> dict[int, str]:
    """Map fraction characters and the many slashes, dashes and blanks to plain characters."""
    plain = dict.fromkeys(map(ord, "\u2044\u2215\uff0f"), "/")
    plain |= dict.fromkeys(map(ord, "\u2010\u2011\u2012\u2013\u2014\u2015\u2212\uff0d"), "-")
    plain |= dict.fromkeys([0xA0, *range(0x2000, 0x200B), 0x202F, 0x205F, 0x3000], " ")
    plain |= dict.fromkeys([0xAD, 0x200B, 0x200C, 0x200D, 0x2060, 0xFEFF], "")
    for code in (*range(0xBC, 0xBF), *range(0x2150, 0x2160), 0x2189):
        plain[code] = " " + unicodedata.normalize("NFKC", chr(code)).replace("\u2044", "/")
    return plain


@cache
def _lowered() -> dict[int, str]:
    return {0x2080 + digit: str(digit) for digit in range(10)}
