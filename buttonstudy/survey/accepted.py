"""Findings that were looked at and are right: they stay quiet, and are counted.

A researcher accepts a finding in the survey itself, in a column headed "Accepted" or "Checked"
that holds its code (or several, or "all"), or in a small CSV table beside it. What was not read
cannot be accepted: it is missing from the results whatever is said of it.
"""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pandas as pd

from buttonstudy.schemes.tables import Row, read_scheme_file
from buttonstudy.survey.problems import FOR_INFORMATION, NOT_READ, Problems, problems_frame

ALL = "all"
_CODE = re.compile(r"[a-z]+(?:-[a-z]+)+")


@dataclass(frozen=True, slots=True)
class Acceptance:
    """What is accepted, and where.

    Parameters
    ----------
    kind
        A finding's code, or ``"all"``.
    file, sheet, row, button
        Where it holds; a blank one leaves it open. `row` is as the spreadsheet shows it.
    said_in
        The file and row that say so.
    """

    kind: str
    file: str = ""
    sheet: str = ""
    row: int | None = None
    button: str = ""
    said_in: tuple[str, int] = ("", 0)


def read_accepted(path: str | Path) -> tuple[Acceptance, ...]:
    """Read a table of accepted findings: ``file, sheet, row, button, kind, note``.

    Columns other than ``kind`` may be left out or blank. Each row must at least say the file, or
    the button; ``all`` needs a row or a button.

    Raises
    ------
    SchemeError
        Naming file, row and column, if a row does not say what is accepted where.
    """
    return tuple(_acceptance(row) for row in read_scheme_file(path, ("kind",)))


def _acceptance(row: Row) -> Acceptance:
    kind = row.needed("kind").casefold()
    number, button = row.get("row", ""), row.get("button", "")
    if number and not (number.isascii() and number.isdigit()):
        raise row.error("row", "is not a row number", "Write it as the spreadsheet shows it.")
    if kind != ALL and not _CODE.fullmatch(kind):
        raise row.error("kind", "is not a finding's code", "Copy it from the list of problems.")
    if kind == ALL and not (number or button):
        raise row.error("kind", "needs a row or a button", "Name one, or write a finding's code.")
    if not (row.get("file", "") or button):
        raise row.error("kind", "has no place", "Name the survey file, or the button's number.")
    return Acceptance(
        kind,
        row.get("file", ""),
        row.get("sheet", ""),
        int(number) if number else None,
        button,
        (Path(row.file).name, row.number),
    )


def in_survey(buttons: pd.DataFrame) -> Iterator[Acceptance]:
    """Give what the survey's own column accepts: codes of findings, row by row."""
    filled = buttons[buttons["accepted"].notna()]
    for file, sheet, row, text in zip(
        filled["file"], filled["sheet"], filled["row"], filled["accepted"]
    ):
        for kind in _codes(text):
            yield Acceptance(kind, file, sheet, int(row))


def _codes(text: str) -> list[str]:
    """Give the codes in a cell; "all" counts only by itself, not in "all fine"."""
    plain = text.casefold().strip(" .")
    return [ALL] if plain == ALL else _CODE.findall(plain)


def quieted(
    problems: pd.DataFrame, buttons: pd.DataFrame, accepted: Sequence[Acceptance]
) -> pd.DataFrame:
    """Take accepted findings out of the problems, and tell how many there were.

    Parameters
    ----------
    problems
        The columns of ``survey.problems``.
    buttons
        The record; its column ``accepted`` is heeded too.
    accepted
        What a table accepts.

    Returns
    -------
    pandas.DataFrame
        The other problems, one line for each file that tells how many of what were accepted, and
        one for each acceptance that meets no finding.
    """
    own = list(in_survey(buttons))
    if not (own or accepted or buttons["accepted"].notna().any()):
        return problems
    quiet = np.zeros(len(problems), dtype=bool)
    numbers = _numbers(buttons) if accepted else {}
    may_be = (problems["level"] != NOT_READ).to_numpy(dtype=bool)
    by_row = _by_row(own)
    places = zip(*(problems[name].tolist() for name in ("file", "sheet", "row", "kind")))
    for at, (file, sheet, row, kind) in enumerate(places):
        kinds = by_row.get((file, sheet, row), ()) if may_be[at] else ()
        quiet[at] = kind in kinds or ALL in kinds
    met = []
    for one in accepted:
        fits = may_be & _meets(one, problems, numbers)
        met.append(bool(fits.any()))
        quiet |= fits
    lists = [*_counted(problems[quiet]), *_wordless(buttons)]
    lists += [_unmet(one) for one, some in zip(accepted, met) if not some]
    parts = [problems[~quiet], problems_frame(lists)] if lists else [problems[~quiet]]
    return pd.concat(parts, ignore_index=True)


def _by_row(own: Iterable[Acceptance]) -> dict[tuple[str, str, int], set[str]]:
    by_row: dict[tuple[str, str, int], set[str]] = {}
    for one in own:
        if one.row is not None:
            by_row.setdefault((one.file, one.sheet, one.row), set()).add(one.kind)
    return by_row


def _numbers(buttons: pd.DataFrame) -> dict[tuple[str, str, int], set[str]]:
    """Give each row's button numbers, as written and with its file's prefix."""
    keys = zip(buttons["file"], buttons["sheet"], buttons["row"])
    names = zip(buttons["button_id"].fillna(""), buttons["button_id_wording"].fillna(""))
    return {(f, s, int(r)): {one, two.strip()} for (f, s, r), (one, two) in zip(keys, names)}


def _meets(
    one: Acceptance, problems: pd.DataFrame, numbers: dict[tuple[str, str, int], set[str]]
) -> np.ndarray:
    """Tell which problems an acceptance speaks of."""
    fits = np.ones(len(problems), dtype=bool)
    if one.kind != ALL:
        fits &= (problems["kind"] == one.kind).to_numpy(dtype=bool)
    for name, value in (("file", one.file), ("sheet", one.sheet), ("row", one.row)):
        if value not in ("", None):
            fits &= (problems[name] == value).fillna(False).to_numpy(dtype=bool)
    if one.button:
        rows = problems["row"].fillna(0)
        places = zip(problems["file"], problems["sheet"], rows)
        fits &= [one.button in numbers.get(place, ()) for place in places]
    return fits


def _counted(quiet: pd.DataFrame) -> Iterator[Problems]:
    for file, here in quiet.groupby("file", sort=True):
        told = Problems(str(file))
        kinds = Counter(here["kind"])
        parts = ", ".join(f"{kind} {number}" for kind, number in sorted(kinds.items()))
        one = len(here) == 1
        told.add(
            "accepted",
            f"{len(here)} finding{'' if one else 's'} of this file {'is' if one else 'are'} "
            f"accepted and not told again ({parts}).",
            "Nothing. Take the acceptance out to see them.",
            level=FOR_INFORMATION,
        )
        yield told


def _wordless(buttons: pd.DataFrame) -> Iterator[Problems]:
    """Tell, once for each file, cells of the column that hold no code."""
    filled = buttons[buttons["accepted"].notna()]
    wordless = [not _codes(text) for text in filled["accepted"]]
    without = filled[np.array(wordless, dtype=bool)]
    for file, here in without.groupby("file", sort=True):
        told = Problems(str(file))
        first = here.iloc[0]
        told.add(
            "accepted-without-code",
            f"{len(here)} cell{'' if len(here) == 1 else 's'} of the column for accepted findings "
            "hold no finding's code, so nothing is accepted by them.",
            'Nothing, if they say something else; else write the codes, or "all".',
            level=FOR_INFORMATION,
            sheet=str(first["sheet"]),
            row=int(first["row"]),
            wording=str(first["accepted"]),
        )
        yield told


def _unmet(one: Acceptance) -> Problems:
    told = Problems(one.said_in[0])
    told.add(
        "accepted-nothing",
        "This row accepts a finding that is not there, or no longer.",
        "Nothing, if the finding was mended; else check file, sheet, row, button and code.",
        level=FOR_INFORMATION,
        row=one.said_in[1],
        wording=one.kind,
    )
    return told
