import pandas as pd
import pytest
from matplotlib.collections import LineCollection

from buttonstudy.draw import periods_figure
from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study import date_spans, record_by_period

TWO = PeriodScheme(
    "two", "Two periods", "none", (Period("early", 1800, 1849), Period("late", 1850, 1899))
)


def _drawn(spans, **options):
    buttons = pd.DataFrame(spans, columns=["year_from", "year_to"]).astype("Int64")
    table, lines = record_by_period(buttons, TWO), date_spans(buttons)
    return periods_figure(table, lines, scheme="Two periods", **options)


def test_bars_part_what_lies_wholly_within_and_lines_show_every_date():
    drawn = _drawn([(1800, 1809), (1810, 1819), (1840, 1859), (None, None)])
    bars, lines = drawn.figure.axes
    assert [(bar.get_x(), bar.get_width()) for bar in bars.patches] == [
        (0, 2),
        (2, 0.5),
        (0, 0.5),
        (0, 1),
    ]
    (drawn_lines,) = (item for item in lines.collections if isinstance(item, LineCollection))
    years = [(segment[0][0], segment[1][0]) for segment in drawn_lines.get_segments()]
    assert years == [(1800, 1810), (1810, 1820), (1840, 1860)]
    words = [text.get_text() for text in drawn.figure.texts]
    assert {"early, 1800–1849", "3 (2 within)", "1 (0 within)", "Cannot be placed"} <= set(words)


def test_the_words_tell_how_wide_dates_are_and_what_is_left_over():
    drawn = _drawn([(1800, 1809), (1780, 1819), (1840, 1859), (None, None)])
    assert "4 sets, 1 of them dated wholly within one period." in drawn.caption
    assert "Half of the dates are 20 years long or less." in drawn.caption
    assert "1 set without a date that can be placed." in drawn.caption
    assert "of dates lies outside the periods." in drawn.caption
    assert drawn.alt_text.startswith("How the sets are dated. Sets by period: early 2, 1 wholly ")


def test_many_dates_are_thinned_and_the_caption_says_so():
    drawn = _drawn([(1800, 1800 + number % 50) for number in range(400)])
    (lines,) = drawn.figure.axes[1].collections
    assert 60 <= len(lines.get_segments()) <= 80  # so that each has white beside it
    assert "The lines are an even choice from 400 dated sets." in drawn.caption


@pytest.mark.parametrize("spans", [[], [(None, None)], [(1700, 1710)], [(1850, None)]])
def test_no_dates_within_the_periods_are_said_in_words(spans):
    drawn = _drawn(spans)
    assert drawn.figure is None
    assert drawn.caption == "There is no figure here: no set has a date within the periods."
