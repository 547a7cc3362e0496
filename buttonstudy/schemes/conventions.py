"""Date conventions: what c. adds, how a century is parted, how far before and after reach.

Cataloguers do not agree on what "late 19th century" or "c. 1860" mean in years, so the kit never
decides silently. A convention is a table with a source beside each line, chosen by name or taken
from a user's own file, and printed in each report. What a convention does not state is taken from
the kit's default, and its source then says so.
"""

from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from pathlib import Path

from buttonstudy.schemes.tables import Row, SchemeError, read_scheme_file, rows

__all__ = [
    "DateConvention",
    "DateRule",
    "convention_table",
    "date_convention",
    "date_conventions",
]

_DEFAULT = "buttonstudy"
_TITLE = "convention"
_OPEN = frozenset({"before", "or earlier", "after", "or later"})
_WIDENING = ("circa", "uncertain")
_FARTHEST = 1000


@dataclass(frozen=True, slots=True)
class DateRule:
    """What one kind of wording means, as years added to the years it names.

    Parameters
    ----------
    rule
        Its name in ``date_rules.csv``, such as ``"century early"``.
    first, last
        Years added to the first and to the last year named; None where that end stays open.
    meaning
        The rule in plain words.
    source
        Where it is published, or that it is the kit's own choice.
    """

    rule: str
    first: int | None
    last: int | None
    meaning: str
    source: str


@dataclass(frozen=True, slots=True)
class DateConvention:
    """A whole convention: one rule for each kind of wording.

    Parameters
    ----------
    name
        The name it is chosen by, or the file it was read from.
    title
        What it does, in a sentence.
    source
        Where it comes from.
    rules
        One for each line of ``date_rules.csv``, in that order.
    """

    name: str
    title: str
    source: str
    rules: tuple[DateRule, ...]

    def years(
        self, rule: str, year_from: int, year_to: int | None = None
    ) -> tuple[int | None, int | None]:
        """Apply a rule to the years that a wording names.

        Parameters
        ----------
        rule
            The rule's name.
        year_from, year_to
            First and last year named, inclusive; for a century its round year alone.

        Returns
        -------
        tuple of int or None
            First and last year meant, inclusive; None is an open end.

        Examples
        --------
        >>> convention = date_convention("thirds")
        >>> convention.years("century late", 1800)
        (1867, 1899)
        >>> convention.years("before", 1840)
        (None, 1839)
        """
        found = next(item for item in self.rules if item.rule == rule)
        last_named = year_from if year_to is None else year_to
        return (
            None if found.first is None else year_from + found.first,
            None if found.last is None else last_named + found.last,
        )


def date_conventions() -> tuple[str, ...]:
    """Name the kit's conventions, its default first.

    Examples
    --------
    >>> date_conventions()[:3]
    ('buttonstudy', 'quarters', 'thirds')
    """
    return tuple(dict.fromkeys(row["scheme"] for row in rows("date_conventions")))


def date_convention(name_or_path: str | Path) -> DateConvention:
    """Load a convention by its name, or from a user's own CSV file.

    Parameters
    ----------
    name_or_path
        One of `date_conventions`, or the path of a file with the columns ``rule``, ``first``,
        ``last``, ``meaning`` and ``source``. The file needs only the rules that differ from the
        default; a line with the rule ``convention`` gives its title and source.

    Raises
    ------
    SchemeError
        If there is neither such a convention nor such a file, or a line cannot be used.
    """
    name = str(name_or_path)
    if name in date_conventions():
        return _own(name)
    path = Path(name_or_path)
    if path.suffix == "" and not path.is_file():
        raise SchemeError(_no_such(name))
    found = read_scheme_file(path, ("rule", "first", "last", "meaning", "source"))
    return _convention(path.name, found)


def convention_table(convention: DateConvention) -> tuple[tuple[str, str, str], ...]:
    """Write a convention out for a reader: an example, what it is read as, and the source.

    Examples
    --------
    >>> for wording, read_as, _ in convention_table(date_convention("buttonstudy"))[:2]:
    ...     print(wording, "|", read_as)
    c. 1860 | 1855-1865: five years either side
    c. 1840-1860 | 1835-1865: five years before the first year and after the last
    """
    lines = []
    for row, rule in zip(rows("date_rules"), convention.rules):
        first, last = convention.years(rule.rule, *_named(convention, row))
        lines.append((row["example"], f"{_span(first, last)}: {rule.meaning}", rule.source))
    return tuple(lines)


@cache
def _own(name: str) -> DateConvention:
    """Give one of the kit's own conventions."""
    return _convention(
        name, tuple(row for row in rows("date_conventions") if row["scheme"] == name)
    )


def _convention(name: str, found: tuple[Row, ...]) -> DateConvention:
    """Check a convention's lines and complete them from the default."""
    known = tuple(row["rule"] for row in rows("date_rules"))
    title = next((row for row in found if row["rule"] == _TITLE), None)
    stated: dict[str, DateRule] = {}
    for row in found:
        if row is title:
            continue
        if row["rule"] not in known:
            raise row.error("rule", "is not a rule for dates", _offer(row["rule"], known))
        if row["rule"] in stated:
            raise row.error("rule", "stands twice", "Keep one of the two lines.")
        stated[row["rule"]] = _rule(row)
    return DateConvention(
        name,
        title["meaning"] if title else f"A convention of your own, from {name}.",
        title["source"] if title else "Your own file.",
        tuple(stated[rule] if rule in stated else _unstated(name, rule) for rule in known),
    )


def _unstated(name: str, rule: str) -> DateRule:
    """Take a rule from the default, saying so."""
    if name == _DEFAULT:
        raise SchemeError(f'date_conventions.csv: the default lacks the rule "{rule}".')
    found = next(item for item in _own(_DEFAULT).rules if item.rule == rule)
    source = f"Not stated by {name}; as in the kit's default. {found.source}"
    return DateRule(rule, found.first, found.last, found.meaning, source)


def _rule(row: Row) -> DateRule:
    """Read one line and check that its years make sense."""
    rule = row["rule"]
    first, last = _years(row, "first"), _years(row, "last")
    if first is None or last is None:
        if rule not in _OPEN or (first is None and last is None):
            column = "first" if first is None else "last"
            raise row.error(column, "leaves an end open", "Write a number of years, such as -5.")
    elif rule.startswith(_WIDENING):
        if first > 0 or last < 0:
            raise row.error("first", "makes the date narrower", "Write -5 and 5 for ± 5 years.")
    elif first > last:
        raise row.error("last", "comes before the first year", "Exchange the two numbers.")
    return DateRule(rule, first, last, row["meaning"] or "as stated", row["source"] or "No source.")


def _years(row: Row, column: str) -> int | None:
    """Read a number of years; an empty cell is an open end."""
    text = row[column].replace("−", "-")
    if not text:
        return None
    digits = text.removeprefix("-").removeprefix("+")
    if not (digits.isascii() and digits.isdigit() and int(digits) <= _FARTHEST):
        raise row.error(column, "is not a number of years", "Write a number of years, such as -5.")
    return -int(digits) if text.startswith("-") else int(digits)


def _no_such(name: str) -> str:
    """Say that a name is not known, with the choices and the nearest of them."""
    names = date_conventions()
    return f'There is no date convention called "{name[:60]}". {_offer(name, names)}'


def _offer(name: str, choices: tuple[str, ...]) -> str:
    """Name the nearest choice, if one is near, and all of them."""
    near = get_close_matches(name.lower(), choices, n=1)
    nearest = f'The nearest is "{near[0]}". ' if near else ""
    return f"{nearest}Use one of: {', '.join(choices)}; or give the path of your own CSV file."


def _named(convention: DateConvention, row: Row) -> tuple[int, int]:
    """Give the years that an example names, by the convention itself where it says "of"."""
    named = row.year("year_from"), row.year("year_to")
    if not row["of"]:
        return named
    first, last = convention.years(row["of"], named[0])
    return (named[0] if first is None else first, named[1] if last is None else last)


def _span(first: int | None, last: int | None) -> str:
    """Write a span of years, inclusive, with open ends in words."""
    if first is None:
        return f"{last} or earlier"
    if last is None:
        return f"{first} or later"
    return str(first) if first == last else f"{first}-{last}"
