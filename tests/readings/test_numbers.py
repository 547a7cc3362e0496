"""Numbers as they are written, with their steps."""

import re
import sys
import unicodedata
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.readings.numbers import NUMBER, plain_digits, read_number
from buttonstudy.readings.spelt import in_figures

F = Fraction

# As written: value, step, form.
NUMBERS = {
    "16": (F(16), F(1), "whole"),
    "007": (F(7), F(1), "whole"),
    "0": (F(0), F(1), "whole"),
    "15.9": (F(159, 10), F(1, 10), "decimal"),
    "15,9": (F(159, 10), F(1, 10), "decimal"),
    "15.90": (F(159, 10), F(1, 100), "decimal"),
    "0.625": (F(5, 8), F(1, 1000), "decimal"),
    ".625": (F(5, 8), F(1, 1000), "decimal"),
    "5/8": (F(5, 8), F(1, 8), "fraction"),
    "10/16": (F(5, 8), F(1, 16), "fraction"),
    "5 /8": (F(5, 8), F(1, 8), "fraction"),
    "5/4": (F(5, 4), F(1, 4), "fraction"),
    "1 1/4": (F(5, 4), F(1, 4), "fraction"),
    "1-1/4": (F(5, 4), F(1, 4), "fraction"),
    "1  1/4": (F(5, 4), F(1, 4), "fraction"),
    "٣": (F(3), F(1), "whole"),
}

NO_NUMBERS = ["", " ", "x", "1/0", "1 9/8", "1.2.3", "1/2/3", "1e3", "-5", "1 2", "9" * 13, "²"]

# Fraction characters, slashes and blanks of all kinds, and what they become.
PLAIN = {
    "1¼": "1 1/4",
    "¾": "3/4",
    "1 ⅝": "1  5/8",
    "5⁄8": "5/8",
    "5∕8": "5/8",
    "1⁵⁄₈": "1 5/8",
    "⅟16": "1/16",
    "15–16": "15-16",
    "15\u00a0mm": "15 mm",
    "15·5": "15.5",
    "1\u200b6": "16",
    "16 mm": "16 mm",
}

SPELT = {
    "half an inch": "1/2 inch",
    "half-inch": "1/2-inch",
    "one half inch": "1/2 inch",
    "three quarters of an inch": "3/4 inch",
    "Three-quarter inch": "3/4 inch",
    "five eighths": "5/8",
    "3 quarters": "3/4",
    "one inch": "1 inch",
    "an inch": "1 inch",
    "an inch and a half": "1 1/2 inch",
    "one and a half inches": "1 1/2 inches",
    "two and three sixteenths inches": "2 3/16 inches",
    "1 and 1/2 in": "1 1/2 in",
    "16 and a half mm": "16 1/2 mm",
    "16 mm and 5/8 in": "16 mm and 5/8 in",
    "1 inch and 1/2 inch": "1 inch and 1/2 inch",
    "15 and 16 mm": "15 and 16 mm",
    "one button, 16 mm": "one button, 16 mm",
}


@pytest.mark.parametrize("text", NUMBERS)
def test_numbers_are_read_exactly_with_their_step(text: str) -> None:
    number = read_number(text)
    assert number is not None
    assert (number.value, number.step, number.form) == NUMBERS[text]


@pytest.mark.parametrize("text", NO_NUMBERS)
def test_what_is_no_number_is_not_read(text: str) -> None:
    assert read_number(text) is None


@pytest.mark.parametrize("text", PLAIN)
def test_odd_characters_become_plain(text: str) -> None:
    assert plain_digits(text) == PLAIN[text]


def vulgar_fractions() -> list[str]:
    """Every character that Unicode names a vulgar fraction."""
    characters = map(chr, range(sys.maxunicode + 1))
    return [one for one in characters if unicodedata.name(one, "").startswith("VULGAR FRACTION")]


def test_every_vulgar_fraction_of_unicode_is_read_with_its_numeric_value() -> None:
    """Values: the Unicode character database, through unicodedata.numeric."""
    found = vulgar_fractions()
    assert len(found) >= 19
    for character in found:
        for before in ("", "1", "1 "):
            number = read_number(plain_digits(before + character).replace("  ", " "))
            expected = unicodedata.numeric(character) + (1 if before else 0)
            assert number is not None, character
            assert float(number.value) == pytest.approx(expected, rel=1e-7), character


@given(st.integers(0, 400), st.integers(1, 64), st.integers(1, 6), st.sampled_from(" -"))
def test_a_mixed_number_comes_back(whole: int, over: int, power: int, mark: str) -> None:
    under = 2**power
    text = f"{whole}{mark}{over % under}/{under}"
    number = read_number(text)
    assert number is not None
    assert number.value == whole + F(over % under, under)
    assert number.step == F(1, under)


@given(st.decimals(0, 999, places=3), st.sampled_from(".,"))
def test_a_decimal_comes_back(value: object, mark: str) -> None:
    number = read_number(str(value).replace(".", mark))
    assert number is not None
    assert number.value == F(str(value))
    assert number.step == F(1, 1000)


@given(st.text())
def test_no_text_upsets_the_reader(text: str) -> None:
    read_number(plain_digits(text))


@pytest.mark.parametrize("text", ["5/8/2026", "1.2.3", "10:30", "1,234,567"])
def test_figures_that_go_on_are_no_number(text: str) -> None:
    found = re.search(NUMBER, text, re.VERBOSE)
    assert found is None or found.start() > 0


@pytest.mark.parametrize("text", SPELT)
def test_numbers_in_words_become_figures(text: str) -> None:
    assert in_figures(text) == SPELT[text]
