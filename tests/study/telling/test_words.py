import pandas as pd
import pytest

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.shares.by_period import shares_by_period
from buttonstudy.study.shares.crossed import shares_crossed
from buttonstudy.study.telling.words import (
    as_common_as,
    count,
    crossed_sentence,
    field_label,
    heaping_sentence,
    listed,
    number_of,
    per_cent,
    range_of,
    share_sentence,
    source_line,
    term_label,
)

ONE = PeriodScheme("one", "One period", "none", (Period("Middle years", 1800, 1899),))

# number -> words
COUNTS = {
    0: "0",
    1: "1",
    12.0: "12",
    12.4: "about 12",
    0.3: "fewer than 1",
    0.7: "about 1",
    0.5: "about 1",
}
SHARES = {0.0: "0 %", 0.004: "under 1 %", 0.307: "31 %", 0.996: "over 99 %", 1.0: "100 %"}
NOUNS = {0: "0 sets", 1: "1 set", 1.2: "about 1 set", 0.2: "fewer than 1 set", 2: "2 sets"}


@pytest.mark.parametrize(("number", "words"), COUNTS.items())
def test_counts_in_words(number, words):
    assert count(number) == words


@pytest.mark.parametrize(("share", "words"), SHARES.items())
def test_shares_in_words(share, words):
    assert per_cent(share) == words


@pytest.mark.parametrize(("number", "words"), NOUNS.items())
def test_counts_with_their_noun(number, words):
    assert number_of(number, "set") == words


def test_small_parts_of_sentences():
    assert range_of(0.186, 0.464) == "19 to 46 %"
    assert [listed([]), listed(["a"]), listed(["a", "b"]), listed("abc")] == [
        "",
        "a",
        "a and b",
        "a, b and c",
    ]
    assert field_label("cover_drawn_up") == "cover drawn up"
    assert field_label("Own heading") == "own heading"
    assert [term_label("absent"), term_label("wool")] == ["none", "wool"]


# None of n seen: exact one-sided upper limit 1 - 0.05^(1/n), the exact form of the rule of three
# (Hanley & Lippman-Hand 1983, JAMA 249:1743): 0.2589, 0.1926, 0.1391, 0.0950, 0.0582, 0.0295.
NONE_SEEN = {10: 3, 14: 5, 20: 7, 30: 10, 50: 17, 100: 33}


@pytest.mark.parametrize(("trials", "one_in"), NONE_SEEN.items())
def test_none_seen_may_still_be_common(trials, one_in):
    assert as_common_as(trials) == f"it could still be as common as 1 in {one_in}"


def _shares(thread, others, not_examined=0, unclear=0):
    values = ["thread"] * thread + ["wax"] * others
    values += ["not examined"] * not_examined + ["unclear"] * unclear
    buttons = pd.DataFrame({"hole_fill": values, "year_from": 1850, "year_to": 1850})
    table = shares_by_period(buttons, "hole_fill", ONE, ["thread"])
    return {row["kind"]: row for _, row in table.iterrows()}


def test_a_share_is_told_by_counts_interval_and_bounds():
    # 12 of 39 with 81 not examined: survey B of the statistics references, Wilson 0.186 to 0.464,
    # bounds 0.100 to 0.775.
    rows = _shares(12, 27, not_examined=81)
    assert share_sentence(rows["all"], "hole_fill") == (
        "Of 39 sets in this survey, examined for hole fill, 12 had thread (31 %; so many sets "
        "allow anything from 19 to 46 %). For others there is no answer (81 not examined); if none "
        "of them had it the share would be 10 %, if all of them had it 78 %."
    )
    assert share_sentence(rows["period"], "hole_fill").startswith(
        "Of 39 sets in this survey dated to “Middle years”, examined for hole fill, 12 had thread"
    )


def test_few_sets_are_told_without_any_percentage():
    words = share_sentence(_shares(3, 5, not_examined=20, unclear=2)["all"], "hole_fill")
    assert words == (
        "Of 8 sets in this survey, examined for hole fill, 3 had thread: too few sets for a "
        "percentage. For others there is no answer: 20 not examined and 2 unclear."
    )


def test_none_seen_is_told_with_what_it_still_allows():
    assert share_sentence(_shares(0, 20)["all"], "hole_fill") == (
        "Of 20 sets in this survey, examined for hole fill, none had thread; it could still be as "
        "common as 1 in 7."
    )


def test_nobody_looked():
    words = share_sentence(_shares(0, 0, not_examined=4)["all"], "hole_fill")
    assert words == "None of the 4 sets in this survey was examined for hole fill."


def test_the_places_of_undated_and_outside_sets_are_named():
    buttons = pd.DataFrame(
        {
            "hole_fill": ["absent", "absent"],
            "year_from": pd.array([None, 1700], dtype="Int64"),
            "year_to": pd.array([None, 1700], dtype="Int64"),
        }
    )
    table = shares_by_period(buttons, "hole_fill", ONE).set_index("kind")
    undated = share_sentence(table.loc["undated"], "hole_fill")
    outside = share_sentence(table.loc["outside"], "hole_fill")
    assert undated.startswith("Of 1 set in this survey without a date, examined for hole fill, 1 ")
    assert "dated outside the periods, examined for hole fill, 1 had none" in outside


def test_groups_are_named_in_crossed_sentences():
    buttons = pd.DataFrame(
        {
            "hole_fill": ["thread"] * 3,
            "mould_material": ["bone", "not examined", None],
        }
    )
    table = shares_crossed(buttons, "hole_fill", "mould_material").set_index("group")
    said = [
        crossed_sentence(table.assign(group=table.index).loc[group], "hole_fill", "mould_material")
        for group in ("bone", "not examined", "all groups")
    ]
    assert said[0].startswith("Of 1 set in this survey with mould material “bone”, examined for")
    assert said[1].startswith("Of 1 set in this survey whose mould material is not examined, ")
    assert said[2].startswith("Of 3 sets in this survey, examined for hole fill, 3 had thread")


def _heaping(**changes):
    row = {
        "recorder": "A. Teal",
        "unit": "mm",
        "step": "0.1 mm",
        "readings": 80,
        "on_round": 44,
        "low": 0.44,
        "chance": 0.2,
        "few": False,
    }
    return heaping_sentence(pd.Series({**row, **changes}))


def test_heaping_is_told_against_chance():
    first = (
        "Of 80 sizes read to 0.1 mm by A. Teal, 44 end on a round value; about 16 would by chance. "
    )
    assert (
        _heaping()
        == f"{first}That is more than chance gives. Peaks at those sizes may be the ruler's."
    )
    assert _heaping(low=0.1) == f"{first}Chance alone could give so many."
    assert _heaping(few=True) == f"{first}That is too few to judge."
    assert _heaping(unit="lines").endswith(
        "Even lines are also the trade sizes, so that this may be the makers' doing."
    )
    assert _heaping(readings=0).startswith("None of the sizes read to 0.1 mm by A. Teal can be")


def test_the_source_names_a_few_files_and_counts_the_rest():
    buttons = pd.DataFrame({"file": [f"{letter}.csv" for letter in "abcdef"]})
    assert source_line(buttons[:1]) == "Survey file a.csv; 1 set, 1 button."
    assert source_line(buttons) == "Survey files a.csv, b.csv, c.csv and 3 more; 6 sets, 6 buttons."
    assert source_line(pd.DataFrame({"thread": ["linen"]})) == "One survey; 1 set, 1 button."


def test_no_sentence_calls_anything_significant():
    told = [share_sentence(_shares(12, 27, 81)["all"], "hole_fill"), _heaping(), _heaping(low=0.1)]
    assert not any("significant" in words for words in told)
