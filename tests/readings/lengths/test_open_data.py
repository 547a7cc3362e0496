"""Sizes written by hands that never saw this kit, and published tables of trade sizes.

Data, beside the checkout in ../shared/open-data:

- museum_buttons.csv: button records of the Cooper Hewitt collection export (CC0) and others; the
  column ``expected_max_face_mm`` was read from the texts by hand. Where it is empty though a text is
  there, the text does not give one button's face (a sample book; "Overall: 23 cm").
- small_objects.csv: 846 dimension texts of small objects, same export (CC0).
- line_tables.csv: published tables of lines, inches and mm; the source is named in each row.
"""

import csv
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise, takewhile
from pathlib import Path

import numpy as np
import pytest

from buttonstudy.readings.lengths.faces import face_diameter
from buttonstudy.readings.lengths.reading import Length, read_lengths
from buttonstudy.readings.lengths.trade_lines import nearest_trade_lines
from buttonstudy.survey.sizes import Sizes, combine, spread_lengths

OPEN_DATA = Path(__file__).parents[4] / "shared" / "open-data"
MUSEUM = OPEN_DATA / "museum_buttons.csv"
SMALL = OPEN_DATA / "small_objects.csv"
LINES = OPEN_DATA / "line_tables.csv"


def needs(path: Path) -> pytest.MarkDecorator:
    reason = f"the open data ({path.name}) is not beside the checkout"
    return pytest.mark.skipif(not path.is_file(), reason=reason)


def records(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def combined(lengths: Sequence[Length]) -> Sizes:
    """The readings of one button brought together as a survey does it."""
    return combine(spread_lengths([tuple(lengths)], np.array([0])))


def face(text: str) -> float | None:
    """The best value of the face in mm, as a survey would use it."""
    lengths = face_diameter(read_lengths(text).lengths).lengths
    return combined(lengths).best[0] if lengths else None


@needs(MUSEUM)
def test_museum_buttons_are_read_as_by_hand() -> None:
    """At least 95 %; all 19 are right."""
    by_hand = [one for one in records(MUSEUM) if one["expected_max_face_mm"]]
    right = [
        one
        for one in by_hand
        if face(one["dimensions_text"]) == pytest.approx(float(one["expected_max_face_mm"]))
    ]
    assert len(by_hand) >= 19
    assert len(right) / len(by_hand) >= 0.95


@needs(MUSEUM)
def test_museum_texts_that_give_no_buttons_face_are_told_and_not_guessed() -> None:
    told = [
        one["dimensions_text"]
        for one in records(MUSEUM)
        if one["dimensions_text"] and not one["expected_max_face_mm"]
    ]
    assert len(told) >= 3
    for text in told:
        reading = read_lengths(text)
        found = face_diameter(reading.lengths)
        assert found.lengths == (), text
        assert any(doubt.fatal for doubt in (*reading.doubts, *found.doubts)), text


def pairs(text: str) -> list[tuple[Length, Length]]:
    """Each size in cm beside the same size in inches."""
    groups: dict[int, list[Length]] = {}
    for one in read_lengths(text).lengths:
        groups.setdefault(one.group, []).append(one)
    return [
        (metric, inch)
        for first, second in pairwise(groups)
        if second == first + 1 and groups[first][0].unit == "cm" and groups[second][0].unit == "in"
        for metric, inch in zip(groups[first], groups[second])
        if metric.dimension == inch.dimension
    ]


@needs(SMALL)
def test_centimetres_and_inches_of_one_object_agree() -> None:
    """In the whole export 97.5 % of 79,197 inch sizes are the cm rounded to 1/16 in; here 99.5 %.

    Six of 1,615 pairs do not agree; each is a slip in the record (H 14 cm beside 5 3/8 in).
    """
    found = [pair for one in records(SMALL) for pair in pairs(one["dimensions_text"])]
    assert len(found) >= 1600
    agreeing = [pair for pair in found if combined(pair).agree[0] == 1]
    assert len(agreeing) / len(found) >= 0.975
    sixteenths = [
        inch for metric, inch in found if rounded(metric.best) == pytest.approx(inch.best)
    ]
    assert len(sixteenths) / len(found) >= 0.975


def rounded(mm: float) -> float:
    sixteenth = 25.4 / 16
    return round(mm / sixteenth) * sixteenth


@needs(SMALL)
def test_what_is_not_read_of_small_objects_is_told_and_why() -> None:
    """Read in full 738, in part 15; the rest are larger than any button, some told in feet."""
    readings = [read_lengths(one["dimensions_text"]) for one in records(SMALL)]
    unread = [reading for reading in readings if not reading.lengths]
    assert len(unread) / len(readings) <= 0.12
    kinds = Counter(doubt.kind for reading in unread for doubt in reading.doubts)
    assert set(kinds) <= {"size-impossible", "size-unit-not-known", "size-too-many"}
    assert all(any(doubt.fatal for doubt in reading.doubts) for reading in unread)


@needs(LINES)
def test_published_sizes_in_mm_lie_near_the_lines_that_are_read() -> None:
    """Deviations of the trade's printed mm from 0.635 mm a line: the tables' own, 0.86 the worst."""
    deviations = [
        abs(float(one["mm_published"]) - read_lengths(f"{one['lines_L']} L").lengths[0].best)
        for one in records(LINES)
    ]
    assert len(deviations) >= 90
    assert sum(deviations) / len(deviations) == pytest.approx(0.144, abs=0.002)
    assert max(deviations) == pytest.approx(0.86, abs=0.001)
    assert sum(one <= 0.25 for one in deviations) / len(deviations) == pytest.approx(0.80, abs=0.01)
    assert sum(one <= 0.5 for one in deviations) / len(deviations) == pytest.approx(0.94, abs=0.01)


def inches_of(row: dict[str, str]) -> str:
    """The inches of a row; the table's misprint 5/5 stands there as "5/8 (printed 5/5)"."""
    return "".join(takewhile(lambda one: one != "(", row["inches_text"])).strip()


@needs(LINES)
def test_published_inches_agree_with_their_lines_and_mm() -> None:
    """Inch columns are rounded to 1/16, so an eighth holds them; decimals are given to 0.001."""
    rows = [one for one in records(LINES) if "/" in one["inches_text"]]
    assert len(rows) >= 45
    wrong = [
        one
        for one in rows
        if combined(read_lengths(f"{inches_of(one)} in, {one['lines_L']} L").lengths).agree[0] != 1
    ]
    assert wrong == []


@needs(LINES)
def test_published_sizes_in_lines_are_trade_sizes() -> None:
    """Every even size, and 45, 55 and 65, is told as itself, an odd one as between its neighbours.

    Catalogue sizes are nearly all even, plus 45, 55 and 65: the tables themselves.
    """
    for one in records(LINES):
        lines = Fraction(one["lines_L"])
        mm = read_lengths(f"{lines} L").lengths[0]
        told = nearest_trade_lines(mm.best, mm.best, mm.best)
        if lines % 2 == 0 or lines in (45, 55, 65):
            assert told == str(lines)
        else:
            assert told == (f"{lines - 1}–{lines + 1}" if lines > 1 else "2")
