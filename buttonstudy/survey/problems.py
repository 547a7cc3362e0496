"""Problems collected, each with its place, so that all are told together.

A reader of surveys never stops at the first fault: it notes what is wrong, where, what was read
there and what to do, and goes on. The words are for button researchers.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import pandas as pd

from buttonstudy.readings.doubt import Doubt

NOT_READ = "not read"
TO_CONFIRM = "to confirm"
FOR_INFORMATION = "for information"
LEVELS = (NOT_READ, TO_CONFIRM, FOR_INFORMATION)

COLUMNS = (
    "file",
    "sheet",
    "row",
    "column",
    "wording",
    "problem",
    "what_to_do",
    "kind",
    "level",
)


@dataclass(slots=True)
class Problems:
    """A growing list of problems in one file."""

    file: str
    rows: list[tuple[str, str, int | None, str, str, str, str, str, str]] = field(
        default_factory=list
    )

    def add(
        self,
        kind: str,
        problem: str,
        what_to_do: str,
        *,
        level: str = TO_CONFIRM,
        sheet: str = "",
        row: int | None = None,
        column: str = "",
        wording: str = "",
    ) -> None:
        """Note one problem. `row` is 1-based, as the spreadsheet program shows it."""
        self.rows.append((self.file, sheet, row, column, wording, problem, what_to_do, kind, level))

    def add_doubt(
        self, doubt: Doubt, wording: str, sheet: str, column: str, at_rows: Iterable[int]
    ) -> None:
        """Note one cell reader's doubt for every row that has this wording."""
        level = NOT_READ if doubt.fatal else FOR_INFORMATION if doubt.note else TO_CONFIRM
        self.rows.extend(
            (
                self.file,
                sheet,
                int(row),
                column,
                wording,
                doubt.says,
                doubt.remedy,
                doubt.kind,
                level,
            )
            for row in at_rows
        )


def problems_frame(lists: Sequence[Problems]) -> pd.DataFrame:
    """All problems as one table, in the order of files, sheets and rows.

    Returns
    -------
    pandas.DataFrame
        Columns ``file, sheet, row, column, wording, problem, what_to_do, kind, level``.
        `row` is missing where a problem concerns a whole file, sheet or column.
    """
    frame = pd.DataFrame([row for one in lists for row in one.rows], columns=list(COLUMNS))
    frame["row"] = frame["row"].astype("Int64")
    texts = [name for name in COLUMNS if name not in ("row", "level")]
    frame[texts] = frame[texts].astype("str")
    frame["level"] = pd.Categorical(frame["level"], categories=list(LEVELS), ordered=True)
    order = {name: place for place, name in enumerate(dict.fromkeys(one.file for one in lists))}
    ranked = frame.assign(_file=frame["file"].map(order))
    ranked = ranked.sort_values(["_file", "sheet", "row"], kind="stable", na_position="first")
    return ranked.drop(columns="_file").reset_index(drop=True)
