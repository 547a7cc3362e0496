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
from buttonstudy.survey.sheets import Cell, wording

T = TypeVar("T")
_ROWS_AT_ONCE = 500  # a block that the processor's cache holds is coded twice as fast


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
        Of which kinds the raw cells are; true and false ones count as text.
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


class _Numbers(dict[Cell, int]):
    """Numbers cells in the order in which they first come.

    A dictionary, since a million cells in one are numbered without a step in Python for each:
    only a cell that is new comes to `__missing__`.
    """

    def __missing__(self, cell: Cell) -> int:
        number = self[cell] = len(self)
        return number

    def of(self, cells: Sequence[Cell]) -> npt.NDArray[np.intp]:
        return np.fromiter(map(self.__getitem__, cells), dtype=np.intp, count=len(cells))

    def may_hold_truths(self) -> bool:
        """Tell whether a true or false cell may have been taken for 1 or 0, which equal it."""
        return True in self or False in self


def coded(cells: Sequence[Cell]) -> Coded:
    """Find the distinct wordings of a column of raw cells.

    Examples
    --------
    >>> column = coded(["16", 16.0, "", "16"])
    >>> column.wordings, column.codes.tolist()
    (('16', '16', ''), [0, 1, 2, 0])
    """
    numbers = _Numbers()
    codes = numbers.of(cells)
    if numbers.may_hold_truths():
        numbers = _Numbers()
        codes = numbers.of([wording(cell) if isinstance(cell, bool) else cell for cell in cells])
    return _worded(numbers, codes)


def coded_columns(rows: Sequence[Sequence[Cell]], width: int) -> list[Coded]:
    """Find the distinct wordings of every column of a table, whose rows hold `width` cells."""
    columns = [_Numbers() for _ in range(width)]
    codes = [np.empty(len(rows), dtype=np.intp) for _ in range(width)]
    for start in range(0, len(rows), _ROWS_AT_ONCE):
        end = start + _ROWS_AT_ONCE
        for cells, numbers, code in zip(zip(*rows[start:end]), columns, codes):
            code[start:end] = numbers.of(cells)
    return [
        coded([row[index] for row in rows]) if numbers.may_hold_truths() else _worded(numbers, code)
        for index, (numbers, code) in enumerate(zip(columns, codes))
    ]


def _worded(numbers: _Numbers, codes: npt.NDArray[np.intp]) -> Coded:
    wordings = tuple(map(wording, numbers))
    filled = np.array([bool(text.strip()) for text in wordings], dtype=bool)
    return Coded(codes, wordings, filled, frozenset(map(type, numbers)))
