"""Dates in EDTF: reading those that are written in it, and writing every reading in it.

EDTF (Library of Congress, 4 February 2019; ISO 8601-2) is an open standard for uncertain and
approximate dates. Plain years, decades and centuries and their intervals are read here; whatever
else the standard allows is left to the `edtf` library, which takes a hundred times as long. The
library is not asked about English, of which it misreads much without a word. EDTF has no early,
mid or late: those are written as an interval.
"""

import re
import warnings
from contextlib import redirect_stdout
from dataclasses import replace
from io import StringIO

from buttonstudy.readings.dates.doubts import Unread, date_doubt
from buttonstudy.readings.dates.statement import Statement
from buttonstudy.schemes.conventions import DateConvention

__all__ = ["edtf_form", "read_edtf"]

_DATE = r"[?~%]?[0-9X]{4}(?:-[?~%]?[0-9X]{2}){0,2}[?~%]?"
_INTERVAL = re.compile(rf"({_DATE}|\.\.|)/({_DATE}|\.\.|)")
_SET = re.compile(rf"[\[{{](?=.*(?:,|\.\.))(?:{_DATE}|\.\.|,)+[\]}}]")
_SIMPLE = re.compile(r"([0-9]{4}|[0-9]{3}X|[0-9]{2}XX)[?~%]?|\.\.|")
_SINGLE = re.compile(rf"(?=[0-9X].*[X~%]|X|[0-9X].*-.*[?]){_DATE}")


def read_edtf(text: str, convention: DateConvention) -> Statement | None:
    """Read a string of genuine EDTF, such as ``184X``, ``1850~`` or ``1840/..``.

    Parameters
    ----------
    text
        Any text.
    convention
        What ~ and ? add, as it does for c. and a question mark in English.

    Returns
    -------
    Statement or None
        None if the text is not EDTF, or names no years.

    Raises
    ------
    Unread
        If an interval runs backwards.

    Examples
    --------
    >>> from buttonstudy.schemes.conventions import date_convention
    >>> read = read_edtf("1850~", date_convention("buttonstudy"))
    >>> (read.earliest, read.latest)
    (1845, 1855)
    """
    if not _looks_so(text):
        return None
    bounds = _bounds(text)
    if bounds is None:
        return None
    sides = text.split("/") if "/" in text else [text, text]
    first, last = (
        None if side in {"", ".."} else year for side, year in zip(sides, bounds, strict=True)
    )
    if first is None and last is None:
        return None
    if first is not None and last is not None and first > last:
        raise Unread(date_doubt("date-reversed", first=first, last=last))
    circa = (bool(re.search("[~%]", sides[0])), bool(re.search("[~%]", sides[1])))
    statement = Statement(first, last, first, last, _basis(text), text, circa, edtf=text)
    return _widened(statement, convention)


def edtf_form(statement: Statement) -> str:
    """Write what a statement names in EDTF: the years named, with ~ and ? for their qualifiers.

    c. is kept as ~ and not as the years that a convention makes of it, since another reader may
    follow another convention.
    """
    if statement.edtf:
        return statement.edtf
    first, last = statement.first, statement.last
    before, behind = (_mark(circa, statement.uncertain) for circa in statement.circa)
    if len(statement.one_of) > 1 and not (before or behind):
        return f"[{','.join(f'{year:04d}' for year in statement.one_of)}]"
    if first is None or last is None:
        start = ".." if first is None else f"{first:04d}{before}"
        return f"{start}/{'..' if last is None else f'{last:04d}{behind}'}"
    single = _single(first, last, statement.basis)
    if single and before == behind:
        return single + before
    return f"{first:04d}{before}/{last:04d}{behind}"


def _single(first: int, last: int, basis: str) -> str:
    """Write a year, a whole decade or a whole century as one date, if it is one."""
    if first == last:
        return f"{first:04d}"
    if basis == "decade" and last - first == 9 and first % 10 == 0:
        return f"{first // 10:03d}X"
    if basis == "century" and last - first == 99 and first % 100 == 0:
        return f"{first // 100:02d}XX"
    return ""


def _mark(circa: bool, uncertain: bool) -> str:
    """Choose the EDTF qualifier."""
    return "%" if circa and uncertain else "~" if circa else "?" if uncertain else ""


def _looks_so(text: str) -> bool:
    """Tell whether a text has the shape of an EDTF string that English would not have."""
    return any(pattern.fullmatch(text) for pattern in (_INTERVAL, _SET, _SINGLE))


def _bounds(text: str) -> tuple[int | None, int | None] | None:
    """Give the first and last year named; None if the text cannot be read."""
    sides = text.split("/")
    simple = [_SIMPLE.fullmatch(side) for side in sides]
    if all(simple):
        first, last = (match[1] if match else None for match in (simple[0], simple[-1]))
        return (
            int(first.replace("X", "0")) if first else None,
            int(last.replace("X", "9")) if last else None,
        )
    return _bounds_by_library(text)


def _bounds_by_library(text: str) -> tuple[int | None, int | None] | None:
    """Ask the library for the first and last year."""
    with warnings.catch_warnings():  # the library's own grammar warns while it is being built
        warnings.simplefilter("ignore")
        from edtf import EDTFParseException, parse_edtf

    try:
        with redirect_stdout(StringIO()):  # the library prints what it cannot build
            parsed = parse_edtf(text)
            bounds = (parsed.lower_strict(), parsed.upper_strict())
    except (EDTFParseException, ValueError, OverflowError, AttributeError, TypeError):
        return None
    # An open end is given as plus or minus infinity, a date as the fields of a calendar date.
    first, last = (None if isinstance(bound, float) else int(bound[0]) for bound in bounds)
    return first, last


def _widened(statement: Statement, convention: DateConvention) -> Statement:
    """Apply the convention to ~ and ?, and tell of sets that leave years out."""
    first, last = statement.first, statement.last
    uncertain = bool(re.search("[?%]", statement.text))
    early, late = convention.years(_circa_rule(statement.basis), first or 0, last or 0)
    earliest = early if statement.circa[0] and first is not None else first
    latest = late if statement.circa[1] and last is not None else last
    if uncertain:
        early, late = convention.years("uncertain", earliest or 0, latest or 0)
        earliest = None if earliest is None else early
        latest = None if latest is None else late
    listed = "," in statement.text and first is not None and last is not None
    doubts = (date_doubt("date-alternatives", read=f"{first}-{last}"),) if listed else ()
    return replace(statement, earliest=earliest, latest=latest, uncertain=uncertain, doubts=doubts)


def _basis(text: str) -> str:
    """Say how an EDTF string was read, in the words used for English."""
    if ".." in text or text.startswith("/") or text.endswith("/"):
        return "alternatives" if re.search(r"[0-9X]\.\.[0-9X]", text) else "open end"
    if "/" in text:
        return "range"
    if text[0] in "[{":
        return "alternatives"
    unspecified = text[:4].count("X")
    return ("year", "decade")[unspecified] if unspecified < 2 else "century"


def _circa_rule(basis: str) -> str:
    """Choose what ~ adds to a string read so."""
    return f"circa {basis}" if basis in {"year", "decade", "century"} else "circa range"
