import pandas as pd
import pytest

from buttonstudy.study.shares.crossed import CROSSED_COLUMNS, shares_crossed


def _counts(table, term):
    rows = table[(table["term"] == term) & (table["sets"] > 0)]
    return {
        row["group"]: (row["sets"], row["examined"], row["with_term"])
        for row in rows.to_dict("records")
    }


def test_shares_of_one_field_stand_by_the_groups_of_another():
    buttons = pd.DataFrame(
        {
            "hole_fill": ["thread", "wax", "not examined", "thread", "thread"],
            "mould_material": ["bone", "bone", "bone", "wood", "not examined"],
        }
    )
    table = shares_crossed(buttons, "hole_fill", "mould_material")
    assert list(table.columns) == list(CROSSED_COLUMNS)
    assert _counts(table, "thread") == {
        "bone": (3, 2, 1),
        "wood": (1, 1, 1),
        "not examined": (1, 1, 1),
        "all groups": (5, 4, 3),
    }
    kinds = table.drop_duplicates("group")["kind"].tolist()
    assert kinds == ["group", "group", "unknown", "unknown", "unknown", "all"]


def test_a_mixed_set_counts_in_each_group_by_its_share_and_by_its_buttons_there():
    buttons = pd.DataFrame(
        {
            "set_id": "1",
            "hole_fill": ["thread", "thread", "wax", "thread"],
            "mould_material": ["bone", "bone", "bone", "wood"],
        }
    )
    table = shares_crossed(buttons, "hole_fill", "mould_material")
    found = _counts(table, "thread")
    assert found["bone"] == pytest.approx((0.75, 0.75, 0.75 * 2 / 3))
    assert found["wood"] == pytest.approx((0.25, 0.25, 0.25))
    assert found["all groups"] == pytest.approx((1, 1, 0.75))


def test_a_button_of_two_materials_is_in_both_groups():
    buttons = pd.DataFrame({"hole_fill": ["thread"], "mould_material": ["bone; wood"]})
    found = _counts(shares_crossed(buttons, "hole_fill", "mould_material"), "thread")
    assert found == {"bone": (1, 1, 1), "wood": (1, 1, 1), "all groups": (1, 1, 1)}


def test_matching_buttons_add_nothing():
    buttons = pd.DataFrame(
        {"set_id": ["1", "2"], "hole_fill": ["thread", "wax"], "mould_material": "bone"}
    )
    card = pd.concat([buttons, *[buttons[:1]] * 23])
    pd.testing.assert_frame_equal(
        shares_crossed(buttons, "hole_fill", "mould_material"),
        shares_crossed(card, "hole_fill", "mould_material"),
    )


def test_at_least_two_layers_are_not_two_layers():
    buttons = pd.DataFrame(
        {
            "hole_fill": ["thread", "wax", "thread"],
            "cover_layers_low": pd.array([2, 2, None], dtype="Int64"),
            "cover_layers_high": pd.array([2, None, None], dtype="Int64"),
            "cover_layers_state": ["counted", "bounded", "unclear"],
        }
    )
    found = _counts(shares_crossed(buttons, "hole_fill", "cover_layers"), "thread")
    assert found == {
        "2": (1, 1, 1),
        "2 or more": (1, 1, 0),
        "unclear": (1, 1, 1),
        "all groups": (3, 3, 2),
    }


def test_lengths_make_bands_and_readings_across_an_edge_their_own_group():
    buttons = pd.DataFrame(
        {
            "hole_fill": ["thread", "wax", "thread"],
            "hole_diameter_mm": [1.0, 2.0, 2.0],
            "hole_diameter_mm_low": [0.9, 1.6, 1.0],
            "hole_diameter_mm_high": [1.1, 2.4, 3.0],
        }
    )
    found = _counts(shares_crossed(buttons, "hole_fill", "hole_diameter"), "thread")
    assert list(found) == ["up to 1.5 mm", "1.6 to 2.5 mm", "across two bands", "all groups"]


def test_a_sets_known_group_outweighs_its_closed_buttons():
    buttons = pd.DataFrame(
        {
            "set_id": "1",
            "hole_fill": ["thread", "not examined"],
            "mould_material": ["bone", "not examined"],
        }
    )
    found = _counts(shares_crossed(buttons, "hole_fill", "mould_material"), "thread")
    assert found == {"bone": (1, 1, 1), "all groups": (1, 1, 1)}


@pytest.mark.parametrize("values", [[], ["not examined"], [None]])
def test_nothing_to_tell_gives_a_well_formed_empty_table(values):
    buttons = pd.DataFrame({"hole_fill": values, "mould_material": values}, dtype="object")
    table = shares_crossed(buttons, "hole_fill", "mould_material")
    assert list(table.columns) == list(CROSSED_COLUMNS)
    assert table.empty
