"""Fractions that a spreadsheet program turned into dates, and units that only a format shows.

A typed 5/8 becomes 5 August or 8 May, by the program's language; 9/16 becomes September 2016. In a
size column such a date is offered back as the fraction that it most likely was. Of the readings
that a date allows, only a fraction of an inch ruler counts: a denominator of 2, 4, 8, 16, 32 or 64
over a smaller odd numerator. There is at most one.
"""

import datetime as dt
import re

__all__ = ["fraction_of_date", "number_format_reading", "read_back"]

_MONTHS = {
    name: number
    for number, name in enumerate(
        ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"), 1
    )
}
_DENOMINATORS = (2, 4, 8, 16, 32, 64)
_DAY_MONTH = re.compile(r"(\d{1,2})[-\s./]([a-z]{3})[a-z]*\.?", re.IGNORECASE)
_MONTH_NUMBER = re.compile(r"([a-z]{3})[a-z]*\.?[-\s./](\d{1,2})", re.IGNORECASE)
_ISO = re.compile(r"(\d{4})-(\d{2})-(\d{2})(?:[ T]00:00(?::00)?)?")
_LITERAL = re.compile(r'"([^"]*)"|\\(.)')
_FRACTION = re.compile(r"[#0?]*\s*[#?0]+/([#?]+|\d+)")


def fraction_of_date(date: dt.date) -> str | None:
    """Give the ruler fraction that a date most likely was, or None.

    Examples
    --------
    >>> fraction_of_date(dt.date(2026, 8, 5)), fraction_of_date(dt.date(2016, 9, 1))
    ('5/8', '9/16')
    >>> fraction_of_date(dt.date(1855, 6, 20)) is None
    True
    """
    pairs = [(date.day, date.month), (date.month, date.day)]
    if date.day == 1:
        pairs.append((date.month, date.year % 100))
    return _ruler_fraction(pairs)


def read_back(text: str) -> str | None:
    """Give the ruler fraction that a date's wording in a size column most likely was, or None.

    Examples
    --------
    >>> [read_back(text) for text in ("05-Aug", "8-May", "Sep-16", "2026-08-05", "5/8", "16 mm")]
    ['5/8', '5/8', '9/16', '5/8', None, None]
    """
    plain = " ".join(text.split())
    if found := _ISO.fullmatch(plain):
        try:
            return fraction_of_date(dt.date(*map(int, found.groups())))
        except ValueError:
            return None
    for form, day, month in ((_DAY_MONTH, 1, 2), (_MONTH_NUMBER, 2, 1)):
        if (found := form.fullmatch(plain)) and found[month].lower() in _MONTHS:
            number, named = int(found[day]), _MONTHS[found[month].lower()]
            return _ruler_fraction([(number, named), (named, number)])
    return None


def _ruler_fraction(pairs: list[tuple[int, int]]) -> str | None:
    for over, under in pairs:
        if under in _DENOMINATORS and over % 2 and over < under:
            return f"{over}/{under}"
    return None


def number_format_reading(value: float, number_format: str) -> str:
    """Word a number as its format shows it, where that is a fraction or names a unit.

    Parameters
    ----------
    value
        The stored number.
    number_format
        The cell's number format, as the workbook states it.

    Returns
    -------
    str
        ``""`` if the format adds nothing.

    Examples
    --------
    >>> number_format_reading(1.25, "# ?/?"), number_format_reading(16, '0" mm"')
    ('1 1/4', '16 mm')
    >>> number_format_reading(16, "0.00")
    ''
    """
    from fractions import Fraction

    first = number_format.split(";")[0]
    literal = "".join(one or two for one, two in _LITERAL.findall(first)).strip()
    figures = f"{value:.15g}"
    if found := _FRACTION.search(first):
        fixed = found[1] if found[1].isdigit() else ""
        most = int(fixed) if fixed else 10 ** len(found[1]) - 1
        exact = Fraction(value).limit_denominator(most)
        whole, part = divmod(exact, 1)
        under = int(fixed) if fixed else part.denominator
        fraction = f"{part * under}/{under}" if part else ""
        figures = " ".join(filter(None, (str(whole) if whole or not part else "", fraction)))
    elif not literal:
        return ""
    return f"{figures} {literal}".strip()
