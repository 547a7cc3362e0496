"""Estimated shares as they are drawn: what stands where, and what few sets do not show."""

import pandas as pd
import pytest
from matplotlib.colors import to_hex

from buttonstudy.draw import estimates_figure, reweighted_figure
from buttonstudy.draw.style import ink
from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study import estimate_traits, estimated_shares, reweighted_estimates

TWO = PeriodScheme(
    "two", "Two periods", "none", (Period("early", 1800, 1849), Period("late", 1850, 1899))
)


def _buttons(early, late, wide=0):
    """Make sets by period: numbers with thread, with wax, not examined; and wide ones with wax."""
    rows = []
    for first, numbers in ((1800, early), (1850, late)):
        for value, number in zip(("thread", "wax", "not examined"), numbers):
            rows += [{"hole_fill": value, "year_from": first, "year_to": first}] * number
    rows += [{"hole_fill": "wax", "year_from": 1800, "year_to": 1899}] * wide
    return pd.DataFrame(rows)


def _estimates(buttons):
    return estimated_shares(estimate_traits(buttons, ["hole_fill"], TWO, {"hole_fill": ["thread"]}))


def _words(drawn):
    return [text.get_text() for text in drawn.figure.texts]


def _dots(axes):
    return [line for line in axes.lines if line.get_marker() == "o"]


def _fill(line):
    return to_hex(line.get_markerfacecolor()).upper()


def test_a_period_has_its_share_its_interval_and_its_counts():
    drawn = estimates_figure(_estimates(_buttons((12, 28, 8), (30, 10, 0))), source="invented.csv")
    (axes,) = drawn.figure.axes
    early, late, every = _dots(axes)
    shares = [dot.get_xdata()[0] for dot in (early, late, every)]
    assert shares == pytest.approx([12 / 40, 30 / 40, 42 / 80])
    assert {_fill(dot) for dot in (early, late, every)} == {ink("ink").colour}
    intervals = [row.get_segments()[0][:, 0] for row in axes.collections if row.get_linewidth() > 1]
    # Jeffreys interval of 12 of 40 by scipy's beta quantiles: 0.176 to 0.452.
    assert intervals[0].tolist() == pytest.approx([0.176, 0.452], abs=0.02)
    assert {"12 of 40", "30 of 40", "42 of 80"} <= set(_words(drawn))
    assert "Source: invented.csv" in _words(drawn)


def test_a_period_that_hardly_any_dates_reach_at_an_end_has_no_row():
    buttons = _buttons((12, 28, 8), (30, 10, 0))
    reaching = pd.DataFrame(
        {"hole_fill": ["wax"], "year_from": [1890], "year_to": [1905]}, index=[len(buttons)]
    )
    three = PeriodScheme(
        "three", "Three periods", "none", (*TWO.periods, Period("after", 1900, 1949))
    )
    traits = estimate_traits(
        pd.concat([buttons, reaching]), ["hole_fill"], three, {"hole_fill": ["thread"]}
    )
    told = estimated_shares(traits)
    assert "after" in set(told["period"])
    assert _words(estimates_figure(told)).count("After") == 0
    assert "after" not in _words(estimates_figure(told))


def test_few_sets_have_an_open_dot_and_no_percentage():
    drawn = estimates_figure(_estimates(_buttons((4, 8, 0), (8, 4, 0))))
    (axes,) = drawn.figure.axes
    assert {_fill(dot) for dot in _dots(axes)} == {ink("paper").colour}
    assert any("Open dot: fewer than 30 sets" in words for words in _words(drawn))
    assert "%" not in drawn.alt_text
    assert "early 4 of 12 (" in drawn.alt_text
    assert "in 10" in drawn.alt_text


def test_a_period_that_cannot_be_told_apart_has_a_broken_line_and_no_dot():
    drawn = estimates_figure(_estimates(_buttons((2, 38, 0), (0, 0, 0), wide=6)))
    (axes,) = drawn.figure.axes
    assert len(_dots(axes)) == 2  # early and all sets
    assert any("Broken line" in words for words in _words(drawn))
    assert "late none (none to all, not told apart)" in drawn.alt_text


def test_the_description_stands_beside_as_an_upright_stroke():
    drawn = estimates_figure(_estimates(_buttons((0, 40, 0), (40, 0, 0), wide=40)))
    (axes,) = drawn.figure.axes
    quiet = ink("quiet").colour.lower()
    strokes = [row for row in axes.collections if to_hex(row.get_colors()[0]) == quiet]
    # 40 sets without it, and half of 40 wide ones, to 0; late 40 of 60.
    assert [row.get_segments()[0][0, 0] for row in strokes] == pytest.approx([0, 40 / 60])


def test_reweighted_shares_stand_beside_those_of_the_examined():
    # Felt covers were opened four times as often as linen ones.
    kinds = ["felt"] * 40 + ["linen"] * 40
    fills = ["thread"] * 8 + ["wax"] * 24 + ["not examined"] * 8
    fills += ["thread"] * 6 + ["wax"] * 2 + ["not examined"] * 32
    buttons = pd.DataFrame(
        {"visible_kind": kinds, "hole_fill": fills, "year_from": 1800, "year_to": 1849}
    )
    estimates = _estimates(buttons)
    comparison = pd.DataFrame({"field": ["hole_fill"], "term": ["thread"]})
    table = reweighted_estimates(buttons, comparison, TWO, estimates)
    drawn = reweighted_figure(table)
    (axes,) = drawn.figure.axes
    # By hand: (40 x 8/32 + 40 x 6/8) / 80 = 0.5; the examined say 14 of 40.
    assert _dots(axes)[-1].get_xdata()[0] == pytest.approx(0.5)
    assert axes.collections[-2].get_segments()[0][0, 0] == pytest.approx(14 / 40)
    assert "40 of 80" in _words(drawn)


def test_where_nothing_can_be_drawn_the_reason_stands():
    undated = _buttons((4, 4, 0), (0, 0, 0)).assign(year_from=None, year_to=None)
    assert estimates_figure(_estimates(undated)).caption == (
        "There is no figure here: no examined set is dated to these periods."
    )
    assert estimates_figure(estimated_shares([])).figure is None
    nothing = reweighted_estimates(
        undated.assign(visible_kind=""),
        pd.DataFrame({"field": ["hole_fill"], "term": ["thread"]}),
        TWO,
        _estimates(undated),
    )
    assert reweighted_figure(nothing).caption == (
        "There is no figure here: no share is reweighted."
    )
