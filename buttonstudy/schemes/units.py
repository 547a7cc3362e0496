"""The units in which buttons are measured, each as an exact fraction of a millimetre.

Two different units are called line. The button line is 1/40 inch (0.635 mm); the Paris line is
2.2558 mm, three and a half times as long. They are therefore two units with two names here, and
the mark ``L`` or the word "ligne" alone always means the button line.
"""

from fractions import Fraction
from functools import cache

from buttonstudy.schemes.tables import Row, rows

__all__ = ["plain_marks", "unit_marks", "unit_named", "units"]

_QUOTES = str.maketrans(
    dict.fromkeys("\u2033\u201c\u201d\u201e\u201f\u02ba\uff02", '"')
    | dict.fromkeys("\u2032\u2018\u2019\u201a\u201b\u02b9\u00b4`\uff07", "'")
)
_JOINED = (("'''", "‴"), ("\"'", "‴"), ("'\"", "‴"), ("''", '"'), ('""', '"'))


@cache
def units() -> dict[str, Fraction]:
    """Give the millimetres in each unit, exactly, by the unit's name.

    Examples
    --------
    >>> units()["in"], units()["lines"]
    (Fraction(127, 5), Fraction(127, 200))
    >>> round(float(units()["Paris lines"]), 4)
    2.2558
    """
    return {row["name"]: _millimetres(row) for row in rows("units")}


def _millimetres(row: Row) -> Fraction:
    try:
        return Fraction(row.needed("mm"))
    except (ValueError, ZeroDivisionError):
        raise row.error("mm", "is not a number", "Write a number such as 127/5.") from None


@cache
def unit_marks() -> dict[str, str]:
    """Give the unit that each known word or mark stands for; words are in lower case."""
    return {
        mark.strip().casefold(): row["name"]
        for row in rows("units")
        for mark in (row["name"], *row["marks"].split(";"))
    }


def plain_marks(text: str) -> str:
    """Bring quotation marks and primes to ``"`` for inches, ``‴`` for lines and ``'`` alone.

    Examples
    --------
    >>> plain_marks("5/8″ 5/8” 5/8'' 26''' 26′′′")
    '5/8" 5/8" 5/8" 26‴ 26‴'
    """
    if text.isascii() and '"' not in text and "'" not in text and "`" not in text:
        return text
    plain = text.translate(_QUOTES)
    for written, mark in _JOINED:
        if written in plain:
            plain = plain.replace(written, mark)
    return plain


def unit_named(text: str) -> str:
    """Give the name of the unit that a word or mark stands for, or ``""``.

    Examples
    --------
    >>> unit_named("Ins."), unit_named("L"), unit_named("French lines"), unit_named("″")
    ('in', 'lines', 'Paris lines', 'in')
    >>> unit_named("foot")
    ''
    """
    words = plain_marks(text).casefold().split()
    return unit_marks().get(" ".join(words).rstrip("."), "")
