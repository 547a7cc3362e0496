"""A size that cannot be right is told with what it was perhaps meant to be.

1 inch = 25.4 mm exactly. That strokes and units are mistaken so: common practice, no source.
"""

import pytest

import buttonstudy as bs

MEANT = [
    ("mm", "3/4", "inches stand where millimetres should: 3/4 in (19.1 mm) would fit."),
    ("mm", "¾", "inches stand where millimetres should: ¾ in (19.1 mm) would fit."),
    ("mm", "1 1/8", "inches stand where millimetres should: 1 1/8 in (28.6 mm) would fit."),
    ("in", "58", "a stroke was lost: 5/8 in (15.9 mm) would fit."),
    ("in", "1116", "a stroke was lost: 11/16 in (17.5 mm) would fit."),
]
NOT_TOLD = [("mm", "0.75"), ("mm", "1/16"), ("in", "57"), ("in", "98"), ("lines", "3/4")]


def remedy(csv_file, unit, cell):
    problems = bs.load_survey(csv_file(f"No,Diam ({unit}),Mould\n1,{cell},wood\n")).problems
    (told,) = problems[problems["column"].str.startswith("B")]["what_to_do"]
    return told


@pytest.mark.parametrize(("unit", "cell", "meant"), MEANT)
def test_what_was_perhaps_meant_is_told(csv_file, unit, cell, meant):
    assert remedy(csv_file, unit, cell).startswith(f"Perhaps {meant} ")


@pytest.mark.parametrize(("unit", "cell"), NOT_TOLD)
def test_nothing_is_supposed_where_it_would_not_fit(csv_file, unit, cell):
    assert "Perhaps" not in remedy(csv_file, unit, cell)


def test_it_is_supposed_once_beside_other_sizes(csv_file):
    others = "".join(f"{n},{size},wood\n" for n, size in enumerate(range(12, 30)))
    problems = bs.load_survey(csv_file(f"No,Diam (mm),Mould\n{others}x,3/4,wood\n")).problems
    (told,) = problems[problems["kind"] == "size-too-small"]["what_to_do"]
    assert told.count("Perhaps") == 1
