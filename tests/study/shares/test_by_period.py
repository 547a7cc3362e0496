import numpy as np
import pandas as pd
import pytest

from buttonstudy.schemes import Period, PeriodScheme, period_scheme
from buttonstudy.study.shares.by_period import SHARE_COLUMNS, shares_by_period

ONE = PeriodScheme("one", "One period", "none", (Period("all years", 1700, 1999),))


def _buttons(rows):
    names = ["set_id", "hole_fill", "year_from", "year_to"]
    table = pd.DataFrame(rows, columns=names)
    return table.astype({"year_from": "Int64", "year_to": "Int64"})


def test_every_set_is_in_some_row_of_each_term():
    buttons = _buttons(
        [
            ("1", "thread", 1790, 1809),
            ("2", "wax", 1850, 1850),
            ("3", "not examined", 1600, 1600),
            ("4", "thread", None, None),
        ]
    )
    table = shares_by_period(buttons, "hole_fill", period_scheme("centuries"))
    assert list(table.columns) == list(SHARE_COLUMNS)
    assert table["term"].drop_duplicates().tolist() == ["thread", "wax"]
    for _, rows in table.groupby("term"):
        everything = rows[rows["kind"] == "all"].iloc[0]
        assert everything["sets"] == 4
        for name in ("sets", "examined", "with_term", "not_examined"):
            assert rows.loc[rows["kind"] != "all", name].sum() == pytest.approx(everything[name])


def test_counts_of_a_period_are_weights_and_say_how_many_lie_wholly_in_it():
    buttons = _buttons([("1", "thread", 1790, 1809), ("2", "thread", 1801, 1802)])
    table = shares_by_period(buttons, "hole_fill", period_scheme("centuries"))
    row = table[table["period"] == "19th century"].iloc[0]
    assert [row["examined"], row["with_term"], row["dated_within"]] == [1.5, 1.5, 1]
    assert [row["year_from"], row["year_to"]] == [1800, 1899]


def test_only_examined_sets_count_as_dated_within():
    buttons = _buttons([("1", "thread", 1801, 1802), ("2", "not examined", 1801, 1802)])
    table = shares_by_period(buttons, "hole_fill", period_scheme("centuries"))
    assert table.loc[table["sets"] > 0, "dated_within"].tolist() == [1, 1]


def test_a_button_with_two_terms_counts_for_each():
    table = shares_by_period(_buttons([("1", "thread; wax", 1850, 1850)]), "hole_fill", ONE)
    assert table.loc[table["kind"] == "all", "with_term"].tolist() == [1, 1]


def test_matching_buttons_of_one_set_do_not_narrow_an_interval():
    rows = [(str(place), "thread" if place < 12 else "wax", 1850, 1850) for place in range(40)]
    once = shares_by_period(_buttons(rows), "hole_fill", ONE)
    card_of_24 = shares_by_period(_buttons(rows + rows[:1] * 23), "hole_fill", ONE)
    pd.testing.assert_frame_equal(once, card_of_24)


def test_buttons_without_a_set_are_evidence_each():
    rows = [(None, "thread", 1850, 1850)] * 40
    table = shares_by_period(_buttons(rows), "hole_fill", ONE)
    assert table["examined"].tolist() == [40, 0, 0, 40]


@pytest.mark.parametrize(
    "rows", [[], [("1", "not examined", 1850, 1850)], [("1", None, None, None)]]
)
def test_nothing_to_tell_gives_a_well_formed_empty_table(rows):
    table = shares_by_period(_buttons(rows), "hole_fill", ONE)
    assert list(table.columns) == list(SHARE_COLUMNS)
    assert table.empty


def test_terms_asked_for_are_told_even_if_nobody_was_examined():
    rows = [("1", "not examined", 1850, 1850)]
    table = shares_by_period(_buttons(rows), "hole_fill", ONE, ["thread"])
    row = table[table["kind"] == "all"].iloc[0]
    assert [row["examined"], row["if_none"], row["if_all"]] == [0, 0, 1]


def test_bounds_given_for_open_ends_date_the_sets():
    rows = [("1", "thread", 1850, None)]
    late = PeriodScheme("late", "late", "late", (Period("late", 1850, 1899),))
    table = shares_by_period(_buttons(rows), "hole_fill", late, latest=1899)
    assert table.set_index("kind")["examined"].to_dict() == {
        "period": 1,
        "outside": 0,
        "undated": 0,
        "all": 1,
    }


# Simulated surveys with known truth: sets of 1, 6 or 24 matching buttons (probabilities .60, .25,
# .15), each set with the trait with probability .45.
_SIZES, _PROBABLE, _TRUTH = (1, 6, 24), (0.60, 0.25, 0.15), 0.45


def _surveys(number, sets, seed):
    rng = np.random.default_rng(seed)
    for _ in range(number):
        times = rng.choice(_SIZES, sets, p=_PROBABLE)
        fill = np.where(rng.random(sets) < _TRUTH, "thread", "wax")
        opened = rng.random(sets)
        yield pd.DataFrame(
            {
                "set_id": np.repeat(np.arange(sets), times).astype(str),
                "hole_fill": np.repeat(fill, times),
                "seen": np.repeat(opened, times),
            }
        )


def _of_all(buttons):
    table = shares_by_period(buttons, "hole_fill", ONE, ["thread"])
    return table[table["kind"] == "all"].iloc[0]


def test_intervals_over_sets_hold_the_truth_and_intervals_over_buttons_do_not():
    by_set = by_button = 0
    for buttons in _surveys(40, 60, seed=18402):
        row = _of_all(buttons)
        by_set += row["low"] <= _TRUTH <= row["high"]
        alone = _of_all(buttons.drop(columns="set_id"))
        by_button += alone["low"] <= _TRUTH <= alone["high"]
    # nominal 95 %: 38 of 40, with a standard error of 1.4
    assert by_set >= 34
    assert by_button <= 24


def test_the_bounds_hold_the_truth_however_the_opened_sets_were_chosen():
    inside = examined_alone = 0
    for buttons in _surveys(25, 120, seed=18403):
        with_it = buttons["hole_fill"] == "thread"
        chance = np.where(with_it, 0.2, 0.7)  # sets without the trait are opened far more often
        fill = buttons["hole_fill"].where(buttons["seen"] < chance, "not examined")
        row = _of_all(buttons.assign(hole_fill=fill))
        true_share = with_it.groupby(buttons["set_id"]).first().mean()
        inside += row["if_none"] <= true_share <= row["if_all"]
        examined_alone += row["low"] <= _TRUTH <= row["high"]
    assert inside == 25
    assert examined_alone <= 5
