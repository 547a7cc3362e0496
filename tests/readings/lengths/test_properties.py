"""What holds for every size, whatever its figures: it comes back, and nothing is guessed."""

import string
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buttonstudy.readings.lengths.faces import face_diameter, heights
from buttonstudy.readings.lengths.layouts import understand, understand_alone
from buttonstudy.readings.lengths.lists import Gathered
from buttonstudy.readings.lengths.reading import read_lengths
from buttonstudy.schemes.units import unit_marks, units

SIZES = st.integers(200, 7500).map(lambda hundredths: Fraction(hundredths, 100))  # mm


def decimal(value: Fraction, places: int) -> str:
    return f"{float(value):.{places}f}"


def mixed(inches: Fraction, parts: int, gap: str = " ") -> str:
    """Write inches to the nearest of `parts`, as a mixed number."""
    whole, over = divmod(round(inches * parts), parts)
    return f"{whole or ''}{gap if whole and over else ''}{f'{over}/{parts}' if over else ''}"


# Every notation, written from the exact size in mm.
NOTATIONS = {
    "mm": lambda mm: f"{round(mm)} mm",
    "mm, tenths": lambda mm: f"{decimal(mm, 1)}mm",
    "mm, comma": lambda mm: f"{decimal(mm, 1)} mm".replace(".", ","),
    "cm": lambda mm: f"{decimal(mm / 10, 1)} cm",
    "in, sixteenths": lambda mm: f"{mixed(mm * 10 / 254, 16)} in",
    "in, hyphen": lambda mm: f"{mixed(mm * 10 / 254, 32, '-')}″",
    "in, decimal": lambda mm: f"{decimal(mm * 10 / 254, 2)}''",
    "lines": lambda mm: f"{round(mm * 1000 / 635)} L",
    "lines, marks": lambda mm: f"{round(mm * 1000 / 635)}‴",
    "Paris lines": lambda mm: f"{decimal(mm / units()['Paris lines'], 1)} Paris lines",
    "range": lambda mm: f"{decimal(mm - Fraction(1, 2), 1)}–{decimal(mm + Fraction(1, 2), 1)} mm",
    "about": lambda mm: f"c. {round(mm)} mm",
    "diameter": lambda mm: f"Ø {decimal(mm, 2)} mm",
    "two units": lambda mm: f"{decimal(mm / 10, 1)} cm ({mixed(mm * 10 / 254, 16)} in.)",
    "list": lambda mm: f"{decimal(mm, 1)} x {decimal(mm, 1)} mm",
}


@pytest.mark.parametrize("notation", NOTATIONS)
@settings(max_examples=40)
@given(mm=SIZES)
def test_a_size_lies_within_what_is_read_from_it(notation: str, mm: Fraction) -> None:
    text = NOTATIONS[notation](mm)
    lengths = read_lengths(text).lengths
    assert lengths, text
    for one in lengths:
        assert one.low - 1e-9 <= mm <= one.high + 1e-9, text
        assert one.low <= one.best <= one.high


@given(st.text(max_size=80))
def test_no_text_upsets_the_reader(text: str) -> None:
    for heading in ("", "mm"):
        reading = read_lengths(text, heading)
        faces = face_diameter(reading.lengths)
        heights(reading.lengths)
        assert reading.text == text
        assert all(0 <= one.low <= one.best <= one.high for one in reading.lengths)
        assert not (reading.lengths and any(doubt.fatal for doubt in reading.doubts))
        assert not (faces.lengths and any(doubt.fatal for doubt in faces.doubts))


WORDS = st.sampled_from(
    [
        "16",
        "5/8",
        "1.5",
        "0",
        "1¼",
        "2,5",
        ".5",
        "mm",
        "cm",
        "in",
        "ins",
        "L",
        "lines",
        "″",
        "'''",
        '"',
        "x",
        "×",
        "-",
        "–",
        "to",
        "or",
        "and",
        ",",
        ";",
        ":",
        "(",
        ")",
        "[",
        "]",
        "/",
        "=",
        "+",
        "±",
        "~",
        "c.",
        "about",
        "Ø",
        "diam.",
        "D.",
        "H",
        "W",
        "L.",
        "mould",
        "button",
        "worn",
        "Paris",
        "May",
        "half",
        "an",
        "inch",
        "over",
        "?",
        "007",
        "1/0",
    ]
)


@settings(max_examples=400)
@given(st.lists(st.tuples(WORDS, st.sampled_from(["", " "])), max_size=14))
def test_any_jumble_of_a_sizes_pieces_is_read_or_told(pieces: list[tuple[str, str]]) -> None:
    text = "".join(word + gap for word, gap in pieces)
    reading = read_lengths(text)
    if any(character.isdigit() for character in text):
        assert reading.lengths or any(doubt.fatal for doubt in reading.doubts), text


@settings(max_examples=400)
@given(
    st.lists(st.tuples(WORDS, st.sampled_from(["", " "])), max_size=12), st.sampled_from(["", "mm"])
)
def test_a_known_layout_is_read_as_the_wording_alone(
    pieces: list[tuple[str, str]], heading: str
) -> None:
    """Wordings that differ only in figures share their layout; that must change nothing."""
    text = "".join(word + gap for word, gap in pieces)
    fast, alone = understand(text, heading), understand_alone(text, heading)
    assert shown(fast) == shown(alone)


# Wordings that look laid out alike but are not: the first is read before the second.
FALSE_FRIENDS = [
    ("2 and 3 mm", "2 and 1/2 mm"),
    ("1 inch and 2 inch", "1 inch and 1/2"),
    ("(1) 16 mm", "(1.5) 16 mm"),
    ("16 mm", "1/0 mm"),
    ("15·5 mm", "15·9 mm"),
    ("1¼ in", "2¼ in"),
    ("15-16 mm", "15-1/16 mm"),
    ("5/8 in", "5/8/2 in"),
    ("16.5 mm", "16.5.2 mm"),
]


@pytest.mark.parametrize(("first", "second"), FALSE_FRIENDS)
def test_a_layout_is_not_mistaken_for_another(first: str, second: str) -> None:
    for text in (first, second):
        assert shown(understand(text, "")) == shown(understand_alone(text, ""))


def shown(found: Gathered) -> list[object]:
    """Everything that the reading of a gathered wording hangs on."""
    lists = [
        (one.part, one.approximate, one.fault, member.written(), member.give, member.dimension)
        for one in found.lists
        for member in one.members
    ]
    return [lists, found.words, found.words_before, found.query, found.line_kind, found.doubts]


NO_UNIT = st.text(alphabet=string.digits + " .,/-x():;½¾", max_size=30)


@given(NO_UNIT)
def test_nothing_is_read_without_a_unit(text: str) -> None:
    assert read_lengths(text).lengths == ()


@given(st.text(max_size=60))
def test_nothing_is_read_from_text_without_a_mark_for_a_unit(text: str) -> None:
    marks = {mark for mark in unit_marks() if len(mark) == 1} | {"mm", "cm", "in"}
    plain = "".join(one for one in text if one.casefold() not in marks and one.isascii())
    if not any(mark in plain.casefold() for mark in (*marks, "'", '"')):
        assert read_lengths(plain).lengths == ()


@given(st.integers(1, 60), st.sampled_from(["mm", "cm", "in", "lines", "Paris lines"]))
def test_the_heading_gives_a_bare_figure_its_unit(figure: int, unit: str) -> None:
    lengths = read_lengths(str(figure), unit).lengths
    expected = figure * units()[unit]
    if expected <= 300:
        assert [one.best for one in lengths] == [pytest.approx(float(expected))]
        assert lengths[0].unit == unit
    else:
        assert lengths == ()


@given(st.integers(20, 400), st.integers(20, 400))
def test_a_range_covers_both_its_ends(first: int, second: int) -> None:
    low, high = sorted((first, second))
    (one,) = read_lengths(f"{low / 10}-{high / 10} mm").lengths
    assert (one.low, one.high) == pytest.approx((low / 10 - 0.05, high / 10 + 0.05), abs=0.5)
    assert one.low < low / 10 <= high / 10 < one.high
