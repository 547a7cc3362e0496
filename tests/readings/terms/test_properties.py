"""Properties of reading terms that hold for any text and for every wording of the vocabulary."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.readings.phrases import marks
from buttonstudy.readings.terms.reading import read_terms
from buttonstudy.readings.wording import composed, key
from buttonstudy.schemes import STATES, fields, rows, vocabulary

TERM_FIELDS = [field.field for field in fields() if field.kind == "term"]
SMALL_WORDS = [row["mark"] for row in rows("wording_marks")]
BLANK_WORDS = [row["words"] for row in rows("blank_words")]
WORDINGS = [word for term in vocabulary().entries for word in term.wordings]

# Cells as people might write them: known wordings, small words, blanks and new words, mixed.
PIECES = st.sampled_from([*WORDINGS, *SMALL_WORDS, *BLANK_WORDS, "slurrystone", "2", "1.5 mm"])
JOINTS = st.sampled_from(
    [" ", ", ", "; ", "/", " and ", " or ", " (", ") ", "? ", " - ", ": ", "\n"]
)
CELLS = st.lists(st.tuples(PIECES, JOINTS), max_size=6).map(
    lambda pairs: "".join(piece + joint for piece, joint in pairs)
)
WORD = re.compile(r"[^\W_]+")
JOINING = {"and", "a", "an", "the"}
DOUBTING = {
    key(word)
    for phrase in SMALL_WORDS
    if marks()[key(phrase)] == "uncertain"
    for word in WORD.findall(phrase)
}
FIELDS = st.sampled_from(TERM_FIELDS)


@given(text=CELLS | st.text(max_size=80), field=FIELDS)
def test_any_cell_says_something_and_keeps_its_wording(text: str, field: str) -> None:
    reading = read_terms(text, field, vocabulary())
    assert reading.text == text
    assert reading.terms or reading.unknown or reading.state in STATES
    assert not (reading.state and (reading.terms or reading.unknown))
    assert list(reading.terms) == sorted(set(reading.terms))
    assert set(reading.terms) <= {term.term for term in vocabulary().terms(field)}


@given(text=CELLS | st.text(max_size=80), field=FIELDS)
def test_an_unknown_term_stands_in_the_cell_as_it_is_written(text: str, field: str) -> None:
    line = " ".join(composed(text).split())
    for unknown in read_terms(text, field, vocabulary()).unknown:
        assert unknown in line
        assert ";" not in unknown


@given(text=CELLS | st.text(max_size=80), field=FIELDS)
def test_no_word_is_lost_from_a_cell_without_a_known_term(text: str, field: str) -> None:
    reading = read_terms(text, field, vocabulary())
    if reading.unknown and not reading.terms:
        kept = " ".join(reading.unknown)
        lost = {key(word) for word in WORD.findall(composed(text)) if word not in kept}
        assert lost <= DOUBTING | JOINING
        if lost - JOINING:
            assert "term-uncertain" in [doubt.kind for doubt in reading.doubts]


@pytest.mark.parametrize("field", TERM_FIELDS)
@pytest.mark.parametrize("joint", [", ", "; ", "/", " and ", " (", "\n"])
def test_a_new_word_listed_beside_a_term_is_kept_and_told(field: str, joint: str) -> None:
    for term in vocabulary().terms(field):
        reading = read_terms(f"{term.term}{joint}slurrystone", field, vocabulary())
        assert (reading.terms, reading.unknown) == ((term.term,), ("slurrystone",))
        assert [doubt.kind for doubt in reading.doubts] == ["term-unknown"]


@pytest.mark.parametrize("field", TERM_FIELDS)
def test_every_wording_is_read_as_its_term_however_it_is_written(field: str) -> None:
    wrong = []
    for term in vocabulary().terms(field):
        for word in term.wordings:
            for text in (word, word.upper(), f" {word}. ", f"{word}, old", f"possibly {word}"):
                if read_terms(text, field, vocabulary()).terms != (term.term,):
                    wrong.append(text)
    assert wrong == []


@pytest.mark.parametrize("field", TERM_FIELDS)
def test_every_wording_for_absent_is_read_as_absent(field: str) -> None:
    for term in vocabulary().wordings(field):
        if term.term == "absent":
            states = {word: read_terms(word, field, vocabulary()).state for word in term.wordings}
            assert set(states.values()) == {"absent"}


@pytest.mark.parametrize("field", TERM_FIELDS)
def test_a_denied_term_is_never_read_as_the_term(field: str) -> None:
    for term in vocabulary().terms(field):
        for text in (f"definitely not {term.term}", f"without any {term.term} at all"):
            assert term.term not in read_terms(text, field, vocabulary()).terms, text


@pytest.mark.parametrize("field", TERM_FIELDS)
def test_an_imitation_is_never_read_as_the_term(field: str) -> None:
    for term in vocabulary().terms(field):
        reading = read_terms(f"sham {term.term}", field, vocabulary())
        assert term.term not in reading.terms
