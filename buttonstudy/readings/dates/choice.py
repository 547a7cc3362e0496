"""Which of a cell's dates tells when the button was made.

The rule, in order: dates with a making word (made, cast); else dates with no role word; else the
date of a design, with a doubt. Dates of later work and of styles are never used. A bound or a
named period holds beside the other dates; a century or decade yields to a closer date inside it;
what remains is read as one whole span, with a doubt.
"""

from dataclasses import replace

from buttonstudy.readings.dates.doubts import Unread, date_doubt
from buttonstudy.readings.dates.segments import Segment
from buttonstudy.readings.dates.statement import Statement, read_statement
from buttonstudy.schemes.conventions import DateConvention

__all__ = ["chosen"]

_ROLES = ("make", "", "design")
_COARSE = frozenset({"century", "century part", "decade", "decade part"})


def chosen(
    found: list[Segment], text: str, convention: DateConvention, this_year: int
) -> Statement:
    """Read the segments that tell when the button was made, and join what they say.

    Raises
    ------
    Unread
        If none does, if one of them is not understood, or if they cannot all be true.
    """
    dated = [segment for segment in found if segment.dated]
    role = next((role for role in _ROLES if any(s.role == role for s in dated)), None)
    if role is None:
        raise Unread(date_doubt(_why_none(dated), part=text))
    used = [segment for segment in dated if segment.role == role]
    read = [read_statement(segment.tokens, convention, this_year) for segment in used]
    statement = _joined(read, [segment.explains for segment in used])
    doubts = list(statement.doubts)
    aside = [s.text for s in found if s not in used and not s.says_nothing]
    if aside:
        doubts.append(date_doubt("date-left-aside", part="; ".join(aside), read=_years(statement)))
    if role == "design":
        doubts.append(date_doubt("date-design-only", part=text))
    return replace(statement, doubts=tuple(doubts))


def _why_none(dated: list[Segment]) -> str:
    """Choose the doubt where no date tells when the button was made."""
    roles = {segment.role for segment in dated}
    if "style" in roles:
        return "date-style"
    return "date-later-work" if roles & {"later", "beside"} else "date-not-understood"


def _joined(read: list[Statement], explains: list[bool]) -> Statement:
    """Join statements: bounds and periods hold beside the rest, the rest is spanned."""
    if len(read) == 1:
        return read[0]
    bounding = [
        statement.basis in {"open end", "period"} or explaining
        for statement, explaining in zip(read, explains)
    ]
    dates = [statement for statement, bounds in zip(read, bounding) if not bounds]
    bounds = [statement for statement, bounds in zip(read, bounding) if bounds]
    dates = [date for date in dates if not _yields(date, dates)]
    joined = [_spanned(dates)] if dates else []
    statement, *others = joined + bounds
    for other in others:
        if other.widest and not _meet(statement, other):
            other = _at_its_widest(other)
        statement = _both(statement, other)
    doubts = [doubt for one in [*dates, *bounds] for doubt in one.doubts]
    return replace(statement, doubts=(*statement.doubts, *doubts))


def _yields(date: Statement, dates: list[Statement]) -> bool:
    """Tell whether a coarse date gives way to a closer one inside it."""
    return date.basis in _COARSE and any(
        other is not date
        and _inside(other, date)
        and not (_inside(date, other) and other.basis in _COARSE)
        for other in dates
    )


def _inside(inner: Statement, outer: Statement) -> bool:
    """Tell whether one closed date lies within another."""
    return _start(outer) <= _start(inner) and _end(inner) <= _end(outer)


def _start(statement: Statement) -> float:
    return float("-inf") if statement.first is None else statement.first


def _end(statement: Statement) -> float:
    return float("inf") if statement.last is None else statement.last


def _spanned(dates: list[Statement]) -> Statement:
    """Span several closed dates as one, with a doubt unless they are the same."""
    first, last = min(dates, key=_start), max(dates, key=_end)
    if all(_inside(date, dates[0]) and _inside(dates[0], date) for date in dates):
        return replace(dates[0], doubts=())
    spanned = replace(
        first,
        last=last.last,
        earliest=min(date.earliest or 0 for date in dates),
        latest=max(date.latest or 0 for date in dates),
        basis="several dates",
        circa=(first.circa[0], last.circa[1]),
        uncertain=any(date.uncertain for date in dates),
        one_of=(),
        doubts=(),
    )
    return replace(spanned, doubts=(date_doubt("date-several", read=_years(spanned)),))


def _both(one: Statement, other: Statement) -> Statement:
    """Keep the years for which both statements hold."""
    earliest = _later(one.earliest, other.earliest)
    latest = _earlier(one.latest, other.latest)
    first, last = _later(one.first, other.first), _earlier(one.last, other.last)
    if earliest is not None and latest is not None and earliest > latest:
        raise Unread(date_doubt("date-contradiction"))
    if first is not None and last is not None and first > last:
        first, last = earliest, latest
    bounds_only = one.basis == "open end" and None not in (earliest, latest)
    return replace(
        one,
        first=first,
        last=last,
        earliest=earliest,
        latest=latest,
        basis="range" if bounds_only else one.basis,
        circa=(
            one.circa[0] if first == one.first else other.circa[0],
            one.circa[1] if last == one.last else other.circa[1],
        ),
        uncertain=one.uncertain or other.uncertain,
        one_of=(),
    )


def _meet(one: Statement, other: Statement) -> bool:
    """Tell whether two statements have a year in common."""
    earliest, latest = _later(one.earliest, other.earliest), _earlier(one.latest, other.latest)
    return earliest is None or latest is None or earliest <= latest


def _at_its_widest(period: Statement) -> Statement:
    """Take a named period as widely as anyone does, for a date given beside it."""
    first, last = period.widest or (period.first, period.last)
    return replace(period, first=first, last=last, earliest=first, latest=last)


def _later(one: int | None, other: int | None) -> int | None:
    return max((year for year in (one, other) if year is not None), default=None)


def _earlier(one: int | None, other: int | None) -> int | None:
    return min((year for year in (one, other) if year is not None), default=None)


def _years(statement: Statement) -> str:
    """Write the years that were read, for a message."""
    earliest, latest = statement.earliest, statement.latest
    if earliest is None or latest is None:
        return f"{latest} or earlier" if earliest is None else f"{earliest} or later"
    return str(earliest) if earliest == latest else f"{earliest}-{latest}"
