import numpy as np
import pandas as pd
import pytest

from buttonstudy.study.evidence.sets import set_keys
from buttonstudy.study.shares.opening import (
    OPENED_COLUMNS,
    opened_compared,
    opened_sets,
    visible_fields,
)


def test_what_gets_opened_is_found_to_differ(adversarial) -> None:
    buttons = adversarial.opened_cards(2)
    sets = buttons.drop_duplicates("set_id")
    felt = sets["cover_material"] == "felt"
    opened = sets["opened"] == "opened"
    row = opened_compared(buttons).set_index("term").loc["felt"]
    assert row["differs"]
    assert (row["opened"], row["unopened"]) == (opened.sum(), (~opened).sum())
    assert row["opened_with"] == (felt & opened).sum()
    assert row["difference"] == pytest.approx(felt[opened].mean() - felt[~opened].mean())
    assert 0 < row["low"] < row["difference"] < row["high"]


def test_sets_opened_at_random_are_not_found_to_differ() -> None:
    place = np.arange(60)
    buttons = pd.DataFrame(
        {
            "opened": np.where(place % 2 == 0, "opened", "not opened"),
            "cover_material": np.where(place % 3 == 0, "felt", "linen"),
        }
    )
    table = opened_compared(buttons)
    assert not table["differs"].any()
    assert table["difference"].abs().max() == pytest.approx(0)


def test_two_traits_that_differ_a_little_are_corrected_for_being_two() -> None:
    """10 of 12 against 4 of 12 is 0.036 by Fisher's test, so 0.07 for felt and linen together."""
    buttons = pd.DataFrame(
        {
            "opened": ["opened"] * 12 + ["not opened"] * 12,
            "cover_material": ["felt"] * 10 + ["linen"] * 2 + ["felt"] * 4 + ["linen"] * 8,
        }
    )
    table = opened_compared(buttons)
    assert (table["chance"] < 0.05).all()
    assert not table["differs"].any()


def test_dates_are_compared_where_periods_are_given(adversarial) -> None:
    buttons = pd.DataFrame(
        {
            "opened": ["opened"] * 20 + ["not opened"] * 20,
            "year_from": [1800] * 20 + [1820] * 20,
            "year_to": [1819] * 20 + [1849] * 20,
        }
    )
    table = opened_compared(buttons, [], adversarial.twenty_years(1800, 3))
    assert table["field"].unique().tolist() == ["date"]
    assert table["term"].tolist() == ["1800–1819", "1820–1839", "1840–1859"]
    assert table["unopened_with"].tolist() == pytest.approx([0, 40 / 3, 20 / 3])
    assert table["differs"].tolist() == [True, True, True]


def test_one_opened_button_opens_the_set_and_silence_is_neither() -> None:
    buttons = pd.DataFrame(
        {
            "set_id": ["1", "1", "2", "3"],
            "opened": ["not opened", "partly opened", "not opened", None],
        }
    )
    opened, closed = opened_sets(buttons, set_keys(buttons))
    assert opened.tolist() == [True, False, False]
    assert closed.tolist() == [False, True, False]


@pytest.mark.parametrize("values", [[], ["opened"] * 3, ["not opened"] * 3, [None] * 3])
def test_nothing_to_compare_gives_an_empty_table(values: list) -> None:
    table = opened_compared(pd.DataFrame({"opened": values, "cover_material": "felt"}))
    assert table.empty
    assert list(table.columns) == list(OPENED_COLUMNS)


def test_inside_features_are_not_visible() -> None:
    assert "cover_material" in visible_fields()
    assert "cover_condition" in visible_fields()
    assert "padding" not in visible_fields()
    assert "opened" not in visible_fields()
