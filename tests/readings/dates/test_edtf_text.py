"""EDTF: the specification's examples read, and every reading written in it.

Examples: Library of Congress, Extended Date/Time Format (EDTF) Specification, 4 February 2019.
"""

import warnings
from datetime import date

import pytest

from buttonstudy.readings.dates.reading import read_date
from buttonstudy.schemes.conventions import date_convention

TODAY = date(2026, 1, 1)

# Levels 0 to 2. ~ is c. and ? adds nothing, by the kit's default convention.
SPECIFICATION = [
    ("1985-04-12", 1985, 1985),
    ("1985-04", 1985, 1985),
    ("1985", 1985, 1985),
    ("1985-04-12T23:20:30", 1985, 1985),
    ("1985-04-12T23:20:30Z", 1985, 1985),
    ("1985-04-12T23:20:30-04", 1985, 1985),
    ("1985-04-12T23:20:30+04:30", 1985, 1985),
    ("1964/2008", 1964, 2008),
    ("2004-06/2006-08", 2004, 2006),
    ("2004-02-01/2005-02-08", 2004, 2005),
    ("2004-02-01/2005", 2004, 2005),
    ("2005/2006-02", 2005, 2006),
    ("1984?", 1984, 1984),
    ("2004-06~", 1999, 2009),
    ("2004-06-11%", 1999, 2009),
    ("201X", 2010, 2019),
    ("2004-XX", 2004, 2004),
    ("1985-04-XX", 1985, 1985),
    ("1985-XX-XX", 1985, 1985),
    ("1985-04-12/..", 1985, None),
    ("1985/..", 1985, None),
    ("../1985-04-12", None, 1985),
    ("../1985", None, 1985),
    ("1985/", 1985, None),
    ("1985-04-12/", 1985, None),
    ("/1985-04-12", None, 1985),
    ("/1985", None, 1985),
    ("1984~/2004-06", 1979, 2004),
    ("1984/2004-06~", 1984, 2009),
    ("1984-06?/2004-08?", 1984, 2004),
    ("[1667,1668,1670..1672]", 1667, 1672),
    ("[..1760-12-03]", None, 1760),
    ("[1760-12..]", 1760, None),
    ("[1667,1760-12]", 1667, 1760),
    ("{1667,1668,1670..1672}", 1667, 1672),
    ("{1960,1961-12}", 1960, 1961),
    ("{..1984}", None, 1984),
    ("156X-12-25", 1560, 1569),
    ("15XX-12-25", 1500, 1599),
    ("2004-06-~01/2004-06-~20", 1999, 2009),
    ("2004-06-XX/2004-07-03", 2004, 2004),
]

# No years of a button, a year that is not told, or a form that English uses otherwise.
TOLD = [
    "Y170000002",
    "Y-17E7",
    "-1985",
    "1950S2",
    "XXXX-12-XX",
    "1984-1X",
    "20XX",
    "2001-34",
    "1XXX-12",
]

# Simple forms, read without the library: it must say the same of them.
SIMPLE = ["184X", "18XX", "1840~", "1840%", "1840/1860", "184X/186X", "1840~/1860?", "../1840"]

WRITTEN = [
    ("1840", "1840"),
    ("1840-60", "1840/1860"),
    ("c. 1860", "1860~"),
    ("c. 1840-60", "1840~/1860~"),
    ("1691-c.1695", "1691/1695~"),
    ("1860?", "1860?"),
    ("possibly c. 1860", "1860%"),
    ("1840s", "184X"),
    ("c. 1840s", "184X~"),
    ("19th century", "18XX"),
    ("late 19th century", "1867/1899"),
    ("c. late 19th century", "1867~/1899~"),
    ("18th-19th century", "1700/1899"),
    ("before 1840", "../1839"),
    ("1840 or later", "1840/.."),
    ("1845 or 1840", "[1840,1845]"),
    ("1840-1845 or 1850", "1840/1850"),
    ("c. 1840 or 1850", "1840~/1850~"),
    ("Victorian", "1837/1900"),
    ("1840, 1860", "1840/1860"),
    ("after 1840, before 1860", "1841/1859"),
    ("184X", "184X"),
    ("1840/..", "1840/.."),
]


def parsed(text):
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from edtf import parse_edtf
    return parse_edtf(text)


def year(bound):
    return None if isinstance(bound, float) else bound[0]


@pytest.mark.parametrize(("text", "earliest", "latest"), SPECIFICATION)
def test_examples_of_the_specification_are_read(text, earliest, latest):
    reading = read_date(text, date_convention("buttonstudy"), TODAY)
    assert (reading.earliest, reading.latest) == (earliest, latest)


@pytest.mark.parametrize("text", TOLD)
def test_what_is_no_button_s_date_or_has_another_meaning_is_told(text):
    assert read_date(text, date_convention("buttonstudy"), TODAY).doubts


def test_seasons_are_not_taken_from_spans_of_years():
    """2001-21 is a spring in EDTF and 2001 to 2021 in a catalogue; the years are not doubtful."""
    reading = read_date("1901-21", date_convention("buttonstudy"), TODAY)
    assert (reading.earliest, reading.latest) == (1901, 1921)


@pytest.mark.parametrize("text", SIMPLE)
def test_simple_forms_are_read_as_the_library_reads_them(text):
    reading = read_date(text, date_convention("buttonstudy"), TODAY)
    library = parsed(text)
    widened = 5 if "~" in text or "%" in text else 0
    first, last = year(library.lower_strict()), year(library.upper_strict())
    assert reading.edtf == text
    if first is not None:
        assert first - widened <= reading.earliest <= first
    if last is not None:
        assert last <= reading.latest <= last + widened
    if not widened:
        assert (reading.earliest, reading.latest) == (first, last)


@pytest.mark.parametrize(("text", "edtf"), WRITTEN)
def test_readings_are_written_in_edtf_that_the_library_reads_back(text, edtf):
    reading = read_date(text, date_convention("buttonstudy"), TODAY)
    assert reading.edtf == edtf
    library = parsed(edtf)
    if not set("~%") & set(edtf):
        bounds = (year(library.lower_strict()), year(library.upper_strict()))
        assert bounds == (reading.earliest, reading.latest)


@pytest.mark.parametrize(
    ("text", "basis"),
    [
        ("1840~", "circa year"),
        ("184X", "decade"),
        ("18XX%", "uncertain circa century"),
        ("1840/1860", "range"),
        ("1840/..", "open end"),
        ("[1840,1845]", "alternatives"),
        ("[1840..1845]", "alternatives"),
        ("156X-12-25", "decade"),
    ],
)
def test_how_it_was_read_is_told_in_the_words_used_for_english(text, basis):
    assert read_date(text, date_convention("buttonstudy"), TODAY).basis == basis


def test_an_end_that_a_convention_closes_stays_open_in_edtf():
    reading = read_date("before 1920", date_convention("carnegie"), TODAY)
    assert (reading.earliest, reading.latest, reading.edtf) == (1900, 1920, "../1920")


def test_the_library_prints_nothing(capsys):
    read_date("1984-1X", date_convention("buttonstudy"), TODAY)
    assert capsys.readouterr() == ("", "")
