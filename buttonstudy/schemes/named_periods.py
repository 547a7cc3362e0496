"""Reigns and named periods of Britain, with the years that others give them.

Names such as Georgian or Regency are used for different years by different writers. The table
says which years the kit reads, how far other uses reach, and who uses them, so that a reading
can be told as well as made.
"""

from dataclasses import dataclass
from functools import cache

from buttonstudy.schemes.tables import rows

__all__ = ["NamedPeriod", "named_periods"]


@dataclass(frozen=True, slots=True)
class NamedPeriod:
    """A reign or named period.

    Parameters
    ----------
    name
        Its usual name, such as ``"Georgian"``.
    phrases
        Every way to write it that is recognised, the usual name first.
    year_from, year_to
        The years it is read as, inclusive.
    widest_from, widest_to
        The widest years that a source gives it.
    variation
        How other uses differ; empty where they do not.
    source
        Where the years come from.
    """

    name: str
    phrases: tuple[str, ...]
    year_from: int
    year_to: int
    widest_from: int
    widest_to: int
    variation: str
    source: str


@cache
def named_periods() -> tuple[NamedPeriod, ...]:
    """Give the named periods in the table's order.

    Examples
    --------
    >>> [(p.year_from, p.year_to) for p in named_periods() if p.name == "Georgian"]
    [(1714, 1830)]
    """
    return tuple(
        NamedPeriod(
            row["name"],
            (row["name"], *(phrase.strip() for phrase in row["also"].split(";") if phrase)),
            row.year("year_from"),
            row.year("year_to"),
            row.year("widest_from"),
            row.year("widest_to"),
            row["variation"],
            row["source"],
        )
        for row in rows("named_periods")
    )
