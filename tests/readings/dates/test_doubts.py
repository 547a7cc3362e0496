"""What is doubtful in a date is told; what is not understood is not read.

No source: the kit's own rules, and wordings of common practice.
"""

from datetime import date

import pytest

from buttonstudy.readings.dates.reading import read_date
from buttonstudy.schemes.conventions import date_convention

TODAY = date(2026, 1, 1)

NOT_READ = [
    ("1840 Birmingham", "date-not-understood"),
    ("not 1840", "date-not-understood"),
    ("1840, not 1850", "date-not-understood"),
    ("1840 1860", "date-not-understood"),
    ("1840 before 1860", "date-not-understood"),
    ("1840-1850-1860", "date-not-understood"),
    ("1st quarter of the 1840s", "date-not-understood"),
    ("19th", "date-not-understood"),
    ("turn of the 17th-19th century", "date-not-understood"),
    ("-1860", "date-not-understood"),
    ("MDCCCXL", "date-not-understood"),
    ("43466", "date-not-understood"),
    ("0000", "date-not-understood"),
    ("George", "date-not-understood"),
    ("post-war", "date-not-understood"),
    ("present", "date-not-understood"),
    ("late present", "date-not-understood"),
    ("1885-1880s", "date-not-understood"),
    ("Victorian to 1860", "date-not-understood"),
    ("١٨٤٠", "date-not-understood"),
    ("1840 " * 50, "date-too-long"),
    ("1860-1840", "date-reversed"),
    ("1895–05", "date-reversed"),
    ("1860/1840", "date-reversed"),
    ("19th-18th century", "date-reversed"),
    ("2999", "date-future"),
    ("2020-2031", "date-future"),
    ("before 2999", "date-future"),
    ("after 2026", "date-future"),
    ("500 BC", "date-before-christ"),
    ("40", "date-two-figure-year"),
    ("1/10/75", "date-two-figure-year"),
    ("5/8", "date-two-figure-year"),
    ("the forties", "date-which-century"),
    ("'40s", "date-which-century"),
    ("turn of the century", "date-which-century"),
    # The turn of the 18th century may be 1700 or 1800 (The Chicago Manual of Style Online).
    ("turn of the 18th century", "date-which-century"),
    ("31/31/1875", "date-not-in-calendar"),
    ("1875-13-40", "date-not-in-calendar"),
    ("in the style of the 1840s", "date-style"),
    ("Victorian style", "date-style"),
    ("reproduction of a Georgian button", "date-style"),
    ("repaired 1900", "date-later-work"),
    ("1985 found at market", "date-later-work"),
    ("Victorian, c. 1950", "date-contradiction"),
    ("before 1840, after 1860", "date-contradiction"),
]

TO_CONFIRM = [
    ("1066", 1066, 1066, "date-early"),
    ("1840, Birmingham", 1840, 1840, "date-left-aside"),
    ("1840 with loop shank", 1840, 1840, "date-left-aside"),
    ("1840, 3rd variety", 1840, 1840, "date-left-aside"),
    ("1953, manufactured 2011", 2011, 2011, "date-left-aside"),
    ("designed 1934, manufactured 1940", 1940, 1940, "date-left-aside"),
    ("1956 (designed) 1975 (manufactured)", 1975, 1975, "date-left-aside"),
    ("patent 1846, made c. 1850", 1845, 1855, "date-left-aside"),
    ("1984, printed 1986", 1984, 1984, "date-left-aside"),
    ("1840, re-covered 1900", 1840, 1840, "date-left-aside"),
    ("19th century in the style of 16th century", 1800, 1899, "date-left-aside"),
    ("patented 1846", 1846, 1846, "date-design-only"),
    ("1840, 1860", 1840, 1860, "date-several"),
    ("1840-1860 (1850s?)", 1840, 1860, "date-several"),
    ("1840 and 1860", 1840, 1860, "date-alternatives"),
    ("16th or 18th century", 1500, 1799, "date-alternatives"),
    ("1800s", 1800, 1899, "date-hundreds"),
    ("early 1800s", 1800, 1833, "date-hundreds"),
    ("1906-08", 1906, 1908, "date-month-or-years"),
    ("1840-05", 1840, 1840, "date-month-or-years"),
    ("1989-", 1989, None, "date-open-dash"),
    ("late 19th", 1867, 1899, "date-century-assumed"),
    ("late 1860", 1860, 1860, "date-part-of-year"),
    ("early Edwardian", 1901, 1909, "date-part-of-period"),
    ("Georgian", 1714, 1830, "date-period-varies"),
    ("Regency", 1811, 1820, "date-period-varies"),
    ("Regency, c. 1800", 1795, 1805, "date-period-varies"),
    ("early Victorian", 1837, 1850, "date-period-varies"),
]


@pytest.mark.parametrize(("text", "kind"), NOT_READ)
def test_what_is_not_certain_is_not_read_and_told(text, kind):
    reading = read_date(text, date_convention("buttonstudy"), TODAY)
    assert (reading.earliest, reading.latest, reading.basis, reading.edtf) == (None, None, "", "")
    assert [doubt.kind for doubt in reading.doubts] == [kind]
    assert reading.doubts[0].fatal


@pytest.mark.parametrize(("text", "earliest", "latest", "kind"), TO_CONFIRM)
def test_what_has_another_meaning_is_read_and_asked_about(text, earliest, latest, kind):
    reading = read_date(text, date_convention("buttonstudy"), TODAY)
    assert (reading.earliest, reading.latest) == (earliest, latest)
    assert [doubt.kind for doubt in reading.doubts] == [kind]
    assert not reading.doubts[0].fatal
    assert reading.doubts[0].note == (kind == "date-period-varies")


def test_the_messages_are_sentences_that_show_what_was_read():
    def said(text):
        doubt = read_date(text, date_convention("buttonstudy"), TODAY).doubts[0]
        return f"{doubt.says} {doubt.remedy}"

    assert said("1860-1840") == (
        "The date runs backwards, from 1860 to 1840. "
        "Exchange the two years, or correct the wrong one."
    )
    assert said("made 1840 (Birmingham)") == (
        '"Birmingham" was left aside; the rest was read as 1840. '
        "Check that this is meant; otherwise write the years, such as 1840-1860."
    )
    assert said("George") == (
        '"George" was not understood as a date. '
        "Write the years, such as 1840, c. 1840 or 1840-1860."
    )
    assert said("Georgian").startswith(
        "Georgian was read as 1714-1830; others carry it on to 1837, with William IV. "
    )
    assert said("1900s").startswith(
        'Some use "1900s" for the century, others for its first ten years; 1900-1999 was read. '
    )
    assert said("x" * 100).startswith('"' + "x" * 59 + "…")


def test_a_doubt_is_told_once():
    reading = read_date("Georgian, Georgian", date_convention("buttonstudy"), TODAY)
    assert len(reading.doubts) == 1
