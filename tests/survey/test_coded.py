import datetime as dt

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.survey.coded import coded
from buttonstudy.survey.sheets import wording

CELLS = st.one_of(
    st.text(max_size=6),
    st.floats(allow_nan=False, allow_infinity=False),
    st.booleans(),
    st.dates(),
    st.integers(min_value=-1000, max_value=1000),
)


@given(st.lists(CELLS, min_size=1, max_size=30))
def test_every_row_keeps_its_wording(cells):
    column = coded(cells)
    assert [column.wordings[code] for code in column.codes] == [wording(cell) for cell in cells]


def test_true_and_one_are_told_apart():
    column = coded([True, 1.0, dt.date(1850, 1, 1)])
    assert [column.wordings[code] for code in column.codes] == ["TRUE", "1", "1850-01-01"]


def test_blanks_are_missing_texts():
    column = coded(["a", "", "  ", "a"])
    assert column.texts().isna().tolist() == [False, True, True, False]
    assert column.is_filled().tolist() == [True, False, False, True]


def test_rows_are_found_by_their_code():
    column = coded(["a", "b", "a", "c", "b", "a"])
    found = {column.wordings[code]: rows.tolist() for code, rows in column.rows_by_code([0, 1, 2])}
    assert found == {"a": [0, 2, 5], "b": [1, 4], "c": [3]}


def test_rows_can_be_left_out():
    column = coded(["a", "b", "a"]).kept(np.array([True, False, True]))
    assert [column.wordings[code] for code in column.codes] == ["a", "a"]
    assert [rows.tolist() for _, rows in column.rows_by_code([0, 1])] == [[0, 1], []]


def test_each_distinct_wording_is_read_once():
    asked = []
    coded(["16 mm"] * 50 + [""]).understood(lambda text: asked.append(text), None)
    assert asked == ["16 mm"]
