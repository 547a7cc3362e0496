import pandas as pd

from buttonstudy.schemes import fields
from buttonstudy.study.evidence.examined import EXAMINED_COLUMNS, examined_by_field

BUTTONS = pd.DataFrame(
    {
        "set_id": ["1", "1", "2", "3", "4", None],
        "padding": ["wool", "not examined", "absent", "unclear", "not examined", None],
        "opened": ["opened", "not opened", "opened", "opened", "not opened", "opened"],
        "hole_diameter_mm": pd.array([2, None, None, None, None, 3], dtype="Float64"),
        "cover_layers_low": pd.array([2, None, None, 0, None, None], dtype="Int64"),
        "cover_layers_high": pd.array([None, None, None, 0, None, None], dtype="Int64"),
        "cover_layers_state": ["bounded", None, "unclear", "counted", "not examined", None],
    }
)
# field -> sets, examined, absent, not examined, unclear, not recorded; the same for buttons
EXPECTED = {
    "padding": [5, 2, 1, 1, 1, 1, 6, 2, 1, 2, 1, 1],
    "hole_diameter": [5, 2, 0, 1, 0, 2, 6, 2, 0, 2, 0, 2],
    "cover_layers": [5, 2, 1, 1, 1, 1, 6, 2, 1, 1, 1, 2],
    "decoration": [5, 0, 0, 0, 0, 5, 6, 0, 0, 0, 0, 6],
}


def test_sets_and_buttons_are_counted_by_state():
    table = examined_by_field(BUTTONS, list(EXPECTED)).set_index("field")
    numbers = table.drop(columns=["label", "inside"])
    assert {name: numbers.loc[name].tolist() for name in EXPECTED} == EXPECTED


def test_a_set_is_absent_only_if_it_always_is():
    buttons = pd.DataFrame({"set_id": "1", "padding": ["wool", "absent"]})
    row = examined_by_field(buttons, ["padding"]).iloc[0]
    assert [row["examined"], row["absent"], row["buttons_absent"]] == [1, 0, 1]


def test_every_field_that_can_be_examined_has_a_row_with_its_label():
    table = examined_by_field(BUTTONS)
    expected = [field for field in fields() if field.kind in ("term", "count", "length")]
    assert table["label"].tolist() == [field.label for field in expected]
    assert table["inside"].tolist() == [field.inside for field in expected]


def test_no_buttons_give_a_table_of_noughts():
    table = examined_by_field(BUTTONS[:0], ["padding"])
    assert list(table.columns) == list(EXAMINED_COLUMNS)
    assert table["sets"].tolist() == [0]


def test_a_hole_that_was_measured_or_is_filled_was_seen():
    buttons = pd.DataFrame(
        {
            "mould_hole": [None, "not examined", "unclear", "absent", None, None, None],
            "hole_fill": [None, "wax", None, "wax", "unclear", "absent", None],
            "hole_diameter_mm": [3.0, None, 2.0, None, None, None, None],
        }
    )
    row = examined_by_field(buttons, ["mould_hole"]).iloc[0]
    counted = ["examined", "absent", "not_examined", "unclear", "not_recorded"]
    assert row[counted].tolist() == [5, 2, 0, 0, 2]
