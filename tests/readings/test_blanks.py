"""Four kinds of blank told apart. Wordings: common practice, no source."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.readings.blanks import blank_state, cautious
from buttonstudy.readings.wording import key
from buttonstudy.schemes import STATES, rows

BLANKS = [
    ("none", "absent"),
    ("None.", "absent"),
    ("no", "absent"),
    ("N", "absent"),
    ("nil", "absent"),
    ("Absent", "absent"),
    ("not present", "absent"),
    ("none found", "absent"),
    ("not opened", "not examined"),
    ("Not opened yet", "not examined"),
    ("unopened", "not examined"),
    ("not examined", "not examined"),
    ("n/e", "not examined"),
    ("N.E.", "not examined"),
    ("not seen", "not examined"),
    ("could not see", "not examined"),
    ("couldn’t see", "not examined"),
    ("not visible", "not examined"),
    ("closed", "not examined"),
    ("not opened, not examined", "not examined"),
    ("can't tell", "unclear"),
    ("Can’t tell!", "unclear"),
    ("unclear", "unclear"),
    ("?", "unclear"),
    ("??", "unclear"),
    ("indeterminate", "unclear"),
    ("unknown", "unclear"),
    ("not sure", "unclear"),
    ("none visible", "unclear"),
    ("none?", "unclear"),
    ("missing", "unclear"),
    ("", "not recorded"),
    ("   ", "not recorded"),
    ("-", "not recorded"),
    ("–", "not recorded"),
    ("—", "not recorded"),
    ("...", "not recorded"),
    ("n/a", "not recorded"),
    ("#N/A", "not recorded"),
    ("not recorded", "not recorded"),
    ("n/r", "not recorded"),
    ("no data", "not recorded"),
]

# Where the parts of a cell say different things, the one that claims least holds.
MIXED = [
    ("none (not opened)", "not examined"),
    ("unclear / not opened", "not examined"),
    ("none; can't tell", "unclear"),
    ("n/a - none", "absent"),
]

NOT_BLANK = [
    "bone",
    "no padding",
    "0",
    "not bone",
    "nonesuch",
    '"',
    "”",
    "ditto",
    "yes",
    "none of wood",
]


@pytest.mark.parametrize(("text", "state"), BLANKS + MIXED)
def test_a_blank_is_told_by_its_kind(text: str, state: str) -> None:
    assert blank_state(text) == state


@pytest.mark.parametrize("text", NOT_BLANK)
def test_what_is_not_a_blank_has_no_state(text: str) -> None:
    assert blank_state(text) == ""


def test_the_most_cautious_state_claims_least() -> None:
    assert cautious({"absent", "unclear", ""}) == "unclear"
    assert cautious({"absent", "unclear", "not examined"}) == "not examined"
    assert cautious({"absent", "not recorded"}) == "absent"
    assert cautious(set()) == ""


def test_the_table_of_blank_words_is_clean() -> None:
    keys = [key(row["words"]) for row in rows("blank_words")]
    assert len(keys) == len(set(keys))
    for row in rows("blank_words"):
        assert row["state"] in STATES
        assert row["source"]
        assert blank_state(row["words"].upper()) == row["state"]


@given(text=st.text(max_size=60))
def test_any_text_is_one_of_the_states_or_none(text: str) -> None:
    assert blank_state(text) in ("", *STATES)


@given(text=st.text(alphabet=" -–—._/,;:!*\t\n", max_size=20))
def test_marks_without_a_word_record_nothing(text: str) -> None:
    assert blank_state(text) == "not recorded"
