"""What a size wording holds: lists of sizes that stand together, and what was left over.

"H x diam. (a): 1.2 x 2.5 cm (1/2 x 1 in.)" holds two lists of two sizes, the second one in
brackets beside the first, both of part "a", the first one labelled height and diameter.
"""

from dataclasses import dataclass, field

from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.numbers import Number

__all__ = ["Gathered", "Member", "SizeList"]


@dataclass(slots=True)
class Member:
    """One size of a list, as far as it is written.

    Parameters
    ----------
    number
        The size, or the lower end of a range.
    upto
        The upper end of a range.
    give
        What follows a plus-or-minus sign.
    unit
        Its unit; ``"l"`` for an L that may mean lines or length.
    dimension
        The dimension named with this size alone; ``"d"`` for a D that may mean two.
    counted
        Whether a word that is no unit follows the number at once, as in "2 holes".
    """

    number: Number
    upto: Number | None = None
    give: Number | None = None
    unit: str = ""
    dimension: str = ""
    counted: bool = False

    def written(self) -> str:
        """Give the size roughly as it was written, for a message."""
        top = f"-{self.upto.text}" if self.upto else ""
        return f"{self.number.text}{top} {self.unit}".rstrip()


@dataclass(slots=True)
class SizeList:
    """Sizes that stand together, as in 15 x 15 x 4 mm; often a list of one.

    Parameters
    ----------
    members
        Its sizes, in order.
    labels
        Dimensions named before it, in order, for the members that have none of their own.
    unit_before
        A unit named before it, as in "line 20".
    part
        The part of the object that it measures.
    part_named
        Whether the part's name stands right before it.
    approximate
        Whether it is said to be about this.
    link
        What joins it to the list before it: ``","``, ``"and"``, ``"("`` and so on.
    segment
        Number of the stretch between semicolons in which it stands.
    beside
        The list that this one, standing in brackets, repeats.
    aside
        The list in brackets that repeats this one.
    tight
        Whether only a blank parts it from the list before it.
    fault
        Why it cannot be read.
    """

    members: list[Member]
    labels: list[str]
    unit_before: str = ""
    part: str = ""
    part_named: bool = False
    approximate: bool = False
    link: str = ""
    segment: int = 0
    beside: "SizeList | None" = None
    aside: "SizeList | None" = None
    tight: bool = False
    fault: Doubt | None = None

    def written(self) -> str:
        """Give the list roughly as it was written, for a message."""
        return " x ".join(member.written() for member in self.members)


@dataclass(slots=True)
class Gathered:
    """What was found in one wording.

    Parameters
    ----------
    lists
        The lists of sizes, in the order of the text.
    words
        Words that were not understood.
    words_before
        How many of them stand before the first figure.
    line_kind
        ``"Paris lines"`` or ``"lines"`` where the text says which line it means.
    query
        Whether anything is marked as uncertain.
    doubts
        What was doubtful about its labels.
    """

    lists: list[SizeList] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    words_before: int = 0
    line_kind: str = ""
    query: bool = False
    doubts: list[Doubt] = field(default_factory=list)
