import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.survey.sheets import column_letter, wording

WORDINGS = [
    ("5/8", "5/8"),
    (" 5/8 ", " 5/8 "),
    (16.0, "16"),
    (15.9, "15.9"),
    (0.1 + 0.2, "0.3"),
    (1912.1, "1912.1"),
    (True, "TRUE"),
    (False, "FALSE"),
    (dt.date(2026, 8, 5), "2026-08-05"),
    (dt.datetime(2026, 8, 5), "2026-08-05"),
    (dt.datetime(2026, 8, 5, 12, 30), "2026-08-05 12:30:00"),
    (dt.time(9, 30), "09:30:00"),
    ("", ""),
]


@pytest.mark.parametrize(("cell", "text"), WORDINGS)
def test_a_cell_is_worded_as_the_spreadsheet_shows_it(cell, text):
    assert wording(cell) == text


@given(st.integers(min_value=0, max_value=16_383))
def test_column_letters_agree_with_an_independent_library(index):
    # openpyxl counts columns from 1; .xlsx has 16,384 columns.
    from openpyxl.utils import get_column_letter

    assert column_letter(index) == get_column_letter(index + 1)
