"""Period schemes: the periods by which a study counts, as named tables with their sources.

Period boundaries shape what a figure seems to show, so a scheme is chosen by name, printed in
every report, and can be replaced by a researcher's own table.
"""

import re
from dataclasses import dataclass
from pathlib import Path

from buttonstudy.schemes.tables import Row, rows, scheme_rows

__all__ = ["Period", "PeriodScheme", "period_scheme", "period_schemes"]

_SENTENCE_END = re.compile(r"(?<=\.)\s+")
_COLUMNS = ("label", "year_from", "year_to")


@dataclass(frozen=True, slots=True)
class Period:
    """One period: its label, its first and last year, both inside it, and who says so."""

    label: str
    year_from: int
    year_to: int
    source: str = ""


@dataclass(frozen=True, slots=True)
class PeriodScheme:
    """Periods in order of time, not overlapping, with the title and source they share."""

    name: str
    title: str
    source: str
    periods: tuple[Period, ...]


def period_schemes() -> tuple[str, ...]:
    """Name the kit's own period schemes."""
    return tuple(dict.fromkeys(row["scheme"] for row in rows("period_schemes")))


def period_scheme(name_or_path: str | Path) -> PeriodScheme:
    """Give a period scheme by its name, or read a researcher's own table.

    Parameters
    ----------
    name_or_path
        A name from `period_schemes`, or the path of a CSV file with the columns ``label,
        year_from, year_to`` (years inside the period) and, if wished, ``source``.

    Raises
    ------
    SchemeError
        If there is no such scheme, or a period ends before it begins or overlaps another.

    Examples
    --------
    >>> period = period_scheme("centuries").periods[1]
    >>> period.label, period.year_from, period.year_to
    ('18th century', 1700, 1799)
    """
    return _scheme(
        str(name_or_path), scheme_rows("period_schemes", name_or_path, _COLUMNS, "period scheme")
    )


def _scheme(name: str, found: tuple[Row, ...]) -> PeriodScheme:
    periods: list[Period] = []
    for row in sorted(found, key=lambda one: one.year("year_from")):
        period = Period(
            row.needed("label"), row.year("year_from"), row.year("year_to"), row.get("source", "")
        )
        if period.year_to < period.year_from:
            raise row.error("year_to", "is before the first year", "Exchange the two years.")
        if periods and period.year_from <= periods[-1].year_to:
            raise row.error(
                "year_from",
                f"lies inside {periods[-1].label}",
                "Let each period begin after the one before has ended.",
            )
        if any(period.label == one.label for one in periods):
            raise row.error("label", "stands twice", "Give each period its own label.")
        periods.append(period)
    title = found[0].get("title", "") or Path(name).stem
    return PeriodScheme(name, title, _shared_source(periods), tuple(periods))


def _shared_source(periods: list[Period]) -> str:
    """Return the sentences that stand as source of every period."""
    first, *others = (_SENTENCE_END.split(period.source) for period in periods)
    return " ".join(
        sentence for sentence in first if all(sentence in sentences for sentences in others)
    )
