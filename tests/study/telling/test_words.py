import pandas as pd
import pytest

from buttonstudy.schemes import Period, PeriodScheme
from buttonstudy.study.telling.words import (
    as_common_as,
    count,
    field_label,
    heaping_sentence,
    listed,
    number_of,
    per_cent,
    range_of,
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
        "Of 80 sizes in mm by A. Teal, read to 0.1 mm at the finest, 44 end on a round value; "
        "about 16 would by chance. "
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
    assert ", 1 ends on a round value; fewer than 1 would by chance. " in _heaping(
        readings=2, on_round=1
    )
    assert _heaping(readings=0).startswith(
        "None of the sizes in mm by A. Teal, read to 0.1 mm at the"
    )


def test_the_source_names_a_few_files_and_counts_the_rest():
    buttons = pd.DataFrame({"file": [f"{letter}.csv" for letter in "abcdef"]})
    assert source_line(buttons[:1]) == "Survey file a.csv; 1 set, 1 button."
    assert source_line(buttons) == "Survey files a.csv, b.csv, c.csv and 3 more; 6 sets, 6 buttons."
    assert source_line(pd.DataFrame({"thread": ["linen"]})) == "One survey; 1 set, 1 button."


def test_no_sentence_calls_anything_significant():
    told = [_heaping(), _heaping(low=0.1)]
    assert not any("significant" in words for words in told)
