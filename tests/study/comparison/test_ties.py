"""One feature held against several: which pairs are looked at, and what is said of them."""

import pandas as pd
import pytest

from buttonstudy.study.comparison.association_words import tie_findings
from buttonstudy.study.comparison.ties import TIE_COLUMNS, ties_of


def survey(both, first, second, neither, **columns):
    fills = ["felt"] * (both + first) + ["open"] * (second + neither)
    moulds = ["wood"] * both + ["bone"] * first + ["wood"] * second + ["bone"] * neither
    return pd.DataFrame({"hole_fill": fills, "mould_material": moulds, **columns})


def test_pairs_with_too_few_sets_on_a_side_are_left_out():
    # Nine sets with felt: one fewer than the limit tied-fewest-sets.
    assert ties_of(survey(5, 4, 20, 20), "hole_fill", ["mould_material"]).empty
    table = ties_of(survey(6, 4, 20, 20), "hole_fill", ["mould_material"])
    assert len(table) == 4
    assert table[["field", "by"]].drop_duplicates().values.tolist() == [
        ["hole_fill", "mould_material"]
    ]


def test_the_interval_farthest_from_one_comes_first():
    table = ties_of(
        survey(21, 2, 2, 20, cover_thickness=["thin", "thick"] * 22 + ["thin"]),
        "hole_fill",
        ["cover_thickness", "mould_material"],
    )
    assert table.iloc[0][["by", "term", "group"]].tolist() == ["mould_material", "felt", "wood"]
    ends = pd.concat([table["low"], 1 / table["high"]], axis=1).max(axis=1)
    assert ends.tolist() == pytest.approx(sorted(ends, reverse=True))


def test_what_goes_together_is_told_and_what_cannot_be_held_against_it():
    table = ties_of(survey(21, 2, 2, 20), "hole_fill", ["mould_material", "cover_layers"])
    said = tie_findings(table, "hole_fill", ["mould_material", "cover_layers"])
    assert said[0].startswith(
        "Of 23 sets in this survey with mould material “wood”, 21 had hole fill “felt”; of the 22 "
        "others, 2. The odds are "
    )
    assert said[-2] == "4 pairs looked at: about 1 in 20 would stand apart by chance."
    assert said[-1] == (
        "Hole fill cannot be held against cover layers: no pair has 10 sets on either side of "
        "both features."
    )


def test_no_tie_is_no_proof_that_there_is_none():
    table = ties_of(survey(10, 10, 10, 10), "hole_fill", ["mould_material"])
    assert tie_findings(table, "hole_fill", ["mould_material"]) == [
        "None of the 4 pairs that could be looked at goes together more than chance allows; the "
        "intervals say how strong a tie may still be hidden."
    ]


@pytest.mark.parametrize("buttons", [pd.DataFrame(), survey(1, 0, 0, 0), survey(0, 9, 0, 0)])
def test_with_hardly_a_set_the_table_stays_well_formed(buttons):
    table = ties_of(buttons, "hole_fill", ["mould_material", "hole_diameter"])
    assert table.empty
    assert list(table.columns) == list(TIE_COLUMNS)
    assert tie_findings(table, "hole_fill", ["mould_material", "hole_diameter"]) == [
        "Hole fill cannot be held against mould material and hole diameter: no pair has 10 sets on "
        "either side of both features."
    ]
    assert list(ties_of(buttons, "hole_fill", []).columns) == list(TIE_COLUMNS)


def test_the_one_pair_that_could_be_looked_at_is_named():
    one = ties_of(survey(10, 10, 10, 10), "hole_fill", ["mould_material"]).head(1)
    assert tie_findings(one, "hole_fill", ["mould_material"])[0].startswith(
        "The one pair that could be looked at, “felt” with mould material “bone”, does not go "
        "together more than chance allows;"
    )
