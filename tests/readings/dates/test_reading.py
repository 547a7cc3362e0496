"""Wordings of dates and the years they are read as, under named conventions.

Wordings without a source beside them are common practice, no source. Years are inclusive.
"""

from datetime import date

import pytest

from buttonstudy.readings.dates.reading import read_date
from buttonstudy.schemes.conventions import convention_table, date_convention, date_conventions

TODAY = date(2026, 1, 1)

# Read under the kit's default without any doubt.
PLAIN = [
    ("1840", 1840, 1840, "year"),
    ("1840.0", 1840, 1840, "year"),
    ("[1840]", 1840, 1840, "year"),
    ("dated 1846", 1846, 1846, "year"),
    ("A.D. 1840", 1840, 1840, "year"),
    ("1840-1860", 1840, 1860, "range"),
    ("1840–60", 1840, 1860, "range"),
    ("1840—60", 1840, 1860, "range"),
    ("1840-6", 1840, 1846, "range"),
    ("1840 to 1860", 1840, 1860, "range"),
    ("from 1840 to 1860", 1840, 1860, "range"),
    ("between 1840 and 1860", 1840, 1860, "range"),
    ("1840 until 1860", 1840, 1860, "range"),
    ("1855/56", 1855, 1856, "range"),
    ("1840-present", 1840, 2026, "range"),
    ("1840 or 1841", 1840, 1841, "alternatives"),
    ("1840s", 1840, 1849, "decade"),
    ("1840's", 1840, 1849, "decade"),
    ("1840s-50s", 1840, 1859, "range"),
    ("1890s-1900s", 1890, 1909, "range"),
    ("1900s-1910s", 1900, 1919, "range"),
    ("eighteen-forties", 1840, 1849, "decade"),
    ("early 1840s", 1840, 1843, "decade part"),
    ("mid-1840s", 1844, 1846, "decade part"),
    ("late 1840s-early 1850s", 1847, 1853, "range"),
    ("19th century", 1800, 1899, "century"),
    ("19th-century", 1800, 1899, "century"),
    ("19th c.", 1800, 1899, "century"),
    ("19thC", 1800, 1899, "century"),
    ("C19", 1800, 1899, "century"),
    ("C.19th", 1800, 1899, "century"),
    ("nineteenth century", 1800, 1899, "century"),
    ("XIX century", 1800, 1899, "century"),
    ("18th cent.", 1700, 1799, "century"),
    ("21st century", 2000, 2026, "century"),
    ("early 19th century", 1800, 1833, "century part"),
    ("beginning of the 19th century", 1800, 1833, "century part"),
    ("mid-19th century", 1834, 1866, "century part"),
    ("late C18", 1767, 1799, "century part"),
    ("19th century, late", 1867, 1899, "century part"),
    ("first half of the 19th century", 1800, 1849, "century part"),
    ("last half of 18th century", 1750, 1799, "century part"),
    ("3rd quarter 19th c", 1850, 1874, "century part"),
    ("1st-2nd quarter 19th c.", 1800, 1849, "range"),
    ("last third of the 18th century", 1767, 1799, "century part"),
    ("last decade of the 19th century", 1890, 1899, "century part"),
    ("early-mid 19th century", 1800, 1866, "range"),
    ("early- to mid-18th century", 1700, 1766, "range"),
    ("late 18th-early 19th century", 1767, 1833, "range"),
    ("late 18th century to early 19th century", 1767, 1833, "range"),
    ("18th–19th century", 1700, 1899, "range"),
    ("17th and 18th centuries", 1600, 1799, "alternatives"),
    ("C18/19", 1700, 1899, "range"),
    ("19th-early 20th century", 1800, 1933, "range"),
    ("turn of the 19th/20th century", 1890, 1910, "turn of centuries"),
    ("c. 1860", 1855, 1865, "circa year"),
    ("c1860", 1855, 1865, "circa year"),
    ("CA.1860", 1855, 1865, "circa year"),
    ("about 1860", 1855, 1865, "circa year"),
    ("1860 (approx.)", 1855, 1865, "circa year"),
    ("~ 1860", 1855, 1865, "circa year"),
    ("c. 1840-60", 1835, 1865, "circa range"),
    ("1691-c.1695", 1691, 1700, "circa range"),
    ("c. 1920-c.1929", 1915, 1934, "circa range"),
    ("c. 1761 - early 1770s", 1756, 1778, "circa range"),
    ("c. 1840s", 1835, 1854, "circa decade"),
    ("c. 19th century", 1795, 1904, "circa century"),
    ("probably 1860", 1860, 1860, "uncertain year"),
    ("1860 (?)", 1860, 1860, "uncertain year"),
    ("possibly c. 1860", 1855, 1865, "uncertain circa year"),
    ("before 1840", None, 1839, "open end"),
    ("pre-1840", None, 1839, "open end"),
    ("by 1840", None, 1840, "open end"),
    ("until 1840", None, 1840, "open end"),
    ("not later than 1840", None, 1840, "open end"),
    ("1840 or earlier", None, 1840, "open end"),
    ("before c. 1840", None, 1844, "circa open end"),
    ("before the 19th century", None, 1799, "open end"),
    ("after 1840", 1841, None, "open end"),
    ("post-1840", 1841, None, "open end"),
    ("after the 1840s", 1850, None, "open end"),
    ("no earlier than 1840", 1840, None, "open end"),
    ("1840 or later", 1840, None, "open end"),
    ("1840 onwards", 1840, None, "open end"),
    ("from 1840", 1840, None, "open end"),
    ("after 1840, before 1860", 1841, 1859, "range"),
    ("after 1840 but before 1860", 1841, 1859, "range"),
    ("1/10/1875", 1875, 1875, "calendar date"),
    ("31.12.1875", 1875, 1875, "calendar date"),
    ("1875-10-01 00:00:00", 1875, 1875, "calendar date"),
    ("12 August 1795", 1795, 1795, "calendar date"),
    ("August 12th, 1795", 1795, 1795, "calendar date"),
    ("Oct. 1950", 1950, 1950, "calendar date"),
    ("June 9-11, 1953", 1953, 1953, "calendar date"),
    ("December 1945 - January 1946", 1945, 1946, "range"),
    ("Autumn 1916", 1916, 1916, "calendar date"),
    ("18--", 1800, 1899, "century"),
    ("186-", 1860, 1869, "decade"),
    ("17??", 1700, 1799, "century"),
    ("19th century, c. 1850", 1845, 1855, "circa year"),
    ("1840s, 1845", 1845, 1845, "year"),
]

# Reigns: docslib.org list of British monarchs; periods: the sources in named_periods.csv.
PERIODS = [
    ("Victorian", 1837, 1900),
    ("Vic.", 1837, 1900),
    ("Queen Victoria", 1837, 1901),
    ("reign of George III", 1760, 1820),
    ("Geo. III", 1760, 1820),
    ("Wm IV", 1830, 1837),
    ("Edwardian period", 1901, 1909),
    ("George III - William IV", 1760, 1837),
    ("Victorian/Edwardian", 1837, 1909),
    ("Victorian/1840s", 1837, 1900),
    ("late Victorian", 1870, 1900),
    ("Queen Anne", 1702, 1714),
    ("World War II", 1939, 1945),
    ("before the First World War", None, 1913),
    ("Victorian, c. 1860", 1855, 1865),
    ("Edward VII (1901-1910)", 1901, 1910),
]

# PyPI edtf 5.0.2, text_to_edtf, misreads or does not read these; tried for this kit.
MISREAD_ELSEWHERE = [
    ("1840–60", 1840, 1860),
    ("1775–80", 1775, 1780),
    ("1850–1900", 1850, 1900),
    ("1820–30", 1820, 1830),
    ("1900–03", 1900, 1903),
    ("ca. 1900–03", 1895, 1908),
    ("1840 to 1860", 1840, 1860),
    ("between 1840 and 1860", 1840, 1860),
    ("from 1840 to 1860", 1840, 1860),
    ("pre-1900", None, 1899),
    ("post 1840", 1841, None),
    ("not later than 1900", None, 1900),
    ("c. 1840-60", 1835, 1865),
    ("1860 or 1861", 1860, 1861),
    ("1860 (ca.)", 1855, 1865),
    ("late 1840s", 1847, 1849),
    ("mid 19th century", 1834, 1866),
    ("second quarter of the 19th century", 1825, 1849),
    ("18th-19th century", 1700, 1899),
    ("late 18th–early 19th century", 1767, 1833),
    ("C19", 1800, 1899),
    ("19th c.", 1800, 1899),
    ("17--", 1700, 1799),
    ("186-", 1860, 1869),
    ("Victorian", 1837, 1900),
    ("June 1855", 1855, 1855),
    ("Spring 1855", 1855, 1855),
]

# Every date wording of the museum buttons in open data (Cooper Hewitt, The Met; CC0), read by eye.
MUSEUM_BUTTONS = [
    ("late 18th century", 1767, 1799),
    ("1943", 1943, 1943),
    ("late 19th century", 1867, 1899),
    ("19th century", 1800, 1899),
    ("ca. 1860", 1855, 1865),
    ("1775–80", 1775, 1780),
    ("19th–20th century", 1800, 1999),
    ("18th–19th century", 1700, 1899),
    ("1820–30", 1820, 1830),
    ("17th century", 1600, 1699),
    ("ca. 1898", 1893, 1903),
    ("1850–1900", 1850, 1900),
    ("ca. 1930–40", 1925, 1945),
    ("1900–03", 1900, 1903),
    ("ca. 1900–03", 1895, 1908),
    ("mid-19th century", 1834, 1866),
    ("fall 1938", 1938, 1938),
]

# The same wording under conventions that differ; sources in date_conventions.csv.
CONVENTIONS = [
    ("quarters", "late 19th century", 1875, 1899),
    ("quarters", "mid-19th century", 1850, 1850),
    ("quarters", "late 18th-early 19th century", 1775, 1825),
    ("thirds", "late 19th century", 1867, 1899),
    ("carnegie", "c. 1920s", 1915, 1935),
    ("carnegie", "early 1860s", 1860, 1865),
    ("carnegie", "c. late 19th-early 20th century", 1875, 1930),
    ("carnegie", "1956?", 1953, 1959),
    ("carnegie", "before 1920", 1900, 1920),
    ("object-id", "ca. 1860", 1850, 1870),
    ("object-id", "before 1900", 1800, 1899),
    ("object-id", "after 2000", 2001, 2026),
    ("strict-centuries", "18th century", 1701, 1800),
    ("strict-centuries", "last quarter of the 18th century", 1776, 1800),
]

UNDATED = ["undated", "n.d.", "N. D.", "no date", "not dated", "unknown", "Date unknown", "?", "-"]


def years(text, name="buttonstudy"):
    reading = read_date(text, date_convention(name), TODAY)
    return reading.earliest, reading.latest


@pytest.mark.parametrize(("text", "earliest", "latest", "basis"), PLAIN)
def test_plain_wordings_are_read_without_a_doubt(text, earliest, latest, basis):
    reading = read_date(text, date_convention("buttonstudy"), TODAY)
    assert (reading.earliest, reading.latest, reading.basis) == (earliest, latest, basis)
    assert reading.doubts == ()
    assert reading.text == text


@pytest.mark.parametrize(("text", "earliest", "latest"), PERIODS)
def test_reigns_and_named_periods_are_read_from_their_table(text, earliest, latest):
    assert years(text) == (earliest, latest)


@pytest.mark.parametrize(("text", "earliest", "latest"), MISREAD_ELSEWHERE)
def test_wordings_that_the_edtf_library_misreads_are_read(text, earliest, latest):
    assert years(text) == (earliest, latest)


@pytest.mark.parametrize(("text", "earliest", "latest"), MUSEUM_BUTTONS)
def test_date_wordings_of_museum_buttons_are_read(text, earliest, latest):
    assert years(text) == (earliest, latest)


@pytest.mark.parametrize(("name", "text", "earliest", "latest"), CONVENTIONS)
def test_the_convention_decides(name, text, earliest, latest):
    assert years(text, name) == (earliest, latest)


@pytest.mark.parametrize("name", date_conventions())
def test_the_printed_convention_is_the_one_that_is_read_by(name):
    for wording, read_as, _ in convention_table(date_convention(name)):
        earliest, latest = years(wording, name)
        if earliest is None:
            span = f"{latest} or earlier"
        elif latest is None:
            span = f"{earliest} or later"
        else:
            span = f"{earliest}-{latest}" if earliest < latest else f"{earliest}"
        assert read_as.startswith(f"{span}: "), wording


@pytest.mark.parametrize("text", UNDATED)
def test_saying_that_there_is_no_date_is_no_doubt(text):
    reading = read_date(text, date_convention("buttonstudy"), TODAY)
    assert (reading.earliest, reading.latest, reading.basis) == (None, None, "undated")
    assert reading.doubts == ()
    assert reading.edtf == ""


@pytest.mark.parametrize("text", ["", "  ", "\n"])
def test_a_blank_cell_says_nothing(text):
    reading = read_date(text, date_convention("buttonstudy"), TODAY)
    assert (reading.earliest, reading.latest, reading.basis, reading.doubts) == (None, None, "", ())


def test_today_may_be_given_and_else_is_the_day_it_is():
    convention = date_convention("buttonstudy")
    assert read_date("1990", convention, date(1985, 1, 1)).earliest is None
    assert read_date("c. 1984", convention, date(1985, 1, 1)).latest == 1985
    assert read_date("1840-present", convention).latest == date.today().year
