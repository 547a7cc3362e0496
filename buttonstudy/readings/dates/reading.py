"""What one cell says about a date: the earliest and the latest year, by a named convention.

Catalogue English is read in steps: normalised and split into tokens, parted into segments, each
segment read by a small grammar, the segments weighed against each other, and the result checked
against the calendar. What is not fully understood gives a doubt, and nothing is read unless the
rest is certain: an unread cell is told and can be mended, a wrong year cannot be found again.
"""

from dataclasses import dataclass, replace
from datetime import date

from buttonstudy.readings.dates.choice import chosen
from buttonstudy.readings.dates.doubts import Unread, date_doubt
from buttonstudy.readings.dates.edtf_text import edtf_form, read_edtf
from buttonstudy.readings.dates.months import with_years
from buttonstudy.readings.dates.segments import segments
from buttonstudy.readings.dates.statement import Statement
from buttonstudy.readings.dates.tokens import date_tokens
from buttonstudy.readings.doubt import Doubt
from buttonstudy.schemes.conventions import DateConvention
from buttonstudy.schemes.limits import limit

__all__ = ["DateReading", "read_date"]

_EMPTY = frozenset({"undated", "uncertain", "dash", "filler", "separator", "open", "close"})


@dataclass(frozen=True, slots=True)
class DateReading:
    """What a date's wording was read as.

    Parameters
    ----------
    text
        The wording, unchanged.
    earliest, latest
        Inclusive calendar years by the convention; None is an open end, and both are None where
        nothing was read.
    basis
        How it was read: ``"year"``, ``"circa year"``, ``"uncertain decade"``, ``"range"``,
        ``"century part"``, ``"period"``, ``"open end"``, ``"several dates"`` and so on;
        ``"undated"`` where the wording says that there is no date; empty where nothing was read.
    edtf
        The wording's dates in EDTF, before a convention widens them; empty where there are none.
    doubts
        What to confirm, or why nothing was read.
    """

    text: str
    earliest: int | None
    latest: int | None
    basis: str
    edtf: str
    doubts: tuple[Doubt, ...]


def read_date(text: str, convention: DateConvention, today: date | None = None) -> DateReading:
    """Read a date's wording by a convention.

    Parameters
    ----------
    text
        One cell. Any text is safe.
    convention
        What c., early, before and the like mean in years.
    today
        The day on which nothing later can have been made; by default the day it is.

    Returns
    -------
    DateReading

    Examples
    --------
    >>> from buttonstudy.schemes.conventions import date_convention
    >>> reading = read_date("late 18th-early 19th century", date_convention("thirds"))
    >>> reading.earliest, reading.latest, reading.basis, reading.edtf
    (1767, 1833, 'range', '1767/1833')
    >>> read_date("c. 1860", date_convention("buttonstudy")).edtf
    '1860~'
    """
    plain = text.strip()
    if not plain:
        return DateReading(text, None, None, "", "", ())
    this_year = (today or date.today()).year
    try:
        statement = _statement(plain, convention, this_year)
        if statement is None:
            return DateReading(text, None, None, "undated", "", ())
        statement = _checked(statement, this_year)
    except Unread as unread:
        return DateReading(text, None, None, "", "", (unread.doubt,))
    return DateReading(
        text,
        statement.earliest,
        statement.latest,
        _basis(statement),
        edtf_form(statement),
        tuple(dict.fromkeys(statement.doubts)),
    )


def _statement(text: str, convention: DateConvention, this_year: int) -> Statement | None:
    """Read a wording; None if it says that there is no date."""
    if len(text) > limit("date-longest-wording"):
        raise Unread(date_doubt("date-too-long"))
    statement = read_edtf(text, convention)
    if statement is not None:
        return statement
    tokens = with_years(date_tokens(text))
    if all(token.kind in _EMPTY for token in tokens):
        return None
    for token in tokens:
        if token.kind == "not in calendar":
            raise Unread(date_doubt("date-not-in-calendar", part=token.text))
        if token.kind == "short calendar":
            raise Unread(date_doubt("date-two-figure-year", part=token.text))
    return chosen(segments(tokens), text, convention, this_year)


def _checked(statement: Statement, this_year: int) -> Statement:
    """Refuse the future, keep c. from reaching into it, and ask about very early years."""
    first, last = statement.first, statement.last
    for year in (first, last):
        if year is not None and year > this_year:
            raise Unread(date_doubt("date-future", year=year))
    start = first if first is not None else last
    doubts = statement.doubts
    if start is not None and start < limit("date-earliest-plausible"):
        doubts = (*doubts, date_doubt("date-early", year=max(start, 1)))
    return replace(
        statement,
        first=None if first is None else max(first, 1),
        earliest=None if statement.earliest is None else max(statement.earliest, 1),
        latest=None if statement.latest is None else max(min(statement.latest, this_year), 1),
        doubts=doubts,
    )


def _basis(statement: Statement) -> str:
    """Put the qualifiers before how it was read."""
    uncertain = "uncertain " if statement.uncertain else ""
    circa = "circa " if any(statement.circa) else ""
    return f"{uncertain}{circa}{statement.basis}"
