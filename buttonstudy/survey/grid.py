"""Cells of a sheet, kept as columns: the distinct cells of each, and a number for each row.

Surveys repeat themselves: a hundred thousand cells hold a few hundred. A sheet kept so takes a
fraction of the memory that its cells would take one by one, and what is asked of a column is asked
of its distinct cells. Rows are put together when they are asked for.
"""

import datetime as dt
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice, zip_longest
from typing import overload

import numpy as np
import numpy.typing as npt

__all__ = ["Cell", "CellColumn", "Grid", "is_written"]

Cell = str | float | int | bool | dt.date | dt.datetime | dt.time | dt.timedelta

_ROWS_AT_ONCE = 100  # a block that the processor's cache holds is taken up twice as fast


@dataclass(frozen=True, slots=True, eq=False)
class CellColumn:
    """One column.

    Parameters
    ----------
    numbers
        For each row the number of its cell; shape (rows,).
    cells
        The distinct cells by their numbers; there may be some that no row holds. True and 1 are
        two cells.
    """

    numbers: npt.NDArray[np.int32]
    cells: Sequence[Cell]

    @classmethod
    def of(cls, cells: Sequence[Cell]) -> "CellColumn":
        """Take up the cells of one column."""
        numbers = _Numbers()
        return cls(numbers.of(cells), numbers.cells())

    def __iter__(self) -> Iterator[Cell]:
        """Go through the cells row by row."""
        return map(self.cells.__getitem__, self.numbers.tolist())

    def where(self, fits: Callable[[Cell], bool]) -> npt.NDArray[np.bool_]:
        """Judge each distinct cell once, and tell the rows; shape (rows,)."""
        judged = np.fromiter(map(fits, self.cells), dtype=bool, count=len(self.cells))
        told: npt.NDArray[np.bool_] = judged[self.numbers]
        return told

    def with_cells(self, cells: Mapping[int, Cell]) -> "CellColumn":
        """Put other cells into some rows."""
        numbered = _Numbers(zip(map(_key, self.cells), range(len(self.cells))))
        numbers = self.numbers.copy()
        numbers[list(cells)] = numbered.of(list(cells.values()))
        return CellColumn(numbers, numbered.cells())


class _Numbers(dict[object, int]):
    """Numbers cells in the order in which they first come.

    A dictionary, since a million cells in one are numbered without a step in Python for each:
    only a cell that is new comes to `__missing__`.
    """

    def __missing__(self, cell: object) -> int:
        number = self[cell] = len(self)
        return number

    def of(self, cells: Sequence[Cell]) -> npt.NDArray[np.int32]:
        keys = cells if _ALIKE.isdisjoint(map(type, cells)) else list(map(_key, cells))
        return np.fromiter(map(self.__getitem__, keys), dtype=np.int32, count=len(cells))

    def cells(self) -> list[Cell]:
        return [key[1] if type(key) is tuple else key for key in self]  # type: ignore[misc]


_ALIKE = frozenset({bool, int})  # 1 and 1.0 and true would count as one


def _key(cell: Cell) -> object:
    return (type(cell), cell) if type(cell) in _ALIKE else cell


@dataclass(frozen=True, slots=True, eq=False)
class Grid(Sequence[Sequence[Cell]]):
    """Rows of cells, all of the same length; a sequence of rows.

    Parameters
    ----------
    columns
        The columns.
    height
        How many rows there are, also where no column tells it.
    """

    columns: tuple[CellColumn, ...] = ()
    height: int = 0

    @classmethod
    def of(cls, rows: Iterable[Sequence[Cell]]) -> "Grid":
        """Take up rows; short ones are filled with blanks.

        Examples
        --------
        >>> grid = Grid.of([["1", 16.0], ["2"], ["1", True]])
        >>> len(grid), grid[1], list(grid.columns[0]), grid.columns[0].cells
        (3, ['2', ''], ['1', '2', '1'], ['1', '2'])
        """
        taken, height = list[tuple[_Numbers, list[npt.NDArray[np.int32]]]](), 0
        rest = iter(rows)
        while block := list(islice(rest, _ROWS_AT_ONCE)):
            for index, cells in enumerate(zip_longest(*block, fillvalue="")):
                if index == len(taken):
                    taken.append((_Numbers(), []))
                    _fill(taken[index], height)
                taken[index][1].append(taken[index][0].of(cells))
            height += len(block)
            for short in taken[max(map(len, block)) :]:
                _fill(short, len(block))
        columns = (CellColumn(np.concatenate(parts), some.cells()) for some, parts in taken)
        return cls(tuple(columns), height)

    def __len__(self) -> int:
        """Count the rows."""
        return self.height

    @overload
    def __getitem__(self, index: int) -> list[Cell]: ...
    @overload
    def __getitem__(self, index: slice) -> "Grid": ...
    def __getitem__(self, index: int | slice) -> "list[Cell] | Grid":
        """Give one row, or some of them as a grid."""
        if isinstance(index, slice):
            columns = (replace(one, numbers=one.numbers[index]) for one in self.columns)
            return Grid(tuple(columns), len(range(self.height)[index]))
        if not -self.height <= index < self.height:
            raise IndexError(index)
        return [self.cell(index, column) for column in range(len(self.columns))]

    def __iter__(self) -> Iterator[Sequence[Cell]]:
        """Go through the rows."""
        for start in range(0, self.height, _ROWS_AT_ONCE):
            part = self[start : start + _ROWS_AT_ONCE]
            yield from zip(*part.columns) if part.columns else [()] * part.height

    def cell(self, row: int, column: int) -> Cell:
        """Give one cell by its place, from 0."""
        one = self.columns[column]
        return one.cells[one.numbers[row]]

    def has(self, row: int, column: int) -> bool:
        """Tell whether a place is within the grid."""
        return 0 <= row < self.height and 0 <= column < len(self.columns)

    def taken(self, places: npt.NDArray[np.intp]) -> "Grid":
        """Give some of the rows, by their places."""
        columns = (replace(one, numbers=one.numbers[places]) for one in self.columns)
        return Grid(tuple(columns), len(places))

    def blank(self) -> npt.NDArray[np.bool_]:
        """Tell which rows hold nothing; shape (rows,)."""
        blank = np.ones(self.height, dtype=bool)
        for one in self.columns:
            blank &= ~one.where(is_written)
        return blank

    def with_cells(self, cells: Mapping[tuple[int, int], Cell]) -> "Grid":
        """Put other cells into some places, given as (row, column), both from 0."""
        columns = list(self.columns)
        for index in {column for _, column in cells}:
            here = {row: cell for (row, column), cell in cells.items() if column == index}
            columns[index] = columns[index].with_cells(here)
        return replace(self, columns=tuple(columns))


def _fill(column: tuple[_Numbers, list[npt.NDArray[np.int32]]], rows: int) -> None:
    """Put blanks into the next rows of a column."""
    numbers, parts = column
    if rows:
        parts.append(np.full(rows, numbers[""], dtype=np.int32))


def is_written(cell: Cell) -> bool:
    """Tell whether anything stands in a cell, were it only blanks."""
    return cell != ""
