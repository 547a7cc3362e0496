"""What is told of sizes that cannot be read, or only in part: nothing is guessed or passed over."""

import pytest

from buttonstudy.readings.lengths.reading import read_lengths

# Wording, unit in the heading, kind of the doubt, what it says. Nothing may be read.
REFUSED = [
    ("16", "", "size-no-unit", '"16" has no unit, neither in the cell nor in the heading.'),
    ("5/8", "", "size-no-unit", '"5/8" has no unit, neither in the cell nor in the heading.'),
    ("¾", "", "size-no-unit", '"3/4" has no unit, neither in the cell nor in the heading.'),
    ("Ø 16", "", "size-no-unit", '"16" has no unit, neither in the cell nor in the heading.'),
    ("size 24", "", "size-no-unit", '"24" has no unit, neither in the cell nor in the heading.'),
    ("15 x 4", "", "size-no-unit", '"15 x 4" has no unit, neither in the cell nor in the heading.'),
    ("4 holes", "", "size-no-unit", '"4" has no unit, neither in the cell nor in the heading.'),
    (
        "L 24",
        "",
        "size-no-unit",
        '"L 24" has no unit: an L before a figure may mean lines or length.',
    ),
    ("large", "", "size-not-read", 'No size was found in "large".'),
    ("large", "mm", "size-not-read", 'No size was found in "large".'),
    ("0 mm", "", "size-zero", '"0 mm" is no size.'),
    ("0", "mm", "size-zero", '"0 mm" is no size.'),
    ("0-5 mm", "", "size-zero", '"0-5 mm" is no size.'),
    ("-5 mm", "", "size-negative", '"-5" is below zero.'),
    ("Diam. -5 mm", "", "size-negative", '"-5" is below zero.'),
    ("−5", "mm", "size-negative", '"-5" is below zero.'),
    ("16 m", "", "size-impossible", '"16 m" would be 16,000 mm, which cannot be right.'),
    ("16 in", "", "size-impossible", '"16 in" would be 406.4 mm, which cannot be right.'),
    ("0.05", "mm", "size-impossible", '"0.05 mm" would be 0.05 mm, which cannot be right.'),
    ("5/8 mm", "", "size-fraction-of-metric", '"5/8" in mm is unusual: such fractions'),
    ("15/16 mm", "", "size-fraction-of-metric", '"15/16" in mm is unusual: such fractions'),
    ("5/8", "mm", "size-fraction-of-metric", '"5/8" in mm is unusual: such fractions'),
    ("5 /18 in", "", "size-odd-fraction", '"5 /18" is not a fraction found on a ruler.'),
    ("16/17 in", "", "size-odd-fraction", '"16/17" is not a fraction found on a ruler.'),
    ("1 9/8 in", "", "size-unclear", 'It is not clear how "1 9/8" is meant.'),
    ("1/0 in", "", "size-unclear", 'It is not clear how "1/0" is meant.'),
    ("16-15 mm", "", "size-range-reversed", 'The range "16-15 mm" runs from larger to smaller.'),
    ("23-4 mm", "", "size-range-reversed", 'The range "23-4 mm" runs from larger to smaller.'),
    ("15-16-17 mm", "", "size-unclear", 'It is not clear how "15-16-17" is meant.'),
    ("15 16 mm", "", "size-unclear", 'It is not clear how "15 16" is meant.'),
    ("1 in 1/4", "", "size-unclear", 'It is not clear how "1 in 1/4" is meant.'),
    ("16+5 mm", "", "size-unclear", 'It is not clear how "16 + 5" is meant.'),
    ("16 mm cm", "", "size-unclear", 'It is not clear how "16 mm cm" is meant.'),
    ("1.5.9 mm", "", "size-unclear", 'It is not clear how "1.5.9" is meant.'),
    ("over 1 in", "", "size-bound", '"1" gives only a limit, not a size.'),
    ("less than 10 mm", "", "size-bound", '"10" gives only a limit, not a size.'),
    ("<10 mm", "", "size-bound", '"10" gives only a limit, not a size.'),
    ("16 mm+", "", "size-bound", '"16 mm" gives only a limit, not a size.'),
    ("16 mm or more", "", "size-bound", '"16 mm" gives only a limit, not a size.'),
    ("2 ft", "", "size-unit-not-known", 'The unit in "2 ft" is not one that the kit reads'),
    ("7 ft 8 1/2 in x 26 in", "", "size-unit-not-known", 'The unit in "7 ft" is not one'),
    ("2.5 g", "mm", "size-unit-not-known", 'The unit in "2.5 g" is not one that the kit reads'),
    ("1e3 mm", "", "size-unit-not-known", 'The unit in "1e" is not one that the kit reads'),
    ("16kg", "mm", "size-unit-not-known", 'The unit in "16 kg" is not one that the kit reads'),
    ("10-Dec", "mm", "size-date", '"10-Dec" reads like a date, not like a size.'),
    ("Dec-10", "mm", "size-date", '"Dec-10" reads like a date, not like a size.'),
    ("2026-12-10 00:00:00", "mm", "size-date", '"2026-12-10 00:00:00" reads like a date'),
    ("5/8/2026", "in", "size-date", '"5/8/2026" reads like a date, not like a size.'),
    ("x" * 2001, "", "size-too-long", "The cell holds 2,001 characters, too many for a size."),
    ("5 mm, " * 41, "", "size-too-many", "The cell holds 41 sizes, too many for one button."),
    (
        "found in a box from Aunt Ellen with 16 mm buttons",
        "",
        "size-prose",
        "The cell reads like a sentence, not like a size",
    ),
]

# Wording, best values in mm, kind of the doubt, what it says.
READ_WITH_DOUBT = [
    ("16mm (worn)", [16], "size-words", 'These words were not understood: "worn".'),
    (
        "16 mm, chipped at edge",
        [16],
        "size-words",
        'These words were not understood: "chipped at edge".',
    ),
    ("1 in. scant", [25.4], "size-words", 'These words were not understood: "scant".'),
    ("front 16 mm", [16], "size-words", 'These words were not understood: "front".'),
    ("16 mm back missing", [16], "size-words", 'These words were not understood: "back missing".'),
    ("16 mm?", [16], "size-uncertain", '"16 mm?" is marked as uncertain; it was read as it stands'),
    ("perhaps 16 mm", [16], "size-uncertain", '"perhaps 16 mm" is marked as uncertain'),
    ("16 mm, 2 holes", [16], "size-no-unit", '"2" has no unit, neither in the cell nor'),
    ("16 mm (5/8)", [16], "size-no-unit", '"5/8" has no unit, neither in the cell nor'),
    ("16, 17 mm", [17], "size-no-unit", '"16" has no unit, neither in the cell nor'),
    ("16 mm (6 ft)", [16], "size-unit-not-known", 'The unit in "6 ft" is not one'),
    ("16 mm (16 in)", [16], "size-impossible", '"16 in" would be 406.4 mm'),
    ("16 mm (over 5/8 in)", [16], "size-bound", '"5/8" gives only a limit, not a size.'),
    ("16 mm, May 1920", [16], "size-date", '"May 1920" reads like a date, not like a size.'),
    (
        "H x diam.: 1 cm",
        [10],
        "size-label-count",
        "The cell names height x diameter but gives fewer figures; they were taken for diameter.",
    ),
    (
        "6 1/2 L",
        [4.1275],
        "size-maybe-paris-lines",
        '"6 1/2 lines" was read in button lines (0.635 mm), but so small a size in lines may be '
        "in Paris lines (2.256 mm).",
    ),
    ("8 L", [5.08], "size-maybe-paris-lines", '"8 lines" was read in button lines (0.635 mm)'),
]


@pytest.mark.parametrize(("text", "heading", "kind", "says"), REFUSED, ids=lambda one: one[:40])
def test_what_cannot_be_read_is_told_and_not_guessed(
    text: str, heading: str, kind: str, says: str
) -> None:
    reading = read_lengths(text, heading)
    assert reading.lengths == ()
    fatal = [doubt for doubt in reading.doubts if doubt.fatal]
    assert [doubt.kind for doubt in fatal][:1] == [kind]
    assert fatal[0].says.startswith(says)


@pytest.mark.parametrize(("text", "mm", "kind", "says"), READ_WITH_DOUBT, ids=lambda one: str(one))
def test_what_is_sure_is_read_and_the_rest_is_told(
    text: str, mm: list[float], kind: str, says: str
) -> None:
    reading = read_lengths(text)
    assert [one.best for one in reading.lengths] == pytest.approx(mm)
    doubt = next(doubt for doubt in reading.doubts if doubt.kind == kind)
    assert doubt.says.startswith(says)
    assert not doubt.fatal


@pytest.mark.parametrize(
    "text", ["", "   ", "\n", "not measured", "n/a", "–", "can't tell", "none"]
)
def test_blanks_are_neither_sizes_nor_doubts(text: str) -> None:
    reading = read_lengths(text)
    assert (reading.lengths, reading.doubts) == ((), ())


@pytest.mark.parametrize("text", ["10 L", "12 lines", "14 L", "9 1/2 L (6 mm)", "13 1/2 L"])
def test_sizes_that_trade_tables_hold_are_not_asked_about_as_paris_lines(text: str) -> None:
    """10 and 12 lines stand in published tables (apparelscience.com, blog.treasurie.com)."""
    assert read_lengths(text).doubts == ()


@pytest.mark.parametrize(
    ("text", "mm"),
    [("16 worn", 16), ("16 (2 holes)", 16), ("16, 2 holes", 16), ("16 (5/8)", 16)],
)
def test_a_heading_in_mm_does_not_reach_figures_of_something_else(text: str, mm: float) -> None:
    reading = read_lengths(text, "mm")
    assert [one.best for one in reading.lengths] == [mm]
    assert reading.doubts


def test_many_doubts_of_one_kind_are_told_three_times_only() -> None:
    reading = read_lengths("16 mm, 1 ft, 2 ft, 3 ft, 4 ft, 5 ft")
    assert [doubt.kind for doubt in reading.doubts] == ["size-unit-not-known"] * 3


def test_every_doubt_has_a_remedy_that_is_a_sentence() -> None:
    wordings = [(text, heading) for text, heading, *_ in REFUSED]
    wordings += [(text, "") for text, *_ in READ_WITH_DOUBT]
    for text, heading in wordings:
        for doubt in read_lengths(text, heading).doubts:
            assert doubt.says.endswith("."), doubt
            assert doubt.remedy.endswith("."), doubt
            assert doubt.remedy[0].isupper(), doubt
