import numpy as np
import pandas as pd
import pytest

from buttonstudy.study.shares.reweighted import (
    REWEIGHTED_COLUMNS,
    reweighted_shares,
    stratum_counts,
    stratum_prior,
)
from buttonstudy.study.shares.tally import wilson


def verified(counts: list[tuple[str, int, int, int]]) -> pd.DataFrame:
    """Make sets: test result, how many ill, how many well, how many never verified."""
    rows = [
        (result, answer)
        for result, ill, well, unverified in counts
        for answer in ["ill"] * ill + ["absent"] * well + ["not examined"] * unverified
    ]
    return pd.DataFrame(rows, columns=["cover_condition", "padding"])


HEPATIC = verified([("positive", 231, 32, 166), ("negative", 27, 54, 140)])
"""Drum & Christacopoulos 1972, counts as in data set hepatic_pvb of wnarifin/PVBcorrect."""


def test_hepatic_scintigraphy_reweighted_by_the_test_result() -> None:
    """Begg & Greenes 1983: 40, 75 or 69 % ill, as blanks are absent, left out or reweighted."""
    row = reweighted_shares(HEPATIC, "padding", ["cover_condition"], ["ill"]).iloc[0]
    assert row["if_none"] == pytest.approx(0.396923, abs=1e-6)
    assert row["examined_share"] == pytest.approx(0.75)
    assert row["estimate"] == pytest.approx(0.693029, abs=1e-6)
    assert row["if_all"] == pytest.approx(0.867692, abs=1e-6)
    assert (row["sets"], row["examined"], row["strata"]) == (650, 344, 2)
    assert row["low"] < row["estimate"] < row["high"] < row["examined_share"]


def test_hepatic_scintigraphy_has_the_corrected_sensitivity() -> None:
    """Begg & Greenes 1983 (0.84 and 0.74 from memory; the arithmetic gives 0.8365 and 0.7384)."""
    strata = stratum_counts(HEPATIC, "padding", ["cover_condition"], ["ill"])
    strata = strata.set_index("stratum")
    ill = strata["sets"] * strata["share"]
    well = strata["sets"] * (1 - strata["share"])
    assert ill["positive"] / ill.sum() == pytest.approx(0.836467, abs=1e-6)
    assert well["negative"] / well.sum() == pytest.approx(0.738398, abs=1e-6)


def test_opened_cards_mislead_and_reweighting_puts_them_right(adversarial) -> None:
    """Opened cards: of 40 surveys the reweighted interval misses few, the plain ones many."""
    held, plain_held, button_held, estimates = 0, 0, 0, []
    for seed in range(40):
        buttons = adversarial.opened_cards(seed)
        row = reweighted_shares(buttons, "hole_fill", ["cover_material"], ["thread"], 500).iloc[0]
        truth = adversarial.OPENED_CARDS_TRUTH
        held += row["low"] <= truth <= row["high"]
        plain_held += row["examined_low"] <= truth <= row["examined_high"]
        having = float((buttons["hole_fill"] == "thread").sum())
        low, high = wilson(np.array([having]), np.array([float(len(buttons))]))
        button_held += low[0] <= truth <= high[0]
        estimates.append(row["estimate"])
        assert row["if_none"] - 0.12 <= truth <= row["if_all"] + 0.12
    assert button_held <= 2
    assert plain_held < 30
    assert held >= 34
    assert np.nanmean(estimates) == pytest.approx(0.45, abs=0.03)


def test_a_stratum_with_nothing_opened_has_no_estimate_and_is_named() -> None:
    buttons = pd.DataFrame(
        {
            "cover_material": ["felt"] * 10 + ["silk"] * 5 + ["linen"] * 5,
            "padding": ["wool"] * 4 + ["absent"] * 6 + ["not examined"] * 10,
        }
    )
    row = reweighted_shares(buttons, "padding", ["cover_material"], ["wool"]).iloc[0]
    assert np.isnan(row["estimate"])
    assert (row["covered"], row["covered_estimate"]) == (10, 0.4)
    assert row["why"] == (
        "Nothing was examined of “linen”; “silk”, so that there is no estimate for all sets: 10 "
        "sets are of such a kind and may all, or none, have it."
    )
    assert row["low"] < 0.2 * 0.8
    assert row["high"] > 0.7 + 0.05
    assert row["if_none"] - 0.15 <= row["low"]


def test_a_mixed_set_counts_for_its_share() -> None:
    buttons = pd.DataFrame({"set_id": ["1", "1", "2"], "padding": ["wool", "absent", "wool"]})
    strata = stratum_counts(buttons, "padding", ["cover_material"], ["wool"])
    assert strata["with_term"].tolist() == [1.5]
    assert strata["stratum"].tolist() == ["not recorded"]


@pytest.mark.parametrize(
    "buttons", [pd.DataFrame({"padding": []}), pd.DataFrame({"padding": ["not examined"] * 4})]
)
def test_nothing_examined_gives_an_empty_table(buttons: pd.DataFrame) -> None:
    table = reweighted_shares(buttons, "padding", ["cover_material"])
    assert table.empty
    assert list(table.columns) == list(REWEIGHTED_COLUMNS)


def test_a_term_asked_for_that_nobody_was_examined_for() -> None:
    buttons = pd.DataFrame({"padding": ["not examined"] * 4})
    row = reweighted_shares(buttons, "padding", ["cover_material"], ["wool"]).iloc[0]
    assert row[["estimate", "low", "high"]].isna().all()
    assert (row["if_none"], row["if_all"], row["covered"]) == (0, 1, 0)
    assert row["why"].startswith("Nothing was examined of “not recorded”")


def test_one_stratum_has_jeffreys_prior() -> None:
    assert stratum_prior(1) == 0.5
    assert stratum_prior(9) == pytest.approx(1 / 6)


def test_the_seed_decides() -> None:
    first, again, other = (
        reweighted_shares(HEPATIC, "padding", ["cover_condition"], ["ill"], seed=seed)
        for seed in (1, 1, 2)
    )
    pd.testing.assert_frame_equal(first, again)
    assert first["low"].item() != other["low"].item()
