"""A column of cells as its distinct wordings and a code for each row.

Surveys repeat themselves: a hundred thousand cells hold a few hundred wordings. Each distinct
wording is understood once and the result is spread over the rows.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
import numpy.typing as npt
import pandas as pd

from buttonstudy.readings.shown_errors import shown_error
from buttonstudy.survey.grid import Cell, CellColumn, Grid
from buttonstudy.survey.sheets import wording

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Coded:
    """One column: for each row a code, for each code the wording.

    Parameters
    ----------
    codes
        Shape (rows,).
    wordings
        Distinct wordings as the cells show them.
    filled
        For each distinct wording, whether there is more than blanks in it.
    kinds
        Of which kinds the raw cells are.
    """

    codes: npt.NDArray[np.intp]
    wordings: tuple[str, ...]
    filled: npt.NDArray[np.bool_]
    kinds: frozenset[type] = frozenset()

    def written(self) -> int:
        """Count the rows whose cell holds anything, were it only blanks."""
        blank = [text == "" for text in self.wordings]
        return int(np.count_nonzero(~np.array(blank, dtype=bool)[self.codes]))

    def is_filled(self) -> npt.NDArray[np.bool_]:
        """Tell for each row whether its cell is filled; shape (rows,)."""
        return self.filled[self.codes]

    def kept(self, rows: npt.NDArray[np.bool_]) -> "Coded":
        """Give the same column with some rows only."""
        if rows.all():
            return self
        return Coded(self.codes[rows], self.wordings, self.filled, self.kinds)

    def texts(self) -> pd.Series:
        """Give the wording of each row as text, missing where the cell is blank."""
        words = [text if full else None for text, full in zip(self.wordings, self.filled)]
        return pd.Series(pd.array(words, dtype="str").take(self.codes))

    def understood(self, read: Callable[[str], T], blank: T) -> list[T]:
        """Apply a cell reader to each distinct wording.

        `blank` stands for an empty cell, and for one that shows an error.
        """
        return [
            read(text) if full and not shown_error(text) else blank
            for text, full in zip(self.wordings, self.filled)
        ]

    def rows_by_code(self, wanted: Sequence[int]) -> Iterator[tuple[int, npt.NDArray[np.intp]]]:
        """Give the row positions of each wanted code, in one pass over the column."""
        if not wanted:
            return
        is_wanted = np.zeros(len(self.wordings), dtype=bool)
        is_wanted[wanted] = True
        rows = np.flatnonzero(is_wanted[self.codes])
        order = rows[np.argsort(self.codes[rows], kind="stable")]
        ends = np.searchsorted(self.codes[order], wanted, side="right")
        starts = np.searchsorted(self.codes[order], wanted, side="left")
        for code, start, end in zip(wanted, starts, ends):
            yield code, order[start:end]


def repeated(text: str, rows: int) -> pd.Series:
    """Give a column that holds one text in every row."""
    return pd.Series(pd.array([text], dtype="str").take(np.zeros(rows, dtype=np.intp)))


def coded(cells: Sequence[Cell]) -> Coded:
    """Find the distinct wordings of a column of raw cells.

    Examples
    --------
    >>> column = coded(["16", 16.0, "", "16"])
    >>> column.wordings, column.codes.tolist()
    (('16', '16', ''), [0, 1, 2, 0])
    """
    return _worded(CellColumn.of(cells))


def coded_columns(rows: Grid) -> list[Coded]:
    """Find the distinct wordings of every column of a table."""
    return [_worded(column) for column in rows.columns]


def _worded(column: CellColumn) -> Coded:
    codes, found = pd.factorize(column.numbers)  # only what stands in these rows, as it comes
    cells = [column.cells[number] for number in found.tolist()]
    wordings = tuple(map(wording, cells))
    filled = np.array([bool(text.strip()) for text in wordings], dtype=bool)
    return Coded(codes, wordings, filled, frozenset(map(type, cells)))
