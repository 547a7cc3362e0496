"""A grid gives back every cell as it was, whatever it keeps only once."""

import datetime as dt
from itertools import zip_longest

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.survey.grid import CellColumn, Grid

CELLS = st.sampled_from(
    ["", "a", "1", 1, 1.0, 0, 0.5, True, False, dt.date(1850, 1, 1), dt.datetime(1850, 1, 1)]
)
ROWS = st.lists(st.lists(CELLS, max_size=5), max_size=12)


def told(rows):
    """Cells with their kinds, since 1, 1.0 and true are equal."""
    return [[(type(cell), cell) for cell in row] for row in rows]


def padded(rows):
    return [list(row) for row in zip(*zip_longest(*rows, fillvalue=""))] or [[] for _ in rows]


@given(ROWS)
def test_rows_come_back_as_they_were_and_short_ones_with_blanks(rows):
    grid = Grid.of(rows)
    assert len(grid) == len(rows)
    assert told(grid) == told(grid[at] for at in range(len(grid))) == told(padded(rows))


def test_rows_of_all_lengths_far_apart_come_back():
    rows = [["a"]] * 250 + [["b", 1.0, "c"]] + [[]] * 300 + [["d", "e"]] + [["f"]] * 120
    assert told(Grid.of(rows)) == told(padded(rows))


@given(ROWS, st.slices(12))
def test_some_of_the_rows_are_a_grid_of_them(rows, some):
    assert told(Grid.of(rows)[some]) == told(padded(rows)[some])


@given(ROWS)
def test_blank_rows_are_those_that_hold_nothing(rows):
    assert Grid.of(rows).blank().tolist() == [all(cell == "" for cell in row) for row in rows]


@given(ROWS.filter(lambda rows: any(rows)), st.data())
def test_cells_are_put_in_at_their_places(rows, data):
    rows = padded(rows)
    places = st.tuples(st.integers(0, len(rows) - 1), st.integers(0, len(rows[0]) - 1))
    new = data.draw(st.dictionaries(places, CELLS))
    changed = Grid.of(rows).with_cells(new)
    for (row, column), cell in new.items():
        rows[row][column] = cell
    assert told(changed) == told(rows)
    kept = [told([one.cells])[0] for one in changed.columns]
    assert all(len(cells) == len(set(cells)) for cells in kept)


def test_each_distinct_cell_is_kept_and_judged_once():
    asked = []
    column = CellColumn.of(["16 mm", 16.0, "16 mm", 16, 16.0])
    assert told([column.cells]) == told([["16 mm", 16.0, 16]])
    assert column.where(lambda cell: asked.append(cell) or cell == 16).tolist() == [
        *(False, True, False, True, True)
    ]
    assert len(asked) == 3


def test_rows_are_taken_by_their_places_in_any_order():
    grid = Grid.of([["a", 1.0], ["b", 2.0], ["c", 3.0]])
    assert list(grid.taken(np.array([2, 0]))) == [("c", 3.0), ("a", 1.0)]
    assert grid.has(2, 1)
    assert not grid.has(3, 0)
    assert not grid.has(0, -1)
