"""Tokens of a size wording gathered into lists in one pass from left to right.

Only what stands with what is settled here: which figures form a list, which unit, label or part
was written to them. What that means is settled by the reader of the lists.
"""

from collections.abc import Callable, Sequence
from typing import ClassVar

from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.length_brackets import brackets
from buttonstudy.readings.length_doubts import bound, date, negative, unclear, unknown_unit
from buttonstudy.readings.length_lists import Gathered, Member, SizeList
from buttonstudy.readings.length_tokens import LINES_OR_LENGTH, Token
from buttonstudy.readings.numbers import Number, read_number

__all__ = ["gather"]

_END = Token("", "", "", False)
_SIZES = ("number", "unit", "l", "dimension")
_BESIDE_LINES = ("unit", "l", "open", "filler")
_CLAUSE_ENDS = ("", "join", "close", "break")


def gather(tokens: Sequence[Token]) -> Gathered:
    """Gather tokens into lists of sizes.

    Examples
    --------
    >>> from buttonstudy.readings.length_tokens import tokens
    >>> found = gather(tokens("H x diam. (a): 1.2 x 2.5 cm (1/2 x 1 in.), worn"))
    >>> [(one.part, one.labels, one.written()) for one in found.lists]
    [('a', ['height', 'diameter'], '1.2 x 2.5 cm'), ('a', [], '1/2 x 1 in')]
    >>> found.words
    ['worn']
    """
    gatherer = _Gatherer(tokens)
    while gatherer.at < len(tokens):
        gatherer.take()
    gatherer.keep_words()
    return gatherer.found


def _is_lines(token: Token) -> bool:
    return token.kind == LINES_OR_LENGTH or token.value == "lines"


def _part_name(tokens: Sequence[Token]) -> str:
    """Give the part that a note names: a known part by its name, any other as written."""
    known = {token.value for token in tokens if token.kind == "part"}
    if len(known) == 1 and all(token.kind in ("part", "filler") for token in tokens):
        return known.pop()
    return "".join(token.text if token.glued else f" {token.text}" for token in tokens).strip()


class _Gatherer:
    """The state of the pass.

    `open` is the list that an x would carry on, `last` its member that a unit or label after it
    belongs to, `joiner` what was read since to join it to the next number. The rest is pending
    for the next list. `outer` holds the lists that open brackets stand beside.
    """

    def __init__(self, tokens: Sequence[Token]) -> None:
        self.tokens = tokens
        self.at = 0
        self.found = Gathered()
        self.brackets = brackets(tokens)
        self.outer: list[tuple[int, SizeList | None]] = []
        self.closes = {bracket.end for bracket in self.brackets.values()}
        self.segment = -1
        self.start_segment()

    def start_segment(self) -> None:
        self.segment += 1
        self.open: SizeList | None = None
        self.last: Member | None = None
        self.joiner = self.link = self.unit = self.part = self.line = self.month = ""
        self.labels: list[str] = []
        self.words: list[str] = []
        self.part_word: str | None = None
        self.about = self.bound = self.between = self.negative = self.started = False

    def take(self) -> None:
        token = self.tokens[self.at]
        self.next = self.tokens[self.at + 1] if self.at + 1 < len(self.tokens) else _END
        self.before = self.tokens[self.at - 1].kind if self.at else ""
        self._TAKERS[token.kind](self, token)
        self.at += 1

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

    # Figures

    def number(self, token: Token) -> None:
        number = read_number(token.text)
        if number is None:
            self.bad(token)
        else:
            self.size(number)

    def bad(self, token: Token) -> None:
        self.size(Number(token.text, 0, 1, 1, "whole"))
        self.blame(unclear(token.text))

    def size(self, number: Number) -> None:
        joiner, self.joiner = self.joiner, ""
        if self.last is not None and joiner in ("-", "±"):
            if self.last.upto or self.last.give:
                self.blame(unclear(f"{self.last.written()}{joiner}{number.text}"))
            elif joiner == "-":
                self.last.upto = number
            else:
                self.last.give = number
        else:
            self.member(Member(number), joiner)
        self.started = True

    def member(self, member: Member, joiner: str) -> None:
        """Put a size into the open list, or into a new one."""
        beside = self.outer[-1][1] if self.outer else None
        if self.open is None and beside and beside.aside and self.goes_on(beside):
            self.open = beside.aside
            joiner = "x"
        side_by_side = not joiner and self.before in ("number", "bad")
        faulty = not joiner and self.open is not None and self.open.fault is not None
        faulty = faulty and self.before in ("unit", "other unit", "word")
        if self.open is not None and (joiner == "x" or side_by_side or faulty):
            member.dimension = self.labels[-1] if self.labels else ""
            self.labels = []
            self.open.members.append(member)
            if side_by_side:
                self.blame(unclear(self.open.written().replace(" x ", " ")))
        else:
            self.new_list(member, joiner, beside)
        self.last = member

    @staticmethod
    def goes_on(outer: SizeList) -> bool:
        """Tell whether a list went on after its brackets: 14 cm (5 1/2 in) x 3 cm (1 1/4 in)."""
        return outer.aside is not None and len(outer.aside.members) < len(outer.members)

    def new_list(self, member: Member, joiner: str, beside: SizeList | None) -> None:
        tight = self.open is not None and not joiner and self.before in ("unit", "l")
        part = self.part_word if self.part_word is not None else (beside or self).part
        one = SizeList(
            [member],
            self.labels,
            unit_before=self.unit,
            part=part,
            part_named=self.part_word is not None,
            approximate=self.about,
            link=self.link,
            segment=self.segment,
            beside=beside,
            tight=tight,
        )
        if not self.found.lists:
            self.found.words_before = len(self.found.words) + len(self.words)
        self.keep_words()
        self.found.lists.append(one)
        self.open = one
        if beside is not None and beside.aside is None:
            beside.aside = one
        if self.negative:
            self.blame(negative(f"-{member.number.text}"))
        if self.bound:
            self.blame(bound(member.number.text))
        if self.month:
            self.blame(date(f"{self.month} {member.number.text}"))
        self.labels, self.unit, self.link, self.part_word = [], "", "", None
        self.about = self.bound = self.negative = False
        self.month = ""

    # What belongs to figures

    def unit_(self, token: Token) -> None:
        last = self.last
        unit, self.line = self.line or token.value, ""
        if self.next.text.casefold() == "of" and unit == "lines":
            self.word(token)
            return
        if token.text.casefold() == "in" and self.is_preposition(last):
            return
        if last is not None and self.free() and last.unit in ("", LINES_OR_LENGTH):
            if last.unit:
                last.dimension = "length"
            last.unit = unit
        elif last is not None and self.before == "unit" and last.unit != unit:
            self.blame(unclear(f"{last.number.text} {last.unit} {token.text}"))
        else:
            self.unit = unit

    def is_preposition(self, last: Member | None) -> bool:
        if self.next.kind in ("unit", "l"):
            return True
        return (last is None or bool(last.unit) or bool(self.joiner)) and self.next.kind != "colon"

    def lines_or_length(self, token: Token) -> None:
        if self.line:
            self.unit_(token)
        elif self.last is not None and self.free() and not self.last.unit:
            self.last.unit = LINES_OR_LENGTH
        else:
            self.label(LINES_OR_LENGTH)

    def other_line(self, token: Token) -> None:
        """Take "Paris" or "English" for what it says of a line right beside it."""
        after = self.last is not None and self.last.unit in ("lines", LINES_OR_LENGTH)
        if token.value == "lines" and (after or _is_lines(self.next)):
            self.found.line_kind = token.value
        elif _is_lines(self.next):
            self.line = token.value
        elif self.last is not None and after and self.before in _BESIDE_LINES:
            self.last.unit = token.value
        else:
            self.word(token)

    def other_unit(self, token: Token) -> None:
        if self.last is not None and self.free() and not self.last.unit:
            self.blame(unknown_unit(f"{self.last.number.text} {token.text}"))
        elif token.text.isalpha():
            self.words.append(token.text)

    def dimension(self, token: Token) -> None:
        named = self.open is not None and len(self.open.labels) >= len(self.open.members)
        ahead = self.next.kind == "colon" or self.next.value == "="
        if self.last is not None and self.free() and not (self.last.dimension or named or ahead):
            self.last.dimension = token.value
        else:
            self.label(token.value)

    def label(self, dimension: str) -> None:
        if self.before == "times" and self.labels:
            self.labels.append(dimension)
        else:
            self.labels = [dimension]

    def part_(self, token: Token) -> None:
        bare = self.before == "number" and self.last is not None and not self.last.unit
        if bare and self.free() and token.value == "hole":
            self.word(token)
        elif not self.free() or (self.next.kind == "number" and self.open and self.open.part_named):
            self.part_word = token.value
        elif self.before in _SIZES and self.next.kind in (*_CLAUSE_ENDS, "number") and self.open:
            self.open.part = token.value or self.open.part
        else:
            self.words.append(token.text)

    def about_(self, token: Token) -> None:
        if len(token.text) == 1 and self.last is None and self.next.kind in ("colon", "join"):
            self.words.append(token.text)
        elif token.text.isalpha() and token.glued and self.before == "number":
            self.word(token)
        elif self.free() and self.open and self.next.kind in (*_CLAUSE_ENDS, "word", "open"):
            self.open.approximate = True
        else:
            self.about = True

    def bound_(self, token: Token) -> None:
        if self.free() and self.open and self.next.kind != "number":
            self.blame(bound(self.open.written()))
        else:
            self.bound = True

    def plus(self, token: Token) -> None:
        if self.next.kind == "number":
            self.join(token)
        else:
            self.bound_(token)

    # What joins and parts them

    def times(self, token: Token) -> None:
        self.joiner = "x"

    def range_(self, token: Token) -> None:
        if self.next.kind not in ("number", "bad"):
            return
        if self.free() and self.last is not None and self.before in _SIZES:
            after = self.tokens[self.at + 2] if self.at + 2 < len(self.tokens) else _END
            other = after.kind in ("unit", "l") and after.value != self.last.unit
            if self.last.unit and other:
                self.join(token)
            else:
                self.joiner = "-"
        elif token.text == "-" and self.next.glued and not token.glued:
            self.negative = True

    def tolerance(self, token: Token) -> None:
        if self.free() and self.next.kind == "number":
            self.joiner = "±"

    def between_(self, token: Token) -> None:
        self.between = True

    def join(self, token: Token) -> None:
        if token.value == "and" and self.between and self.free() and self.next.kind == "number":
            self.joiner, self.between = "-", False
        elif not self.started:
            if self.words:
                self.words.append(token.text)
        else:
            self.keep_words()
            self.open, self.last, self.joiner, self.link = None, None, "", token.value or ","

    def open_(self, token: Token) -> None:
        bracket = self.brackets.get(self.at)
        if bracket is None:
            return
        if bracket.holds == "size":
            self.outer.append((bracket.end, self.open))
            self.open, self.last, self.joiner, self.link = None, None, "", "("
        elif bracket.holds == "note" and self.last is None:
            self.part = _part_name(self.tokens[self.at + 1 : bracket.end])
            self.at = bracket.end

    def close(self, token: Token) -> None:
        if self.outer and self.outer[-1][0] == self.at:
            self.keep_words()
            self.open = self.outer.pop()[1]
            self.last = self.open.members[-1] if self.open else None
            self.joiner = self.link = ""
        elif self.at not in self.closes and not self.started:
            self.colon(token)

    def colon(self, token: Token) -> None:
        if self.words:
            self.part, self.words = " ".join(self.words), []
        elif self.part_word is not None:
            self.part, self.part_word = self.part_word, None
        elif self.before == "number" and self.open and len(self.open.members) == 1:
            self.part = self.found.lists.pop().members[0].number.text
            self.open = self.last = None
            self.started = False

    def break_(self, token: Token) -> None:
        self.keep_words()
        self.start_segment()

    # Other words

    def word(self, token: Token) -> None:
        if self.last is not None and self.free() and not self.last.unit and self.before == "number":
            if token.glued:
                self.blame(unknown_unit(f"{self.last.number.text}{token.text}"))
            self.last.counted = True
        if token.text[0].isalnum():
            self.words.append(token.text)

    def month_(self, token: Token) -> None:
        if self.last is not None and self.free() and not self.last.unit:
            self.blame(date(f"{self.last.number.text} {token.text}"))
        else:
            self.month = token.text

    def query(self, token: Token) -> None:
        self.found.query = True

    def filler(self, token: Token) -> None:
        """Pass over a word that says nothing about the size, except among other words."""
        if self.words:
            self.words.append(token.text)

    _TAKERS: ClassVar[dict[str, Callable[["_Gatherer", Token], None]]] = {
        "number": number,
        "bad": bad,
        "unit": unit_,
        "l": lines_or_length,
        "other unit": other_unit,
        "dimension": dimension,
        "part": part_,
        "about": about_,
        "bound": bound_,
        "plus": plus,
        "times": times,
        "range": range_,
        "tolerance": tolerance,
        "between": between_,
        "join": join,
        "open": open_,
        "close": close,
        "colon": colon,
        "break": break_,
        "word": word,
        "spelt": word,
        "other line": other_line,
        "month": month_,
        "query": query,
        "filler": filler,
    }
