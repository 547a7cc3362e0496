import pandas as pd
import pytest
from matplotlib.colors import to_hex
from scipy import stats

from buttonstudy.draw import comparison_figure, differences_figure
from buttonstudy.draw.style import ink
from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study import as_compared, compare_periods, differences_between, estimate_traits
from buttonstudy.study.comparison.reading_tables import differences_in_words
from buttonstudy.study.comparison.tens import span_of_ten
from buttonstudy.study.comparison.words import comparison_sentence, difference_sentence

TWO = PeriodScheme(
    "two", "Two periods", "none", (Period("early", 1800, 1849), Period("late", 1850, 1899))
)


def _traits(early, late):
    rows = []
    for year, (having, lacking) in ((1800, early), (1850, late)):
        rows += [{"hole_fill": "thread", "year_from": year, "year_to": year}] * having
        rows += [{"hole_fill": "wax", "year_from": year, "year_to": year}] * lacking
    return estimate_traits(pd.DataFrame(rows), ["hole_fill"], TWO, {"hole_fill": ["thread"]})


def _dot(drawn):
    (axes,) = drawn.figure.axes
    (line,) = [line for line in axes.lines if line.get_marker() == "o"]
    return line.get_xdata()[0], to_hex(line.get_markerfacecolor()).upper()


def _interval(drawn):
    return drawn.figure.axes[0].collections[0].get_segments()[0][:, 0].tolist()


def _side_by_side(traits):
    return as_compared(differences_between(traits, "early", "late"), compare_periods(traits))


def test_a_difference_has_its_interval_and_the_counts_of_both_periods():
    # 56 of 70 less 48 of 80 is 0.2; Newcombe 1998 (Stat Med 17:873), Table II: 0.0524 to 0.3339.
    drawn = differences_figure(_side_by_side(_traits((48, 32), (56, 14))))
    place, fill = _dot(drawn)
    assert place == pytest.approx(0.2)
    assert _interval(drawn) == pytest.approx([0.0524, 0.3339], abs=0.01)
    assert fill == ink("ink").colour
    assert "48 of 80; 56 of 70" in [text.get_text() for text in drawn.figure.texts]
    assert drawn.alt_text == (
        "late against early. Hole fill: thread: +2 of every 10 (+0.5 to +4), 48 of 80; 56 of 70."
    )


def test_a_difference_that_may_be_none_has_an_open_dot():
    drawn = differences_figure(_side_by_side(_traits((10, 10), (12, 10))))
    assert _dot(drawn)[1] == ink("paper").colour


def test_the_comparison_names_the_two_periods_of_each_trait():
    drawn = comparison_figure(compare_periods(_traits((4, 56), (50, 10))))
    assert _dot(drawn)[1] == ink("ink").colour
    assert "Hole fill: thread, early to late: +8 of every 10" in drawn.alt_text
    assert "allow for the choice of the pair" in drawn.caption
    unsure = comparison_figure(compare_periods(_traits((20, 20), (22, 20))))
    assert _dot(unsure)[1] == ink("paper").colour


@pytest.mark.parametrize("traits", [[], _traits((5, 0), (5, 0)), _traits((1, 1), (0, 0))])
def test_where_no_periods_can_be_compared_the_reason_stands(traits):
    says = "There is no figure here: no two periods can be compared."
    assert comparison_figure(compare_periods(traits)).caption == says
    if not traits or not differences_between(traits)["low"].notna().any():
        told = as_compared(differences_between(traits), compare_periods(traits))
        assert differences_figure(told).caption == says


def test_what_chance_may_have_made_has_one_interval_that_reaches_no_difference():
    """None of 32 against 2 of 18: Fisher's exact p is 0.12 (scipy), so no difference is told."""
    assert stats.fisher_exact([[0, 32], [2, 16]]).pvalue == pytest.approx(0.1249, abs=1e-4)
    traits = _traits((0, 32), (2, 16))
    compared, between = compare_periods(traits), _side_by_side(traits)
    assert compared["sureness"].tolist() == ["may be chance"]
    assert compared["low"].tolist() == [0.0]
    for figure, table in ((comparison_figure, compared), (differences_figure, between)):
        drawn = figure(table)
        assert _dot(drawn)[1] == ink("paper").colour
        assert _interval(drawn) == pytest.approx([0.0, compared["high"].iloc[0]])
    said = [comparison_sentence(compared.iloc[0]), difference_sentence(between.iloc[0])]
    span = span_of_ten(0.0, compared["high"].iloc[0])
    for table in (compared, between):
        assert differences_in_words(table)["chance allows"].tolist() == [span]
    for sentence in said:
        assert f"none to {span.removeprefix('0 to +')} more is possible" in sentence
        assert "more had it" not in sentence
    assert "may be chance" in said[0]
