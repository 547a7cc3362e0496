"""Sizes as practitioners write them, read as intervals in mm.

A wording is parted into tokens, the tokens are gathered into lists of sizes, and each list is
then given its units, its dimensions and its precision, or the reason why it cannot be read. A size
without a unit anywhere is never guessed, and nothing that was not understood goes untold.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache

from buttonstudy.readings.blanks import blank_state
from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.lengths import doubts as say
from buttonstudy.readings.lengths.layouts import understand
from buttonstudy.readings.lengths.lists import Gathered, Member, SizeList
from buttonstudy.readings.lengths.mangled import reads_as_date
from buttonstudy.readings.lengths.precision import Length, interval
from buttonstudy.schemes.limits import limit
from buttonstudy.schemes.tables import rows
from buttonstudy.schemes.units import units

__all__ = ["Length", "LengthReading", "read_lengths"]

_REMARKS = frozenset({"size-words", "size-uncertain", "size-maybe-paris-lines", "size-label-count"})


@dataclass(frozen=True, slots=True)
class LengthReading:
    """What one cell says about size.

    Parameters
    ----------
    text
        The cell's wording.
    lengths
        Everything read from it, in the order of the text.
    doubts
        What was doubtful; a fatal doubt means that nothing was read.
    """

    text: str
    lengths: tuple[Length, ...]
    doubts: tuple[Doubt, ...]


def read_lengths(text: str, unit: str | None = None) -> LengthReading:
    """Read the sizes in one cell.

    Parameters
    ----------
    text
        The cell's wording. Blank text, and words for "not measured" and the like, give neither
        lengths nor doubts.
    unit
        The unit that the column's heading states, a name from `units`. A unit in the cell goes
        before it.

    Returns
    -------
    LengthReading

    Raises
    ------
    ValueError
        If `unit` is not a unit's name.

    Examples
    --------
    >>> lengths = read_lengths("Diam. 5/8 in. (1.6 cm)").lengths
    >>> [(one.best, one.unit, one.dimension) for one in lengths]
    [(15.875, 'in', 'diameter'), (16.0, 'cm', 'diameter')]
    >>> one = read_lengths("16", "mm").lengths[0]
    >>> one.low, one.high
    (15.5, 16.5)
    >>> read_lengths("5/8").doubts[0].says
    '"5/8" has no unit, neither in the cell nor in the heading.'
    """
    if unit is not None and unit != "" and unit not in units():
        raise ValueError(f'"{unit}" is not a unit. Use one of: {", ".join(units())}.')
    if len(text) > limit("size-text-longest"):
        return LengthReading(text, (), (say.too_long(len(text)),))
    found = understand(text, unit or "")
    if not found.lists:
        blank = not text.strip() or blank_state(text)
        return LengthReading(text, (), () if blank else (replace(say.not_read(text), fatal=True),))
    lengths = tuple(_lengths(found.lists))
    doubts = [one.fault for one in found.lists if one.fault]
    doubts += found.doubts
    doubts += _remarks(text, found)
    if found.words_before > limit("size-words-before"):
        lengths, doubts = (), [say.prose(found.words)]
    if len(lengths) > limit("size-lengths-most"):
        lengths, doubts = (), [say.too_many(len(lengths))]
    if not lengths and reads_as_date(text):
        doubts = [say.date(text)]
    if not lengths:
        doubts = [replace(one, fatal=one.kind not in _REMARKS) for one in doubts]
    return LengthReading(text, lengths, _told(doubts))


def _told(doubts: list[Doubt]) -> tuple[Doubt, ...]:
    """Keep each doubt once, and not too many of one kind."""
    if not doubts:
        return ()
    kinds = Counter[str]()
    told = []
    for doubt in dict.fromkeys(doubts):
        kinds[doubt.kind] += 1
        if kinds[doubt.kind] <= limit("size-doubts-told"):
            told.append(doubt)
    return tuple(told)


def _lengths(lists: list[SizeList]) -> Iterator[Length]:
    """Give the lengths of every list in which each size can be read, noting the others' faults."""
    for group, one in enumerate(lists):
        if one.fault is None:
            one.fault = next((fault for member in one.members if (fault := _fault(member))), None)
        if one.fault is not None:
            continue
        for member in one.members:
            low, best, high, step = interval(
                member.number, member.upto, member.give, member.unit, one.approximate
            )
            yield Length(
                low,
                best,
                high,
                member.unit,
                step,
                member.dimension,
                one.part,
                one.approximate,
                group,
                member.give is not None,
            )


def _fault(member: Member) -> Doubt | None:
    """Say why a size cannot be right, or None if it can."""
    number, top = member.number, member.upto or member.number
    if number.over <= 0:
        return say.zero(member.written())
    if top.over * number.under < number.over * top.under:
        return say.reversed_range(member.written())
    if number.form == "fraction" and (doubt := _odd_fraction(number.under, member)):
        return doubt
    mm = top.over / top.under * _mm_per()[member.unit]
    if not limit("size-smallest-possible") <= mm <= limit("size-largest-possible"):
        return say.impossible(member.written(), mm)
    return None


def _odd_fraction(under: int, member: Member) -> Doubt | None:
    written = member.number.text
    halved = under & (under - 1) == 0 and under <= limit("inch-ruler-finest")
    if not halved and under not in _denominators():
        return say.odd_fraction(written)
    if member.unit in ("mm", "cm", "m") and under > limit("metric-fraction-finest"):
        return say.fraction_of_metric(written, member.unit)
    return None


@cache
def _mm_per() -> dict[str, float]:
    """Give each unit in mm; made once, since a fraction is slow to turn into a number."""
    return {name: float(size) for name, size in units().items()}


@cache
def _denominators() -> frozenset[int]:
    return frozenset(int(row["word"]) for row in rows("size_words") if row["role"] == "denominator")


def _remarks(text: str, found: Gathered) -> Iterator[Doubt]:
    """Say what was noticed beside the sizes."""
    members = [member for one in found.lists if one.fault is None for member in one.members]
    if found.line_kind == "" and all(member.unit == "lines" for member in members):
        yield from (say.maybe_paris(one.written()) for one in members if _maybe_paris(one))
    if found.query:
        yield say.uncertain(text)
    if found.words:
        yield say.words_left(found.words)


def _maybe_paris(member: Member) -> bool:
    lines = member.number.over / member.number.under
    small = limit("paris-lines-from") <= lines <= limit("paris-lines-to")
    return small and (lines % 1 > 0 or lines < limit("trade-lines-smallest"))
