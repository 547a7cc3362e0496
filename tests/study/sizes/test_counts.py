import numpy as np
import pandas as pd
import pytest

from buttonstudy.study.sizes.counts import PRECISIONS, size_class_counts, size_histogram


def _readings(*bounds, **columns):
    low, high = np.array(bounds, dtype=float).T
    return pd.DataFrame(
        {
            "diameter_mm": (low + high) / 2,
            "diameter_mm_low": low,
            "diameter_mm_high": high,
        }
    ).assign(**columns)


def _by_line(table):
    summed = table.groupby("lines")["sets"].sum()
    return {line: round(number, 4) for line, number in summed.items() if number > 0}


# Bounds in mm -> weight in each bin of one button line (0.635 mm) about a whole line.
SPREADS = {
    (15.24, 15.24): {24: 1.0},
    (24.5 * 0.635, 24.5 * 0.635): {24: 1.0},
    (23.5 * 0.635, 24.5 * 0.635): {24: 1.0},
    (24 * 0.635, 25 * 0.635): {24: 0.5, 25: 0.5},
    (23.5 * 0.635, 27.5 * 0.635): {24: 0.25, 25: 0.25, 26: 0.25, 27: 0.25},
}


@pytest.mark.parametrize(("bounds", "expected"), SPREADS.items())
def test_a_reading_is_spread_over_what_it_allows(bounds, expected):
    assert _by_line(size_histogram(_readings(bounds))) == expected


def test_nothing_is_lost_and_each_set_counts_once():
    buttons = _readings((10, 11), (10, 11), (19.9, 20.1), (30, 33.2), set_id=["a", "a", None, None])
    table = size_histogram(buttons)
    assert table["sets"].sum() == pytest.approx(3)
    assert table["buttons"].sum() == pytest.approx(4)
    lines = table["lines"].unique()
    assert np.diff(lines).tolist() == [1] * (len(lines) - 1)


def test_readings_are_told_apart_by_how_finely_they_were_read():
    # steps of 0.1 mm, 1 mm and 1/16 inch (1.5875 mm)
    buttons = _readings((15, 15.1), (15.5, 16.5), (15, 16.5875))
    sums = size_histogram(buttons).groupby("precision")["sets"].sum()
    assert sums.to_dict() == pytest.approx(dict.fromkeys(PRECISIONS, 1.0))


def test_no_sizes_give_an_empty_table():
    table = size_histogram(pd.DataFrame({"diameter_mm": [np.nan]}))
    assert table.empty
    assert list(table.columns) == ["lines", "over_mm", "up_to_mm", "precision", "sets", "buttons"]


def test_classes_are_counted_by_sets_with_the_borderline_ones_apart():
    buttons = pd.DataFrame(
        {
            "set_id": ["1", "1", None, None, None],
            "size_class": pd.Categorical(
                ["small", "medium", "small", None, "small"], ["tiny", "small", "medium"]
            ),
            "size_class_borderline": pd.array([False, True, True, None, False], dtype="boolean"),
        }
    )
    table = size_class_counts(buttons).set_index("size_class")
    assert table["sets"].to_dict() == {"tiny": 0, "small": 2.5, "medium": 0.5, "no size": 1}
    assert table["borderline_sets"].tolist() == [0, 1, 0.5, 0]
    assert table["buttons"].tolist() == [0, 3, 1, 1]
    assert table["borderline_buttons"].tolist() == [0, 1, 1, 0]


def test_a_set_with_some_sized_buttons_is_not_counted_as_without_size():
    buttons = pd.DataFrame({"set_id": "1", "size_class": ["small", None]})
    table = size_class_counts(buttons).set_index("size_class")
    assert table["sets"].to_dict() == {"small": 1, "no size": 0}
    assert table["buttons"].to_dict() == {"small": 1, "no size": 1}
