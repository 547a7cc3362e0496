"""The trade size that a reading tells."""

import pytest

from buttonstudy.readings.lengths.trade_lines import nearest_trade_lines

LINE = 0.635

# Lines from, best, to; the trade sizes told. Even lines plus 45, 55 and 65: published trade tables
# (apparelscience.com, blog.treasurie.com, workroombuttons.com, gotanotion.shop).
TRADE = [
    (24, 24, 24, "24"),
    (23.5, 24, 24.5, "24"),
    (23, 24, 25, "24"),
    (24.4, 25.2, 25.98, "24–26"),
    (25, 25, 25, "24–26"),
    (22.5, 25, 27.5, "22–28"),
    (44.6, 45, 45.4, "45"),
    (44.4, 45, 45.4, "44–45"),
    (45.6, 46, 46.4, "46"),
    (54.9, 55, 55.1, "55"),
    (64.9, 65, 65.1, "65"),
    (74.9, 75, 75.1, "74–76"),
    (0.4, 0.5, 0.6, ""),
    (300, 300, 300, ""),
]


@pytest.mark.parametrize(("low", "best", "high", "told"), TRADE)
def test_the_nearest_trade_size_is_told_with_an_honest_between(
    low: float, best: float, high: float, told: str
) -> None:
    assert nearest_trade_lines(low * LINE, best * LINE, high * LINE) == told


# Nearest line: 15 mm is 24 L, 10 mm is 16 L (apparelscience.com, textilecalculator.com).
@pytest.mark.parametrize(("mm", "told"), [(15, "24"), (10, "16")])
def test_mm_give_the_line_that_published_examples_give(mm: float, told: str) -> None:
    assert nearest_trade_lines(mm, mm, mm) == told
