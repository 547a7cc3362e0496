"""Tokens made ready for the grammar: what only joins, fills or completes is settled here.

The same mark means different things in different places: c. is circa before a date and century
after a number; a hyphen joins two years, or only the words "mid" and "century"; one at the very
end leaves the date open. Each is decided once, so that the grammar stays small.
"""

from dataclasses import replace

from buttonstudy.readings.dates.doubts import Unread, date_doubt
from buttonstudy.readings.dates.tokens import Token, written

__all__ = ["LINKS", "prepared"]

LINKS = ("dash", "to", "until", "slash", "and", "or")

_DROPPED = frozenset({"uncertain", "filler", "era", "era word"})
_GLUED_BEHIND = ("before", "after", "or earlier", "or later", "cardinal", "circa")
_NTH = {1: "first", 2: "second", 3: "third"}
_YEARS = ("year", "calendar", "decade", "hundreds")


def prepared(tokens: list[Token]) -> list[Token]:
    """Settle the tokens of one statement.

    Raises
    ------
    Unread
        If the statement dates before Christ.
    """
    if any(token.kind == "before christ" for token in tokens):
        raise Unread(date_doubt("date-before-christ"))
    of_our_era = any(token.kind == "era" for token in tokens)
    kept = [token for token in tokens if token.kind not in _DROPPED]
    if of_our_era:
        kept = [_early_year(token) for token in kept]
    return _with_open_end(_joined(_with_parts(_without_glue(_with_c(kept)))))


def _early_year(token: Token) -> Token:
    """Read a short number beside AD or CE as a year."""
    return replace(token, kind="year") if token.kind == "number" and token.value else token


def _with_c(tokens: list[Token]) -> list[Token]:
    """Read c. behind a number such as 19th as century, elsewhere as circa."""
    settled: list[Token] = []
    for token in tokens:
        if token.kind == "c":
            behind = settled[-1].kind if settled else ""
            token = replace(token, kind="century word" if behind == "ordinal" else "circa")
        settled.append(token)
    return settled


def _without_glue(tokens: list[Token]) -> list[Token]:
    """Drop the hyphens of mid-19th, pre-1840, eighteen-forties and "early- to mid-"."""
    settled: list[Token] = []
    for index, token in enumerate(tokens):
        behind = settled[-1].kind if settled else ""
        ahead = tokens[index + 1].kind if index + 1 < len(tokens) else ""
        glue = behind in _GLUED_BEHIND or (behind == "part" and ahead != "part")
        glue = glue or ahead in LINKS or ahead == "century word"
        if token.kind != "dash" or not glue:
            settled.append(token)
    return settled


def _with_parts(tokens: list[Token]) -> list[Token]:
    """Complete the first of two parts that share their word, as in "1st-2nd quarter"."""
    settled = list(tokens)
    for index, (token, link, part) in enumerate(zip(tokens, tokens[1:], tokens[2:])):
        shared = part.name.split(" ")[-1] if part.kind == "part" and " " in part.name else ""
        if token.kind == "ordinal" and link.kind in LINKS and shared and token.value in _NTH:
            name = f"{_NTH[token.value]} {shared}"
            settled[index] = replace(token, kind="part", value=0, name=name)
    return settled


def _joined(tokens: list[Token]) -> list[Token]:
    """Make one token of "19th century" and of "eighteen forties"."""
    settled: list[Token] = []
    for token in tokens:
        behind = settled[-1] if settled else Token("", "")
        pair = written([behind, token])
        if token.kind == "century word" and behind.kind in {"ordinal", "century"}:
            settled[-1] = Token("century", pair, behind.value)
        elif token.kind == "short decade" and behind.kind == "cardinal":
            kind = "decade" if token.value else "hundreds"
            settled[-1] = Token(kind, pair, behind.value * 100 + token.value)
        else:
            settled.append(token)
    return settled


def _with_open_end(tokens: list[Token]) -> list[Token]:
    """Read a dash behind the last year as an open end."""
    if len(tokens) > 1 and tokens[-1].kind == "dash" and tokens[-2].kind in _YEARS:
        return [*tokens[:-1], replace(tokens[-1], kind="end dash")]
    return tokens
