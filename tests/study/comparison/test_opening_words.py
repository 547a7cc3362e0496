"""Sentences on opened sets, and on shares with opening allowed for; the sets are invented."""

import pandas as pd

from buttonstudy.study.comparison.opening_words import opened_sentence, reweighted_sentence
from buttonstudy.study.shares.opening import opened_compared
from buttonstudy.study.shares.reweighted import reweighted_shares


def test_reweighted_shares_say_what_was_counted(adversarial) -> None:
    table = reweighted_shares(
        adversarial.opened_cards(2), "hole_fill", ["cover_material"], ["thread"]
    )
    assert reweighted_sentence(table.iloc[0]) == (
        "Of 47 examined sets in this survey, 12 had hole fill “thread”. With each visible kind "
        "counted by how many sets of it there are, not by how many were examined, the share of all "
        "120 sets is most likely 50 %; 32 to 62 % is possible."
    )
    few = pd.Series({**table.iloc[0], "few": True})
    assert reweighted_sentence(few).endswith(
        "is most likely about 5 in 10; 3 to 7 in 10 is possible."
    )
    uncovered = pd.Series({**few, "why": "Nothing was examined of “silk”."})
    assert reweighted_sentence(uncovered).endswith(
        "Nothing was examined of “silk”. Of the other 120 sets most likely about 5 in 10 have it; "
        "the share of all sets may be 3 to 7 in 10."
    )
    nobody = pd.Series({**table.iloc[0], "examined": 0})
    assert reweighted_sentence(nobody) == "No set in this survey was examined for hole fill."


def test_opened_and_unopened_sets(adversarial) -> None:
    table = opened_compared(adversarial.opened_cards(2))
    assert opened_sentence(table) == (
        "Opened and unopened sets differ in 2 of 2 visible traits, most in cover material “felt”: "
        "40 of 47 opened sets against 20 of 73 unopened sets. What the opened sets hold cannot "
        "stand for all sets without being reweighted."
    )
    assert opened_sentence(table.assign(differs=False)) == (
        "Opened and unopened sets were compared in 2 visible traits; no difference is larger than "
        "chance would make. Some may be there all the same."
    )
    assert opened_sentence(table[:0]) == (
        "Opened and unopened sets cannot be compared: this survey does not have both."
    )
