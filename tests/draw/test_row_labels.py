import pandas as pd
import pytest

from buttonstudy.draw.row_labels import (
    labelled,
    left_out_words,
    period_words,
    ruled,
    split_rows,
    with_years,
)

TABLE = pd.DataFrame(
    {
        "period": ["a", "b", "c", "d", "outside", "undated", "all periods"],
        "kind": ["period"] * 4 + ["outside", "undated", "all"],
        "sets": [0, 2, 0, 1, 0, 1, 4],
        "year_from": pd.array([1800, 1810, 1820, 1830, None, None, None], dtype="Int64"),
        "year_to": pd.array([1809, 1819, 1829, 1839, None, None, None], dtype="Int64"),
    }
)


def test_empty_rows_at_the_ends_go_and_those_between_stay():
    assert labelled(TABLE, "period")["label"].tolist() == [
        "b",
        "c",
        "d",
        "Cannot be placed",
        "All sets",
    ]


def test_less_than_half_a_set_at_an_end_or_outside_is_left_to_the_table():
    table = TABLE.assign(sets=[0.4, 2, 0.1, 0.3, 0.2, 1, 4])
    assert labelled(table, "period")["label"].tolist() == ["b", "Cannot be placed", "All sets"]
    scarce = TABLE.assign(sets=[0.4, 0.3, 0, 0, 0, 0, 0.7])
    assert labelled(scarce, "period")["label"].tolist() == ["a", "b", "All sets"]


def test_a_rule_parts_the_periods_from_the_rest():
    assert ruled(labelled(TABLE, "period")) == [False, False, False, True, False]


def test_a_page_keeps_the_first_rows_and_the_last():
    rows = labelled(TABLE, "period")
    assert split_rows(rows, 3)["label"].tolist() == ["b", "c", "All sets"]
    assert split_rows(rows, 9).equals(rows)


# label, first and last year -> label with years
LABELS = [
    ("Regency", 1811, 1820, "Regency, 1811–1820"),
    ("1840s", 1840, 1849, "1840s"),
    ("1800–1849", 1800, 1849, "1800–1849"),
    ("19th century", 1800, 1899, "19th century, 1800–1899"),
]


@pytest.mark.parametrize(("label", "first", "last", "expected"), LABELS)
def test_years_stand_beside_names_that_do_not_tell_them(label, first, last, expected):
    assert with_years(label, first, last) == expected


def test_captions_name_the_years_of_the_periods():
    assert period_words(TABLE[:2]) == ["Periods: a, 1800–1809; b, 1810–1819."]
    told = TABLE[:1].assign(period="1800s")
    assert period_words(told) == []


def test_captions_say_what_a_figure_could_not_hold():
    assert left_out_words(0, "bone") == []
    assert left_out_words(2, "釦") == [
        "2 further rows in the table only.",
        "An open box stands for a letter that the figure's typeface lacks.",
    ]


def test_periods_of_long_names_may_be_labelled_by_their_years():
    named = TABLE.assign(period=["a", "Regency", "c", "Early Victorian", *TABLE["period"][4:]])
    labels = labelled(named, "period", by_years=True)["label"].tolist()
    assert labels == ["1810–1819", "1820–1829", "1830–1839", "Cannot be placed", "All sets"]
    single = named.assign(year_to=named["year_from"], year_from=[-50, -50, *named["year_from"][2:]])
    assert labelled(single, "period", by_years=True)["label"].tolist()[:2] == [
        "−50 to 1810",
        "1820",
    ]
    broken = named.astype({"year_from": "float64", "year_to": "float64"})  # as gaps make numbers
    assert labelled(broken, "period", by_years=True)["label"].tolist() == labels
    decades = TABLE.assign(period=["1800s", "1810s", "1820s", "1830s", *TABLE["period"][4:]])
    assert labelled(decades, "period", by_years=True)["label"].tolist()[0] == "1810s"
