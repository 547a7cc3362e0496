"""Where each figure of a size wording goes: into the list before it, or into a new one.

This is the memory of the pass over the tokens: what is open, and what was read since that will
belong to the next list.
"""

from collections.abc import Callable, Sequence

from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.lengths.brackets import brackets
from buttonstudy.readings.lengths.doubts import unclear
from buttonstudy.readings.lengths.lists import Gathered, Member, SizeList
from buttonstudy.readings.lengths.tokens import Token
from buttonstudy.readings.numbers import Number

__all__ = ["Placing"]


class Placing:
    """The state of a pass over tokens, and the placing of figures.

    `open` is the list that an x would carry on, `last` its member that a unit or label after it
    belongs to, `joiner` what was read since to join it to the next figure. `labels`, `unit`,
    `part_word`, `about`, `link` and `refusal` wait for the next list; `part` holds for all lists
    up to a semicolon. `words` may still turn out to name a part. `outer` holds the ends of open
    brackets with the lists that they stand beside.
    """

    next: Token
    before: str

    def __init__(self, tokens: Sequence[Token]) -> None:
        self.tokens = tokens
        self.at = 0
        self.found = Gathered()
        self.brackets = brackets(tokens)
        self.closes = {bracket.end for bracket in self.brackets.values()}
        self.outer: list[tuple[int, SizeList | None]] = []
        self.segment = -1
        self.start_segment()

    def start_segment(self) -> None:
        """Forget all that a semicolon parts from what comes."""
        self.segment += 1
        self.open: SizeList | None = None
        self.last: Member | None = None
        self.joiner = self.part = self.line = ""
        self.words: list[str] = []
        self.between = self.started = False
        self.await_list()

    def await_list(self) -> None:
        """Forget all that waited for the list that has begun."""
        self.labels: list[str] = []
        self.unit = self.link = ""
        self.part_word: str | None = None
        self.about = False
        self.refusal: Callable[[str], Doubt] | None = None

    def free(self) -> bool:
        """Tell whether what comes now may belong to the member before it."""
        return self.last is not None and not self.joiner

    def keep_words(self) -> None:
        """Give up hope that the pending words name a part."""
        self.found.words += self.words
        self.words = []

    def blame(self, doubt: Doubt) -> None:
        """Note why the open list cannot be read; the first reason stays."""
        if self.open is not None and self.open.fault is None:
            self.open.fault = doubt

    def place(self, number: Number) -> None:
        """Put a figure where it belongs."""
        joiner, self.joiner = self.joiner, ""
        if self.last is not None and joiner in ("-", "±"):
            self.complete(self.last, joiner, number)
        else:
            self.add(Member(number), joiner)
        self.started = True

    def complete(self, member: Member, joiner: str, number: Number) -> None:
        """Make a size a range, or give it the leeway after a plus-or-minus sign."""
        if member.upto or member.give:
            self.blame(unclear(f"{member.written()}{joiner}{number.text}"))
        elif joiner == "-":
            member.upto = number
        else:
            member.give = number

    def add(self, member: Member, joiner: str) -> None:
        """Put a size into the open list, or into a new one."""
        beside = self.outer[-1][1] if self.outer else None
        if self.open is None and beside and beside.aside and _went_on(beside, beside.aside):
            self.open = beside.aside
            joiner = "x"
        side_by_side = not joiner and self.before in ("number", "bad")
        if self.open is not None and (joiner == "x" or side_by_side or self.spoilt(joiner)):
            member.dimension = self.labels[-1] if self.labels else ""
            self.labels = []
            self.open.members.append(member)
            if side_by_side and self.open.fault is None:
                self.blame(unclear(self.open.written().replace(" x ", " ")))
        else:
            self.begin(member, joiner, beside)
        self.last = member

    def spoilt(self, joiner: str) -> bool:
        """Tell whether a figure goes on from one with a unit that is not known: 7 ft 8 1/2 in."""
        faulty = self.open is not None and self.open.fault is not None
        return faulty and not joiner and self.before in ("unit", "other unit", "word")

    def begin(self, member: Member, joiner: str, beside: SizeList | None) -> None:
        """Begin a new list with all that waited for it."""
        one = SizeList(
            [member],
            self.labels,
            unit_before=self.unit,
            part=self.part_word if self.part_word is not None else (beside or self).part,
            part_named=self.part_word is not None,
            approximate=self.about,
            link=self.link,
            segment=self.segment,
            beside=beside,
            tight=self.open is not None and not joiner and self.before in ("unit", "l"),
            fault=self.refusal(member.number.text) if self.refusal else None,
        )
        if not self.found.lists:
            self.found.words_before = len(self.found.words) + len(self.words)
        self.keep_words()
        self.found.lists.append(one)
        self.open = one
        if beside is not None and beside.aside is None:
            beside.aside = one
        self.await_list()


def _went_on(outer: SizeList, aside: SizeList) -> bool:
    """Tell whether a list went on after its brackets: 14 cm (5 1/2 in) x 3 cm (1 1/4 in)."""
    return len(aside.members) < len(outer.members)
