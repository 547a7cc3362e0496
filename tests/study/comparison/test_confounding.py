import numpy as np
import pandas as pd
import pytest

from buttonstudy.study.comparison.periods import compare_periods
from buttonstudy.study.shares.traits import estimate_traits


def compared(adversarial, table: pd.DataFrame) -> pd.Series:
    scheme = adversarial.twenty_years(1800, 2)
    buttons = table.assign(year_to=table["year_from"] + 19)
    traits = estimate_traits(buttons, ["back_finish"], scheme, {"back_finish": ["whipped"]})
    return compare_periods(traits).iloc[0]


def sets(*counts: tuple[str, int, int, int]) -> pd.DataFrame:
    """Make sets: recorder, first year, how many, how many of these whipped."""
    rows = [
        (recorder, year, "whipped" if place < having else "absent")
        for recorder, year, number, having in counts
        for place in range(number)
    ]
    return pd.DataFrame(rows, columns=["recorder", "year_from", "back_finish"])


def test_a_difference_between_recorders_is_no_difference_within_them(adversarial) -> None:
    row = compared(
        adversarial,
        sets(
            ("Wren", 1800, 36, 4),
            ("Wren", 1820, 9, 1),
            ("Teal", 1800, 9, 7),
            ("Teal", 1820, 36, 28),
        ),
    )
    assert row["sureness"] == "clear"
    assert row["layer"] == "recorder"
    assert row["within_difference"] == pytest.approx(0, abs=0.01)
    assert row["recorded_difference"] > 0.3
    assert row["within_chance"] > 0.5
    assert row["warning"] == (
        "Among the sets of one recorder the difference is less than half as large: much of it may "
        "be one between recorders."
    )


def test_a_difference_that_turns_round_within_recorders_is_warned_of(adversarial) -> None:
    row = compared(
        adversarial,
        sets(
            ("Wren", 1800, 60, 6),
            ("Wren", 1820, 20, 0),
            ("Teal", 1800, 20, 20),
            ("Teal", 1820, 60, 54),
        ),
    )
    assert row["warning"].startswith("Among the sets of one recorder the difference turns round")


def test_recorders_with_one_period_each_cannot_be_parted_from_it(adversarial) -> None:
    row = compared(adversarial, sets(("Wren", 1800, 30, 4), ("Teal", 1820, 30, 25)))
    assert row["sureness"] == "clear"
    assert np.isnan(row["within_chance"])
    assert row["goes_together"] == pytest.approx(1)
    assert row["warning"] == (
        "No recorder has sets of more than one of these periods that differ in it: the difference "
        "may be one between recorders."
    )


def test_recorders_with_mostly_one_period_are_warned_of(adversarial) -> None:
    row = compared(
        adversarial,
        sets(
            ("Wren", 1800, 36, 4),
            ("Wren", 1820, 8, 6),
            ("Teal", 1800, 8, 1),
            ("Teal", 1820, 36, 30),
        ),
    )
    assert row["warning"].startswith("Each recorder noted mostly other periods than the rest")


def test_a_difference_seen_by_every_recorder_needs_no_warning(adversarial) -> None:
    row = compared(
        adversarial,
        sets(
            ("Wren", 1800, 20, 2),
            ("Wren", 1820, 20, 17),
            ("Teal", 1800, 20, 3),
            ("Teal", 1820, 20, 16),
        ),
    )
    assert row["warning"] == ""
    assert row["within_chance"] < 0.01
    by_hand = (0.75 + 0.65) / 2  # each recorder has as many sets of either period
    assert row["within_difference"] == pytest.approx(by_hand)


def test_recorders_weigh_by_what_they_can_compare(adversarial) -> None:
    """Mantel and Haenszel by hand: 0.75 with weight 20 x 20 / 40, 0.2 with 10 x 30 / 40."""
    row = compared(
        adversarial,
        sets(
            ("Wren", 1800, 20, 2),
            ("Wren", 1820, 20, 17),
            ("Teal", 1800, 10, 3),
            ("Teal", 1820, 30, 15),
        ),
    )
    assert row["within_difference"] == pytest.approx((0.75 * 10 + 0.2 * 7.5) / 17.5)


def test_files_stand_in_for_recorders(adversarial) -> None:
    table = sets(("", 1800, 30, 4), ("", 1820, 30, 25)).assign(file=["a.csv"] * 30 + ["b.csv"] * 30)
    row = compared(adversarial, table)
    assert row["layer"] == "survey file"
    assert "between survey files" in row["warning"]


def test_unnamed_hands_of_two_files_are_two_layers(adversarial) -> None:
    named = sets(("Wren", 1800, 30, 4), ("Wren", 1820, 30, 25))
    table = sets(("", 1800, 30, 4), ("", 1820, 30, 25)).assign(recorder=None)
    halves = table.assign(file=np.where(np.arange(len(table)) % 2, "a.csv", "b.csv"))
    row = compared(adversarial, pd.concat([named.assign(file="c.csv"), halves]))
    assert (row["layer"], row["layers"]) == ("recorder", 3)


def test_one_recorder_is_no_layer(adversarial) -> None:
    row = compared(adversarial, sets(("Wren", 1800, 30, 4), ("Wren", 1820, 30, 25)))
    assert (row["layer"], row["layers"], row["warning"]) == ("", 1, "")
    assert row["recorded_difference"] == pytest.approx(25 / 30 - 4 / 30)
