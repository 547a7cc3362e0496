"""Sentences on when traits came in. Sizes, sets and years are invented."""

import pandas as pd

from buttonstudy.study.comparison.turning_words import turning_sentence

TURN = {
    "field": "attachment",
    "term": "thread shank",
    "told": True,
    "direction": "came in",
    "turning_year": 1841.0,
    "low": 1828.0,
    "high": 1853.0,
    "share_before": 0.02,
    "share_after": 0.81,
    "earliest_from": 1830,
    "earliest_to": 1839,
    "lacking_before": 50,
    "latest_from": 1899,
    "latest_to": 1899,
    "lacking_after": 0,
    "why": "",
}


def test_a_turning_year_stands_beside_the_sets_that_show_it() -> None:
    assert turning_sentence(pd.Series(TURN)) == (
        "In this survey attachment “thread shank” came in about 1841 (with the sets dated as they "
        "are, 1828 to 1853 is possible): its share went from fewer than 1 in 20 to about 8 in 10 of the "
        "sets. The earliest sure showing is a set dated 1830–1839 (all 50 examined sets dated "
        "wholly earlier lack it); the latest is one dated 1899 (no examined set is dated wholly "
        "later)."
    )


def test_an_untold_turning_year_says_why() -> None:
    untold = pd.Series(TURN | {"told": False, "why": "Too few.", "lacking_before": 1})
    assert turning_sentence(untold).startswith(
        "When attachment “thread shank” came in or went out cannot be told. Too few. The earliest"
    )
    assert "(the one examined set dated wholly earlier lacks it)" in turning_sentence(untold)
    nobody = pd.Series(TURN | {"told": False, "why": "Nobody looked.", "earliest_to": pd.NA})
    assert turning_sentence(nobody).endswith("cannot be told. Nobody looked.")
