import pandas as pd

from buttonstudy.study.evidence.columns import column, floats, length_bounds, recorders, texts


def test_a_missing_column_is_a_column_of_blanks():
    buttons = pd.DataFrame({"thread": ["linen", "silk"]})
    assert column(buttons, "padding").isna().tolist() == [True, True]
    assert texts(buttons, "padding").tolist() == ["", ""]


def test_nullable_numbers_become_floats():
    buttons = pd.DataFrame({"year_from": pd.array([1840, None], dtype="Int64")})
    assert str(floats(buttons, "year_from").tolist()) == "[1840.0, nan]"


def test_categories_become_texts():
    buttons = pd.DataFrame({"thread": pd.Categorical(["linen", None])})
    assert texts(buttons, "thread").tolist() == ["linen", ""]


def test_a_length_without_bounds_is_exact_and_without_best_value_is_the_middle():
    buttons = pd.DataFrame(
        {
            "height_mm": [4.0, None],
            "height_mm_low": [None, 3.0],
            "height_mm_high": [None, 4.0],
        }
    )
    low, best, high = length_bounds(buttons, "height")
    assert (low.tolist(), best.tolist(), high.tolist()) == ([4, 3], [4, 3.5], [4, 4])


def test_hands_without_a_name_are_told_apart_by_file():
    buttons = pd.DataFrame({"recorder": [None, "", "B. Lark"], "file": ["a.csv", "b.csv", "a.csv"]})
    assert recorders(buttons).tolist() == [
        "unnamed hand in a.csv",
        "unnamed hand in b.csv",
        "B. Lark",
    ]
