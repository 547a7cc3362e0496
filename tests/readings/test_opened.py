"""Whether a button was opened. Wordings: common practice, no source."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.readings.opened import read_opened
from buttonstudy.readings.terms.reading import read_terms
from buttonstudy.readings.wording import key
from buttonstudy.schemes import rows, vocabulary

READ = [
    ("yes", "opened"),
    ("Y", "opened"),
    ("x", "opened"),
    ("✓", "opened"),
    ("1", "opened"),
    ("Opened", "opened"),
    ("opened 3/2019", "opened"),
    ("yes, in 2018 by A. B.", "opened"),
    ("fell apart when touched", "opened"),
    ("taken apart", "opened"),
    ("partly", "partly opened"),
    ("part", "partly opened"),
    ("Half open", "partly opened"),
    ("damaged, half open", "partly opened"),
    ("yes, partly", "partly opened"),
    ("not fully opened", "partly opened"),
    ("edge lifted", "partly opened"),
    ("back only", "partly opened"),
    ("no", "not opened"),
    ("N", "not opened"),
    ("0", "not opened"),
    ("✗", "not opened"),
    ("not opened (owner refused)", "not opened"),
    ("no, only measured", "not opened"),
    ("never been properly opened", "not opened"),
    ("to be opened", "not opened"),
    ("n/e", "not opened"),
    ("none", "not opened"),
    ("closed", "not opened"),
    ("", ""),
    ("-", ""),
    ("n/a", ""),
    ("can't tell", ""),
    ("?", ""),
]

DOUBTED = [
    ("banana", "", '"banana" does not say whether the button was opened.', True),
    ("on garment", "", '"on garment" does not say whether the button was opened.', True),
    ("opened?", "", '"opened?" is not sure whether the button was opened.', True),
    (
        "not sure if opened",
        "",
        '"not sure if opened" is not sure whether the button was opened.',
        True,
    ),
    (
        "no; opened at home",
        "",
        '"no; opened at home" says yes and no about whether the button was opened.',
        True,
    ),
    (
        "12 May 2019",
        "opened",
        '"12 May 2019" is only a date; it is read as opened on that day.',
        False,
    ),
    ("3/2019", "opened", '"3/2019" is only a date; it is read as opened on that day.', False),
]


@pytest.mark.parametrize(("text", "opened"), READ)
def test_a_clear_wording_is_read_without_a_doubt(text: str, opened: str) -> None:
    reading = read_opened(text)
    assert (reading.opened, reading.doubts) == (opened, ())


@pytest.mark.parametrize(("text", "opened", "says", "fatal"), DOUBTED)
def test_a_doubtful_wording_is_told(text: str, opened: str, says: str, fatal: bool) -> None:
    reading = read_opened(text)
    (doubt,) = reading.doubts
    assert (reading.opened, doubt.says, doubt.fatal) == (opened, says, fatal)
    assert doubt.remedy.startswith("Write yes, partly or no")


def test_yes_and_no_are_known_in_some_other_languages_and_as_marks() -> None:
    words = ("ja", "oui", "X", "✓", "✗", "nein", "non")
    assert [read_opened(text).opened for text in words] == ["opened"] * 4 + ["not opened"] * 3


def test_words_can_be_taught(tmp_path: Path) -> None:
    own = tmp_path / "words.csv"
    own.write_text(
        "field,term,synonyms\nopened,opened,aufgetrennt; offen\nopened,not opened,x|zu\n",
        encoding="utf-8",
    )
    words = vocabulary(own)
    read = [read_opened(text, words).opened for text in ("Aufgetrennt", "offen", "x", "zu", "yes")]
    assert read == ["opened", "opened", "not opened", "not opened", "opened"]
    other = [read_terms("offen", "hole_fill", one) for one in (words, vocabulary())]
    assert other[0] == other[1]


def test_the_table_of_wordings_is_clean() -> None:
    keys = [key(row["words"]) for row in rows("opened_words")]
    assert len(keys) == len(set(keys))
    for row in rows("opened_words"):
        assert row["opened"] in ("opened", "partly opened", "not opened")
        assert row["anywhere"] in ("yes", "no")
        assert row["source"]
        assert read_opened(row["words"]).opened == row["opened"]


@given(text=st.text(max_size=60))
def test_any_text_is_read_or_told(text: str) -> None:
    reading = read_opened(text)
    assert reading.text == text
    assert reading.opened in ("", "opened", "partly opened", "not opened")
