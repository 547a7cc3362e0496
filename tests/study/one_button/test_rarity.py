"""One button among the rest: exact intervals, its own set left out, undecided counts left out."""

import numpy as np
import pandas as pd
import pytest
from scipy import stats

from buttonstudy.schemes import Period, PeriodScheme, period_scheme
from buttonstudy.study.one_button.lacking import lacking_fields
from buttonstudy.study.one_button.rarity import size_among, trait_rarity
from buttonstudy.study.one_button.words import (
    rarity_findings,
    rarity_sentence,
    size_among_findings,
    size_among_sentence,
)
from buttonstudy.study.shares.tally import clopper_pearson

TWO = PeriodScheme(
    "two", "Two", "invented", (Period("early", 1800, 1819), Period("late", 1820, 1839))
)

# Newcombe 1998 (Statistics in Medicine 17:857), Table I, Clopper-Pearson (values from memory,
# confirmed by scipy).
PUBLISHED = [
    (81, 263, 0.2527, 0.3676),
    (15, 148, 0.0578, 0.1617),
    (0, 20, 0.0, 0.1684),
    (1, 29, 0.0009, 0.1776),
]


def survey(own=1, felt=3, paper=8, closed=5, year=1800):
    """A record with felt in its hole, in a set of ``own``; other sets with felt, paper, closed."""
    fill = ["felt"] * own + ["felt"] * felt + ["paper"] * paper + ["not examined"] * closed
    sets = ["own"] * own + [f"s{number}" for number in range(felt + paper + closed)]
    return pd.DataFrame(
        {
            "file": "a",
            "button_id": [f"b{number}" for number in range(len(fill))],
            "set_id": sets,
            "hole_fill": fill,
            "year_from": year,
            "year_to": year + 19,
        }
    )


def rarity(buttons, row=0, period="all periods"):
    table = trait_rarity(buttons, row, TWO)
    return table[(table["field"] == "hole_fill") & (table["period"] == period)].iloc[0]


@pytest.mark.parametrize(("having", "examined", "low", "high"), PUBLISHED)
def test_the_exact_interval_is_the_published_one(having, examined, low, high):
    found = clopper_pearson(having, examined)
    assert found == pytest.approx((low, high), abs=5e-5)
    exact = stats.binomtest(having, examined).proportion_ci(0.95, "exact")
    assert found == pytest.approx((exact.low, exact.high), abs=1e-9)


@pytest.mark.parametrize("own", [1, 24])
def test_its_own_set_is_left_out(own):
    row = rarity(survey(own=own))
    assert (row["examined"], row["with_term"]) == (11, 3)
    assert (row["low"], row["high"]) == pytest.approx(clopper_pearson(3, 11))


def test_sets_not_examined_are_not_counted():
    assert rarity(survey(closed=50))["examined"] == 11


def test_what_nobody_else_has_gets_an_upper_limit():
    row = rarity(survey(felt=0, paper=20))
    assert row["with_term"] == 0
    # 1 - 0.05^(1/20), Hanley & Lippman-Hand 1983: 0.1391.
    assert row["at_most"] == pytest.approx(0.1391, abs=5e-5)
    assert rarity_sentence(row) == (
        "Hole fill “felt”: not seen before in the 20 other sets examined; it could still be as "
        "common as 1 in 7 with 95 % confidence."
    )
    many = rarity(survey(felt=0, paper=60))
    assert rarity_sentence(many) == (
        "Hole fill “felt”: not seen before in the 60 other sets examined; at most 5 % with 95 % "
        "confidence."
    )


def test_with_few_sets_only_counts_are_told():
    assert rarity_sentence(rarity(survey())) == (
        "Hole fill “felt”: 3 of the 11 other sets examined have it; too few sets for a percentage."
    )
    assert rarity_sentence(rarity(survey(felt=10, paper=30))) == (
        "Hole fill “felt”: 10 of the 40 other sets examined have it; with 40 sets, anything from "
        "13 to 41 % is possible."
    )


def test_its_period_counts_sets_dated_wholly_within_it():
    buttons = survey(felt=4, paper=6, closed=0)
    buttons.loc[1:2, ["year_from", "year_to"]] = [1820, 1830]
    buttons.loc[3, "year_to"] = 1830
    table = trait_rarity(buttons, 0, TWO)
    assert table["period"].tolist() == ["all periods", "early"]
    row = rarity(buttons, period="early")
    assert (row["examined"], row["with_term"]) == (7, 1)
    assert (row["may_belong"], row["may_belong_with"]) == (8, 2)
    assert "1 of the 7 other sets examined dated wholly to early has it" in rarity_sentence(row)


def test_each_of_several_terms_and_absent_is_asked_about():
    buttons = survey(felt=3, paper=8)
    buttons.loc[0, "hole_fill"] = "felt; thread"
    buttons["padding"] = ["absent", "absent", "wool", *[None] * 14]
    table = trait_rarity(buttons, 0, TWO).query("period == 'all periods'")
    counts = table.set_index(["field", "term"])[["examined", "with_term"]]
    assert counts.loc[("hole_fill", "thread")].tolist() == [11, 0]
    assert counts.loc[("hole_fill", "felt")].tolist() == [11, 3]
    assert counts.loc[("padding", "absent")].tolist() == [2, 1]


def test_bounded_counts_that_may_be_the_same_are_undecided():
    buttons = pd.DataFrame(
        {
            "cover_layers_low": pd.array([2, 2, 3, 2, 1, None], dtype="Int64"),
            "cover_layers_high": pd.array([2, 2, 3, None, 1, None], dtype="Int64"),
        }
    )
    table = trait_rarity(buttons, 0, TWO)
    assert table[["term", "examined", "with_term"]].to_numpy().tolist() == [["2", 3, 1]]


def test_no_other_set_examined_is_said_so():
    buttons = survey(felt=0, paper=0)
    row = rarity(buttons)
    assert rarity_sentence(row) == "Hole fill “felt”: no other set was examined for it."
    assert np.isnan([row["share"], row["low"], row["high"], row["at_most"]]).all()


def test_the_rarest_traits_are_told_first():
    buttons = survey(felt=3, paper=8, closed=0).assign(padding="wool", thread="linen")
    buttons.loc[1:, "thread"] = "silk"
    table = trait_rarity(buttons, 0, TWO)
    assert rarity_findings(table, 1) == [
        "Thread “linen”: not seen before in the 11 other sets examined; it could still be as "
        "common as 1 in 4 with 95 % confidence.",
        "Hole fill “felt”: 3 of the 11 other sets examined have it; too few sets for a percentage.",
        "More usual than these: 1 further trait of this record.",
        "Traits go together, so that their rarities must not be multiplied.",
    ]
    assert rarity_findings(trait_rarity(buttons.iloc[:1], 0, TWO)) == [
        "No trait of this record was examined on any other set of the survey."
    ]


def sizes(own, others, step=0.0, year=1800):
    size = np.array([own, *others], dtype=float)
    return pd.DataFrame(
        {
            "diameter_mm": size,
            "diameter_mm_low": size - step / 2,
            "diameter_mm_high": size + step / 2,
            "year_from": year,
            "year_to": year + 19,
        }
    )


def test_a_size_is_placed_among_the_others():
    table = size_among(sizes(20.0, np.arange(10, 30) + 0.5, step=0.1), 0, TWO).set_index("period")
    row = table.loc["all periods"]
    assert row["smaller"] == pytest.approx(0.5)
    assert row["sets"] == 20
    assert (row["low"], row["high"]) == pytest.approx(clopper_pearson(10, 20))
    assert row["median_mm"] == pytest.approx(20.0, abs=0.5)
    assert table.index.tolist() == ["all periods", "early"]


def test_a_coarse_reading_leaves_its_place_open():
    others = np.arange(10, 30) + 0.5
    buttons = sizes(20.0, others)
    buttons.loc[0, ["diameter_mm_low", "diameter_mm_high"]] = [17.0, 23.0]
    row = size_among(buttons, 0, TWO).iloc[0]
    assert (row["smaller_low"], row["smaller_high"]) == pytest.approx((0.35, 0.65), abs=0.01)
    assert row["low"] == pytest.approx(clopper_pearson(7, 20)[0], abs=0.01)
    assert row["high"] == pytest.approx(clopper_pearson(13, 20)[1], abs=0.01)


def test_the_largest_of_all_is_not_beyond_doubt():
    row = size_among(sizes(50.0, np.arange(10, 30)), 0, TWO).iloc[0]
    assert row["smaller"] == pytest.approx(1)
    assert row["high"] == 1
    assert row["low"] == pytest.approx(clopper_pearson(20, 20)[0])
    assert size_among_sentence(row).startswith(
        "Diameter 50 mm (78.7 lines): among 20 other sets in this survey, 100 % are smaller"
    )


def test_a_record_without_a_size_has_no_place():
    buttons = sizes(np.nan, [10.0, 20.0])
    assert size_among(buttons, 0, TWO).empty
    alone = size_among(sizes(16.0, []), 0, TWO)
    assert size_among_sentence(alone.iloc[0]) == (
        "Diameter 16 mm (25.2 lines): no other set in this survey has this size measured."
    )


def test_a_record_without_a_size_is_told_so():
    assert size_among_findings(size_among(sizes(np.nan, [10.0]), 0, TWO)) == [
        "This record has no diameter, so that none can be set beside it."
    ]


def test_periods_with_too_few_sets_are_told_together():
    buttons = sizes(20.0, np.arange(10, 30) + 0.5)
    buttons.loc[0, "year_to"] = 1839
    said = size_among_findings(size_among(buttons, 0, TWO))
    assert said[0].startswith(
        "Diameter 20 mm (31.5 lines): among 20 other sets in this survey, 50 %"
    )
    assert said[1].startswith("Among 20 other sets dated to early, 50 % are smaller (half are")
    assert said[2] == "Too few sets to say more of its periods: late (0 sets)."


def test_the_widest_range_stands_beside_a_share():
    row = rarity(survey(felt=3, paper=8, closed=5))
    # Arithmetic: 3 of 16 if none of the five unexamined sets had it, 8 of 16 if all had.
    assert (row["sets"], row["if_none"], row["if_all"]) == (16, 3 / 16, 8 / 16)


def test_what_is_new_in_its_period_only_is_told_apart():
    buttons = survey(felt=3, paper=8)
    buttons["cover_cut"] = "circle"
    felt = (buttons["hole_fill"] == "felt") & (buttons["set_id"] != "own")
    buttons.loc[felt, ["year_from", "year_to"]] = [1820, 1839]
    said = rarity_findings(trait_rarity(buttons, 0, TWO))
    assert said[-2] == (
        "Seen before, but on no other set examined that is dated wholly to early: hole fill "
        "“felt” (none of 8)."
    )


def test_every_trait_not_seen_before_is_told():
    buttons = survey(felt=0, paper=8)
    for field in ("padding", "cover_cut", "thread", "back_finish", "attachment", "decoration"):
        buttons[field] = ["this"] + ["other"] * (len(buttons) - 1)
    said = rarity_findings(trait_rarity(buttons, 0, TWO), n_told=1)
    assert sum("not seen before" in sentence for sentence in said) == 7


def test_the_state_of_a_cover_is_no_trait():
    buttons = pd.DataFrame(
        {"mould_material": ["bone", "wood"], "cover_condition": ["worn", "sound"]}
    )
    assert trait_rarity(buttons, 0, TWO)["field"].unique().tolist() == ["mould_material"]


def test_moulds_of_measured_holes_count_as_examined_for_a_hole():
    buttons = pd.DataFrame(
        {
            "mould_hole": ["absent", "absent", None, None],
            "hole_diameter_mm": [None, None, 3.0, None],
        }
    )
    rarity = trait_rarity(buttons, 0, period_scheme("centuries"))
    assert rarity[["examined", "with_term"]].iloc[0].tolist() == [2, 1]
    assert trait_rarity(buttons, 2, period_scheme("centuries")).empty
    assert "mould_hole" not in set(lacking_fields(buttons, 2)["field"])
    assert "mould_hole" in set(lacking_fields(buttons, 3)["field"])
