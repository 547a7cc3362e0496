"""Features that go together: published odds ratios, set-wise counting, empty cells."""

import numpy as np
import pandas as pd
import pytest
from scipy import sparse

from buttonstudy.study.comparison.association import associations, groups_of
from buttonstudy.study.comparison.association_words import association_sentence
from buttonstudy.study.comparison.odds import odds_with_interval
from buttonstudy.study.evidence.answers import answers


def sets_in(both, first, second, neither):
    return sparse.csr_array(np.repeat(np.eye(4), [both, first, second, neither], axis=0))


def survey(both, first, second, neither, repeat=1):
    fill = np.repeat(["felt", "felt", "open", "open"], [both, first, second, neither])
    mould = np.repeat(["wood", "bone", "wood", "bone"], [both, first, second, neither])
    sets = np.arange(len(fill)).astype(str)
    table = pd.DataFrame({"file": "a", "set_id": sets, "hole_fill": fill, "mould_material": mould})
    return table.loc[np.repeat(table.index, repeat)]


@pytest.mark.parametrize(
    ("cells", "ratio", "low", "high"),
    [
        # The worked example in scipy's documentation of odds_ratio (from memory).
        ((7, 15, 58, 472), 3.783668770554967, 1.2514829132266785, 10.363493716701269),
        # Tea tasting (Fisher 1935), as R prints it for fisher.test (from memory): 6.408309 with
        # 0.2117 to 621.9; its upper end is found to a coarse tolerance.
        ((3, 1, 1, 3), 6.408309, 0.2117, 621.93),
    ],
)
def test_whole_sets_get_the_exact_conditional_ratio(cells, ratio, low, high):
    found = odds_with_interval(sets_in(*cells), 100, 1)
    assert found.ratio == pytest.approx(ratio, rel=1e-4)
    assert (found.low, found.high) == pytest.approx((low, high), rel=1e-2)
    assert found.how == "conditional estimate and exact interval"


def test_an_empty_cell_gets_half_added_and_an_open_interval():
    found = odds_with_interval(sets_in(6, 0, 2, 8), 100, 1)
    # Haldane 1956: (6.5 x 8.5) / (0.5 x 2.5).
    assert found.ratio == pytest.approx(44.2)
    assert found.low > 1
    assert np.isnan(found.high)
    assert found.how.startswith("½ added to each cell, one being empty (Haldane–Anscombe)")


@pytest.mark.parametrize(
    ("cells", "reason"),
    [
        ((0, 0, 5, 5), "no set had the term"),
        ((5, 5, 0, 0), "every set had the term"),
        ((0, 5, 0, 5), "no set was in the group"),
        ((5, 0, 5, 0), "every set was in the group"),
        ((0, 0, 0, 0), "no set was examined for both"),
    ],
)
def test_with_nothing_to_compare_the_reason_is_given(cells, reason):
    found = odds_with_interval(sets_in(*cells), 100, 1)
    assert np.isnan([found.ratio, found.low, found.high]).all()
    assert found.how == f"not estimable: {reason}"


def test_many_sets_get_woolfs_interval():
    # Close to the exact one of scipy for the same cells: 0.2387 to 0.3769.
    found = odds_with_interval(sets_in(300, 500, 400, 200), 100, 1)
    assert found.ratio == pytest.approx(0.3)
    assert (found.low, found.high) == pytest.approx((0.2387, 0.3769), rel=0.01)
    assert "Woolf" in found.how


def test_matching_buttons_add_nothing():
    loose = associations(survey(9, 4, 5, 14), "hole_fill", "mould_material", ["felt"], ["wood"])
    cards = associations(
        survey(9, 4, 5, 14, repeat=24), "hole_fill", "mould_material", ["felt"], ["wood"]
    )
    pd.testing.assert_frame_equal(loose, cards)
    row = loose.iloc[0]
    assert row[["sets", "both", "term_only", "group_only", "neither"]].tolist() == [32, 9, 4, 5, 14]


def test_a_mixed_set_lies_in_several_cells():
    mixed = pd.DataFrame(
        {
            "file": "a",
            "set_id": "coat",
            "hole_fill": ["felt", "open", "felt", "not examined"],
            "mould_material": ["wood", "wood", "bone", "wood"],
        }
    )
    table = associations(
        pd.concat([survey(9, 4, 5, 14), mixed], ignore_index=True),
        "hole_fill",
        "mould_material",
        ["felt"],
        ["wood"],
        n_draws=300,
    )
    row = table.iloc[0]
    assert row[["both", "term_only", "group_only"]].tolist() == pytest.approx(
        [9 + 1 / 3, 4 + 1 / 3, 5 + 1 / 3]
    )
    assert (row["sets"], row["mixed"]) == (33, 1)
    assert row["how"] == "mixed sets by their shares; interval from resampled sets"
    assert row["low"] < row["odds_ratio"] < row["high"]


def test_the_interval_of_mixed_sets_is_like_the_exact_one():
    half = sparse.csr_array(np.vstack([sets_in(20, 12, 9, 30).toarray(), np.full((2, 4), 0.25)]))
    found = odds_with_interval(half, 4000, 1)
    exact = odds_with_interval(sets_in(20, 12, 9, 30), 100, 1)
    assert np.log([found.low, found.high]) == pytest.approx(
        np.log([exact.low, exact.high]), abs=0.25
    )


def test_bounds_and_wide_readings_are_not_forced_into_a_class():
    buttons = pd.DataFrame(
        {
            "cover_layers_low": [0, 1, 2, 2, 3],
            "cover_layers_high": [0, 1, 2, None, None],
            "hole_diameter_mm": [2.0, 2.5, 3.0, 2.4, None],
            "hole_diameter_mm_low": [1.5, 2.5, 2.5, 2.2, None],
            "hole_diameter_mm_high": [2.5, 2.5, 3.5, 2.6, None],
        }
    )
    layers = {group.label: group for group in groups_of(buttons, "cover_layers")}
    assert list(layers) == ["1 or more", "2 or more", "3 or more"]
    assert layers["3 or more"].member.tolist() == [False, False, False, False, True]
    assert layers["3 or more"].known.tolist() == [True, True, True, False, True]
    hole = groups_of(buttons, "hole_diameter", edges=[2.5])[0]
    assert hole.label == "over 2.5 mm"
    # A hole of exactly 2.5 mm is in the smaller band; one of 2.2 to 2.6 mm in neither.
    assert hole.member.tolist() == [False, False, True, False, False]
    assert hole.known.tolist() == [True, True, True, False, False]


def holes(sizes, step):
    read = np.round(sizes / step) * step if step else sizes
    return pd.DataFrame(
        {
            "hole_diameter_mm": read,
            "hole_diameter_mm_low": read - step / 2,
            "hole_diameter_mm_high": read + step / 2,
        }
    )


@pytest.mark.parametrize("edge", [1.55, 2.55, 4.55])  # the kit's own, see length_bands.csv
def test_holes_read_to_the_millimetre_are_lost_on_neither_side_of_an_edge(edge):
    rng = np.random.default_rng(5)
    sizes = rng.uniform(0.6, 6.4, 400)
    fill = np.where(rng.random(400) < np.where(sizes > edge, 0.6, 0.25), "felt", "open")
    found = []
    for step in (0, 1):
        buttons = holes(sizes, step).assign(hole_fill=fill)
        table = associations(buttons, "hole_fill", "hole_diameter", ["felt"])
        found.append(
            table.set_index("group").loc[f"{edge + 0.05:.1f} mm or more", ["sets", "odds_ratio"]]
        )
    exact, whole_mm = found
    assert (exact["sets"], whole_mm["sets"]) == (400, 400)
    assert whole_mm["odds_ratio"] == pytest.approx(exact["odds_ratio"], rel=0.2)


def test_ties_and_shares_class_a_reading_alike():
    sizes = np.repeat(np.arange(0.5, 7.0, 0.25), 3)
    for step in (0, 0.1, 0.5, 1):
        buttons = holes(sizes, step)
        bands = answers(buttons, "hole_diameter").has
        first, _, last = groups_of(buttons, "hole_diameter")
        assert last.member.tolist() == bands[last.label].tolist()
        assert (first.known & ~first.member).tolist() == bands["up to 1.5 mm"].tolist()


def test_only_sets_on_which_both_are_known_count():
    buttons = survey(9, 4, 5, 14)
    buttons.loc[0, "mould_material"] = "not examined"
    buttons.loc[1, "hole_fill"] = "unclear"
    table = associations(buttons, "hole_fill", "mould_material", ["felt"], ["wood"])
    assert table.iloc[0][["sets", "both", "neither"]].tolist() == [30, 7, 14]


@pytest.mark.parametrize(
    "buttons",
    [
        pd.DataFrame(),
        pd.DataFrame({"hole_fill": ["not examined"] * 3, "mould_material": ["wood"] * 3}),
    ],
)
def test_without_answers_the_tables_stay_well_formed(buttons):
    table = associations(buttons, "hole_fill", "mould_material")
    assert table.empty
    assert "odds_ratio" in table.columns


def test_one_record_cannot_tell():
    one = pd.DataFrame({"hole_fill": ["felt"], "mould_material": ["wood"]})
    table = associations(one, "hole_fill", "mould_material")
    assert association_sentence(table.iloc[0], "hole_fill", "mould_material") == (
        "Whether hole fill “felt” goes with mould material “wood” cannot be told: every set had "
        "the term, of 1 set in this survey on which both are known."
    )


def test_sentences_tell_counts_and_how_sure():
    table = associations(survey(9, 4, 5, 14), "hole_fill", "mould_material", ["felt"], ["wood"])
    assert association_sentence(table.iloc[0], "hole_fill", "mould_material") == (
        "Of 14 sets in this survey with mould material “wood”, 9 had hole fill “felt”; of the 18 "
        "others, 4. The odds are 5.9 times as high there; with 32 sets, anything from 1.1 to "
        "40.2 times is possible."
    )


def test_pairs_with_few_sets_on_a_side_are_left_out():
    buttons = survey(9, 4, 5, 14)
    every = associations(buttons, "hole_fill", "mould_material")
    # 13 sets have felt and 14 are of wood: the smallest sides of any pair.
    kept = associations(buttons, "hole_fill", "mould_material", fewest=13)
    pd.testing.assert_frame_equal(every, kept)
    none = associations(buttons, "hole_fill", "mould_material", fewest=14)
    assert none.empty
    assert none.dtypes.equals(every.dtypes)
