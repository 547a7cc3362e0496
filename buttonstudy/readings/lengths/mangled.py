"""Sizes that a spreadsheet program changed: fractions made into dates, units kept in formats.

A typed 5/8 is stored as 5 August or 8 May, whichever the program's language asks for, and 9/16 as
September 2016. Only one fraction of an inch fits nearly every such date, so it can be offered back,
marked as such; it is never put in silently. A number format may also show 1.25 as 1 1/4, or add
the unit that the stored number lacks.
"""

import datetime as dt
import math
import re
from fractions import Fraction
from functools import cache

from buttonstudy.schemes.limits import limit
from buttonstudy.schemes.tables import rows
from buttonstudy.schemes.units import unit_named

__all__ = ["fraction_from_date", "months", "number_format_reading", "read_back", "reads_as_date"]

_SHORT = re.compile(
    r"\s*(\d{1,2})[-/ .]+([a-z]{3,9})\.?\s*|\s*([a-z]{3,9})[-/ .]+(\d{1,2})\s*", re.I
)
_ISO = re.compile(r"\s*(\d{4})-(\d{1,2})-(\d{1,2})(?:[ T]\d{1,2}:\d\d(?::\d\d)?(?:\.\d+)?)?\s*")
_LONG = re.compile(r"\s*(\d{1,2})[-/.](\d{1,2})[-/.](?:\d\d){1,2}\s*")
_LITERAL = re.compile(r'"([^"]*)"|\\(.)|\[\$([^\]-]*)[^\]]*\]')
_FRACTION_FORMAT = re.compile(r"[#?0]*\s*[#?]+\s*/\s*(?:([0-9]+)|[#?]+)")
_DECIMALS = re.compile(r"[0#]\.(0+)")


def fraction_from_date(value: dt.date | str, number_format: str = "") -> Fraction | None:
    """Give the fraction of an inch that was most likely typed where a date stands now.

    Parameters
    ----------
    value
        A date or time, or its text: ``"05-Aug"``, ``"Sep-16"``, ``"2026-08-05 00:00:00"``.
    number_format
        The cell's number format; ``"d-mmm"`` leaves only day and month, ``"mmm-yy"`` only month
        and year.

    Returns
    -------
    Fraction or None
        A fraction with an odd numerator below a denominator of 2, 4, 8, 16, 32 or 64; None if no
        such fraction fits, or more than one.

    Examples
    --------
    >>> str(fraction_from_date(dt.date(2026, 8, 5))), str(fraction_from_date("8-May"))
    ('5/8', '5/8')
    >>> str(fraction_from_date(dt.date(2016, 9, 1))), fraction_from_date("10-Dec")
    ('9/16', None)
    """
    pairs = _text_pairs(value) if isinstance(value, str) else _date_pairs(value, number_format)
    found = {Fraction(*pair) for pair in pairs if _on_ruler(*pair)}
    return found.pop() if len(found) == 1 else None


def read_back(text: str) -> str | None:
    """Give the fraction that most likely became the date in a text, or None; see above.

    Examples
    --------
    >>> read_back("05-Aug"), read_back("5/8 in")
    ('5/8', None)
    """
    fraction = fraction_from_date(text)
    return None if fraction is None else str(fraction)


def reads_as_date(text: str) -> bool:
    """Tell whether a text is a date and nothing else.

    Examples
    --------
    >>> [reads_as_date(text) for text in ("10-Dec", "2026-12-10 00:00:00", "10/12/2026", "5/8")]
    [True, True, True, False]
    """
    if len(text) > limit("date-text-longest"):
        return False
    short = _SHORT.fullmatch(text)
    if short:
        return (short[2] or short[3]).casefold() in months()
    return bool(_ISO.fullmatch(text) or _LONG.fullmatch(text))


def _on_ruler(over: int, under: int) -> bool:
    power = 2 <= under <= limit("inch-ruler-finest") and under & (under - 1) == 0
    return power and 0 < over < under and over % 2 == 1


def _date_pairs(value: dt.date, number_format: str) -> list[tuple[int, int]]:
    """Give the pairs of figures that a program may have taken for this date."""
    plain = _LITERAL.sub("", number_format).casefold().split(";")[0]
    day_month = [(value.day, value.month), (value.month, value.day)]
    month_year = [(value.month, value.year % 100)] if value.day == 1 else []
    if "y" in plain and "d" not in plain:
        return month_year
    if "d" in plain and "y" not in plain:
        return day_month
    return day_month + month_year


def _text_pairs(text: str) -> list[tuple[int, int]]:
    if len(text) > limit("date-text-longest"):
        return []
    if found := _SHORT.fullmatch(text):
        figure, month = (
            int(found[1] or found[4]),
            months().get((found[2] or found[3]).casefold(), 0),
        )
        return [(figure, month), (month, figure)] if month else []
    if found := _ISO.fullmatch(text):
        try:
            return _date_pairs(dt.date(int(found[1]), int(found[2]), int(found[3])), "")
        except ValueError:
            return []
    if found := _LONG.fullmatch(text):
        return [(int(found[1]), int(found[2])), (int(found[2]), int(found[1]))]
    return []


@cache
def months() -> dict[str, int]:
    """Give the number of each month by its name and its short names, in lower case."""
    return {
        row["word"]: int(row["meaning"]) for row in rows("size_words") if row["role"] == "month"
    }


def number_format_reading(value: float, number_format: str) -> str:
    r"""Word a number as its format shows it, where the format holds a fraction or a unit.

    Parameters
    ----------
    value
        The stored number. It is never rounded to what is shown.
    number_format
        The cell's number format as spreadsheet programs write it.

    Returns
    -------
    str
        Such as ``"1 1/4"`` or ``"16 mm"``; ``""`` if the format adds nothing to the number.

    Examples
    --------
    >>> number_format_reading(1.25, "# ?/?"), number_format_reading(16, '0" mm"')
    ('1 1/4', '16 mm')
    >>> number_format_reading(16, r'0.0\ "mm"'), number_format_reading(0.625, r'# ?/?\"')
    ('16.0 mm', '5/8 in')
    >>> number_format_reading(1912.1, "0.00")
    ''
    """
    if not math.isfinite(value):
        return ""
    section = number_format.split(";")[0]
    literal = "".join(a or b or c for a, b, c in _LITERAL.findall(section))
    unit = unit_named(literal) or unit_named("".join(literal.split()[-1:]))
    figures = _LITERAL.sub(" ", section)
    if shape := _FRACTION_FORMAT.search(figures):
        number = _shown_fraction(value, int(shape[1] or 0))
        return f"{number} {unit}".strip() if number else ""
    return f"{_shown_decimal(value, figures)} {unit}" if unit else ""


def _shown_fraction(value: float, under: int) -> str:
    """Write a number as a mixed fraction if it is exactly one; "" if not."""
    exact = Fraction(value)
    under = under or exact.denominator
    over = exact * under
    if exact <= 0 or over.denominator != 1 or under > limit("inch-ruler-finest"):
        return ""
    whole, rest = divmod(over.numerator, under)
    part = f"{rest}/{under}" if rest else ""
    return f"{whole or ''} {part}".strip()


def _shown_decimal(value: float, figures: str) -> str:
    """Write a number with the decimals that are shown, or more where it has more."""
    shown = _DECIMALS.search(figures)
    plain = f"{value:.10f}".rstrip("0")
    held = len(plain) - plain.index(".") - 1
    return f"{value:.{max(held, len(shown[1]) if shown else 0)}f}"
