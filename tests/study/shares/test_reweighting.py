"""Shares put right by what opened and unopened sets show outside."""

import pandas as pd
import pytest

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.shares.latent import estimated_shares
from buttonstudy.study.shares.opening import opened_compared
from buttonstudy.study.shares.reweighting import (
    REWEIGHTING_COLUMNS,
    VISIBLE_KIND,
    reweighted_estimates,
    with_visible_kind,
)
from buttonstudy.study.shares.traits import estimate_traits

WHOLE = PeriodScheme("whole", "One period", "none", (Period("whole", 1800, 1899),))
THREAD = pd.DataFrame({"field": ["hole_fill"], "term": ["thread"]})


def estimates(buttons):
    return estimated_shares(
        estimate_traits(buttons, ["hole_fill"], WHOLE, {"hole_fill": ["thread"]}, draws=200)
    )


def reweighted(buttons, comparison=THREAD):
    kinds = with_visible_kind(buttons, opened_compared(buttons))
    return kinds, reweighted_estimates(kinds, comparison, WHOLE, estimates(buttons))


def test_opened_cards_are_put_right(adversarial):
    # True share 0.45; woven covers hide the trait more often and are opened less often.
    cards = adversarial.opened_cards(1, 400).assign(year_from=1850, year_to=1859)
    kinds, table = reweighted(cards)
    assert set(kinds[VISIBLE_KIND]) in (
        {"cover material linen", "other or unknown cover material"},
        {"cover material felt", "other or unknown cover material"},
    )
    every = table[table["kind"] == "all"].iloc[0]
    truth = adversarial.OPENED_CARDS_TRUTH
    assert every["plain"] < truth - 0.08
    assert every["low"] < truth < every["high"]
    assert every["estimate"] == pytest.approx(truth, abs=0.08)
    period = table[table["kind"] == "period"].iloc[0]
    assert period["estimate"] == pytest.approx(every["estimate"], abs=1e-3)


def test_sets_that_look_alike_are_not_reweighted():
    buttons = pd.DataFrame(
        {
            "cover_material": ["felt", "linen"] * 20,
            "opened": ["opened"] * 20 + ["not opened"] * 20,
            "hole_fill": ["thread"] * 10 + ["wax"] * 10 + ["not examined"] * 20,
            "year_from": 1850,
            "year_to": 1859,
        }
    )
    kinds, table = reweighted(buttons)
    assert set(kinds[VISIBLE_KIND]) == {""}
    assert table.empty
    assert list(table.columns) == list(REWEIGHTING_COLUMNS)


def test_only_what_opening_lays_open_is_reweighted_and_only_the_first_traits(adversarial):
    cards = adversarial.opened_cards(1, 200).assign(year_from=1850, year_to=1859)
    _, outside = reweighted(cards, pd.DataFrame({"field": ["cover_material"], "term": ["felt"]}))
    assert outside.empty
    several = pd.DataFrame({"field": ["hole_fill"] * 5, "term": ["thread", *list("abcd")]})
    _, table = reweighted(cards, several)
    assert table["term"].unique().tolist() == ["thread", "a", "b"]


@pytest.mark.parametrize("buttons", [pd.DataFrame(), pd.DataFrame({"hole_fill": ["thread"]})])
def test_with_hardly_a_record_the_table_stays_well_formed(buttons):
    kinds, table = reweighted(buttons)
    assert len(kinds) == len(buttons)
    assert list(table.columns) == list(REWEIGHTING_COLUMNS)
