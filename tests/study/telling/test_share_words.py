"""Checks the sentences about shares: counts first, intervals named, nothing said twice."""

import pandas as pd

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.shares.by_period import shares_by_period
from buttonstudy.study.shares.crossed import shares_crossed
from buttonstudy.study.telling.share_words import crossed_findings, hole_findings, share_findings

ONE = PeriodScheme("one", "One", "", (Period("Middle years", 1800, 1899),))


def survey(**counts: int) -> pd.DataFrame:
    values = [name.replace("_", " ") for name, number in counts.items() for _ in range(number)]
    return pd.DataFrame({"hole_fill": values, "year_from": 1850, "year_to": 1850})


def told(**counts: int) -> list[str]:
    return share_findings(shares_by_period(survey(**counts), "hole_fill", ONE), "hole_fill")


def test_the_examined_come_first_then_counts_with_intervals_then_bounds() -> None:
    # 12 of 39 with 81 not examined: survey B of the statistics references, Wilson 0.186 to 0.464,
    # bounds 0.100 to 0.775; 27 of 39 is 0.692, Wilson 0.536 to 0.814 (statsmodels).
    assert told(thread=12, wax=27, not_examined=81) == [
        "Of 120 sets in this survey whose mould is not noted as without a hole, 39 were examined "
        "for hole fill; the others have no answer (81 not examined).",
        "Of the 39 examined, 27 had “wax” (69 %, 95 % interval 54 to 81 %) and 12 “thread” "
        "(31 %, 19 to 46 %).",
        "Of all sets, with and without an answer, the share could be anything within these "
        "bounds: “wax” 22 to 90 % and “thread” 10 to 78 %.",
        "Commonest among the examined sets of each period: Middle years, “wax” (27 of 39).",
    ]


def test_few_sets_are_told_without_any_percentage() -> None:
    sentences = told(thread=3, wax=5, not_examined=20, unclear=2)
    assert sentences[0].endswith("(20 not examined and 2 unclear).")
    assert sentences[1] == (
        "Of the 8 examined, 5 had “wax” and 3 “thread”: too few sets for percentages."
    )
    assert not any("%" in sentence for sentence in sentences)


def test_where_all_were_examined_nothing_is_said_of_others() -> None:
    first, second, _ = told(thread=40)
    assert first == (
        "Of 40 sets in this survey whose mould is not noted as without a hole, 40 were examined "
        "for hole fill."
    )
    assert second.startswith("Of the 40 examined, 40 had “thread” (100 %, 95 % interval 91 to 100")


def test_absent_is_told_as_none() -> None:
    buttons = survey(absent=1).rename(columns={"hole_fill": "padding"})
    assert "1 had “none”" in share_findings(shares_by_period(buttons, "padding", ONE), "padding")[1]


def test_how_many_sets_are_left_out_is_told() -> None:
    assert hole_findings(survey(absent=2, wax=1))[0].startswith(
        "2 sets whose mould has no hole were left out"
    )
    assert hole_findings(survey(absent=1))[0].startswith("1 set whose mould has no hole was left")
    assert hole_findings(survey(wax=1)) == [
        "No mould is noted as without a hole, so that all sets are looked at."
    ]


def test_nobody_looked() -> None:
    assert told(not_examined=4) == [
        "No set was examined for hole fill, so nothing can be said of it."
    ]


def test_one_field_beside_another_is_told_in_one_sentence() -> None:
    buttons = pd.DataFrame(
        {
            "hole_fill": ["thread"] * 20 + ["wax"] * 12 + ["absent"] * 3 + ["wax"],
            "mould_material": ["wood"] * 32 + ["bone"] * 3 + [None],
        }
    )
    table = shares_crossed(buttons, "hole_fill", "mould_material")
    # 20 of 32 is 0.625, Wilson 0.453 to 0.771 (statsmodels).
    assert crossed_findings(table, "hole_fill", "mould_material") == [
        "Of 33 sets in this survey whose mould is not noted as without a hole, 32 were examined "
        "for both hole fill and mould material.",
        "The commonest hole fill by mould material: “wood”: “thread” (20 of 32 sets; "
        "62 %, 95 % interval 45 to 77 %).",
    ]


def commonest(**counts: int) -> str:
    return told(**counts)[-1].removeprefix("Commonest among the examined sets of each period: ")


def test_periods_with_too_few_examined_sets_are_not_said_to_be_told() -> None:
    two = PeriodScheme("two", "Two", "", (Period("early", 1800, 1849), Period("late", 1850, 1899)))
    buttons = pd.concat([survey(wax=6), survey(wax=2).assign(year_from=1810, year_to=1810)])
    assert share_findings(shares_by_period(buttons, "hole_fill", two), "hole_fill")[-1] == (
        "Commonest among the examined sets of each period with enough: late, “wax” (6 of 6)."
    )


def test_an_exact_tie_is_never_told_as_one_winner() -> None:
    assert commonest(silk=6, wool=6, linen=5) == "Middle years, “silk” and “wool” (6 each of 17)."


def test_of_many_alike_none_stands_out() -> None:
    assert commonest(a=2, b=2, c=2, d=2) == "Middle years, none stands out (4 with 2 each of 8)."


def test_counts_that_are_told_alike_are_named_together() -> None:
    buttons = pd.DataFrame(
        {
            "set_id": ["1", "1", "1", "2", "3", "4", "5", "6", "7"],
            "hole_fill": ["wax", "open", "open", "wax", "wax", "felt", "felt", "open", "paper"],
            "mould_material": "bone",
        }
    )
    crossed = shares_crossed(buttons, "hole_fill", "mould_material")
    assert crossed_findings(crossed, "hole_fill", "mould_material")[1] == (
        "The commonest hole fill by mould material: “bone”: “wax”, “felt” and “open” "
        "(about 2 each of 7 sets)."
    )
