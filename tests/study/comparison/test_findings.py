"""What the comparison notebook says, from tables made by the functions that it calls."""

import re

import pandas as pd
import pytest

from buttonstudy.schemes import period_scheme
from buttonstudy.study.comparison.association_words import ties_in_words
from buttonstudy.study.comparison.chosen import (
    as_compared,
    surest_first,
    terms_to_compare,
    turning_of_surest,
)
from buttonstudy.study.comparison.differences import differences_between
from buttonstudy.study.comparison.findings import (
    comparison_findings,
    difference_findings,
    recorder_findings,
    reweighted_findings,
    turning_findings,
    uncertainty_lines,
)
from buttonstudy.study.comparison.otherwise import comparison_sensitivity, tie_sensitivity
from buttonstudy.study.comparison.periods import compare_periods
from buttonstudy.study.comparison.reading_tables import (
    differences_in_words,
    reweighted_in_words,
    spans_in_words,
    turning_in_words,
)
from buttonstudy.study.comparison.ties import ties_of
from buttonstudy.study.shares.bounded_counts import counts_at_least
from buttonstudy.study.shares.count_words import at_least_in_words
from buttonstudy.study.shares.latent import estimated_shares
from buttonstudy.study.shares.otherwise import share_sensitivity
from buttonstudy.study.shares.reweighting import reweighted_estimates
from buttonstudy.study.shares.sensitivity_words import sensitivity_findings
from buttonstudy.study.shares.traits import estimate_traits

CENTURIES = period_scheme("centuries")
FIELDS = ["hole_fill", "padding"]
WITHIN = "with it, of sets dated wholly within (last row: of all)"
FORBIDDEN = re.compile(r"[Ss]ignific|\bp\s*[=<]|\bnan\b|\bNone\b|<NA>|buttons of the 1")


def record(year, fill, padding, number, recorder="Teal", wide=0):
    row = {"hole_fill": fill, "padding": padding, "recorder": recorder, "file": "invented.csv"}
    return [row | {"year_from": year, "year_to": year + wide}] * number


def clear_survey(late="Teal"):
    """Threaded holes give way to wax; padding has nothing to do with the century."""
    rows = record(1750, "thread", "wool", 16) + record(1750, "thread", "absent", 14)
    rows += record(1750, "wax", "wool", 3) + record(1790, "wax", "absent", 3, wide=30)
    rows += record(1850, "wax", "wool", 15, late) + record(1850, "wax", "absent", 13, late)
    rows += record(1850, "thread", "absent", 2, late)
    return pd.DataFrame(rows)


class Compared:
    """The tables of the notebook, made as it makes them."""

    def __init__(self, buttons):
        terms = terms_to_compare(buttons, FIELDS)
        self.traits = estimate_traits(buttons, FIELDS, CENTURIES, terms, draws=400)
        found = compare_periods(self.traits)
        self.comparison = surest_first(found, found)
        self.estimates = surest_first(estimated_shares(self.traits), found)
        self.differences = as_compared(differences_between(self.traits), found)
        self.turning = turning_of_surest(buttons, self.comparison)


@pytest.fixture(scope="module")
def clear():
    return Compared(clear_survey())


def test_three_kinds_of_not_knowing_stand_on_three_lines(clear):
    chance, unexamined, dating = uncertainty_lines(clear.estimates)
    assert chance.startswith("Chance. Of 66 examined sets in this survey, 34 had hole fill “wax”;")
    assert "dated wholly within 18th century, 3 had hole fill" in chance
    assert unexamined == "Not examined. Every one of these sets has a clear answer."
    assert dating.startswith("Dating. 18th century: ")


def test_the_surest_trait_is_told_in_full_and_the_rest_by_name(clear):
    said = comparison_findings(clear.comparison)
    assert said[0].endswith("it is clear that periods differ.")
    assert said[0].startswith("Of 33 examined sets in this survey dated wholly within 18th century")
    assert said[-1] == (
        "In 2 other traits (padding “none” and padding “wool”) chance alone may have made the "
        "differences, which is no proof that there are none."
    )


def test_further_sure_traits_are_told_without_the_shuffles_again(clear):
    _, second, _ = comparison_findings(clear.comparison)
    assert second.endswith("It is clear as well that periods differ.")
    assert "shuffled" not in second


def test_ten_traits_that_mean_nothing_give_nothing_sure(adversarial):
    scheme = adversarial.twenty_years(1800, 4)
    sure = 0
    for seed in range(1, 7):
        buttons = adversarial.forking_paths(seed)
        names = [f"trait_{place}" for place in range(10)]
        terms = terms_to_compare(buttons, names)
        traits = estimate_traits(buttons, names, scheme, terms, draws=100)
        said = " ".join(comparison_findings(compare_periods(traits)))
        sure += "it is clear" in said or "it is likely" in said
    assert sure <= 1  # of six surveys; each alone goes wrong once in twenty


def test_one_recorder_for_all_leaves_nothing_to_compare_within(clear):
    assert recorder_findings(clear.comparison) == [
        "The survey names no two recorders and is of one file, so that nobody can tell whether a "
        "difference between periods is one between recorders."
    ]


def test_a_recorder_for_each_period_is_warned_of():
    said = recorder_findings(Compared(clear_survey(late="Wren")).comparison)
    assert said[0] == (
        "For the traits in which periods surely differ, the same comparison was made among the "
        "sets of each recorder alone (unnamed hands of one file count as one)."
    )
    assert "hole fill “thread”" in said[-1]
    assert said[-1].endswith("between recorders.")


def test_why_no_share_is_reweighted_is_said():
    nothing = reweighted_estimates(
        pd.DataFrame(), pd.DataFrame({"field": [], "term": []}), CENTURIES, estimated_shares([])
    )
    assert reweighted_findings(["", ""], nothing) == [
        "The shares stand as they are, without reweighting."
    ]
    assert reweighted_findings(["cover worn", "other cover"], nothing)[0].startswith(
        "All traits compared can be seen without opening a button"
    )


def test_reweighted_shares_name_the_sets_that_each_is_of():
    """Hole fills are of fewer sets: moulds without a hole have none."""
    row = {"kind": "all", "few": False, "examined": 40.0, "estimate": 0.5, "low": 0.3, "high": 0.7}
    table = pd.DataFrame(
        [
            row | {"field": "mould_material", "term": "bone", "with_term": 20.0, "sets": 134.0},
            row | {"field": "hole_fill", "term": "wax", "with_term": 19.0, "sets": 127.0},
        ]
    )
    _, moulds, fills = reweighted_findings(["cover worn", "other cover"], table)
    assert moulds.endswith(
        "the shares of all 134 sets are most likely: mould material “bone” 50 % (20 of 40 "
        "examined; 30 to 70 % is possible)."
    )
    assert fills.startswith("The shares of all 127 sets are most likely: hole fill “wax” 50 %")


def test_reweighted_shares_and_their_spans_are_told_in_the_same_way():
    row = {"field": "padding", "term": "wool", "period": "all periods", "sets": 90, "examined": 40}
    row |= {"plain": 0.42, "estimate": 0.38, "low": 0.28, "high": 0.48, "why": ""}
    table = reweighted_in_words(pd.DataFrame([{**row, "few": few} for few in (False, True)]))
    told = table[["as examined", "reweighted", "chance allows"]].to_numpy().tolist()
    assert told == [
        ["42 %", "38 %", "28 to 48 %"],
        ["about 4 in 10", "about 4 in 10", "2 to 5 in 10"],
    ]


def test_two_periods_are_chosen_by_what_can_be_told_apart_or_by_name(clear):
    assert clear.differences[["earlier", "later"]].drop_duplicates().values.tolist() == [
        ["18th century", "19th century"]
    ]
    said = difference_findings(clear.differences)
    assert said[0].startswith("Of 33 examined sets in this survey dated wholly within 18th century")
    assert said[-1] == (
        "For 2 traits no difference at all is possible too, which with so few sets is no proof that "
        "the periods are alike."
    )
    with pytest.raises(ValueError, match='no period "Tuesday"'):
        differences_between(clear.traits, "Tuesday", "19th century")


def test_where_no_trait_is_sure_no_year_is_asked_and_the_sentence_agrees(clear):
    unsure = clear.comparison.assign(sureness="may be chance")
    assert turning_findings(turning_of_surest(clear_survey(), unsure)) == [
        "In no trait is it clear or likely that periods differ, so that no year is asked for in "
        "which one came in or went out."
    ]


def test_no_sure_difference_is_put_down_to_recorders(clear):
    unsure = clear.comparison.assign(sureness="may be chance")
    assert recorder_findings(unsure) == [
        "There is no sure difference between periods that could be one between recorders."
    ]


def test_sure_differences_are_said_to_hold_among_one_recorders_sets_only_where_they_do():
    each = ((1750, "thread", 15), (1750, "wax", 2), (1850, "wax", 14), (1850, "thread", 3))
    rows = [
        row
        for recorder in ("Teal", "Wren")
        for year, fill, number in each
        for row in record(year, fill, "wool", number, recorder)
    ]
    comparison = Compared(pd.DataFrame(rows)).comparison
    same = "For hole fill “thread” and hole fill “wax” the difference goes the same way there, is "
    assert recorder_findings(comparison)[1] == (
        f"{same}at least half as large, and is more than chance gives there: it is not one between "
        "recorders alone."
    )
    assert recorder_findings(comparison.assign(within_chance=0.2))[1] == (
        f"{same}at least half as large, though so few sets leave room for chance there."
    )


def test_turning_years_are_told_with_the_sets_before_and_after(clear):
    said = turning_findings(clear.turning)
    assert "“wax” came in about " in " ".join(said)
    assert "The earliest sure showing is a set dated 1750" in " ".join(said)


def test_figures_as_told_are_those_of_the_tables(clear):
    otherwise = comparison_sensitivity(clear_survey(), CENTURIES, clear.differences, clear.turning)
    told = otherwise[otherwise["taken"] == "as told"].set_index("figure")
    heard = {(trait.field, trait.term): trait.heard.sum() for trait in clear.traits}
    first = clear.differences.iloc[0]
    difference, year = told.iloc[0], told[told["unit"] == "year"].iloc[0]
    assert difference["value"] == 10 * first["difference"]
    assert difference["sets"] == heard[first["field"], first["term"]] == 66
    assert year["value"] == clear.turning["turning_year"].iloc[0]


def test_no_sentence_and_no_table_says_what_must_not_be_said(clear):
    otherwise = comparison_sensitivity(clear_survey(), CENTURIES, clear.differences, clear.turning)
    sentences = [
        *uncertainty_lines(clear.estimates),
        *comparison_findings(clear.comparison),
        *difference_findings(clear.differences),
        *turning_findings(clear.turning),
        *sensitivity_findings(otherwise),
    ]
    tables = [
        spans_in_words(clear.estimates),
        differences_in_words(clear.comparison),
        differences_in_words(clear.differences),
        turning_in_words(clear.turning),
    ]
    for text in [*sentences, *(str(cell) for table in tables for cell in table.stack())]:
        assert not FORBIDDEN.search(text), text


def test_tables_for_readers_tell_few_sets_in_tenths(clear):
    table = spans_in_words(clear.estimates)
    first = table[table["trait"] == "Hole fill: thread"].set_index("period")
    assert first.loc["18th century", WITHIN] == "30 of 33"
    assert first.loc["18th century", "most likely"].endswith("%")
    assert first.loc["all periods", "most likely"] == "48 %"
    assert first.loc["18th century", "chance allows"].endswith("%")
    few = spans_in_words(Compared(clear_survey()[20:48].reset_index(drop=True)).estimates)
    assert few["chance allows"].str.contains("in 10").any()
    assert not few["chance allows"].str.contains("%").any()
    row = differences_in_words(clear.comparison).iloc[0]
    assert row["earlier"] == "18th century: 3 of 33"
    assert row["later"] == "19th century: 28 of 30"
    assert row["how sure"] == "clear"
    assert turning_in_words(clear.turning)["earliest"].iloc[0].startswith("1750")


def test_ties_and_layers_have_their_tables_for_readers():
    ties = ties_of(clear_survey(), "hole_fill", ["padding"])
    table = ties_in_words(ties)
    assert table.columns.tolist()[:2] == ["feature", "beside"]
    assert table["with it"].str.contains(" of ").all()
    layers = pd.DataFrame({"cover_layers_low": [1, 2] * 20, "cover_layers_high": [1, None] * 20})
    (row,) = at_least_in_words(counts_at_least(layers, n_draws=100)).to_dict("records")
    assert row["so many or more"] == "2"
    assert (row["certainly"], row["possibly"]) == ("20", "20")
    assert row["most likely share"] == "50 %"
    others = sensitivity_findings(tie_sensitivity(clear_survey(), CENTURIES, ties))
    assert all("Odds of hole fill" in says for says in others)


def test_shares_are_held_against_other_ways_of_taking_them():
    buttons = clear_survey().assign(set_id=["A"] * 16 + [None] * 50)
    table = share_sensitivity(buttons, CENTURIES, ["hole_fill", "mould_shape"])
    assert table["figure"].unique().tolist() == [
        "Hole fill “wax”",
        "Hole fill “wax” in 19th century",
    ]
    every = table[table["figure"] == "Hole fill “wax”"].set_index("taken")["value"]
    assert every["as told"] == pytest.approx(34 / 51)
    assert every["buttons instead of sets"] == pytest.approx(34 / 66)


NOTHING = {
    "no record": clear_survey()[:0],
    "one record": clear_survey()[:1],
    "all the same": clear_survey()[:16],
    "no dates": clear_survey().assign(year_from=None, year_to=None),
    "one period": clear_survey()[:30],
    "all unexamined": clear_survey().assign(hole_fill="not examined", padding="not examined"),
    "one column": pd.DataFrame({"recorder": ["Teal"] * 3}),
}


@pytest.mark.parametrize("held", NOTHING)
def test_with_too_little_each_step_ends_in_a_plain_sentence(held):
    buttons = NOTHING[held]
    found = Compared(buttons)
    otherwise = comparison_sensitivity(buttons, CENTURIES, found.differences, found.turning)
    reweighted = reweighted_estimates(
        buttons.assign(visible_kind=""), found.comparison, CENTURIES, found.estimates
    )
    said = [
        *uncertainty_lines(found.estimates),
        *comparison_findings(found.comparison),
        *recorder_findings(found.comparison),
        *difference_findings(found.differences),
        *turning_findings(found.turning),
        *reweighted_findings([""], reweighted),
        *sensitivity_findings(otherwise),
        *sensitivity_findings(share_sensitivity(buttons, CENTURIES, FIELDS)),
    ]
    for text in filter(None, said):
        assert text.endswith("."), text
        assert not FORBIDDEN.search(text), text
    for table in (
        spans_in_words(found.estimates),
        differences_in_words(found.comparison),
        differences_in_words(found.differences),
        turning_in_words(found.turning),
        reweighted_in_words(reweighted),
    ):
        assert len(table.columns) > 4


def test_where_no_trait_is_sure_that_comes_first_and_none_that_cannot_be_compared(clear):
    unsure = clear.comparison.assign(sureness="may be chance").reset_index(drop=True)
    unsure.loc[0, ["why", "sureness"]] = ["Of 9 examined sets none of them had it.", ""]
    said = comparison_findings(unsure)
    assert said[0] == "In none of the 4 traits is it clear that periods differ."
    assert said[1].startswith("Of ")
    assert said[-1].startswith("Nothing can be compared for hole fill")


def test_a_sure_trait_whose_periods_cannot_be_told_is_not_the_first(clear):
    table = clear.comparison.copy()
    table.loc[table.index[0], "why"] = "Too few sets are dated within one period."
    first, second, *_ = comparison_findings(table)
    assert first.startswith("Of 33 examined sets")
    assert second.startswith("Hole fill")
    assert "too few sets are dated" in second
