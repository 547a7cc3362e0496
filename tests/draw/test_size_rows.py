import numpy as np
import pandas as pd
import pytest
from matplotlib.colors import to_hex

from buttonstudy.draw import size_classes_figure, sizes_by_period
from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study import size_class_counts
from buttonstudy.study import sizes_by_period as sizes_table

TWO = PeriodScheme(
    "two", "Two periods", "none", (Period("early", 1800, 1849), Period("late", 1850, 1899))
)


def _words(drawn):
    return [text.get_text() for text in drawn.figure.texts]


def test_classes_are_bars_with_the_borderline_part_apart():
    buttons = pd.DataFrame(
        {
            "size_class": pd.Categorical(["small"] * 5 + ["large"] * 2, ["small", "large"]),
            "size_class_borderline": [True, True, False, False, False, False, False],
        }
    )
    drawn = size_classes_figure(size_class_counts(buttons), scheme="Invented classes")
    (axes,) = drawn.figure.axes
    pieces = [(patch.get_x(), patch.get_width()) for patch in axes.patches]
    assert pieces == [(0, 3), (3, 2), (0, 2)]
    assert {"5 (2)", "2"} <= set(_words(drawn))
    assert "Classes: Invented classes." in drawn.caption
    assert drawn.alt_text == (
        "Sets in each size class. small 5 (2 borderline); large 2; no size 0."
    )


def test_classes_without_sets_at_the_ends_are_not_drawn_but_told():
    names = ["tiny", "small", "medium", "large", "huge"]
    buttons = pd.DataFrame({"size_class": pd.Categorical(["small", "large"], names)})
    drawn = size_classes_figure(size_class_counts(buttons))
    assert [word for word in _words(drawn) if word in names] == ["small", "medium", "large"]
    assert "2 classes at the ends without any set not drawn." in drawn.caption


def test_sets_without_a_size_are_told():
    buttons = pd.DataFrame({"size_class": ["small", None]})
    assert (
        "1 further set without a size." in size_classes_figure(size_class_counts(buttons)).caption
    )


def test_no_classes_are_said_in_words():
    drawn = size_classes_figure(size_class_counts(pd.DataFrame({"size_class": [None]})))
    assert drawn.figure is None
    assert drawn.caption == "There is no figure here: no button has a size class."


def _by_period(early, late):
    sizes = [*early, *late]
    years = [1800] * len(early) + [1850] * len(late)
    buttons = pd.DataFrame({"diameter_mm": sizes, "year_from": years, "year_to": years})
    return sizes_by_period(sizes_table(buttons, TWO))


def test_medians_are_dots_and_few_sets_an_open_dot_without_interval():
    drawn = _by_period(np.linspace(14, 18, 21), [19.0, 20.0, 21.0, 22.0, 23.0])
    (axes,) = drawn.figure.axes
    dots = [line for line in axes.lines if line.get_marker() == "o"]
    assert [dot.get_xdata()[0] for dot in dots] == pytest.approx([16, 21, 16.4])
    faces = [to_hex(dot.get_markerfacecolor()) for dot in dots]
    assert faces == ["#000000", "#ffffff", "#000000"]
    assert len(axes.collections) == 2  # intervals of the early sets and of all
    assert {"21 sets", "5 sets", "26 sets"} <= set(_words(drawn))
    assert "late 21.0 mm, 5;" in drawn.alt_text


def test_a_period_of_too_few_sets_has_no_dot():
    drawn = _by_period(np.linspace(14, 18, 21), [20.0, 21.0])
    (axes,) = drawn.figure.axes
    assert len([line for line in axes.lines if line.get_marker() == "o"]) == 2
    assert "late 2, too few for a median;" in drawn.alt_text
    assert "No dot: fewer than 5 sets" in " ".join(_words(drawn))


def test_both_units_are_named_on_the_axis():
    assert {"mm", "button lines"} <= set(_words(_by_period([16.0] * 12, [])))


def test_one_record_is_drawn_and_none_is_said_in_words():
    few = _by_period([16.0], [])
    assert few.caption == "There is no figure here: too few sets have a diameter."
    drawn = _by_period([np.nan], [])
    assert drawn.figure is None
    assert drawn.caption == "There is no figure here: no set has a diameter."


def test_a_survey_without_dates_has_words_in_place_of_the_same_row_twice():
    buttons = pd.DataFrame({"diameter_mm": [15.0 + place for place in range(12)]})
    drawn = sizes_by_period(sizes_table(buttons, TWO))
    assert drawn.caption == (
        "There is no figure here: no set with a diameter is dated to these periods."
    )
