"""Museum records' materials, written by hands that never saw this kit, read as its terms.

The records are in ../shared/open-data/museum_buttons.csv (CC0; Cooper Hewitt and others). Their
``medium_text`` mixes what mould, cover and decoration are made of, so each piece is tried as each.
"""

import csv
from collections import Counter
from pathlib import Path

import pytest

from buttonstudy.readings.terms.reading import read_terms
from buttonstudy.schemes import vocabulary

RECORDS = Path(__file__).parents[3].parent / "shared" / "open-data" / "museum_buttons.csv"
FIELDS = ("mould_material", "cover_material", "decoration")

# Media whose terms were looked up by hand in the vocabulary: mould, cover, decoration.
BY_HAND = [
    ("Celluloid", "mould_material", ("celluloid",)),
    ("Stoneware", "mould_material", ("ceramic",)),
    ("composition brass", "mould_material", ("brass",)),
    ("bone, brass, tin, copper", "mould_material", ("bone", "brass", "copper", "tinplate")),
    ("metal, plastic (cellulose nitrate)", "mould_material", ("celluloid", "metal")),
    ("Glass and brass", "mould_material", ("brass", "glass")),
    ("Aluminum, gold", "mould_material", ("aluminium", "gold")),
    ("Paper, silk, glass, copper", "cover_material", ("glass", "metal", "paper", "silk")),
    (
        "Paper, metal foil, threat, paillettes",
        "decoration",
        ("foil", "paper work", "sequins", "thread work"),
    ),
    ("porcelain painted in color", "decoration", ("painting",)),
    ("Cloisonne enamel, metal", "decoration", ("enamel",)),
    ("Silver, enamel, turquoise", "decoration", ("enamel", "stones")),
    ("Gold, sapphires, diamonds", "decoration", ("stones",)),
    ("cut steel, wood and black glass", "mould_material", ("glass", "steel", "wood")),
]


@pytest.fixture(scope="module")
def media() -> list[str]:
    if not RECORDS.is_file():
        pytest.skip(f"the open data is not beside this checkout: {RECORDS.name}")
    with RECORDS.open(encoding="utf-8-sig", newline="") as file:
        return [row["medium_text"] for row in csv.DictReader(file) if row["medium_text"]]


def understood(text: str) -> bool:
    """Tell whether each listed piece is a term of mould, cover or decoration."""
    pieces = text.replace(" and ", ",").split(",")
    return all(
        any(read_terms(piece, field, vocabulary()).terms for field in FIELDS)
        for piece in pieces
        if piece.strip()
    )


def test_nearly_all_museum_media_are_understood(media: list[str]) -> None:
    missed = Counter(text for text in media if not understood(text))
    share = 1 - missed.total() / len(media)
    print(f"\nmuseum media understood: {share:.1%} of {len(media)} records; not: {dict(missed)}")
    assert len(media) > 100
    assert share >= 0.97  # measured: 104 of 107; the rest say only "other"


@pytest.mark.parametrize(("text", "field", "terms"), BY_HAND)
def test_a_museum_medium_is_read_as_it_was_by_hand(
    text: str, field: str, terms: tuple[str, ...], media: list[str]
) -> None:
    assert text in media
    assert read_terms(text, field, vocabulary()).terms == terms
