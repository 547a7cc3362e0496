"""Days, months and seasons: reduced to their year, which is all that the kit keeps of them."""

import re

from buttonstudy.readings.dates.tokens import Token, written

__all__ = ["with_years"]

_LETTERS = {
    "month": "m",
    "season": "s",
    "year": "y",
    "dash": "-",
    "slash": "/",
    "to": "-",
    "until": "-",
    "filler": "f",
}
_LAST_DAY = 31
_LAST_MONTH = 12

_DAY = r"[dD](?:-[dD])?"
_MONTH = rf"(?:{_DAY}f*)?m(?:f*{_DAY})?"
_PATTERN = re.compile(
    rf"""
      (?:(?:{_MONTH}|s)[-/])?(?:{_MONTH}|s),?f*(?P<after>y)
    | (?P<before>y),?{_MONTH}(?!,?y)
    | (?<![-/dD])d/(?P<month_figure>y)
    """,
    re.VERBOSE,
)


def with_years(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Put one token of the kind ``"calendar"`` in the place of each date with a month or season.

    Examples
    --------
    >>> from buttonstudy.readings.dates.tokens import date_tokens
    >>> [token.value for token in with_years(date_tokens("12th August, 1795"))]
    [1795]
    """
    letters = "".join(_letter(token) for token in tokens)
    made: list[Token] = []
    done = 0
    for match in _PATTERN.finditer(letters):
        start, end = match.span()
        year = tokens[match.start(match.lastgroup or 0)]
        made.extend(tokens[done:start])
        made.append(Token("calendar", written(tokens[start:end]), year.value))
        done = end
    return (*made, *tokens[done:])


def _letter(token: Token) -> str:
    """Code a token as one letter, so that a date's shape can be found by a pattern.

    A number that may be a month is ``d``, one that may only be a day ``D``.
    """
    if token.kind in {"number", "ordinal"} and token.value:
        if token.value <= _LAST_MONTH and token.kind == "number":
            return "d"
        return "D" if token.value <= _LAST_DAY else "#"
    if token.text == ",":
        return ","
    return _LETTERS.get(token.kind, "#")
