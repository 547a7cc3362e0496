import numpy as np
import pandas as pd
import pytest

from buttonstudy.schemes import period_scheme
from buttonstudy.study.shares.by_period import shares_by_period
from buttonstudy.study.shares.latent import estimated_shares
from buttonstudy.study.shares.traits import estimate_traits, quantile_interval

CENTURIES = period_scheme("centuries")


def test_the_description_is_that_of_the_record(adversarial) -> None:
    buttons, scheme = adversarial.spike(1), adversarial.twenty_years(1780, 6)
    expected = shares_by_period(buttons, "mould_material", scheme)
    traits = estimate_traits(buttons, ["mould_material"], scheme, draws=50)
    found = pd.concat([trait.described for trait in traits], ignore_index=True)
    pd.testing.assert_frame_equal(found[list(expected.columns)], expected, check_dtype=False)


def test_a_button_with_two_materials_has_both_traits() -> None:
    buttons = pd.DataFrame(
        {"mould_material": ["bone; wood", "bone", "wood"], "year_from": 1810, "year_to": 1820}
    )
    traits = estimate_traits(buttons, ["mould_material"], CENTURIES, draws=50)
    found = {trait.term: trait.answer.tolist() for trait in traits}
    assert found == {"bone": [1, 1, 0], "wood": [1, 0, 1]}
    shares = {trait.term: np.nanmax(trait.estimate) for trait in traits}
    assert shares == pytest.approx({"bone": 2 / 3, "wood": 2 / 3})


def test_a_mixed_set_counts_for_its_share_and_once() -> None:
    buttons = pd.DataFrame(
        {
            "set_id": ["1"] * 4 + ["2"],
            "back_finish": ["cloth", "absent", "absent", "absent", "cloth"],
            "year_from": 1810,
            "year_to": 1820,
        }
    )
    (trait,) = estimate_traits(buttons, ["back_finish"], CENTURIES, {"back_finish": ["cloth"]})
    assert trait.answer.tolist() == [0.25, 1.0]
    assert np.nanmax(trait.estimate) == pytest.approx(1.25 / 2)


def test_sets_not_examined_are_not_absent() -> None:
    buttons = pd.DataFrame(
        {
            "padding": ["wool", "absent", "not examined", "unclear", None],
            "year_from": 1810,
            "year_to": 1820,
        }
    )
    (trait,) = estimate_traits(buttons, ["padding"], CENTURIES, {"padding": ["wool"]}, draws=50)
    place = trait.dated.labels.index("19th century")
    assert trait.estimate[place] == pytest.approx(0.5)
    assert trait.likely[:, place] == pytest.approx([1, 1, 3])
    assert trait.described.loc[place, "dated_within"] == 2


def test_weight_outside_the_periods_is_told_and_not_pressed_in() -> None:
    """Ten sets of 1700-1899 lack it; the five that are surely of the scheme have it."""
    scheme = type(CENTURIES)("late", "Late", "", CENTURIES.periods[2:3])
    buttons = pd.DataFrame(
        {
            "padding": ["absent"] * 10 + ["wool"] * 5,
            "year_from": [1700] * 10 + [1810] * 5,
            "year_to": [1899] * 10 + [1820] * 5,
        }
    )
    traits = estimate_traits(buttons, ["padding"], scheme, {"padding": ["wool"]})
    table = estimated_shares(traits).set_index("kind")
    assert table.loc["outside", "examined"] == 5
    assert table.loc["period", "recorded_share"] == 0.5
    assert table.loc["period", "examined"] == 10


def test_the_seed_decides_and_other_traits_do_not(adversarial) -> None:
    buttons, scheme = adversarial.forking_paths(1), adversarial.twenty_years(1800, 4)
    terms = {"trait_0": ["yes"], "trait_1": ["yes"]}
    (alone,) = estimate_traits(buttons, ["trait_1"], scheme, terms, draws=100)
    _, together = estimate_traits(buttons, ["trait_0", "trait_1"], scheme, terms, draws=100)
    (other,) = estimate_traits(buttons, ["trait_1"], scheme, terms, draws=100, seed=5)
    assert (alone.shares == together.shares).all()
    assert (alone.shares != other.shares).any()


def test_recorders_are_kept_by_set() -> None:
    buttons = pd.DataFrame(
        {
            "set_id": ["1", "1", "2"],
            "recorder": ["Wren", "Teal", "Rook"],
            "padding": "wool",
            "year_from": 1810,
            "year_to": 1820,
        }
    )
    (trait,) = estimate_traits(buttons, ["padding"], CENTURIES, draws=50)
    assert trait.recorders.tolist() == ["Teal / Wren", "Rook"]


def test_intervals_leave_missing_draws_out() -> None:
    draws = np.column_stack(
        [np.linspace(0, 1, 1001), [np.nan] * 1001, [np.nan, *np.full(1000, 0.3)]]
    )
    low, high = quantile_interval(draws)
    assert low == pytest.approx([0.025, np.nan, 0.3], nan_ok=True)
    assert high == pytest.approx([0.975, np.nan, 0.3], nan_ok=True)
