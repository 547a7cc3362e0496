import numpy as np
import pandas as pd
import pytest

from buttonstudy.schemes import period_scheme
from buttonstudy.study.comparison.differences import differences_between
from buttonstudy.study.comparison.periods import compare_periods
from buttonstudy.study.comparison.turning import turning_years
from buttonstudy.study.comparison.turning_words import turning_sentence
from buttonstudy.study.comparison.words import (
    comparison_sentence,
    difference_sentence,
    estimate_lines,
)
from buttonstudy.study.shares.latent import estimated_shares
from buttonstudy.study.shares.traits import estimate_traits
from buttonstudy.study.telling.words import in_ten

ESTIMATE = {
    "field": "mould_material",
    "term": "bone",
    "period": "1820–1839",
    "kind": "period",
    "examined": 40.0,
    "with_term": 12.2,
    "dated_within": 16,
    "with_term_within": 5.0,
    "estimate": 0.42,
    "low": 0.214,
    "high": 0.633,
    "dating_low": 0.262,
    "dating_high": 0.576,
    "if_none": 0.28,
    "if_all": 0.61,
    "without_answer": 20.4,
    "worth": 18.0,
    "told_apart": True,
    "why": "",
    "few": False,
}
COMPARISON = {
    "field": "hole_fill",
    "term": "absent",
    "earlier": "1800–1819",
    "later": "1860–1879",
    "earlier_sets": 11,
    "earlier_with_term": 0.0,
    "later_sets": 17,
    "later_with_term": 14.0,
    "difference": 0.84,
    "low": 0.51,
    "high": 0.96,
    "as_large": 0,
    "shuffles": 2000,
    "traits_together": 5,
    "sureness": "clear",
    "warning": "",
    "why": "",
}
COUNTED = (
    "Of 11 examined sets in this survey dated wholly within 1800–1819, none had hole fill “none”; "
    "of 17 within 1860–1879, 14. Estimated from all sets, those with wide dates included: of every "
    "10 sets about "
)


def row(values: dict, **changed: object) -> pd.Series:
    return pd.Series({**values, **changed})


def test_three_kinds_of_not_knowing_stand_on_three_lines() -> None:
    assert estimate_lines(row(ESTIMATE)) == (
        "Of 16 examined sets in this survey dated wholly within 1820–1839, 5 had mould material "
        "“bone”; with the sets dated as they are, a share of 21 to 63 % is possible.",
        "About 20 sets without a clear answer could make that share anything from 28 %, if none of "
        "them had it, to 61 %, if all of them had.",
        "The true years of the sets with wide dates could make the share 26 to 58 % among these "
        "very sets.",
    )


def test_few_sets_have_no_percentages() -> None:
    lines = estimate_lines(row(ESTIMATE, few=True, with_term_within=0.0))
    assert lines == (
        "Of 16 examined sets in this survey dated wholly within 1820–1839, none had mould material "
        "“bone”; with the sets dated as they are, a share of 2 to 7 in 10 is possible.",
        "About 20 sets without a clear answer could make that share anything from 2 to 7 in 10.",
        "The true years of the sets with wide dates could make the share 2 to 6 in 10 among these "
        "very sets.",
    )
    assert "%" not in "".join(lines)


def test_nothing_left_open_is_said_too() -> None:
    plain = row(ESTIMATE, without_answer=0.0, dating_low=0.3, dating_high=0.3)
    assert estimate_lines(plain)[1:] == (
        "Every one of these sets has a clear answer.",
        "The dates of these sets leave nothing open.",
    )


def test_a_period_not_told_apart_says_why_in_place_of_the_dating() -> None:
    assert estimate_lines(row(ESTIMATE, told_apart=False, why="Too few."))[2] == "Too few."


OTHERS = {
    "period": "No set in this survey dated to 1820–1839 was examined for mould material.",
    "outside": "No set outside the periods was examined for mould material.",
    "undated": "No set without a date that can be placed was examined for mould material.",
}


@pytest.mark.parametrize("kind", OTHERS)
def test_rows_without_sets(kind: str) -> None:
    labels = {"period": "1820–1839", "outside": "outside", "undated": "undated"}
    values = row(ESTIMATE, kind=kind, period=labels[kind], examined=0.0, estimate=np.nan)
    assert estimate_lines(values) == (OTHERS[kind], "", "")


def test_rows_that_tell_nothing_of_a_period() -> None:
    outside = row(ESTIMATE, kind="outside", period="outside", examined=3.4, estimate=np.nan)
    assert estimate_lines(outside)[0] == (
        "About 3 examined sets dated outside the periods: of no use to a period."
    )


def test_all_periods_need_no_dates() -> None:
    lines = estimate_lines(row(ESTIMATE, kind="all", period="all periods", with_term=12.0))
    assert lines[0] == (
        "Of 40 examined sets in this survey, 12 had mould material “bone”; with 40 sets, a share "
        "of 21 to 63 % is possible."
    )
    assert lines[2] == ""


def test_a_difference_is_told_in_counts_first_and_then_how_sure() -> None:
    assert comparison_sentence(row(COMPARISON)) == (
        f"{COUNTED}8 more had it in 1860–1879 (with the sets dated as they are, 5 to 10 more "
        "is possible). The answers were shuffled among the sets: chance alone made the periods "
        "differ as much in none of 2,000 shuffles; 5 traits were looked at together: it is clear that "
        "periods differ."
    )


def test_what_may_be_chance_says_what_could_still_be_there() -> None:
    values = row(
        COMPARISON, difference=-0.2, low=-0.52, high=0.13, as_large=50, shuffles=310,
        sureness="may be chance", traits_together=1,
    )  # fmt: skip
    assert comparison_sentence(values) == (
        f"{COUNTED.removesuffix('of every 10 sets about ')}about 2 fewer of every 10 sets in "
        "1860–1879 (with the sets dated as they are, 6 fewer to 2 more is possible). The answers were shuffled among the sets: chance alone made the periods "
        "differ as much in 50 of 310 shuffles, where shuffling stopped, since that is often enough "
        "to judge by: this may be chance. That is no proof that periods are "
        "alike: a difference of up to 6 of every 10 sets could still be there."
    )


def test_a_warning_follows_a_difference() -> None:
    said = comparison_sentence(row(COMPARISON, warning="It may be the recorders'.", as_large=1))
    assert said.endswith("it is clear that periods differ. It may be the recorders'.")
    assert "differ as much in 1 of 2,000 shuffles" in said


def test_no_comparison_says_why() -> None:
    assert comparison_sentence(row(COMPARISON, why="Too few sets.", shuffles=pd.NA)) == (
        "Hole fill “none”: periods cannot be compared. Too few sets."
    )
    shuffled = comparison_sentence(row(COMPARISON, why="Too few sets."))
    assert shuffled.startswith("Hole fill “none”: too few sets. The answers were shuffled")
    assert shuffled.endswith("it is clear that periods differ.")
    assert difference_sentence(row(COMPARISON, why="Too few sets.")) == (
        "Hole fill “none”: the periods cannot be compared. Too few sets."
    )


@pytest.mark.parametrize(
    ("low", "high", "says"),
    [
        (0.066, 0.64, "0.6 to 7 more"),
        (0.002, 0.6, "just over 0 to 6 more"),
        (0.0, 0.303, "none to 4 more"),
        (0.0, 0.004, "none to 0.1 more"),
        (-0.004, 0.0, "none to 0.1 fewer"),
        (0.001, 0.004, "just over 0 to 0.1 more"),
        (-0.64, -0.03, "0.3 to 7 fewer"),
        (-0.83, -0.72, "7 to 9 fewer"),
    ],
)
def test_an_interval_that_excludes_no_difference_never_begins_at_nought(low, high, says) -> None:
    said = difference_sentence(row(COMPARISON, difference=(low + high) / 2, low=low, high=high))
    assert f" {says} " in said.replace(")", " ").replace("(", " ")


def test_hardly_any_difference() -> None:
    said = difference_sentence(row(COMPARISON, difference=0.01, low=-0.2, high=0.22))
    assert said.endswith(
        "of every 10 sets about as many had it in both (with the sets dated as they are, 2 fewer "
        "to 3 more is possible)."
    )


def test_hardly_any_securely_dated_sets_do_not_lead() -> None:
    said = difference_sentence(row(COMPARISON, earlier_sets=1, later_sets=3))
    assert said == (
        "Hole fill “none”, 1800–1819 and 1860–1879: by the estimate, of every 10 sets about 8 more "
        "had it in 1860–1879 (with the sets dated as they are, 5 to 10 more is possible); only 1 "
        "and 3 examined sets are dated wholly within these periods."
    )


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [(0, 1, "none to all"), (0.3, 0.3, "3 to 3 in 10"), (0.0, 0.0, "none to 1 in 10")],
)
def test_tenths_are_widened_outwards(low: float, high: float, words: str) -> None:
    assert in_ten(low, high) == words


def test_no_sentence_calls_anything_significant_or_gives_a_bare_chance(adversarial) -> None:
    buttons = adversarial.spike(1)
    buttons.loc[:60, "mould_material"] = "not examined"
    traits = estimate_traits(buttons, ["mould_material"], adversarial.twenty_years(1780, 6))
    periods = traits[0].dated.labels
    said = [" ".join(estimate_lines(line)) for _, line in estimated_shares(traits).iterrows()]
    said += [comparison_sentence(line) for _, line in compare_periods(traits).iterrows()]
    between = differences_between(traits, periods[0], periods[5])
    said += [difference_sentence(line) for _, line in between.iterrows()]
    said += [
        turning_sentence(line) for _, line in turning_years(buttons, "mould_material").iterrows()
    ]
    for sentence in said:
        assert "significant" not in sentence
        assert "p =" not in sentence
        assert "nan" not in sentence
        assert "buttons of" not in sentence


def test_undated_surveys_are_still_told() -> None:
    buttons = pd.DataFrame({"padding": ["wool"] * 3 + ["absent"] * 37})
    traits = estimate_traits(
        buttons, ["padding"], period_scheme("centuries"), {"padding": ["wool"]}
    )
    said = [estimate_lines(line)[0] for _, line in estimated_shares(traits).iterrows()]
    assert said[-2] == "40 examined sets without a date that can be placed: of no use to a period."
    assert said[-1].startswith("Of 40 examined sets in this survey, 3 had padding “wool”")


def test_a_share_that_dates_hardly_move_is_told_as_one_number() -> None:
    values = row(ESTIMATE, few=False, dating_low=0.031, dating_high=0.034)
    assert estimate_lines(values)[2] == (
        "The true years of the sets with wide dates hardly move the share: it stays 3 %."
    )
