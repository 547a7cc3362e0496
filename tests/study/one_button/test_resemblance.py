"""The nearest records of one record, and what it lacks that would tell most."""

import numpy as np
import pandas as pd
import pytest

from buttonstudy.study.one_button.lacking import lacking_fields
from buttonstudy.study.one_button.resemblance import nearest_records
from buttonstudy.study.one_button.words import lacking_sentence, nearest_sentence

FIELDS = ["mould_material", "hole_fill", "cover_material", "back_finish", "attachment"]


def record(number, set_id=None, size=16.0, step=1.0, **terms):
    usual = dict.fromkeys(FIELDS, "usual") | terms
    return {
        "file": "a",
        "button_id": number,
        "set_id": set_id,
        "diameter_mm": size,
        "diameter_mm_low": size - step / 2,
        "diameter_mm_high": size + step / 2,
        **usual,
    }


def test_the_nearest_come_first_with_what_agrees_and_differs():
    buttons = pd.DataFrame(
        [
            record("own"),
            record("far", size=36.0, mould_material="bone", hole_fill="wax"),
            record("same", size=16.4),
            record("near", mould_material="bone"),
        ]
    )
    found = nearest_records(buttons, 0)
    assert found.table["button_id"].tolist() == ["same", "near", "far"]
    assert found.table["rank"].tolist() == [1, 2, 3]
    # Six fields: nothing differs; one term; two terms and a gap of 19 in a range of 20 mm.
    assert found.table["distance"].tolist() == pytest.approx([0, 1 / 6, (2 + 19 / 20) / 6])
    assert (found.table["compared"] == 6).all()
    assert found.table.loc[1, "differs"] == "Mould material: usual / bone"
    assert found.table.loc[1, "agrees"].startswith("Diameter; Hole fill; Cover material")
    assert found.table.loc[2, "differs"].startswith("Diameter: 16 mm / 36 mm; Mould material")
    assert nearest_sentence(found) == (
        "The nearest of 3 other sets is same in a: of 6 fields examined on both, they agree in all."
    )


@pytest.mark.parametrize("odd", [160.0, 1600.0])
def test_one_slip_does_not_make_all_other_sizes_alike(odd):
    sizes = [16.0, 18.0, 12.0, 14.0, 20.0, 22.0, 24.0, 26.0, 15.0, 17.0, 19.0]
    kept = pd.DataFrame([record(f"b{size:.0f}", size=size) for size in sizes])
    slipped = pd.DataFrame([*kept.to_dict("records"), record("slip", size=odd)])
    before, after = (
        nearest_records(buttons, 0, 5).table["distance"].tolist() for buttons in (kept, slipped)
    )
    # Of six fields one differs: gaps of 0, 0, 1 and 2 mm less a step, in a range of 10 mm or so.
    assert after == pytest.approx(before, rel=0.4)
    assert after[-1] > 0.01


def test_its_own_set_is_left_out_and_other_sets_are_heard_once():
    card = [record(f"c{number}", "card", mould_material="bone") for number in range(24)]
    buttons = pd.DataFrame(
        [record("own", "coat"), record("twin", "coat"), *card, record("lone", hole_fill="wax")]
    )
    found = nearest_records(buttons, 0)
    assert found.table["button_id"].tolist() == ["c0", "lone"]
    assert found.table["set_size"].tolist() == [24, 1]
    assert found.sets == 2


def test_records_with_too_few_fields_in_common_are_not_called_alike():
    blank = dict.fromkeys(FIELDS[:3], "not examined")
    buttons = pd.DataFrame([record("own"), record("closed", **blank), record("open")])
    found = nearest_records(buttons, 0)
    assert found.table["button_id"].tolist() == ["open"]
    assert found.too_little == 1
    assert nearest_sentence(found).endswith(
        "1 set of 2 could not be compared, too few of the same fields being examined."
    )
    own = nearest_records(buttons, 1)
    assert own.table.empty
    assert nearest_sentence(own) == (
        "Only 3 fields of this record can be compared, and records are called alike by 5 at least."
    )
    none = nearest_records(buttons.iloc[:2], 0)
    assert nearest_sentence(none) == (
        "The one other set was not examined for 5 of the same fields, so that none can be "
        "called alike."
    )


def test_what_both_lack_does_not_make_them_alike():
    buttons = pd.DataFrame(
        [
            record("own", padding="absent", decoration="absent"),
            record("bare", padding="absent", decoration="absent", hole_fill="wax"),
            record("padded", padding="wool", hole_fill="wax"),
        ]
    )
    found = nearest_records(buttons, 0).table.set_index("button_id")
    assert found.loc["bare", "compared"] == 6
    assert found.loc["bare", "distance"] == pytest.approx(1 / 6)
    assert found.loc["padded", "distance"] == pytest.approx(2 / 7)


def test_only_so_many_are_listed():
    buttons = pd.DataFrame([record(f"b{number}", size=16 + number) for number in range(30)])
    assert len(nearest_records(buttons, 0).table) == 10
    assert nearest_records(buttons, 0, 3).table["button_id"].tolist() == ["b1", "b2", "b3"]


def test_one_record_has_nothing_to_be_like():
    found = nearest_records(pd.DataFrame([record("own")]), 0)
    assert found.table.empty
    assert nearest_sentence(found) == "There is no other set to compare it with."


def test_what_it_lacks_is_ordered_by_what_it_would_tell():
    buttons = pd.DataFrame(
        [
            record("own", hole_fill="not examined", back_finish=None, thread="unclear"),
            *[
                record(f"b{number}", hole_fill=fill, back_finish="cloth", thread="linen")
                for number, fill in enumerate(["wax", "felt", "wax", "felt"])
            ],
        ]
    )
    buttons.loc[2:, "thread"] = "not examined"
    table = lacking_fields(buttons, 0)
    known = table.set_index("field")
    assert table["field"].iloc[0] == "hole_fill"
    # Simpson's index of two and two of four: 4 of 6 pairs differ.
    assert known.loc["hole_fill", ["examined", "sets", "differ"]].tolist() == pytest.approx(
        [4, 4, 2 / 3]
    )
    assert known.loc["back_finish", "differ"] == 0
    assert np.isnan(known.loc["thread", "differ"])
    assert known.loc["thread", "examined"] == 1
    assert known.loc[["hole_fill", "back_finish", "thread"], "state"].tolist() == [
        "not examined",
        "not recorded",
        "unclear",
    ]
    assert "mould_material" not in known.index
    assert lacking_sentence(table) == (
        "Of what this record lacks, hole fill would tell most, since sets differ in it. To see "
        "hole fill the button must be open: look if it already is, and leave one that is whole to "
        "a conservator."
    )


def test_half_the_sets_examined_tells_half_as_much():
    rows = [record("own", hole_fill=None)]
    rows += [record(f"b{number}", hole_fill=fill) for number, fill in enumerate(["wax", "felt"])]
    rows += [record(f"c{number}", hole_fill="not examined") for number in range(2)]
    known = lacking_fields(pd.DataFrame(rows), 0).set_index("field")
    assert known.loc["hole_fill", ["differ", "would_tell"]].tolist() == [1.0, 0.5]


def test_absent_is_an_answer_that_tells():
    rows = [record("own", padding=None)]
    rows += [record(f"b{number}", padding="absent") for number in range(3)]
    known = lacking_fields(pd.DataFrame(rows), 0).set_index("field")
    assert known.loc["padding", ["examined", "differ"]].tolist() == [3, 0]
