"""Units against the GNU units definitions and the laws that they cite."""

import shutil
import subprocess
from fractions import Fraction

import pytest

from buttonstudy.schemes.tables import SchemeError, rows
from buttonstudy.schemes.units import _millimetres, plain_marks, unit_marks, unit_named, units

# Inch: international yard and pound agreement of 1959. Button line: 1/40 inch, US Tariff Act 1897,
# paragraph 414 (Statutes at Large 30, p. 190). Paris line: 1/144 of 144/443.296 m, French law of
# 10 December 1799 as cited in GNU units definitions, Debian package units 2.22-2.
EXACT = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    "lines": Fraction(254, 10) / 40,
    "Paris lines": 1000 * (Fraction(144 * 1000, 443296) / 144),
}

# As GNU units 2.22 prints them: units -t "buttonline" mm; units -t "frenchline" mm.
PRINTED = {"in": "25.4", "lines": "0.635", "Paris lines": "2.2558291"}
GNU_NAMES = {"in": "inch", "lines": "buttonline", "Paris lines": "frenchline"}

NAMED = {
    "mm": "mm",
    "MM": "mm",
    "millimetres": "mm",
    "cm.": "cm",
    "metre": "m",
    "in": "in",
    "ins.": "in",
    "Inches": "in",
    '"': "in",
    "”": "in",
    "″": "in",
    "''": "in",
    "’’": "in",
    "L": "lines",
    "ligne": "lines",
    "Lignes": "lines",
    "button lines": "lines",
    "'''": "lines",
    "‴": "lines",
    "′′′": "lines",
    "Paris lines": "Paris lines",
    "French  ligne": "Paris lines",
    "": "",
    "ft": "",
    "'": "",
    "lines of stitching": "",
}


def test_each_unit_is_its_published_number_of_millimetres() -> None:
    assert units() == EXACT


@pytest.mark.parametrize("unit", PRINTED)
def test_units_are_those_that_gnu_units_prints(unit: str) -> None:
    assert f"{float(units()[unit]):.8g}" == PRINTED[unit]


@pytest.mark.skipif(shutil.which("units") is None, reason="GNU units is not installed")
@pytest.mark.parametrize("unit", GNU_NAMES)
def test_units_are_those_of_the_installed_gnu_units(unit: str) -> None:
    printed = subprocess.run(
        ["units", "-t", "-d", "15", GNU_NAMES[unit], "mm"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert float(printed.stdout) == pytest.approx(float(units()[unit]), rel=1e-13)


def test_a_paris_line_is_three_and_a_half_button_lines() -> None:
    """The ratio that tells how wrong a mix-up is: 3.5525, from the two definitions."""
    assert round(float(units()["Paris lines"] / units()["lines"]), 4) == 3.5525


@pytest.mark.parametrize("text", NAMED)
def test_units_are_named_by_their_words_and_marks(text: str) -> None:
    assert unit_named(text) == NAMED[text]


def test_no_mark_stands_for_two_units() -> None:
    marks = [mark.strip() for row in rows("units") for mark in row["marks"].split(";")]
    assert len(marks) == len(set(marks))
    assert set(unit_marks().values()) == set(units())


def test_every_unit_has_a_source() -> None:
    assert all(row["source"] for row in rows("units"))


def test_marks_become_plain() -> None:
    assert plain_marks("1″ 2“ 3” 4'' 5’’ 6´´ 7\"\" 8‴ 9''' 10’’’ 11′ 12\"'") == (
        '1" 2" 3" 4" 5" 6" 7" 8‴ 9‴ 10‴ 11\' 12‴'
    )


def test_an_unreadable_unit_is_told_with_its_place() -> None:
    row = next(row for row in rows("units") if row["name"] == "in")
    spoilt = type(row)({**row, "mm": "25,4"}, row.file, row.number)
    with pytest.raises(SchemeError, match=r'units.csv, row 5, column mm: "25,4" is not a number'):
        _millimetres(spoilt)
