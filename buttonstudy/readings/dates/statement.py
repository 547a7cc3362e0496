"""One statement about a date: terms joined by "to" or "or", with c., "before" and the like.

The grammar is small: c., an optional "before" or "after", one or more terms with marks between
them, an optional "or later". What does not fit it is not read at all.
"""

from dataclasses import dataclass, replace
from itertools import pairwise

from buttonstudy.readings.dates.doubts import Unread, date_doubt
from buttonstudy.readings.dates.prepare import LINKS, prepared
from buttonstudy.readings.dates.terms import Span, Term, completed, spanned
from buttonstudy.readings.dates.tokens import Token, written
from buttonstudy.readings.doubt import Doubt
from buttonstudy.schemes.conventions import DateConvention

__all__ = ["DATE_KINDS", "Statement", "read_statement"]

DATE_KINDS = (
    *("year", "calendar", "decade", "hundreds", "century", "century mask", "ordinal"),
    *("period", "number", "short decade", "present"),
)
_PREFIXES = ("before", "after", "or earlier", "until", "or later", "from", "between")
_SUFFIXES = {"up to": "or earlier", "onwards": "or later", "end dash": "or later"}


@dataclass(frozen=True, slots=True)
class Statement:
    """What one statement says.

    Parameters
    ----------
    first, last
        The years named, before c. widens them; None is an open end.
    earliest, latest
        The years meant, by the convention.
    basis
        How it was read, such as ``"century part"``.
    circa
        Whether the first and the last year are qualified by c.
    uncertain
        Whether the whole is qualified by a question mark or the like.
    one_of
        The single years of an "or", for which EDTF has a form of its own.
    text
        How it was written.
    widest
        The widest years that others give a named period.
    edtf
        The wording itself, if it is EDTF.
    doubts
        What to confirm.
    """

    first: int | None
    last: int | None
    earliest: int | None
    latest: int | None
    basis: str
    text: str
    circa: tuple[bool, bool] = (False, False)
    uncertain: bool = False
    one_of: tuple[int, ...] = ()
    widest: tuple[int, int] | None = None
    edtf: str = ""
    doubts: tuple[Doubt, ...] = ()


@dataclass(frozen=True, slots=True)
class _Parsed:
    """A statement's pieces: at most one word before, terms with links, at most one word behind."""

    prefix: str
    terms: list[Term]
    links: list[Token]
    suffix: str


def read_statement(tokens: list[Token], convention: DateConvention, this_year: int) -> Statement:
    """Read one statement.

    Raises
    ------
    Unread
        If anything in it is not understood.
    """
    text = written(tokens)
    ready = prepared(tokens)
    if ready and ready[0].kind == "turn":
        statement = _turn(ready[1:], convention, text)
    else:
        parsed = _parsed(ready, text)
        terms, doubts = completed(parsed.terms, parsed.links)
        spans = [spanned(term, convention, this_year) for term in terms]
        doubts += [doubt for span in spans for doubt in span.doubts]
        if parsed.suffix == "end dash":
            doubts.append(date_doubt("date-open-dash", part=text))
        whole = replace(parsed, terms=terms)
        statement = _stated(whole, spans, convention, text)
        statement = replace(statement, doubts=(*doubts, *statement.doubts))
    if any(token.kind == "uncertain" for token in tokens):
        return _doubted(statement, convention)
    return statement


def _parsed(tokens: list[Token], text: str) -> _Parsed:
    """Fit tokens to the grammar, or raise."""
    rest = list(tokens)
    circa = _take(rest, "circa") is not None
    prefix = _take(rest, *_PREFIXES)
    terms, links = [_term(rest, text)], []
    while link := _take(rest, *LINKS):
        links.append(link)
        terms.append(_term(rest, text))
    suffix = _take(rest, *_SUFFIXES)
    if rest or (prefix and suffix and prefix.kind != "from"):
        raise _unread(text)
    if circa:
        terms[0] = replace(terms[0], circa=True)
    return _Parsed(prefix.kind if prefix else "", terms, links, suffix.kind if suffix else "")


def _term(rest: list[Token], text: str) -> Term:
    """Take one term: c., a part, a unit, c., each of them optional but part or unit needed."""
    circa = _take(rest, "circa")
    part = _take(rest, "part")
    circa = _take(rest, "circa") or circa
    unit = _take(rest, *DATE_KINDS)
    circa = _take(rest, "circa") or circa
    taken = [token for token in (part, unit) if token]
    if not taken:
        raise _unread(text)
    return Term(
        unit.kind if unit else "",
        unit.value if unit else 0,
        part.name if part else "",
        unit.name if unit else "",
        circa is not None,
        written(taken),
    )


def _take(rest: list[Token], *kinds: str) -> Token | None:
    """Take the next token if it is of one of these kinds."""
    return rest.pop(0) if rest and rest[0].kind in kinds else None


def _unread(text: str) -> Unread:
    return Unread(date_doubt("date-not-understood", part=text))


def _stated(parsed: _Parsed, spans: list[Span], convention: DateConvention, text: str) -> Statement:
    """Turn a statement's spans into years."""
    groups = _groups(parsed, spans, text)
    ranged = len(spans) > len(groups)
    if parsed.prefix == "between" and not ranged:
        raise _unread(text)
    if parsed.prefix == "from":
        rule = "" if ranged and not parsed.suffix else "or later"
        if parsed.suffix == "up to":
            raise _unread(text)
    elif parsed.prefix in {"", "between"}:
        rule = _SUFFIXES.get(parsed.suffix, "")
    elif len(spans) > 1:
        raise _unread(text)
    else:
        rule = "or earlier" if parsed.prefix == "until" else parsed.prefix
    statement = _spanning(parsed, spans, groups, convention, text)
    return _bounded(rule, statement, parsed, spans, convention) if rule else statement


def _groups(parsed: _Parsed, spans: list[Span], text: str) -> list[tuple[int, int]]:
    """Join spans into ranges; what "or" and "and" part stays apart."""
    joining = _joining(parsed, spans)
    groups = [(spans[0].first, spans[0].last)]
    open_range = False
    for link, (before, after) in zip(parsed.links, pairwise(spans)):
        if link.kind not in joining:
            groups.append((after.first, after.last))
            open_range = False
            continue
        if open_range:
            raise _unread(text)
        if before.first > after.last or (after.kind == "year" and before.first > after.first):
            raise Unread(date_doubt("date-reversed", first=before.first, last=after.last))
        if before.first > after.first or before.last > after.last:
            raise _unread(text)
        groups[-1] = (groups[-1][0], after.last)
        open_range = True
    return groups


def _joining(parsed: _Parsed, spans: list[Span]) -> set[str]:
    """Choose the marks that make a range; a lone slash does between two dates of one kind."""
    joining = {"dash", "to", "until"}
    if len(parsed.links) == 1 and parsed.prefix == "between":
        joining.add("and")
    if len(parsed.links) == 1 and len({_size(span) for span in spans}) == 1:
        joining.add("slash")
    return joining


def _size(span: Span) -> str:
    """Tell years, decades, centuries and periods apart; a part counts as its whole."""
    return span.basis.removesuffix(" part").replace("calendar date", "year")


def _spanning(
    parsed: _Parsed,
    spans: list[Span],
    groups: list[tuple[int, int]],
    convention: DateConvention,
    text: str,
) -> Statement:
    """Span all groups and widen the ends that c. qualifies."""
    first, last = min(group[0] for group in groups), max(group[1] for group in groups)
    circa = (parsed.terms[0].circa, any(term.circa for term in parsed.terms))
    earliest, latest = convention.years(_circa_rule(spans), first, last)
    years = len(spans) == len(groups) and all(span.kind == "year" for span in spans)
    either = len(groups) > 1 and all(link.kind == "or" for link in parsed.links)
    return Statement(
        first,
        last,
        earliest if circa[0] else first,
        latest if circa[1] else last,
        _basis_of(spans, groups),
        text,
        circa,
        widest=spans[0].widest if len(spans) == 1 else None,
        one_of=tuple(sorted(group[0] for group in groups)) if years and either else (),
        doubts=_apart(groups, f"{first}-{last}"),
    )


def _basis_of(spans: list[Span], groups: list[tuple[int, int]]) -> str:
    """Say how a statement was read."""
    if len(spans) == 1:
        return spans[0].basis
    if len(groups) > 1:
        return "alternatives"
    return "range" if groups[0][0] < groups[0][1] else "year"


def _circa_rule(spans: list[Span]) -> str:
    """Choose what c. adds by the coarsest of the spans."""
    kinds = {span.kind for span in spans}
    if "century" in kinds:
        return "circa century"
    if kinds & {"part", "period"}:
        return "circa part"
    if "decade" in kinds:
        return "circa decade"
    return "circa range" if len(spans) > 1 else "circa year"


def _apart(groups: list[tuple[int, int]], read: str) -> tuple[Doubt, ...]:
    """Tell where dates offered together leave years between them."""
    ordered = sorted(groups)
    gap = any(after[0] > before[1] + 1 for before, after in pairwise(ordered))
    return (date_doubt("date-alternatives", read=read),) if gap else ()


def _bounded(
    rule: str,
    statement: Statement,
    parsed: _Parsed,
    spans: list[Span],
    convention: DateConvention,
) -> Statement:
    """Read "before", "after" and the like: the year counts from, and how far, by the convention."""
    before = rule in {"before", "or earlier"}
    named = statement.first if rule in {"before", "or later"} else statement.last
    year = named or 0
    qualified = any(term.circa for term in parsed.terms)
    less, more = convention.years(_circa_rule(spans), 0) if qualified else (0, 0)
    first, last = convention.years(rule, year)
    earliest, latest = convention.years(rule, year + ((more if before else less) or 0))
    return replace(
        statement,
        first=None if before else first,
        last=last if before else None,
        earliest=earliest,
        latest=latest,
        basis="open end",
        circa=(qualified and not before, qualified and before),
        one_of=(),
        doubts=(),
    )


def _turn(tokens: list[Token], convention: DateConvention, text: str) -> Statement:
    """Read the turn of two centuries that are both named."""
    numbers = [token.value for token in tokens if token.kind in {"century", "ordinal"}]
    marks = [token.kind for token in tokens if token.kind not in {"century", "ordinal"}]
    if len(numbers) != 2 or len(marks) != 1 or marks[0] not in LINKS:
        raise Unread(date_doubt("date-which-century", part=text))
    if numbers[0] + 1 != numbers[1]:
        raise _unread(text)
    year = numbers[0] * 100
    first, last = convention.years("turn of centuries", year)
    return Statement(first, last, first, last, "turn of centuries", text)


def _doubted(statement: Statement, convention: DateConvention) -> Statement:
    """Mark a statement as uncertain, widened only if the convention says so."""
    earliest, latest = statement.earliest, statement.latest
    widened = convention.years("uncertain", earliest or 0, latest or 0)
    return replace(
        statement,
        earliest=None if earliest is None else widened[0],
        latest=None if latest is None else widened[1],
        uncertain=True,
    )
