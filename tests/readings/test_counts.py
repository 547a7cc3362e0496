"""Counts as people write them. The wordings are common practice, no source."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.readings.counts import read_count

# Wording: low, high, state.
READ = {
    "2": (2, 2, "counted"),
    "2.0": (2, 2, "counted"),
    "2,0": (2, 2, "counted"),
    "two": (2, 2, "counted"),
    "Two layers": (2, 2, "counted"),
    "2 layers of cloth": (2, 2, "counted"),
    "2-ply": (2, 2, "counted"),
    "single": (1, 1, "counted"),
    "double": (2, 2, "counted"),
    "triple layer": (3, 3, "counted"),
    "a couple": (2, 2, "counted"),
    "at least 2": (2, None, "bounded"),
    "at least two layers": (2, None, "bounded"),
    "2 at least": (2, None, "bounded"),
    "2+": (2, None, "bounded"),
    "2 +": (2, None, "bounded"),
    ">=2": (2, None, "bounded"),
    "≥ 2": (2, None, "bounded"),
    "min. 2": (2, None, "bounded"),
    "2 or more": (2, None, "bounded"),
    "no fewer than 2": (2, None, "bounded"),
    "2 visible": (2, None, "bounded"),
    "more than 2": (3, None, "bounded"),
    ">2": (3, None, "bounded"),
    "1-2": (1, 2, "bounded"),
    "1–2": (1, 2, "bounded"),
    "1 to 2": (1, 2, "bounded"),
    "1 or 2": (1, 2, "bounded"),
    "one or two": (1, 2, "bounded"),
    "between 2 and 4": (2, 4, "bounded"),
    "2-3+": (2, None, "bounded"),
    "2-2": (2, 2, "counted"),
    "up to 3": (0, 3, "bounded"),
    "at most 3": (0, 3, "bounded"),
    "3 or fewer": (0, 3, "bounded"),
    "<= 3": (0, 3, "bounded"),
    "fewer than 3": (0, 2, "bounded"),
    "<3": (0, 2, "bounded"),
    "none": (0, 0, "absent"),
    "0": (0, 0, "absent"),
    "not opened": (None, None, "not examined"),
    "not examined": (None, None, "not examined"),
    "can't tell": (None, None, "unclear"),
    "unclear": (None, None, "unclear"),
    "?": (None, None, "unclear"),
    "": (None, None, "not recorded"),
    "n/a": (None, None, "not recorded"),
}

# Wording: low, high, kind of the doubt, what it says.
DOUBTED = {
    "2?": (2, 2, "count-uncertain", '"2?" is marked as uncertain; it was read as it stands.'),
    "about 2": (2, 2, "count-uncertain", '"about 2" is marked as uncertain'),
    "several": (2, None, "count-vague", '"several" is vague; it was read as at least 2.'),
    "many": (2, None, "count-vague", '"many" is vague; it was read as at least 2.'),
    "2 linen": (2, 2, "count-words", 'These words were not understood: "linen".'),
}

REFUSED = {
    "-1": ("count-negative", '"-1" is below zero.'),
    "2.5": ("count-not-whole", '"2.5" is not a whole number.'),
    "41": ("count-impossible", '"41" is more than can be right.'),
    "9" * 30: ("count-impossible", f'"{"9" * 30}" is more than can be right.'),
    "3-2": ("count-range-reversed", 'The range "3-2" runs from more to fewer.'),
    "1/2": ("count-not-read", 'It is not clear what count "1/2" gives.'),
    "2 3": ("count-not-read", 'It is not clear what count "2 3" gives.'),
    "1, 2, 3": ("count-not-read", 'It is not clear what count "1, 2, 3" gives.'),
    "1.2.3": ("count-not-read", 'It is not clear what count "1.2.3" gives.'),
    "thick": ("count-not-read", 'It is not clear what count "thick" gives.'),
    "1-Feb": ("count-date", '"1-Feb" reads like a date, not like a count.'),
    "2026-02-01 00:00:00": ("count-date", '"2026-02-01 00:00:00" reads like a date'),
    "2 in February": ("count-date", '"2 in February" reads like a date, not like a count.'),
    "z" * 201: ("count-too-long", "The cell holds 201 characters."),
}


@pytest.mark.parametrize("text", READ)
def test_counts_and_bounds_are_read(text: str) -> None:
    reading = read_count(text)
    assert (reading.low, reading.high, reading.state) == READ[text]
    assert reading.doubts == ()


@pytest.mark.parametrize("text", DOUBTED)
def test_doubtful_counts_are_read_and_told(text: str) -> None:
    reading = read_count(text)
    low, high, kind, says = DOUBTED[text]
    assert (reading.low, reading.high) == (low, high)
    assert [(doubt.kind, doubt.fatal) for doubt in reading.doubts] == [(kind, False)]
    assert reading.doubts[0].says.startswith(says)


@pytest.mark.parametrize("text", REFUSED)
def test_what_is_no_count_is_told_and_not_guessed(text: str) -> None:
    reading = read_count(text)
    kind, says = REFUSED[text]
    assert (reading.low, reading.high, reading.state) == (None, None, "")
    assert [(doubt.kind, doubt.fatal) for doubt in reading.doubts] == [(kind, True)]
    assert reading.doubts[0].says.startswith(says)
    assert reading.doubts[0].remedy.endswith("up to 3.")


@given(st.integers(0, 40))
def test_a_whole_number_comes_back(count: int) -> None:
    assert (read_count(str(count)).low, read_count(f"{count}.0").high) == (count, count)


@given(st.text(max_size=60))
def test_no_text_upsets_the_reader(text: str) -> None:
    reading = read_count(text)
    assert reading.low is None or reading.high is None or 0 <= reading.low <= reading.high
    unread = reading.low is None and reading.high is None and not reading.state
    assert unread == any(doubt.fatal for doubt in reading.doubts)
