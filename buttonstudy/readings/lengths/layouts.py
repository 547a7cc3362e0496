"""How a size wording is laid out, understood once for all wordings that differ only in figures.

"15.3 mm" and "22.7 mm" are laid out alike, and so are most cells of a survey. What stands with
what, in which unit and under which label, hangs on the layout alone, so it is worked out once and
the figures are filled in. Where it may hang on a figure, the wording is understood by itself.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from buttonstudy.readings.lengths.gather import gather
from buttonstudy.readings.lengths.labels import label_members
from buttonstudy.readings.lengths.lists import Gathered, Member, SizeList
from buttonstudy.readings.lengths.tokens import tokens
from buttonstudy.readings.lengths.units import settle_units
from buttonstudy.readings.numbers import NUMBER, Number, read_number

__all__ = ["understand", "understand_alone"]

_FIGURES = re.compile(f"({NUMBER})", re.VERBOSE)


def understand(text: str, unit: str) -> Gathered:
    """Gather a wording into lists with units and labels.

    Parameters
    ----------
    text
        The cell's wording.
    unit
        The unit that the column's heading states, or ``""``.

    Examples
    --------
    >>> [one.written() for one in understand("Diam. 5/8 in. (1.6 cm)", "").lists]
    ['5/8 in', '1.6 cm']
    """
    pieces = _FIGURES.split(text)
    layout = _layout(tuple(pieces[::2]), unit)
    numbers = [number for figure in pieces[1::2] if (number := read_number(figure))]
    if layout is None or 2 * len(numbers) + 1 != len(pieces):
        return understand_alone(text, unit)
    return layout.filled(numbers)


def understand_alone(text: str, unit: str) -> Gathered:
    """Gather a wording as `understand` does, without a look at others of the same layout."""
    found = gather(tokens(text))
    settle_units(found, unit)
    found.doubts += label_members(found.lists)
    for one in found.lists:
        one.approximate |= one.beside is not None and one.beside.approximate
    return found


@dataclass(frozen=True, slots=True)
class _Slot:
    """A member of a list, its figures given by their place in the wording."""

    number: int
    upto: int | None
    give: int | None
    unit: str
    dimension: str

    def filled(self, numbers: Sequence[Number]) -> Member:
        return Member(
            numbers[self.number],
            None if self.upto is None else numbers[self.upto],
            None if self.give is None else numbers[self.give],
            self.unit,
            self.dimension,
        )


@dataclass(frozen=True, slots=True)
class _Layout:
    """A wording without its figures: the lists by their part, approximateness and slots."""

    found: Gathered
    lists: tuple[tuple[str, bool, tuple[_Slot, ...]], ...]

    def filled(self, numbers: Sequence[Number]) -> Gathered:
        lists = [
            SizeList([slot.filled(numbers) for slot in slots], [], part=part, approximate=about)
            for part, about, slots in self.lists
        ]
        found = self.found
        return Gathered(
            lists, found.words, found.words_before, found.line_kind, found.query, found.doubts
        )


@lru_cache(maxsize=2048)
def _layout(pieces: tuple[str, ...], unit: str) -> _Layout | None:
    """Understand the text between figures, or give None where the figures may matter.

    The figures 1, 2, 3 stand in for the real ones. They must come back as the only numbers and all
    belong to sizes: not to a name ("part 2") nor to a number in words ("1 and a half").
    """
    figures = [str(place) for place in range(1, len(pieces))]
    text = pieces[0] + "".join(map("".join, zip(figures, pieces[1:])))
    parted = tokens(text)
    if any(token.kind == "spelt" or token.value == "and" for token in parted):
        return None
    found = understand_alone(text, unit)
    lists = tuple(
        (one.part, one.approximate, tuple(_slot(member) for member in one.members))
        for one in found.lists
    )
    used = [place for *_, slots in lists for slot in slots for place in _places(slot)]
    if sorted(used) != list(range(len(figures))) or any(one.fault for one in found.lists):
        return None
    return _Layout(found, lists)


def _slot(member: Member) -> _Slot:
    place, upto, give = (
        int(one.text) - 1 if one and one.text.isdecimal() else None
        for one in (member.number, member.upto, member.give)
    )
    return _Slot(-1 if place is None else place, upto, give, member.unit, member.dimension)


def _places(slot: _Slot) -> list[int]:
    return [place for place in (slot.number, slot.upto, slot.give) if place is not None]
