"""Measuring steps: stated by a recorder, or shown by a column."""

from fractions import Fraction

import pytest

from buttonstudy.readings.lengths.reading import read_lengths
from buttonstudy.readings.lengths.steps import lines_step, with_step

EVEN = [18, 20, 22, 24, 24, 26, 30, 40]

COLUMNS = [
    (EVEN, Fraction(2)),
    (EVEN[:-1], Fraction(1)),
    ([*EVEN, 25], Fraction(1)),
    ([*EVEN, 24.5], Fraction(1, 2)),
    ([24.25], Fraction(1, 2)),
    ([24], Fraction(1)),
    ([], Fraction(1)),
]

# Wording, stated step in mm, low, best, high.
STATED = [
    ("16 mm", 0.5, 15.75, 16, 16.25),
    ("16 mm", 2, 15, 16, 17),
    ("16.5 mm", 0.5, 16.25, 16.5, 16.75),
    ("c. 16 mm", 2, 14, 16, 18),
    ("15-17 mm", 2, 14, 16, 18),
    ("15-17 mm", 0.5, 14.75, 16, 17.25),
    ("24 L", 1.27, 14.605, 15.24, 15.875),
    ("1 mm", 4, 0, 1, 3),
]


@pytest.mark.parametrize(("values", "step"), COLUMNS)
def test_a_column_of_even_lines_was_given_to_even_lines(
    values: list[float], step: Fraction
) -> None:
    assert lines_step(values) == step


@pytest.mark.parametrize(("text", "step", "low", "best", "high"), STATED)
def test_a_stated_step_widens_or_narrows_the_interval(
    text: str, step: float, low: float, best: float, high: float
) -> None:
    one = with_step(read_lengths(text).lengths[0], step)
    assert (one.low, one.best, one.high) == pytest.approx((low, best, high))
    assert one.step_mm == step


def test_a_stated_step_keeps_everything_else() -> None:
    one = read_lengths("Ø 5/8 in").lengths[0]
    other = with_step(one, 1.0)
    assert (other.unit, other.dimension, other.best) == ("in", "diameter", one.best)
