"""A cell with several dates, or dates among words, parted into segments with their roles.

"Designed 1934, manufactured 1940" gives two dates of which one tells when the thing was made;
"1840, Birmingham" gives one, and a word that is no date. Segments end at commas, brackets and
other stops, and before a word that gives a date its role.
"""

from dataclasses import dataclass, field, replace

from buttonstudy.readings.dates.doubts import Unread, date_doubt
from buttonstudy.readings.dates.prepare import LINKS
from buttonstudy.readings.dates.statement import DATE_KINDS
from buttonstudy.readings.dates.tokens import Token, written

__all__ = ["Segment", "segments"]

_STOPS = ("separator", "open", "close")
_DATES = frozenset({*DATE_KINDS, "turn"})
_BARE = frozenset({"number", "ordinal"})
_BOUNDS = frozenset({"before", "after", "or earlier", "or later"})
_BEFORE = frozenset({"circa", "c", "uncertain", "part"})
_IDLE = frozenset({"filler", "era", "era word"})
_BEHIND = frozenset({"up to", "onwards"})


@dataclass(slots=True)
class Segment:
    """A stretch of a date's wording.

    Parameters
    ----------
    tokens
        Its tokens without stops and role words.
    role
        ``"make"``, ``"design"``, ``"later"``, ``"beside"``, ``"style"``, or empty if no word
        says so.
    explains
        True for years in brackets behind the name of a period.
    words
        All its words, for messages.
    """

    tokens: list[Token] = field(default_factory=list)
    role: str = ""
    explains: bool = False
    words: list[Token] = field(default_factory=list)

    @property
    def dated(self) -> bool:
        """Whether it may hold a date; a bare number among unknown words is none."""
        kinds = {token.kind for token in self.tokens}
        if "word" in kinds:
            kinds -= _BARE
        return bool(kinds & _DATES)

    @property
    def says_nothing(self) -> bool:
        """Whether it holds only words that add nothing, such as "dated"."""
        return not self.role and all(token.kind in _IDLE for token in self.tokens)

    @property
    def text(self) -> str:
        """How it was written."""
        return written(self.words)

    def add(self, token: Token) -> None:
        """Put a token in its place; a making word outweighs other role words."""
        self.words.append(token)
        if token.kind != "role":
            self.tokens.append(token)
        elif not self.dated or not self.role:
            if all(waiting.kind in LINKS for waiting in self.tokens):
                self.tokens.clear()
            self.role = "make" if "make" in (self.role, token.name) else token.name
        elif self.role != token.name:
            raise Unread(date_doubt("date-not-understood", part=self.text))


def segments(tokens: tuple[Token, ...]) -> list[Segment]:
    """Part tokens into segments, those without a word or date of their own joined to a neighbour.

    Raises
    ------
    Unread
        If one date is given two roles.
    """
    found = [Segment()]
    bracketed = False
    for index, token in enumerate(tokens):
        if token.kind in _STOPS:
            bracketed = token.kind == "open" or (bracketed and token.kind != "close")
            if not _waits(found[-1], token):
                found.append(Segment(explains=bracketed and _names_period(found[-1])))
            continue
        if found[-1].dated and _starts(token, tokens[index + 1 :], found[-1]):
            found.append(Segment())
            token = _as_bound(token)
        found[-1].add(token)
    return _with_neighbours([segment for segment in found if segment.words])


def _waits(segment: Segment, stop: Token) -> bool:
    """Tell whether a stop belongs to a role word before it, as in "made: 1840"."""
    return stop.text == ":" and bool(segment.role) and not segment.tokens


def _names_period(segment: Segment) -> bool:
    """Tell whether a segment is the name of a period that the kit does not know."""
    return not segment.dated and any(token.kind == "era word" for token in segment.tokens)


def _starts(token: Token, rest: tuple[Token, ...], segment: Segment) -> bool:
    """Tell whether a role, or the second of two bounds, begins a segment of its own."""
    if token.kind == "role":
        words_follow = bool(rest) and rest[0].kind not in _STOPS
        return _dates_follow(rest) or (words_follow and token.name in {"make", "beside"})
    bounds = token.kind in _BOUNDS or token.kind in _BEHIND
    return bounds and segment.tokens[0].kind in _BOUNDS and _dates_follow(rest)


def _dates_follow(tokens: tuple[Token, ...]) -> bool:
    """Tell whether a date stands before the next stop."""
    for token in tokens:
        if token.kind in _STOPS:
            return False
        if token.kind in _DATES:
            return True
    return False


def _as_bound(token: Token) -> Token:
    """Read the "and before" of "after 1840 and before 1860" as a bound of its own."""
    kind = {"up to": "before", "onwards": "after"}.get(token.kind, token.kind)
    return replace(token, kind=kind)


def _with_neighbours(found: list[Segment]) -> list[Segment]:
    """Give lone qualifiers and lone roles to the date they belong to: 1860 (ca.), 1984 (made)."""
    kept: list[Segment] = []
    waiting: list[Token] = []
    role = ""
    for segment in found:
        alone = all(token.kind in _BEFORE | _BEHIND for token in segment.tokens)
        if alone and kept and _joins(segment, kept[-1]):
            behind = [token for token in segment.tokens if token.kind in _BEHIND]
            before = [token for token in segment.tokens if token.kind in _BEFORE]
            kept[-1].tokens = [*before, *kept[-1].tokens, *behind]
            kept[-1].role = kept[-1].role or segment.role
            kept[-1].words += segment.words
        elif alone:
            waiting += segment.tokens
            role = role or segment.role
        else:
            segment.tokens = [*waiting, *_without_leading_links(segment.tokens)]
            segment.role = segment.role or role
            waiting, role = [], ""
            kept.append(segment)
    return kept


def _joins(segment: Segment, before: Segment) -> bool:
    """Tell whether a lone qualifier, part or role can only mean the date before it."""
    dates = sum(token.kind in _DATES for token in before.tokens)
    parted = any(token.kind == "part" for token in segment.tokens)
    return dates > 0 and not (parted and dates > 1) and not (segment.role and before.role)


def _without_leading_links(tokens: list[Token]) -> list[Token]:
    """Drop the "and" or "or" that follows a comma."""
    return tokens[1:] if tokens and tokens[0].kind in {"and", "or"} else tokens
