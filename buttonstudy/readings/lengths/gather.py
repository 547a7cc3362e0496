"""Tokens of a size wording gathered into lists in one pass from left to right.

Only what stands with what is settled here: which figures form a list, which unit, label or part
was written to them. What that means is settled by the readers of the lists.
"""

from collections.abc import Callable, Sequence
from typing import ClassVar

from buttonstudy.readings.lengths.doubts import bound, date, negative, unclear, unknown_unit
from buttonstudy.readings.lengths.lists import Gathered, Member
from buttonstudy.readings.lengths.placing import Placing
from buttonstudy.readings.lengths.tokens import LINES_OR_LENGTH, Token
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
    >>> from buttonstudy.readings.lengths.tokens import tokens
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


class _Gatherer(Placing):
    """What each kind of token does; `take` leads to the method for the kind of the next one."""

    def take(self) -> None:
        token = self.tokens[self.at]
        self.next = self.tokens[self.at + 1] if self.at + 1 < len(self.tokens) else _END
        self.before = self.tokens[self.at - 1].kind if self.at else ""
        self._TAKERS[token.kind](self, token)
        self.at += 1

    # Figures and what belongs to them

    def number(self, token: Token) -> None:
        number = read_number(token.text)
        if number is None:
            self.bad(token)
        else:
            self.place(number)

    def bad(self, token: Token) -> None:
        self.place(Number(token.text, 0, 1, 1, "whole"))
        self.blame(unclear(token.text))

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
            self.refusal = bound

    def plus(self, token: Token) -> None:
        """Take a plus for "or more" at the end of a clause, and for "and" between sizes."""
        if self.next.kind in _CLAUSE_ENDS:
            self.bound_(token)
        elif self.last is not None and not self.last.unit and self.next.kind == "number":
            self.blame(unclear(f"{self.last.number.text} + {self.next.text}"))
            self.joiner = "x"
        else:
            self.join(token)

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
            self.refusal = lambda written: negative(f"-{written}")

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
            self.refusal = lambda written: date(f"{token.text} {written}")

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
