"""What a survey holds, in counts and words: for the index page and for `buttonstudy check`.

A fault that a recorder made a hundred times is one thing to mend, so equal problems are told once
with all their rows. Nothing is dropped: each problem belongs to exactly one group.
"""

import unicodedata
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from buttonstudy.survey.mapping import CONTAINS, MEDIUM
from buttonstudy.survey.problems import LEVELS

if TYPE_CHECKING:
    import pandas as pd

    from buttonstudy.survey.load import Survey

__all__ = [
    "Holdings",
    "ProblemGroup",
    "count_of",
    "field_words",
    "holdings",
    "level_counts",
    "one_line",
    "problem_groups",
    "row_ranges",
]


@dataclass(frozen=True, slots=True)
class Holdings:
    """How much a survey holds."""

    files: int
    buttons: int
    sets: int
    recorders: int


@dataclass(frozen=True, slots=True)
class ProblemGroup:
    """Problems of one kind at one level.

    Parameters
    ----------
    level, kind
        As in the table of problems.
    problem, what_to_do
        The words that all of them share; empty where they differ.
    rows
        The problems themselves, in their order.
    """

    level: str
    kind: str
    problem: str
    what_to_do: str
    rows: "pd.DataFrame"


def holdings(survey: "Survey") -> Holdings:
    """Count files, button records, sets and recorders. A button without a set is a set of one."""
    from buttonstudy.study.evidence.sets import set_keys

    buttons = survey.buttons
    recorders = buttons["recorder"].dropna() if "recorder" in buttons else ()
    return Holdings(
        files=len(survey.sources),
        buttons=len(buttons),
        sets=int(set_keys(buttons).nunique()) if len(buttons) else 0,
        recorders=len({name for name in recorders if name}),
    )


def count_of(number: int, one: str, many: str = "") -> str:
    """Return a number with its noun.

    Examples
    --------
    >>> count_of(1, "set"), count_of(2, "survey file"), count_of(0, "entry", "entries")
    ('1 set', '2 survey files', '0 entries')
    """
    return f"{number} {one if number == 1 else many or one + 's'}"


def field_words(field: str) -> str:
    """Return words for what a heading was taken for.

    Examples
    --------
    >>> field_words("mould_material"), field_words("medium")
    ('mould material', 'materials, parted into mould, cover and decoration')
    """
    if field == MEDIUM:
        return "materials, parted into mould, cover and decoration"
    if field == CONTAINS:
        return "buttons found inside this one, noted in their own rows"
    return field.replace("_", " ")


def level_counts(problems: "pd.DataFrame") -> dict[str, int]:
    """Return how many problems there are at each level, the gravest first."""
    counted = Counter(problems["level"].tolist())
    return {level: counted[level] for level in LEVELS}


def problem_groups(problems: "pd.DataFrame") -> tuple[ProblemGroup, ...]:
    """Return the problems by level, the gravest first, and by kind, the most frequent first."""
    places: dict[tuple[str, str], list[int]] = {}
    for place, key in enumerate(zip(problems["level"].tolist(), problems["kind"].tolist())):
        places.setdefault(key, []).append(place)
    by_size = sorted(places.items(), key=lambda one: (-len(one[1]), one[0][1]))
    return tuple(
        _group(level, kind, problems.iloc[here])
        for level in LEVELS
        for (of_level, kind), here in by_size
        if of_level == level
    )


def row_ranges(rows: Iterable[int]) -> str:
    """Return row numbers in few words.

    Examples
    --------
    >>> row_ranges([4, 5, 6, 9, 12, 13])
    '4–6, 9, 12–13'
    """
    runs: list[list[int]] = []
    for row in sorted(set(rows)):
        if runs and row == runs[-1][1] + 1:
            runs[-1][1] = row
        else:
            runs.append([row, row])
    return ", ".join(str(first) if first == last else f"{first}–{last}" for first, last in runs)


def one_line(text: str, longest: int = 80) -> str:
    r"""Return text from a survey as one harmless line: no control signs, not endless.

    Examples
    --------
    >>> one_line("a line\nbreak and \x1b[31ma colour")
    'a line break and �[31ma colour'
    """
    spaced = " ".join(text.split())
    plain = spaced
    if not spaced.isprintable():
        plain = "".join("\N{REPLACEMENT CHARACTER}" if _unseen(sign) else sign for sign in spaced)
    return plain if len(plain) <= longest else plain[: longest - 1].rstrip() + "…"


def _unseen(sign: str) -> bool:
    """Tell control signs and those that turn the direction of text, which could mislead."""
    return unicodedata.category(sign) in {"Cc", "Cf", "Cs", "Co", "Cn"} and sign != "\u200d"


def _group(level: str, kind: str, rows: "pd.DataFrame") -> ProblemGroup:
    return ProblemGroup(level, kind, _shared(rows["problem"]), _shared(rows["what_to_do"]), rows)


def _shared(words: "pd.Series") -> str:
    distinct = set(words.tolist())
    return str(distinct.pop()) if len(distinct) == 1 else ""
