import pandas as pd
import pytest

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study import (
    lacking_fields,
    lacking_in_words,
    rarity_in_words,
    size_among,
    size_among_in_words,
    trait_rarity,
)

TWO = PeriodScheme(
    "two", "Two periods", "none", (Period("early", 1800, 1849), Period("late", 1850, 1899))
)
FELT = {"hole_fill": "felt", "diameter_mm": 14.0, "year_from": 1860, "year_to": 1860}


def _survey(wax, late):
    """Make one button with felt, and others with wax, some of them of the late period."""
    years = [1860] * late + [1820] * (wax - late)
    rows = [FELT] + [
        {"hole_fill": "wax", "diameter_mm": 12.2 + place % 4, "year_from": year, "year_to": year}
        for place, year in enumerate(years)
    ]
    buttons = pd.DataFrame(rows)
    for end in ("low", "high"):
        buttons[f"diameter_mm_{end}"] = buttons["diameter_mm"]
    return buttons


def test_a_trait_has_its_counts_by_period_side_by_side():
    table = rarity_in_words(trait_rarity(_survey(40, 6), 0, TWO)).set_index("term")
    # none of 40: 1 - 0.05 ** (1 / 40) = 7.2 %, the exact one-sided limit
    assert table.loc["felt"].to_list() == ["Hole fill", "none of 40; at most 7 %", "none of 6"]
    assert table.columns.to_list() == ["field", "all periods", "late"]


def test_few_sets_are_counts_and_enough_have_an_interval():
    buttons = _survey(40, 6)
    buttons.loc[1:10, "hole_fill"] = "felt"
    (told,) = rarity_in_words(trait_rarity(buttons, 0, TWO))["all periods"]
    # Clopper & Pearson for 10 of 40: 12.7 to 41.2 % (scipy.stats.binomtest)
    assert told == "10 of 40 (13 to 41 %)"


@pytest.mark.parametrize("sets", [3, 60])
def test_a_size_stands_among_few_as_a_count_and_among_many_as_a_share(sets):
    table = size_among_in_words(size_among(_survey(sets, sets), 0, TWO))
    first = table.iloc[0]
    assert first["other sets"] == str(sets)
    if sets == 3:
        assert first["smaller than this button"] == "2 of them"
        assert first["half are smaller than"] == ""
    else:
        assert first["smaller than this button"].startswith("50 % (")
        assert first["half are smaller than"].endswith(" mm")


def test_what_is_lacking_says_who_was_examined_and_when_it_is_seen():
    buttons = _survey(5, 5).assign(mould_material=["not examined", "bone", "wood", *[None] * 3])
    table = lacking_in_words(lacking_fields(buttons, 0)).set_index("field")
    assert table.loc["Mould material"].to_list() == ["not examined", "2 of 5", "opened"]


def test_tables_without_rows_stay_well_formed():
    bare = pd.DataFrame({"diameter_mm": [None], "hole_fill": ["not examined"]})
    assert rarity_in_words(trait_rarity(bare, 0, TWO)).empty
    assert size_among_in_words(size_among(bare, 0, TWO)).empty
