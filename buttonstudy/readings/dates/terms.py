"""One date within a wording: a year, decade, century, a part of one, or a named period.

A term may leave out what its neighbour says: the "early" of "early to mid 18th century", the 60 of
"1840-60", the 18th of "18th-19th century". `completed` fills these in, and `spanned` turns each
term into years by the convention.
"""

from dataclasses import dataclass, replace

from buttonstudy.readings.dates.doubts import Unread, date_doubt
from buttonstudy.readings.dates.tokens import Token
from buttonstudy.readings.doubt import Doubt
from buttonstudy.schemes.conventions import DateConvention
from buttonstudy.schemes.limits import limit
from buttonstudy.schemes.named_periods import NamedPeriod, named_periods

__all__ = ["Span", "Term", "completed", "spanned"]

_MONTHS = range(1, 13)
_LAST_CENTURY = 21


@dataclass(frozen=True, slots=True)
class Term:
    """One date as written, not yet in years.

    Parameters
    ----------
    unit
        ``"year"``, ``"calendar"``, ``"decade"``, ``"hundreds"``, ``"century mask"``,
        ``"century"``, ``"ordinal"``, ``"period"``, ``"number"``, ``"short decade"``,
        ``"present"``, or empty where only a part was written.
    value
        The year, the decade's or mask's first year, or the number.
    part
        The part of a decade, century or period, such as ``"early"``.
    period
        The name of a period.
    circa
        True if c. stands with this very term.
    text
        How it was written.
    """

    unit: str
    value: int = 0
    part: str = ""
    period: str = ""
    circa: bool = False
    text: str = ""


@dataclass(frozen=True, slots=True)
class Span:
    """A term in years, inclusive; ``kind`` is year, decade, part, period or century.

    ``widest`` are the widest years that others give a named period.
    """

    first: int
    last: int
    kind: str
    basis: str
    doubts: tuple[Doubt, ...] = ()
    widest: tuple[int, int] | None = None


def completed(terms: list[Term], links: list[Token]) -> tuple[list[Term], list[Doubt]]:
    """Fill in what terms leave to their neighbours; `links` are the marks between them.

    Raises
    ------
    Unread
        If the present stands elsewhere than at a range's end, or an end year runs backwards.
    """
    filled = list(terms)
    doubts: list[Doubt] = []
    if any(term.unit == "present" for term in terms[:-1] or terms):
        raise Unread(date_doubt("date-not-understood", part=terms[0].text))
    for index in range(len(filled) - 2, -1, -1):
        filled[index] = _from_next(filled[index], filled[index + 1])
    for index in range(1, len(filled)):
        filled[index], doubt = _from_previous(filled[index - 1], filled[index], links[index - 1])
        doubts += doubt
    return filled, doubts


def _from_next(term: Term, following: Term) -> Term:
    """Take the unit from the next term: early to mid 18th century, 18th-19th century."""
    if not term.unit:
        return replace(term, unit=following.unit, value=following.value, period=following.period)
    if term.unit == "ordinal" and following.unit == "century":
        return replace(term, unit="century")
    if _both_decades(term, following):
        return replace(term, unit="decade")
    return term


def _from_previous(previous: Term, term: Term, link: Token) -> tuple[Term, list[Doubt]]:
    """Take the missing figures or the unit from the previous term: 1840-60, 1840s-50s."""
    if not term.unit:
        return replace(term, unit=previous.unit, value=previous.value, period=previous.period), []
    if term.unit == "ordinal" and previous.unit == "century":
        return replace(term, unit="century"), []
    if _both_decades(term, previous):
        return replace(term, unit="decade"), []
    if term.unit == "number" and previous.unit == "century" and term.value <= _LAST_CENTURY:
        return replace(term, unit="century"), []
    if term.unit == "short decade" and previous.unit in {"year", "decade"}:
        return replace(term, unit="decade", value=previous.value // 100 * 100 + term.value), []
    if term.unit == "number" and previous.unit in {"year", "calendar"} and len(term.text) < 3:
        return _end_year(previous, term, link)
    return term, []


def _both_decades(term: Term, neighbour: Term) -> bool:
    """Tell whether hundreds stand beside a decade, as in 1890s-1900s, and so are one."""
    return term.unit == "hundreds" and not term.part and neighbour.unit == "decade"


def _end_year(previous: Term, term: Term, link: Token) -> tuple[Term, list[Doubt]]:
    """Complete an abbreviated end year; a hyphen before 01 to 12 may also mean a month."""
    step = 10 ** len(term.text)
    year = previous.value // step * step + term.value
    written = f"{previous.text}{link.text}{term.text}"
    month = (
        len(term.text) == 2
        and term.value in _MONTHS
        and link.text in {"-", "/"}
        and previous.unit == "year"
        and not (previous.circa or term.circa)
    )
    if year < previous.value and not month:
        raise Unread(date_doubt("date-reversed", first=previous.value, last=year))
    end = max(year, previous.value)
    doubts = []
    if month:
        read = previous.value if end == previous.value else f"{previous.value}-{end}"
        doubts.append(date_doubt("date-month-or-years", part=written, read=read))
    return replace(term, unit="year", value=end), doubts


def spanned(term: Term, convention: DateConvention, this_year: int) -> Span:
    """Turn a completed term into years by the convention, without the effect of c.

    A century, decade or part that is not over yet ends with this year.

    Raises
    ------
    Unread
        If the term cannot be placed in one century, or has no such part.
    """
    span = _spanned(term, convention, this_year)
    if span.kind != "year" and span.first <= this_year < span.last:
        return replace(span, last=this_year)
    return span


def _spanned(term: Term, convention: DateConvention, this_year: int) -> Span:
    """Turn a term into years, wherever they lie."""
    match term.unit:
        case "year" | "calendar":
            return _year(term)
        case "present":
            return Span(this_year, this_year, "year", "year")
        case "decade":
            return _parted(term, "decade", term.value, convention)
        case "century" | "ordinal":
            span = _parted(term, "century", (term.value - 1) * 100, convention)
            if term.unit == "century":
                return span
            if term.part:
                return replace(span, doubts=(date_doubt("date-century-assumed", part=term.text),))
        case "century mask" | "hundreds":
            return _hundreds(term, convention)
        case "period":
            return _period(term)
        case "short decade":
            raise Unread(date_doubt("date-which-century", part=term.text))
        case "number" if len(term.text) <= 2:
            raise Unread(date_doubt("date-two-figure-year", part=term.text))
    raise Unread(date_doubt("date-not-understood", part=term.text))


def _year(term: Term) -> Span:
    """Read a single year; a part of a year that names no month may be a slip."""
    basis = "year" if term.unit == "year" else "calendar date"
    if term.value < 1 or term.part not in {"", "early", "mid", "late"}:
        raise Unread(date_doubt("date-not-understood", part=term.text))
    asked = term.part and term.unit == "year"
    doubts = (date_doubt("date-part-of-year", part=term.text),) if asked else ()
    return Span(term.value, term.value, "year", basis, doubts)


def _parted(term: Term, unit: str, base: int, convention: DateConvention) -> Span:
    """Read a decade or a century, or a part of one, by the convention's rule."""
    rule = f"{unit} {term.part}" if term.part else unit
    if term.unit in {"century", "ordinal"} and term.value < 1:
        raise Unread(date_doubt("date-not-understood", part=term.text))
    if all(known.rule != rule for known in convention.rules):
        raise Unread(date_doubt("date-not-understood", part=term.text))
    first, last = _closed(convention.years(rule, base))
    return Span(first, last, "part" if term.part else unit, f"{unit} part" if term.part else unit)


def _hundreds(term: Term, convention: DateConvention) -> Span:
    """Read 18-- as its hundred years, and 1800s by the convention, with a doubt."""
    if term.part:
        span = _parted(term, "century", term.value, convention)
    elif term.unit == "century mask":
        return Span(term.value, term.value + 99, "century", "century")
    else:
        first, last = _closed(convention.years("hundreds", term.value))
        unit = "century" if last - first > 10 else "decade"
        span = Span(first, last, unit, unit)
    if term.unit == "century mask":
        return span
    read = f"{span.first}-{span.last}"
    return replace(span, doubts=(date_doubt("date-hundreds", part=term.text, read=read),))


def _closed(years: tuple[int | None, int | None]) -> tuple[int, int]:
    """Years of a rule that has no open end; the table's check keeps them closed."""
    first, last = years
    if first is None or last is None:
        raise ValueError("this rule of the date convention has an open end")
    return first, last


def _period(term: Term) -> Span:
    """Read a reign or named period from the table, telling where other uses differ."""
    period = next(period for period in named_periods() if period.name == term.period)
    doubts = _variation(period)
    read = f"{period.year_from}-{period.year_to}"
    if term.part:
        named = f"{term.part} {period.name}"
        whole = next((p for p in named_periods() if p.name.lower() == named.lower()), None)
        if whole is not None:
            return _period(replace(term, part="", period=whole.name))
        doubts = (date_doubt("date-part-of-period", part=term.text, read=read),)
    widest = (period.widest_from, period.widest_to)
    return Span(period.year_from, period.year_to, "period", "period", doubts, widest)


def _variation(period: NamedPeriod) -> tuple[Doubt, ...]:
    """Tell a period whose name others use for clearly different years."""
    apart = max(period.year_from - period.widest_from, period.widest_to - period.year_to)
    if apart <= limit("date-period-varies"):
        return ()
    read = f"{period.year_from}-{period.year_to}"
    variation = period.variation or f"others have {period.widest_from}-{period.widest_to}"
    said = date_doubt("date-period-varies", part=period.name, read=read, variation=variation)
    return (said,)
