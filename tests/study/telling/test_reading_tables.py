"""Checks the tables that a person reads beside a figure."""

import pandas as pd

import buttonstudy as bs
from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.telling.reading_tables import counts_side_by_side, for_readers

SCHEME = PeriodScheme("two", "Two", "", (Period("early", 1800, 1849), Period("late", 1850, 1899)))


def survey(*sets: tuple[int | None, int | None, str | None]) -> pd.DataFrame:
    """Make a survey of sets of one button: years, mould material."""
    return pd.DataFrame(
        {
            "button_id": [str(place) for place in range(len(sets))],
            "file": "invented.csv",
            "year_from": pd.array([one[0] for one in sets], dtype="Int64"),
            "year_to": pd.array([one[1] for one in sets], dtype="Int64"),
            "mould_material": pd.Categorical([one[2] for one in sets]),
        }
    )


BUTTONS = survey(
    *[(1810, 1820, "wood")] * 24,
    *[(1810, 1820, "bone")] * 8,
    *[(1860, 1870, "bone")] * 3,
    *[(1860, 1870, "not examined")] * 2,
    (None, None, "wood"),
)


def side_by_side() -> pd.DataFrame:
    shares = bs.study.shares_by_period(BUTTONS, "mould_material", SCHEME)
    return counts_side_by_side(shares).set_index("period")


def test_terms_stand_side_by_side_the_commonest_first() -> None:
    assert list(side_by_side().columns) == ["sets examined", "no answer", "wood", "bone"]


def test_a_share_stands_beside_its_count_only_where_there_are_enough_sets() -> None:
    table = side_by_side()
    assert table.loc["early", "wood"] == "24 (75 %, 58 to 87 %)"
    assert table.loc["late", "bone"] == "3"
    assert table.loc["late", "wood"] == "0"


def test_sets_without_an_answer_are_counted_apart() -> None:
    table = side_by_side()
    assert table.loc["late", ["sets examined", "no answer"]].to_list() == ["3", "2"]
    assert table.loc["all sets", ["sets examined", "no answer"]].to_list() == ["36", "2"]


def test_undated_sets_have_a_row_and_empty_rows_beside_the_periods_have_none() -> None:
    assert list(side_by_side().index) == [
        "early",
        "late",
        "without a date that can be placed",
        "all sets",
    ]


def test_a_share_of_a_set_is_not_told_as_none() -> None:
    shares = bs.study.shares_by_period(
        survey((1845, 1899, "wood"), (1850, 1860, "bone")), "mould_material", SCHEME
    )
    table = counts_side_by_side(shares).set_index("period")
    assert table.loc["early", "sets examined"] == "under 1"
    assert table.loc["early", "wood"] == ""


def test_a_survey_without_answers_gives_an_empty_table() -> None:
    empty = bs.study.shares_by_period(BUTTONS.head(0), "mould_material", SCHEME)
    assert len(counts_side_by_side(empty)) == 0


def test_columns_for_programs_are_left_out_for_readers() -> None:
    examined = for_readers(bs.study.examined_by_field(BUTTONS))
    assert "field" not in examined
    assert "Mould material" in set(examined["label"])
    record = for_readers(bs.study.record_by_period(BUTTONS, SCHEME))
    assert "kind" not in record
    assert list(record["period"]) == [
        "early",
        "late",
        "without a date that can be placed",
        "all sets",
    ]


def test_a_field_without_a_label_stays() -> None:
    assert list(for_readers(pd.DataFrame({"field": ["thread"], "few": [True]}))) == ["field"]
