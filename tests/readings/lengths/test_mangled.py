"""Sizes that a spreadsheet program changed.

What programs make of a typed 5/8, 9/16, 1 1/4 and 16 mm: measured with openpyxl, calamine and
pandas on workbooks written for it; Quartz, Bad Data Guide, issue 42; the day and month order by
language is common knowledge, no source.
"""

import datetime as dt
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.readings.lengths.mangled import (
    fraction_from_date,
    number_format_reading,
    read_back,
    reads_as_date,
)

RULER = [(over, under) for under in (2, 4, 8, 16, 32, 64) for over in range(1, under, 2)]

BACK = {
    "05-Aug": "5/8",
    "5-Aug": "5/8",
    "5 August": "5/8",
    "8-May": "5/8",
    "08-May": "5/8",
    "May-08": "5/8",
    "Sep-16": "9/16",
    "16-Sept": "9/16",
    "May-32": "5/32",
    "01-Feb": "1/2",
    "3-Apr": "3/4",
    "2026-08-05": "5/8",
    "2026-08-05 00:00:00": "5/8",
    "2026-08-05T00:00:00": "5/8",
    "2016-09-01 00:00:00": "9/16",
    "2026-01-16": "1/16",
    "05/08/2026": "5/8",
    "5.8.26": "5/8",
}

NOT_BACK = [
    "5/8",
    "16 mm",
    "10-Dec",
    "2-Aug",
    "8-Aug",
    "2026-12-10",
    "2026-13-45",
    "14-Foo",
    "",
    "May",
    "0-Aug",
    "5-Aug" + " " * 60,
]

DATES = ["10-Dec", "Dec-10", "5 August", "2026-12-10 00:00:00", "10/12/2026", "10.12.26"]
NO_DATES = ["5/8", "16 mm", "15-16", "10-Foo", "", "16 mm, 5-Aug", "1 " * 30]

# Value, number format, wording.
FORMATS = [
    (1.25, "# ?/?", "1 1/4"),
    (0.625, "# ?/?", "5/8"),
    (0.625, "?/?", "5/8"),
    (0.5625, "# ??/??", "9/16"),
    (0.625, "# ??/16", "10/16"),
    (1.25, "# ?/8", "1 2/8"),
    (2, "# ?/?", "2"),
    (1.25, "# ?/?;-# ?/?", "1 1/4"),
    (1.25, r'#\ ?/?" in"', "1 1/4 in"),
    (0.625, r"# ?/?\"", "5/8 in"),
    (0.3, "# ?/?", ""),
    (0.63, "# ?/8", ""),
    (-0.5, "# ?/?", ""),
    (16, '0" mm"', "16 mm"),
    (16.0, '0" mm"', "16 mm"),
    (15.9, '0" mm"', "15.9 mm"),
    (16, r'0.0\ "mm"', "16.0 mm"),
    (16.25, '0.0" mm"', "16.25 mm"),
    (16, r"0\m\m", "16 mm"),
    (1.6, '0.0" cm"', "1.6 cm"),
    (24, '0" L"', "24 lines"),
    (24, '0"L"', "24 lines"),
    (16, 'General" mm"', "16 mm"),
    (16, '"Ø "0" mm"', "16 mm"),
    (16, "[Red]0.0[$ mm]", "16.0 mm"),
    (16, "General", ""),
    (1912.1, "0.00", ""),
    (16, "#,##0.00", ""),
    (16, '0" kg"', ""),
    (16, "", ""),
    (float("nan"), '0" mm"', ""),
    (float("inf"), "# ?/?", ""),
]


@pytest.mark.parametrize("text", BACK)
def test_a_fraction_that_became_a_date_is_read_back(text: str) -> None:
    assert read_back(text) == BACK[text]


@pytest.mark.parametrize("text", NOT_BACK)
def test_what_no_fraction_fits_is_not_read_back(text: str) -> None:
    assert read_back(text) is None


@pytest.mark.parametrize(("over", "under"), [one for one in RULER if max(one) <= 12])
def test_every_fraction_stored_as_day_and_month_comes_back(over: int, under: int) -> None:
    """5/8 becomes 5 August where the day goes first, and 8 May where the month does."""
    for day, month in ((over, under), (under, over)):
        assert fraction_from_date(dt.datetime(2026, month, day)) == Fraction(over, under)
        assert fraction_from_date(dt.date(2026, month, day), "d-mmm") == Fraction(over, under)


@pytest.mark.parametrize(("over", "under"), [one for one in RULER if one[0] <= 12 and one[1] > 12])
def test_every_fraction_stored_as_month_and_year_comes_back(over: int, under: int) -> None:
    """9/16 becomes September 2016; years from 32 on are taken for 1932."""
    for century in (1900, 2000):
        stored = dt.date(century + under, over, 1)
        assert fraction_from_date(stored) == Fraction(over, under)
        assert fraction_from_date(stored, "mmm-yy") == Fraction(over, under)


def test_the_number_format_leaves_only_what_it_shows() -> None:
    assert fraction_from_date(dt.date(2016, 9, 1), "d-mmm") is None
    assert fraction_from_date(dt.date(2026, 8, 5), "mmm-yy") is None


@given(st.dates(dt.date(1900, 1, 1), dt.date(2099, 12, 31)))
def test_at_most_one_fraction_fits_a_date(date: dt.date) -> None:
    found = fraction_from_date(date)
    pairs = {(date.day, date.month), (date.month, date.day)}
    pairs |= {(date.month, date.year % 100)} if date.day == 1 else set()
    assert found is None or len(pairs & set(RULER)) == 1


@pytest.mark.parametrize("text", DATES)
def test_dates_are_known_as_dates(text: str) -> None:
    assert reads_as_date(text)


@pytest.mark.parametrize("text", NO_DATES)
def test_other_texts_are_not_taken_for_dates(text: str) -> None:
    assert not reads_as_date(text)


@pytest.mark.parametrize(("value", "number_format", "text"), FORMATS)
def test_a_number_is_worded_as_its_format_shows_it(
    value: float, number_format: str, text: str
) -> None:
    assert number_format_reading(value, number_format) == text


@given(st.floats(), st.text(alphabet='0#?/. "\\mcinL[]$;-', max_size=20))
def test_no_format_upsets_the_reader(value: float, number_format: str) -> None:
    number_format_reading(value, number_format)


@given(st.text(max_size=30))
def test_no_text_upsets_the_date_reader(text: str) -> None:
    read_back(text)
    reads_as_date(text)
