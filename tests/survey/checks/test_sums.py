"""A last row whose diameter is the sum or the mean of the others is asked about."""

import pytest

import buttonstudy as bs

ROWS = "No,Diam (mm),Mould,Cover\n1,16,wood,silk\n2,17,bone,silk\n3,15.5,wood,wool\n"


@pytest.mark.parametrize(("row", "name"), [("x,48.5,,", "sum"), ("4,16.2,,", "mean")])
def test_a_lone_sum_or_mean_at_the_end_is_told(csv_file, row, name):
    told = bs.load_survey(csv_file(f"{ROWS}{row}\n")).problems.set_index("kind")
    assert told.loc["size-sums-up", "level"] == "to confirm"
    assert f"and that is the {name} of the 3 diameters above" in told.loc["size-sums-up", "problem"]
    assert told.loc["size-sums-up", "row"] == 5


@pytest.mark.parametrize("row", ["4,16.2,wood,", "4,18,,", "4,,,"])
def test_other_last_rows_are_left_in_peace(csv_file, row):
    kinds = bs.load_survey(csv_file(f"{ROWS}{row}\n")).problems["kind"].tolist()
    assert "size-sums-up" not in kinds
