"""What can be doubtful about a date, each in one place with its remedy.

The wording of every doubt stands in this table, so that the same trouble is told in the same
words wherever it is found.
"""

from buttonstudy.readings.doubt import Doubt

__all__ = ["Unread", "date_doubt"]

_SHOWN = 60

_CONFIRM = "Check that this is meant; otherwise write the years, such as 1840-1860."
_YEARS = "Write the years, such as 1840, c. 1840 or 1840-1860."

_NOT_READ = {
    "date-not-understood": ('"{part}" was not understood as a date.', _YEARS),
    "date-too-long": ("The text is too long to be a date.", "Move remarks to the notes column."),
    "date-reversed": (
        "The date runs backwards, from {first} to {last}.",
        "Exchange the two years, or correct the wrong one.",
    ),
    "date-future": ("The year {year} has not come yet.", "Correct the year."),
    "date-before-christ": ("A date BC cannot be a button's.", "Correct the date."),
    "date-two-figure-year": (
        'The year "{part}" is written without its century.',
        "Write all four figures, such as 1840.",
    ),
    "date-which-century": (
        '"{part}" does not say which century it means.',
        "Write the years, or name both centuries: turn of the 19th-20th century.",
    ),
    "date-not-in-calendar": (
        '"{part}" is not a date of the calendar.',
        "Correct it, or write the year alone.",
    ),
    "date-style": (
        '"{part}" names a style or a pattern, not when the button was made.',
        "Write when the button was made, and keep the style in the notes.",
    ),
    "date-later-work": (
        '"{part}" tells of later work or use, not of when the button was made.',
        "Write when the button was made, and keep the rest in the notes.",
    ),
    "date-contradiction": (
        "The dates given cannot all be true.",
        "Keep the one that holds for the button.",
    ),
}

_TO_CONFIRM = {
    "date-early": (
        "The year {year} is very early for a button.",
        "Check for a slip of the pen.",
    ),
    "date-left-aside": ('"{part}" was left aside; the rest was read as {read}.', _CONFIRM),
    "date-several": ("The cell gives several dates; it was read as {read}.", _CONFIRM),
    "date-design-only": (
        'Only the date of a design was given ("{part}"); the button may be later.',
        "Write when the button was made, if that is known.",
    ),
    "date-alternatives": (
        "The dates offered lie apart; the whole span {read} was read.",
        _CONFIRM,
    ),
    "date-hundreds": (
        'Some use "{part}" for the century, others for its first ten years; {read} was read.',
        "Write the years, the century or the decade.",
    ),
    "date-month-or-years": (
        '"{part}" may be a span of years or a month; {read} was read.',
        "Write all four figures of both years, or the year alone.",
    ),
    "date-open-dash": (
        'The dash at the end of "{part}" was read as "or later".',
        'Write "or later", or the missing year.',
    ),
    "date-century-assumed": (
        '"{part}" was taken for a century.',
        'Write "century" behind the number.',
    ),
    "date-part-of-year": (
        'Only the year of "{part}" was read.',
        "If a part of the decade or century is meant, write 1860s or 19th century.",
    ),
    "date-part-of-period": (
        'No agreed years were found for "{part}"; the whole period {read} was read.',
        _CONFIRM,
    ),
    "date-period-varies": ("{part} was read as {read}; {variation}.", _CONFIRM),
}

_NOTES = frozenset({"date-period-varies"})


class Unread(Exception):  # noqa: N818  (it stops a reading, it is not an error of the program)
    """Raised inside a reading when nothing certain can be read; carries the doubt."""

    def __init__(self, doubt: Doubt) -> None:
        super().__init__(doubt.says)
        self.doubt = doubt


def date_doubt(kind: str, **parts: object) -> Doubt:
    """Make a doubt by its kind, with its parts put into the words.

    Examples
    --------
    >>> date_doubt("date-future", year=2999).says
    'The year 2999 has not come yet.'
    """
    fatal = kind in _NOT_READ
    if "part" in parts:
        parts["part"] = _short(parts["part"])
    says, remedy = _NOT_READ[kind] if fatal else _TO_CONFIRM[kind]
    return Doubt(kind, says.format(**parts), remedy, fatal, note=kind in _NOTES)


def _short(part: object) -> str:
    """Shorten what was read to what fits a message."""
    text = " ".join(str(part).split())
    return text if len(text) <= _SHOWN else text[: _SHOWN - 1] + "…"
