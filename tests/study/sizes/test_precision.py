import pandas as pd
import pytest

from buttonstudy.study.sizes.precision import precision_table, step_in_words

# step in mm and unit -> words; 1 inch = 25.4 mm, 1 button line = 1/40 inch
STEPS = {
    (0.1, "mm"): "0.1 mm",
    (0.5, "mm"): "1/2 mm",
    (1.0, "mm"): "1 mm",
    (1.0, "cm"): "0.1 cm",
    (25.4, "in"): "1 in",
    (3.175, "in"): "1/8 in",
    (25.4 / 64, "in"): "1/64 in",
    (0.254, "in"): "0.01 in",
    (0.635, "lines"): "1 line",
    (0.3175, "lines"): "1/2 line",
    (1.27, "lines"): "2 lines",
    (float("nan"), "mm"): "not stated",
    (0.5, ""): "0.5 mm",
}


@pytest.mark.parametrize(("step", "words"), STEPS.items())
def test_steps_are_worded_as_the_ruler_shows_them(step, words):
    assert step_in_words(*step) == words


def test_each_recorders_steps_are_counted_the_finest_first():
    buttons = pd.DataFrame(
        {
            "recorder": ["B", "A", "A", "A", None],
            "file": "a.csv",
            "set_id": [None, "1", "1", None, None],
            "diameter_mm": [16.0, 15.9, 15.9, 16.0, None],
            "diameter_unit": ["mm", "mm", "mm", "mm", None],
            "diameter_step_mm": [1.0, 0.1, 0.1, 1.0, None],
        }
    )
    table = precision_table(buttons)
    assert table.to_numpy().tolist() == [
        ["A", "mm", "0.1 mm", 0.1, 2, 1],
        ["A", "mm", "1 mm", 1.0, 1, 1],
        ["B", "mm", "1 mm", 1.0, 1, 1],
    ]


def test_no_sizes_give_an_empty_table():
    table = precision_table(pd.DataFrame({"diameter_mm": [None]}))
    assert table.empty
    assert list(table.columns) == ["recorder", "unit", "step", "step_mm", "buttons", "sets"]
