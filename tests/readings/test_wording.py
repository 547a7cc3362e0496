"""Wordings compared: one key for the many ways of writing one thing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.readings.wording import clauses, composed, key
from buttonstudy.schemes import rows

SAME = [
    ("Papier-mâché", "papier mache"),
    ("papier-ma\u0302che\u0301", "PAPIERMÂCHÉ"),
    ("molds of wood", "mould of woods"),
    ("Gray", "GREY"),
    ("death’s head", "Deaths head"),
    ("horse hair", "horsehair"),
    ("glass & brass", "glass and brass"),
    ("w/ padding", "with padding"),
    ("w/o padding", "without padding"),
    ("n/a", "N.A."),
    ("can't tell", "cant tell"),
    ("the hole", "hole"),
    ("leather patches", "leather patch"),
    ("stiched", "stitched"),
    ("✓", "yes"),
]

DIFFERENT = [("bone", "bonnet"), ("moss", "mos"), ("silk", "sulk"), ("not opened", "opened")]

CLAUSES = [
    ("bone, wood", [["bone"], ["wood"]]),
    ("wood/bone + horn", [["wood"], ["bone"], ["horn"]]),
    ("silk (?)", [["silk"], ["?"]]),
    ("silk?", [["silk", "?"]]),
    ("wood - dark", [["wood"], ["dark"]]),
    ("blue-green", [["blue", "green"]]),
    ("hole 1.5 mm", [["hole", "15", "mm"]]),
    ("prob. bone", [["prob", "bone"]]),
    ("", []),
    (" ,; ", []),
]


@pytest.mark.parametrize(("one", "other"), SAME)
def test_different_ways_of_writing_have_one_key(one: str, other: str) -> None:
    assert key(one) == key(other)


@pytest.mark.parametrize(("one", "other"), DIFFERENT)
def test_different_words_have_different_keys(one: str, other: str) -> None:
    assert key(one) != key(other)


@pytest.mark.parametrize(("text", "expected"), CLAUSES)
def test_a_text_is_parted_at_its_marks(text: str, expected: list[list[str]]) -> None:
    assert [[word.key for word in clause] for clause in clauses(text)] == expected


def test_a_word_with_a_separate_accent_stays_one_word() -> None:
    assert [[word.key for word in clause] for clause in clauses(composed("ma\u0302che"))] == [
        ["mache"]
    ]


def test_a_word_remembers_where_it_stood() -> None:
    text = "the Bone, (Holz)"
    ((bone,), (wood,)) = clauses(text)
    assert (text[bone.start : bone.end], text[wood.start : wood.end]) == ("Bone", "Holz")


def test_every_spelling_has_a_source_and_leads_to_a_spelling_that_stays() -> None:
    variants = {row["variant"] for row in rows("spellings")}
    assert len(variants) == len(rows("spellings"))
    for row in rows("spellings"):
        assert row["source"]
        assert row["spelling"] not in variants
        assert key(row["variant"]) == key(row["spelling"])


@given(text=st.text(max_size=80))
def test_any_text_has_a_key_that_ignores_case_at_its_ends(text: str) -> None:
    assert key(text) == key(composed(f"  {text}  "))
    assert key(key(text)) or not key(text)
