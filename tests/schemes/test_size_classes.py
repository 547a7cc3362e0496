"""Size classes: the published limits at their edges, and a user's own table."""

from fractions import Fraction
from pathlib import Path

import pytest

from buttonstudy.schemes import (
    SchemeError,
    borderline,
    rows,
    size_class,
    size_class_schemes,
    size_classes,
)

INCH = Fraction(254, 10)  # mm, exactly: international inch of 1959

# Size in inches and its class. Limits of the US National Button Society ("not over 3/8", "over 3/8
# but not over 3/4", "over 3/4 but not over 1-1/4", "over 1-1/4"): collectors' forum posts that
# describe its loop measure. Extra-large over 1.75 in: LiveAuctioneers news, April 2024, ascribed
# to the society's Blue Book. All are secondary; the society's own rule book was not seen.
EDGES = [
    ("us-society", "3/8", "diminutive"),
    ("us-society", "25/64", "small"),
    ("us-society", "3/4", "small"),
    ("us-society", "49/64", "medium"),
    ("us-society", "5/4", "medium"),
    ("us-society", "81/64", "large"),
    ("us-society", "7/4", "large"),
    ("us-society", "3", "large"),
    ("us-society-extra-large", "3/8", "diminutive"),
    ("us-society-extra-large", "5/4", "medium"),
    ("us-society-extra-large", "7/4", "large"),
    ("us-society-extra-large", "113/64", "extra-large"),
]

# The same limits in mm and in button lines of 1/40 inch (US Tariff Act 1897, para. 414), computed.
LIMITS = [(9.525, 15), (19.05, 30), (31.75, 50), (44.45, 70)]

BORDERLINE = [
    ("9.525 mm read to 1/16 in", 9.525 - 0.79375, 9.525 + 0.79375, True),
    ("all below the limit", 8.0, 9.4, False),
    ("up to the limit exactly", 9.0, 9.525, False),
    ("from the limit exactly", 9.525, 9.6, True),
    # Cooper Hewitt 18310115, "3.2 cm (1 1/4 in.)": large by its cm, medium by its inches.
    ("3.2 cm read to 1 mm", 31.5, 32.5, True),
]


def test_the_schemes_are_there_under_their_names() -> None:
    assert size_class_schemes() == ("us-society", "us-society-extra-large", "five-mm")


@pytest.mark.parametrize(("scheme", "inches", "label"), EDGES)
def test_a_size_at_a_published_limit_is_still_in_the_smaller_class(
    scheme: str, inches: str, label: str
) -> None:
    assert size_class(size_classes(scheme), float(Fraction(inches) * INCH)) == label


@pytest.mark.parametrize(("mm", "label"), [(9.525 + 1e-12, "diminutive"), (9.5255, "small")])
def test_a_rounding_error_is_no_size_but_half_a_micrometre_is(mm: float, label: str) -> None:
    assert size_class(size_classes("us-society"), mm) == label


def test_the_limits_are_exact_in_mm_and_whole_in_lines() -> None:
    limits = [one.up_to_mm for one in size_classes("us-society-extra-large").classes[:-1]]
    assert limits == [Fraction(str(mm)) for mm, _ in LIMITS]
    assert [limit / INCH * 40 for limit in limits if limit] == [lines for _, lines in LIMITS]


def test_the_edges_sort_sizes_into_classes_by_bisection() -> None:
    edges = size_classes("us-society").edges_mm()
    assert edges == (9.525, 19.05, 31.75)
    assert len(edges) == len(size_classes("us-society").classes) - 1


@pytest.mark.parametrize(
    ("mm", "label"),
    [(5, "up to 5 mm"), (5.1, "5–10 mm"), (20, "15–20 mm"), (50, "45–50 mm"), (50.1, "over 50 mm")],
)
def test_plain_bands_follow_the_same_edge_rule(mm: float, label: str) -> None:
    assert size_class(size_classes("five-mm"), mm) == label


@pytest.mark.parametrize(("why", "low", "high", "expected"), BORDERLINE)
def test_a_reading_that_reaches_into_two_classes_is_borderline(
    why: str, low: float, high: float, expected: bool
) -> None:
    assert borderline(size_classes("us-society"), low, high) is expected, why


@pytest.mark.parametrize("name", ["us-society", "us-society-extra-large"])
def test_the_society_classes_say_that_their_sources_are_secondary(name: str) -> None:
    assert all(
        "secondary" in row["source"] for row in rows("size_classes") if row["scheme"] == name
    )


def test_no_class_scheme_is_called_british() -> None:
    assert not any("brit" in " ".join(row.values()).casefold() for row in rows("size_classes"))


def test_every_row_has_a_rule_and_a_source() -> None:
    assert all(row["rule"] and row["source"] for row in rows("size_classes"))


def test_a_users_own_table_is_read(tmp_path: Path) -> None:
    own = tmp_path / "own.csv"
    own.write_text("label,up_to,unit\nfine,24,lines\ncoarse,,\n", encoding="utf-8")
    scheme = size_classes(own)
    assert [one.up_to_mm for one in scheme.classes] == [Fraction("15.24"), None]
    assert size_class(scheme, 15.24) == "fine"


FAULTS = [
    (
        "a,10,mm\nb,8,mm\nc,,",
        'row 3, column up_to: "8" is not above the class before. Let the limits',
    ),
    ("a,10,mm\nb,20,mm", 'row 3, column up_to: "20" ends the last class. Add a last class without'),
    ("a,10,furlongs\nb,,", 'row 2, column unit: "furlongs" is not a known unit. Use one of: mm, '),
    (
        "a,ten,mm\nb,,",
        'row 2, column up_to: "ten" is not a size. Write a number such as 19 or 1 1/4',
    ),
    ("a,1/0,in\nb,,", 'row 2, column up_to: "1/0" is not a size.'),
    ("a,,mm\nb,,", 'row 2, column up_to: "" is empty.'),
    (",10,mm\nb,,", 'row 2, column label: "" is empty.'),
    ("a,10,mm\na,,", 'row 3, column label: "a" stands twice. Give each class its own label.'),
]


@pytest.mark.parametrize(("lines", "message"), FAULTS)
def test_a_fault_in_a_users_table_is_told_by_row_and_column(
    lines: str, message: str, tmp_path: Path
) -> None:
    own = tmp_path / "own.csv"
    own.write_text(f"label,up_to,unit\n{lines}\n", encoding="utf-8")
    with pytest.raises(SchemeError) as told:
        size_classes(own)
    assert message in str(told.value)
