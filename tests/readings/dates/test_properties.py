"""Properties of date readings that hold for any text, and for wordings made from known years."""

import warnings
from datetime import date

from hypothesis import given, settings
from hypothesis import strategies as st

from buttonstudy.readings.dates.reading import read_date
from buttonstudy.schemes.conventions import date_convention, date_conventions
from buttonstudy.schemes.limits import limit

TODAY = date(2026, 1, 1)
YEARS = st.integers(min_value=1300, max_value=2020)
NAMES = st.sampled_from(date_conventions())

WORDS = (
    "1840 1860 40 7 1840s 1800s 19th 18th c. ca. century early mid late half first second quarter "
    "turn of the before after by or earlier or later from to between and until - – / , ; : ( ) [ ] "
    "? ~ X 18XX 184X .. % designed made printed style with Victorian George III Regency June 12 "
    "1/10/1875 present BC AD n.d. Birmingham 's '"
)
PIECES = st.sampled_from(WORDS.split(" "))
PHRASES = st.builds(
    lambda pieces, mark: mark.join(pieces), st.lists(PIECES, max_size=9), st.sampled_from([" ", ""])
)
EDTF_LIKE = st.text(alphabet="0189X?~%/.,-[]{}TZ:", max_size=14)


def checked(text, name):
    reading = read_date(text, date_convention(name), TODAY)
    assert reading.text == text
    fatal = [doubt for doubt in reading.doubts if doubt.fatal]
    if reading.earliest is None and reading.latest is None:
        assert reading.edtf == ""
        assert fatal or reading.basis == "undated" or not text.strip()
        assert len(reading.doubts) == len(fatal) <= 1
        return
    assert not fatal
    assert reading.basis
    assert reading.edtf
    for year in (reading.earliest, reading.latest):
        assert year is None or 1 <= year <= TODAY.year
    if reading.earliest is not None and reading.latest is not None:
        assert reading.earliest <= reading.latest
    first = reading.latest if reading.earliest is None else reading.earliest
    if first + 10 < limit("date-earliest-plausible"):
        assert reading.doubts


@given(st.text(max_size=300), NAMES)
def test_any_text_gives_a_reading_or_a_doubt(text, name):
    checked(text, name)


@settings(max_examples=400, deadline=None)
@given(PHRASES, NAMES)
def test_any_heap_of_date_words_gives_a_reading_or_a_doubt(text, name):
    checked(text, name)


@settings(max_examples=60, deadline=None)
@given(EDTF_LIKE)
def test_any_heap_of_edtf_marks_gives_a_reading_or_a_doubt(text):
    checked(text, "buttonstudy")


@settings(max_examples=40, deadline=None)
@given(PHRASES)
def test_whatever_is_read_is_written_in_edtf_that_the_library_reads(text):
    reading = read_date(text, date_convention("buttonstudy"), TODAY)
    if reading.edtf:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            from edtf import parse_edtf
        parse_edtf(reading.edtf)


@given(YEARS)
def test_a_written_year_is_read_back(year):
    for text in (f"{year}", f" {year} ", f"({year})", f"in {year}", f"12 June {year}"):
        reading = read_date(text, date_convention("buttonstudy"), TODAY)
        assert (reading.earliest, reading.latest, reading.doubts) == (year, year, ())


@given(YEARS, YEARS)
def test_a_written_range_is_read_back_whatever_joins_it(one, other):
    first, last = sorted((one, other))
    for text in (
        f"{first}-{last}",
        f"{first}–{last}",
        f"{first} — {last}",
        f"{first} to {last}",
        f"from {first} to {last}",
        f"between {first} and {last}",
    ):
        reading = read_date(text, date_convention("buttonstudy"), TODAY)
        assert (reading.earliest, reading.latest, reading.doubts) == (first, last, ())


@given(YEARS, st.integers(min_value=1, max_value=99))
def test_an_abbreviated_end_year_is_read_in_the_same_century_or_told(first, end):
    reading = read_date(f"{first}–{end:02d}", date_convention("buttonstudy"), TODAY)
    last = first // 100 * 100 + end
    if first <= last <= TODAY.year:
        assert (reading.earliest, reading.latest, reading.doubts) == (first, last, ())
    else:
        assert reading.earliest is None
        assert reading.doubts[0].kind in {"date-reversed", "date-future"}


@given(st.integers(min_value=130, max_value=201), NAMES)
def test_a_written_decade_is_read_back(tens, name):
    reading = read_date(f"{tens * 10}s", date_convention(name), TODAY)
    if tens % 10:
        assert (reading.earliest, reading.latest) == (tens * 10, tens * 10 + 9)
    else:
        assert [doubt.kind for doubt in reading.doubts] == ["date-hundreds"]


@given(YEARS)
def test_a_year_in_words_of_doubt_holds_the_year(year):
    for text in (f"c. {year}", f"{year}?", f"{year} or earlier", f"since {year}", f"by {year}"):
        reading = read_date(text, date_convention("buttonstudy"), TODAY)
        assert reading.earliest is None or reading.earliest <= year
        assert reading.latest is None or reading.latest >= year
