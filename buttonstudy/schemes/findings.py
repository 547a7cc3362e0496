"""What the kit looks for in whole records: kinds of findings, slips, earliest dates of materials.

A finding asks a researcher to look again, and a false one costs trust. So each kind has its rule,
its level and what to do in a table that a button researcher can read and correct.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from buttonstudy.schemes.tables import rows

__all__ = ["EarliestDate", "FindingKind", "Slip", "earliest_dates", "finding_kinds", "slips"]


@dataclass(frozen=True, slots=True)
class FindingKind:
    """One kind of finding.

    Parameters
    ----------
    kind
        A stable code, by which the finding can be accepted.
    level
        ``"to confirm"`` or ``"for information"``.
    rule
        Why it is told, a full sentence.
    what_to_do
        A full sentence.
    """

    kind: str
    level: str
    rule: str
    what_to_do: str


@dataclass(frozen=True, slots=True)
class Slip:
    """A common slip of the pen or of the unit.

    Parameters
    ----------
    factor
        What is written, divided by what is true.
    alone
        True if it is large enough to be told from a single size, without one to hold it against.
    read_in
        The unit in which the size was read, if the slip is one of units; ``""`` if it is of any.
    says
        What happened, to follow "perhaps".
    """

    factor: float
    alone: bool
    read_in: str
    says: str

    def may_be_in(self, unit: str) -> bool:
        """Tell whether it may have happened to a size read in this unit; ``""`` if not known."""
        return not unit or self.read_in in ("", unit)


@dataclass(frozen=True, slots=True)
class EarliestDate:
    """The year before which there was no such material or way of making.

    Parameters
    ----------
    field, term
        The preferred term, by its field.
    year
        The earliest year that a source names.
    within
        How many years the source may be off.
    event
        What happened then, in words that stand within a sentence.
    """

    field: str
    term: str
    year: int
    within: int
    event: str


@cache
def finding_kinds() -> Mapping[str, FindingKind]:
    """Give all kinds of findings by their code.

    Examples
    --------
    >>> finding_kinds()["hole-wider-than-mould"].rule
    'A hole lies within its mould.'
    """
    return {
        row["kind"]: FindingKind(row["kind"], row["level"], row["rule"], row["what_to_do"])
        for row in rows("findings")
    }


@cache
def slips() -> tuple[Slip, ...]:
    """Give the common slips, the most frequent first.

    Examples
    --------
    >>> [slip.factor for slip in slips() if slip.alone][:3]
    [10.0, 0.1, 25.4]
    """
    return tuple(
        Slip(float(row["factor"]), row["alone"] == "yes", row["read_in"], row["says"])
        for row in rows("slips")
    )


@cache
def earliest_dates() -> tuple[EarliestDate, ...]:
    """Give the earliest dates of materials and ways of making.

    Examples
    --------
    >>> [(one.term, one.year) for one in earliest_dates() if one.field == "attachment"]
    [('cloth tuft', 1825)]
    """
    return tuple(
        EarliestDate(
            row["field"], row["term"], row.year("earliest"), int(row["within"]), row["event"]
        )
        for row in rows("earliest_dates")
    )
