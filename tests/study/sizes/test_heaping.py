import numpy as np
import pandas as pd
import pytest

from buttonstudy.study.sizes.heaping import (
    DIGIT_COLUMNS,
    HEAPING_COLUMNS,
    heaping_by_recorder,
    terminal_digits,
)

INCH = 25.4


def _buttons(sizes, step, unit, **columns):
    table = pd.DataFrame({"diameter_mm": np.asarray(sizes, dtype=float)})
    table = table.assign(diameter_step_mm=step, diameter_unit=unit, recorder="A. Teal")
    return table.assign(**columns)


def _endings(buttons):
    table = terminal_digits(buttons)
    return dict(zip(table["ending"], table["readings"]))


def test_last_digits_are_counted():
    found = _endings(_buttons([15.0, 15.5, 15.5, 16.1, 20.9], 0.1, "mm"))
    assert {ending: number for ending, number in found.items() if number} == {
        "0": 1,
        "1": 1,
        "5": 2,
        "9": 1,
    }


# sizes, step and unit -> endings counted
RULERS = [
    (
        [5 / 8 * INCH, 11 / 16 * INCH, 0.75 * INCH],
        INCH / 16,
        "in",
        {"odd 1/16 in": 1, "even 1/16 in": 2},
    ),
    ([0.62 * INCH, 0.65 * INCH], INCH / 100, "in", {"2": 1, "5": 1}),
    ([15.0, 15.5, 16.0], 0.5, "mm", {".5": 1, ".0": 2}),
    ([24 * 0.635, 25 * 0.635], 0.635, "lines", {"odd lines": 1, "even lines": 1}),
    ([24 * 0.635, 26 * 0.635], 1.27, "lines", {"odd × 2 lines": 1, "even × 2 lines": 1}),
    ([15, 16, 20], 1.0, "mm", {"0": 1, "5": 1, "6": 1}),
]


@pytest.mark.parametrize(("sizes", "step", "unit", "expected"), RULERS)
def test_every_ruler_has_its_own_endings(sizes, step, unit, expected):
    found = _endings(_buttons(sizes, step, unit))
    assert {ending: number for ending, number in found.items() if number} == expected


def test_a_reader_without_preference_is_near_chance_and_a_rounder_is_not():
    rng = np.random.default_rng(1)
    true = rng.uniform(10, 30, 400)
    fair = _buttons(true.round(1), 0.1, "mm")
    halves = np.where(rng.random(400) < 0.5, (2 * true).round() / 2, true.round(1))
    rounder = _buttons(halves, 0.1, "mm", recorder="B. Lark")
    table = heaping_by_recorder(pd.concat([fair, rounder])).set_index("recorder")
    assert table["chance"].tolist() == pytest.approx([0.2, 0.2])
    assert table.loc["A. Teal", "low"] < 0.2 < table.loc["A. Teal", "high"]
    assert table.loc["B. Lark", "low"] > 0.5  # half of them rounded: 0.5 + 0.5 x 0.2 = 0.6
    assert table.loc["B. Lark", "low"] < 0.6 < table.loc["B. Lark", "high"]


def test_whole_millimetres_among_tenths_count_as_round():
    steps = [0.1] * 3 + [1.0] * 7
    buttons = _buttons([15.1, 16.2, 17.3, 11, 12, 13, 14, 16, 17, 18], steps, "mm")
    row = heaping_by_recorder(buttons).iloc[0]
    assert [row["step"], row["readings"], row["on_round"]] == ["0.1 mm", 10, 7]


def test_a_few_finer_readings_do_not_make_the_others_round():
    buttons = _buttons(np.arange(10, 40), [0.1] + [1.0] * 29, "mm")
    row = heaping_by_recorder(buttons).iloc[0]
    assert [row["step"], row["on_round"]] == ["1 mm", 6]


def test_matching_buttons_with_one_reading_count_once():
    buttons = _buttons([15.0] * 24 + [16.1], 0.1, "mm", set_id=["card"] * 24 + ["other"])
    assert heaping_by_recorder(buttons)["readings"].tolist() == [2]


def test_combined_readings_off_the_rulers_divisions_are_left_out_and_told():
    row = heaping_by_recorder(_buttons([15.0, 15.37], 1.0, "mm")).iloc[0]
    assert [row["readings"], row["left_out"]] == [1, 1]


def test_units_are_kept_apart_for_one_recorder():
    buttons = pd.concat([_buttons([15.0], 1.0, "mm"), _buttons([INCH / 2], INCH / 16, "in")])
    assert heaping_by_recorder(buttons)["unit"].tolist() == ["in", "mm"]


@pytest.mark.parametrize("sizes", [[], [np.nan]])
def test_no_sizes_give_empty_tables(sizes):
    buttons = _buttons(sizes, 1.0, "mm")
    assert list(terminal_digits(buttons).columns) == list(DIGIT_COLUMNS)
    assert list(heaping_by_recorder(buttons).columns) == list(HEAPING_COLUMNS)
    assert terminal_digits(buttons).empty
    assert heaping_by_recorder(buttons).empty
