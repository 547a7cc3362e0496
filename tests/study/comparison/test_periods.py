import numpy as np
import pandas as pd
import pytest
from scipy import stats

from buttonstudy.study.comparison.differences import DIFFERENCE_COLUMNS, differences_between
from buttonstudy.study.comparison.periods import COMPARISON_COLUMNS, compare_periods
from buttonstudy.study.comparison.together import holm
from buttonstudy.study.shares.traits import Trait, estimate_traits

TEN = [f"trait_{place}" for place in range(10)]


def forked(adversarial, seed: int, draws: int = 100) -> list[Trait]:
    terms = {name: ["yes"] for name in TEN}
    scheme = adversarial.twenty_years(1800, 4)
    return estimate_traits(adversarial.forking_paths(seed), TEN, scheme, terms, draws=draws)


def test_ten_traits_without_any_difference(adversarial) -> None:
    """Forking paths: counting buttons, most of ten traits differ; counting sets, hardly one.

    In 150 surveys of this generator 40 % had a trait below 0.05 before Holm's correction and
    2.7 % after it.
    """
    naive, found = 0, 0
    for seed in range(10, 14):
        buttons = adversarial.forking_paths(seed)
        naive += sum(
            stats.chi2_contingency(pd.crosstab(buttons["year_from"], buttons[name])).pvalue < 0.05
            for name in TEN
        )
        table = compare_periods(forked(adversarial, seed), shuffles=400)
        found += int((table["sureness"] != "may be chance").any())
    assert naive > 30
    assert found <= 1


def test_one_large_set_fakes_no_trend(adversarial) -> None:
    buttons = adversarial.one_large_set(1)
    early, late = (
        (part["back_finish"] == "stitched").mean() for _, part in buttons.groupby("year_from")
    )
    assert late - early > 0.5
    scheme = adversarial.twenty_years(1820, 4)
    traits = estimate_traits(buttons, ["back_finish"], scheme, {"back_finish": ["stitched"]})
    row = compare_periods(traits).iloc[0]
    assert row["difference"] == 0
    assert row["sureness"] == "may be chance"
    assert (row["earlier_sets"], row["earlier_with_term"]) == (20, 1)
    assert (row["later_sets"], row["later_with_term"]) == (20, 1)


def test_a_sharp_change_is_found_with_its_size(adversarial) -> None:
    buttons = adversarial.spike(2)
    scheme = adversarial.twenty_years(1780, 6)
    traits = estimate_traits(buttons, ["mould_material"], scheme, {"mould_material": ["bone"]})
    row = compare_periods(traits).iloc[0]
    assert row["sureness"] == "clear"
    assert row["low"] <= 0.8 <= row["high"]
    assert row["low"] > 0.2
    assert row["earlier"] in traits[0].dated.labels[:3]
    assert row["later"] in traits[0].dated.labels[3:]
    assert row["strength_low"] <= row["strength"] <= row["strength_high"]
    shares = np.array(adversarial.SPIKE_SHARES)
    strength = shares.std() / np.sqrt(shares.mean() * (1 - shares.mean()))
    assert row["strength_low"] <= strength <= row["strength_high"]
    assert row["as_large"] == 0
    assert row["sets"] == 240 - (buttons["year_to"] < 1780).sum()


def test_the_picked_pair_has_a_wider_interval_than_a_named_one(adversarial) -> None:
    traits = forked(adversarial, 1, draws=2000)[:1]
    picked = compare_periods(traits).iloc[0]
    named = differences_between(traits, picked["earlier"], picked["later"]).iloc[0]
    assert named["difference"] == picked["difference"]
    assert picked["high"] - picked["low"] > 1.1 * (named["high"] - named["low"])


def test_sure_dates_give_newcombes_difference() -> None:
    """Newcombe 1998, Statistics in Medicine 17:873, Table II: 56/70 less 48/80."""
    buttons = pd.DataFrame(
        {
            "padding": ["wool"] * 48 + ["absent"] * 32 + ["wool"] * 56 + ["absent"] * 14,
            "year_from": [1810] * 80 + [1910] * 70,
            "year_to": [1812] * 80 + [1912] * 70,
        }
    )
    row = differences_between(century_traits(buttons), "19th century", "20th century").iloc[0]
    assert row["method"] == "Newcombe"
    assert (row["difference"], row["low"], row["high"]) == pytest.approx(
        (0.2, 0.0524, 0.3339), abs=5e-5
    )
    assert (row["earlier_sets"], row["later_sets"]) == (80, 70)


def test_wide_dates_give_a_wider_difference_from_the_posterior() -> None:
    buttons = pd.DataFrame(
        {
            "padding": ["wool"] * 24
            + ["absent"] * 16
            + ["wool"] * 28
            + ["absent"] * 7
            + ["wool"] * 40,
            "year_from": [1810] * 40 + [1910] * 35 + [1870] * 40,
            "year_to": [1812] * 40 + [1912] * 35 + [1930] * 40,
        }
    )
    row = differences_between(century_traits(buttons), "19th century", "20th century").iloc[0]
    assert row["method"] == "latent periods"
    assert row["low"] < row["difference"] < row["high"]


def test_an_unknown_period_is_told_with_those_there_are(adversarial) -> None:
    with pytest.raises(ValueError, match='has no period “?"?1799') as told:
        differences_between(forked(adversarial, 1)[:1], "1799", "1800–1819")
    assert "It has: 1800–1819, 1820–1839, 1840–1859, 1860–1879." in str(told.value)


def century_traits(buttons: pd.DataFrame) -> list[Trait]:
    from buttonstudy.schemes import period_scheme

    return estimate_traits(buttons, ["padding"], period_scheme("centuries"), {"padding": ["wool"]})


def test_a_period_of_one_securely_dated_set_does_not_lead() -> None:
    # 30 sets that may just reach into the next century tell the first apart by their number.
    dated = [(1650, 1660, "wool", 1), (1605, 1702, "wool", 30), (1750, 1760, "wool", 10)]
    dated += [(1750, 1760, "rag", 10), (1850, 1860, "rag", 16), (1850, 1860, "wool", 4)]
    rows = [
        {"year_from": first, "year_to": last, "padding": padding}
        for first, last, padding, number in dated
        for _ in range(number)
    ]
    traits = century_traits(pd.DataFrame(rows))
    compared = compare_periods(traits, shuffles=100).iloc[0]
    assert compared["periods_compared"] == 3
    assert compared[["earlier", "later"]].tolist() == ["18th century", "19th century"]
    assert compared[["earlier_sets", "later_sets"]].tolist() == [20, 20]
    pair = differences_between(traits)[["earlier", "later"]].values.tolist()
    assert pair == [["18th century", "19th century"]]
    # Where no two periods have enough, the difference is there all the same.
    wide = [row | {"year_to": row["year_to"] + 60} for row in rows]
    assert compare_periods(century_traits(pd.DataFrame(wide)), shuffles=50)["why"].iloc[0] == ""


NOTHING = {
    "nobody": (
        {"padding": ["not examined"], "year_from": [1810], "year_to": [1820]},
        "No set that is dated to these periods was examined for it.",
    ),
    "undated": (
        {"padding": ["wool"]},
        "No set that is dated to these periods was examined for it.",
    ),
    "all alike": (
        {"padding": ["wool"] * 9, "year_from": [1810] * 9, "year_to": [1820] * 9},
        "Of 9 examined sets all of them had it, so that there is nothing to compare.",
    ),
    "none": (
        {"padding": ["absent"] * 9, "year_from": [1810] * 9, "year_to": [1820] * 9},
        "Of 9 examined sets none of them had it, so that there is nothing to compare.",
    ),
    "one period": (
        {"padding": ["wool", "absent"] * 9, "year_from": [1810] * 18, "year_to": [1820] * 18},
        "All examined sets have the same date, so that there is nothing to compare.",
    ),
    "one wide date": (
        {"padding": ["wool", "absent"] * 9, "year_from": [1810] * 18, "year_to": [1990] * 18},
        "All examined sets have the same date, so that there is nothing to compare.",
    ),
}


@pytest.mark.parametrize("case", NOTHING)
def test_what_cannot_be_compared_says_why(case: str) -> None:
    columns, why = NOTHING[case]
    table = compare_periods(century_traits(pd.DataFrame(columns)))
    assert list(table.columns) == list(COMPARISON_COLUMNS)
    assert table["why"].tolist() == [why]
    assert table["chance"].isna().all()
    assert table["sureness"].tolist() == [""]


def test_dates_too_wide_for_periods_can_still_show_a_change() -> None:
    """Early and late dates differ, and which of the centuries do cannot be told."""
    buttons = pd.DataFrame(
        {
            "padding": ["wool"] * 14 + ["absent"] * 14,
            "year_from": [1600] * 14 + [1690] * 14,
            "year_to": [1810] * 14 + [1990] * 14,
        }
    )
    row = compare_periods(century_traits(buttons)).iloc[0]
    assert row["periods_compared"] < 2
    assert row["sureness"] == "clear"
    assert row["why"] == "Too few sets are dated within one period to say which periods differ."
    assert pd.isna(row["earlier"])


def test_sets_wholly_outside_the_periods_are_not_compared(adversarial) -> None:
    buttons = pd.DataFrame(
        {
            "padding": ["wool", "absent"] * 20,
            "year_from": [1700] * 10 + [1805] * 15 + [1825] * 15,
            "year_to": [1710] * 10 + [1810] * 15 + [1830] * 15,
        }
    )
    scheme = adversarial.twenty_years(1800, 2)
    traits = estimate_traits(buttons, ["padding"], scheme, {"padding": ["wool"]})
    assert compare_periods(traits)[["sets", "with_term"]].values.tolist() == [[30, 15]]


def test_no_traits_give_empty_tables() -> None:
    assert list(compare_periods([]).columns) == list(COMPARISON_COLUMNS)
    assert list(differences_between([], "a", "b").columns) == list(DIFFERENCE_COLUMNS)


def test_a_period_without_sets_has_no_difference() -> None:
    buttons = pd.DataFrame({"padding": ["wool"] * 9, "year_from": 1810, "year_to": 1820})
    row = differences_between(century_traits(buttons), "19th century", "20th century").iloc[0]
    assert row["why"] == "Of one of the two periods no set was examined."
    assert np.isnan(row["low"])


def test_holm_on_a_worked_example() -> None:
    """Holm's steps by hand: 0.01 x 4, 0.02 x 3, 0.03 x 2, 0.5, never falling."""
    chances = np.array([0.03, 0.01, np.nan, 0.5, 0.02])
    assert holm(chances) == pytest.approx([0.06, 0.04, np.nan, 0.5, 0.06], nan_ok=True)
    assert np.isnan(holm(np.array([np.nan]))).all()


def test_the_same_seed_gives_the_same_table(adversarial) -> None:
    traits = forked(adversarial, 3)[:2]
    pd.testing.assert_frame_equal(compare_periods(traits), compare_periods(traits))
