import pandas as pd
import pytest

from buttonstudy.draw import traits_figure
from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study import trait_rarity

TWO = PeriodScheme(
    "two", "Two", "invented", (Period("early", 1800, 1819), Period("late", 1820, 1839))
)


def _table(others=40):
    """An invented button with two traits: one that half the others have, one that none has."""
    buttons = pd.DataFrame(
        {
            "hole_fill": ["felt"] + ["felt", "wax"] * (others // 2),
            "thread": ["gold"] + ["linen"] * others,
            "year_from": 1800,
            "year_to": ([1819] * 11 + [1829] * others)[: others + 1],
        }
    )
    return trait_rarity(buttons, 0, TWO)


def test_the_rarest_trait_stands_first_and_periods_side_by_side():
    drawn = traits_figure(_table(), "A1")
    assert drawn.alt_text == (
        "Traits of button A1: how many other sets share each. Thread: gold, 0 of 40 (0 %, 0 to "
        "9 %); Hole fill: felt, 20 of 40 (50 %, 34 to 66 %)."
    )
    words = [text.get_text() for text in drawn.figure.texts]
    assert {"All other sets", "Dated wholly to early", "0 of 10", "5 of 10"} <= set(words)
    assert "40 other sets in this survey; the button's own set is left out" in drawn.caption


def test_enough_sets_are_a_dot_and_few_are_squares():
    whole, early = traits_figure(_table(), "A1").figure.axes
    dots = [place for line in whole.lines if line.get_marker() == "o" for place in line.get_xdata()]
    assert dots == [0, 0.5]
    assert not [line for line in early.lines if line.get_marker() == "o"]
    squares = sum(len(marks.get_offsets()) for marks in early.collections)
    assert squares == 20  # ten sets for each of two traits


@pytest.mark.parametrize("size", ["a5-column", "a5-page", "a4-page"])
def test_long_and_odd_names_stay_legible(legible, size):
    table = _table()
    odd = "cloth of many colours, wound over a former of uncertain stuff, $x_1$ <b> 釦"
    table.loc[table["term"] == "felt", "term"] = odd
    drawn = traits_figure(table, f"<i>1912/10 $y$</i> {odd}", size, source="invented.csv; 41 sets.")
    legible(drawn.figure)


def test_nothing_examined_is_said_in_words():
    drawn = traits_figure(_table(0), "A1")
    assert drawn.figure is None
    assert drawn.caption == (
        "There is no figure here: no trait of this record was examined on any other set."
    )
