"""Insides of unopened buttons, layers without a cover, and holes that cannot be."""

import pytest

CASES = [
    ({"opened": "not opened", "mould_material": "wood"}, ["inside-of-unopened"]),
    ({"opened": "not opened", "padding": "absent"}, ["inside-of-unopened"]),
    ({"opened": "not opened", "hole_diameter_mm": 2}, ["inside-of-unopened"]),
    (
        {"opened": "not opened", "cover_layers_low": 2, "cover_layers_high": 2},
        ["inside-of-unopened"],
    ),
    ({"opened": "not opened", "mould_shape": "domed"}, ["felt-through-cover"]),
    ({"opened": "not opened", "mould_shape": "domed", "padding": "wool"}, ["inside-of-unopened"]),
    ({"opened": "not opened", "mould_material": "unclear"}, []),
    ({"opened": "not opened", "mould_material": "not examined"}, []),
    ({"opened": "not opened", "cover_material": "silk"}, []),
    ({"opened": "not opened", "mould_material": "glass", "cover_material": "absent"}, []),
    ({"opened": "not opened", "mould_material": "bone", "cover_condition": "lost"}, []),
    (
        {
            "opened": "not opened",
            "mould_material": "bone",
            "cover_condition": "soiled; worn through",
        },
        [],
    ),
    (
        {"opened": "not opened", "padding": "wool", "cover_condition": "soiled"},
        ["inside-of-unopened"],
    ),
    ({"opened": "partly opened", "mould_material": "wood"}, []),
    ({"mould_material": "wood"}, []),
    (
        {"cover_material": "absent", "cover_layers_low": 1, "cover_layers_high": 1},
        ["layers-without-cover"],
    ),
    ({"cover_material": "absent", "cover_layers_low": 0, "cover_layers_high": 0}, []),
    (
        {"cover_material": "silk", "cover_layers_low": 0, "cover_layers_high": 0},
        ["cover-without-layers"],
    ),
    (
        {
            "cover_material": "silk",
            "cover_condition": "lost",
            "cover_layers_low": 0,
            "cover_layers_high": 0,
        },
        [],
    ),
    ({"mould_hole": "absent", "hole_fill": "filled"}, ["hole-filled-without-hole"]),
    ({"mould_hole": "absent", "hole_fill": "open"}, ["hole-filled-without-hole"]),
    ({"mould_hole": "pierced", "hole_fill": "absent"}, ["hole-without-fill"]),
    ({"mould_hole": "pierced", "hole_fill": "open"}, []),
    ({"mould_hole": "absent", "hole_fill": "absent"}, []),
    ({"mould_hole": "unclear", "hole_fill": "filled"}, []),
    ({"mould_hole": "absent", "hole_diameter_mm": 2}, ["hole-measured-without-hole"]),
]


@pytest.mark.parametrize(("row", "kinds"), CASES)
def test_what_cannot_be_is_told_and_what_can_is_not(findings, row, kinds):
    assert [kind for kind, _ in findings(row)] == kinds


def test_the_features_seen_are_named(findings):
    row = {
        "opened": "not opened",
        "mould_material": "wood",
        "padding": "wool",
        "mould_shape": "ball",
    }
    told = findings(row, whole=True).iloc[0]
    assert told["problem"].startswith(
        "What is inside is noted (mould material, padding), though the button was not opened. "
    )
    assert told["level"] == "to confirm"
