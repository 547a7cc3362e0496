"""What `buttonstudy check` prints: how the survey files were understood, and every problem.

For each file and sheet stands what every heading was taken for, and then what was not read, what
should be confirmed and what is good to know, with the place, the words that were read and what to
do. Equal problems are told once with all their rows.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.describing import (
    Holdings,
    ProblemGroup,
    count_of,
    field_words,
    holdings,
    level_counts,
    one_line,
    problem_groups,
    row_ranges,
)
from buttonstudy.publish.errors import CallError
from buttonstudy.survey.problems import NOT_READ

if TYPE_CHECKING:
    import pandas as pd

    from buttonstudy.publish.choices import Choices
    from buttonstudy.survey.load import Survey

__all__ = ["Check", "check_survey", "told_wordings", "write_problems"]

_WORDINGS_SHOWN = 6
_UNITS = {"in": "inches"}
_HEADED = {
    "not read": "NOT READ: these are missing from the results until they are mended",
    "to confirm": "TO CONFIRM: read, but look; what is right can be accepted by its [code]",
    "for information": "FOR INFORMATION: nothing need be done",
}


@dataclass(frozen=True, slots=True)
class Check:
    """What a check found.

    Parameters
    ----------
    text
        To print.
    fine
        True if there is no problem save for information.
    """

    text: str
    fine: bool


@dataclass(frozen=True, slots=True)
class _Told:
    """One problem in words."""

    words: str
    place: str
    row: int | None
    wording: str


def check_survey(survey: "Survey") -> Check:
    """Tell what was understood of a survey, and all its problems.

    Returns
    -------
    Check
        The text, some lines for each column and each problem, and whether all is well.
    """
    counts = level_counts(survey.problems)
    lines = [*_understood(survey), *_problems(survey.problems), _total(holdings(survey), counts)]
    fine = not any(number for level, number in counts.items() if level != "for information")
    return Check("\n".join(lines) + "\n", fine)


def write_problems(survey: "Survey", path: str) -> None:
    """Write all problems as CSV, over an earlier list of problems if there is one.

    Raises
    ------
    CallError
        If something else stands at that path.
    PublishError
        If it cannot be written.
    """
    _write_list(survey.problems, path, "list of problems")


def told_wordings(survey: "Survey", paths: Sequence[str], choices: "Choices", to: str = "") -> str:
    """Say how many different wordings were read, and write what each was read as if asked to.

    Parameters
    ----------
    survey, paths, choices
        A survey as understood, from where it was read, and with what.
    to
        Where the table goes as CSV, over an earlier one if there is one; empty for nowhere.

    Raises
    ------
    CallError
        If something else stands at that path.
    PublishError
        If it cannot be written.
    """
    from buttonstudy.survey.wordings import different_wordings, wordings_read

    if not to:
        number = different_wordings(survey.buttons, survey.columns)
        words = count_of(number, "different wording")
        return f"{words}; what each was read as: add --wordings FILE.csv" if number else ""
    from buttonstudy.publish.own_tables import vocabulary_of

    told = wordings_read(survey.buttons, survey.columns, vocabulary_of(paths, choices))
    _write_list(told, to, "table of wordings")
    passed = int((told["passed_over"] != "").sum())
    more = f"; words were passed over in {passed} of them" if passed else ""
    return f"What each wording was read as, {count_of(len(told), 'row')}, is in {to}{more}"


def _write_list(table: "pd.DataFrame", path: str, what: str) -> None:
    from buttonstudy.publish.csv_files import write_csv

    place = Path(path)
    if place.exists() and not (place.is_file() and _is_such(place, table)):
        raise CallError(f"{path} is no earlier {what} and was left alone. Name another.")
    write_csv(table, place)


def _is_such(place: Path, table: "pd.DataFrame") -> bool:
    with place.open(encoding="utf-8-sig", errors="replace") as file:
        return file.readline().strip() == ",".join(table.columns)


def _understood(survey: "Survey") -> Iterator[str]:
    for file, records in zip(survey.sources["file"], survey.sources["records"]):
        columns = survey.columns[survey.columns["file"] == file]
        yield f"{one_line(str(file))}: {count_of(int(records), 'button record')}"
        for sheet, here in columns.groupby("sheet", sort=False):
            yield from _sheet(str(sheet), here)
        yield ""


def _sheet(sheet: str, columns: "pd.DataFrame") -> Iterator[str]:
    if sheet:
        yield f"  Sheet {one_line(sheet)}"
    widest = max(len(one_line(str(heading), 32)) for heading in columns["heading"])
    for column in columns.itertuples():
        heading = one_line(str(column.heading), 32).ljust(widest)
        meaning = _meaning(str(column.field), str(column.unit), str(column.how))
        yield f"  {column.column:>3}  {heading}  {meaning}"


def _meaning(field: str, unit: str, how: str) -> str:
    if not field:
        return "not known; carried through as it stands"
    words = field_words(field) + (f", in {_UNITS.get(unit, unit)}" if unit else "")
    return words if how == "heading" else f"{words} (by {how})"


def _problems(problems: "pd.DataFrame") -> Iterator[str]:
    level = ""
    for group in problem_groups(problems):
        if group.level != level:
            level = group.level
            yield f"{_HEADED[level]} ({level_counts(problems)[level]})"
            yield ""
        yield from _group(group)
        yield ""


def _group(group: ProblemGroup) -> Iterator[str]:
    """Tell one kind of problem: its words once, with the code to accept it, then each place."""
    code = "" if group.level == NOT_READ else f" [{group.kind}]"
    for words, told in _parted(_told(group.rows), lambda one: one.words).items():
        yield f"  {one_line(words, 600)}{code}"
        for place, here in _parted(told, lambda one: one.place).items():
            yield from _cells(place, here)


def _told(rows: "pd.DataFrame") -> list[_Told]:
    """Take the rows of problems out of their table: there may be thousands, each of its own."""
    names = ("problem", "what_to_do", "file", "sheet", "column", "wording")
    texts = zip(*(map(_text, rows[name].tolist()) for name in names))
    numbers = [row if isinstance(row, int) else None for row in rows["row"].tolist()]
    return [
        _Told(f"{problem} {remedy}", _place(file, sheet, column), row, wording)
        for (problem, remedy, file, sheet, column, wording), row in zip(texts, numbers)
    ]


def _text(value: object) -> str:
    return value if isinstance(value, str) else ""


def _parted(told: Sequence[_Told], by: Callable[[_Told], str]) -> dict[str, list[_Told]]:
    """Part problems by a word of theirs, in the order in which the words first come."""
    parts: dict[str, list[_Told]] = {}
    for one in told:
        parts.setdefault(by(one), []).append(one)
    return parts


def _place(file: str, sheet: str, column: str) -> str:
    parts = [file, sheet and f"sheet {sheet}", column and f"column {column}"]
    return ", ".join(one_line(part, 400) for part in parts if part)


def _cells(place: str, here: Sequence[_Told]) -> Iterator[str]:
    """Tell the rows of one column that share a problem, by what was read in them."""
    wordings = list(_parted(here, lambda one: one.wording).items())
    told = [_read(some, f": “{one_line(words, 60)}”" if words else "") for words, some in wordings]
    if len(told) == 1:
        yield f"    {', '.join(part for part in (place, told[0]) if part)}"
        return
    yield f"    {place}"
    yield from (f"      {line}" for line in told[:_WORDINGS_SHOWN])
    if len(told) > _WORDINGS_SHOWN:
        rest = [one for _, some in wordings[_WORDINGS_SHOWN:] for one in some]
        yield f"      {_read(rest, f': {len(told) - _WORDINGS_SHOWN} other wordings')}"


def _read(told: Sequence[_Told], words: str) -> str:
    numbers = [one.row for one in told if one.row is not None]
    if not numbers:
        return words.removeprefix(": ")
    return f"{'row' if len(set(numbers)) == 1 else 'rows'} {row_ranges(numbers)}{words}"


def _total(held: Holdings, counts: dict[str, int]) -> str:
    told = ", ".join(f"{number} {level}" for level, number in counts.items() if number)
    return (
        f"{count_of(held.buttons, 'button record')} in {count_of(held.sets, 'set')} from "
        f"{count_of(held.files, 'survey file')}. Problems: {told or 'none'}."
    )
