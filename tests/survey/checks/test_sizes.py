"""Sizes that stand far from the others, and sizes that cannot be together."""

import numpy as np
import pytest

import buttonstudy as bs

# Sizes of one trade's buttons, 14 to 40 lines (even lines: apparelscience.com).
TRADE = [lines * 0.635 for lines in (14, 16, 18, 20, 20, 22, 24, 24, 24, 26, 28, 30, 32, 36, 40)]


def sized(sizes):
    return [{"diameter_mm": size} for size in sizes]


OUTLIERS = [
    # 1 inch = 25.4 mm exactly; 10 mm = 1 cm.
    (160.0, "a decimal point or comma was lost", "16 mm would fit"),
    (1.6, "a decimal point or comma too many", "16 mm would fit"),
    (16 * 25.4, "millimetres stand where inches should", "16 mm would fit"),
    (16 / 25.4, "inches stand where millimetres should", "16 mm would fit"),
]


@pytest.mark.parametrize(("size", "slip", "true"), OUTLIERS)
def test_a_size_far_from_all_others_names_the_slip_that_explains_it(findings, size, slip, true):
    row = {"diameter_mm": size, "diameter_mm_low": size * 0.97, "diameter_mm_high": size * 1.03}
    told = findings(*sized(TRADE), row, whole=True)
    assert told["kind"].tolist() == ["size-outlier"]
    assert told["row"].tolist() == [len(TRADE) + 2]
    assert slip in told["problem"][0]
    assert true in told["problem"][0]


def test_a_size_that_no_slip_explains_is_only_for_information(findings):
    told = findings(*sized([16.0] * 14), {"diameter_mm": 60.0}, whole=True)
    assert told["kind"].tolist() == ["size-unusual"]
    assert told["level"].tolist() == ["for information"]


QUIET = {
    "a whole trade range": TRADE,
    "few sizes": [16.0] * 10 + [160.0],
    "large buttons that stand not alone": [*TRADE, 30, 38, 45, 48],
    "tiny buttons beside coat buttons": [5, 6, 6, 7, *TRADE],
    "two kinds of buttons": [10.0] * 12 + [60.0] * 12,
}


@pytest.mark.parametrize("sizes", QUIET.values(), ids=QUIET.keys())
def test_ordinary_surveys_are_left_in_peace(findings, sizes):
    assert findings(*sized(sizes)) == []


def test_skewed_sizes_without_a_slip_raise_hardly_any_alarm(findings):
    rng = np.random.default_rng(1)
    alarms = 0
    for _ in range(40):  # log-normal sizes, as spread as the museum records read by hand
        alarms += len(findings(*sized(np.exp(rng.normal(np.log(20), 0.45, 60)))))
    assert alarms <= 1


def test_an_unread_giant_is_told_once_with_its_slip(csv_file):
    rows = "\n".join(f"{n},{size:.1f}" for n, size in enumerate(TRADE))
    survey = bs.load_survey(csv_file(f"No,Diam (mm)\n{rows}\nx,165\n"))
    (told,) = survey.problems[survey.problems["row"] == len(TRADE) + 2].to_dict("records")
    assert (told["kind"], told["level"]) == ("size-too-large", "not read")
    assert told["what_to_do"].startswith(
        "Perhaps a decimal point or comma was lost (16.5 mm would fit). Check the figure"
    )


def test_a_slip_is_told_in_the_unit_that_was_read(csv_file):
    rows = "\n".join(f"{n},{size / 0.635:.0f}" for n, size in enumerate(TRADE))
    problems = bs.load_survey(csv_file(f"No,Diam (lines)\n{rows}\nx,240\n")).problems
    told = problems.set_index("kind").loc["size-too-large", "what_to_do"]
    assert told.startswith(
        "Perhaps a decimal point or comma was lost (24 lines, 15.2 mm would fit). Check"
    )


WIDER = [
    ({"hole_diameter_mm": 9, "mould_diameter_mm": 7}, ["hole-wider-than-mould"]),
    ({"hole_diameter_mm": 18, "diameter_mm": 16}, ["hole-wider-than-mould"]),
    ({"mould_diameter_mm": 19, "diameter_mm": 16}, ["mould-wider-than-button"]),
    ({"hole_diameter_mm": 7, "mould_diameter_mm": 7}, []),
    ({"mould_diameter_mm": 16, "diameter_mm": 16}, []),
    ({"mould_diameter_mm": 17.2, "diameter_mm": 16}, []),  # within both readings and out of round
    ({"hole_diameter_mm": 2, "mould_diameter_mm": 15, "diameter_mm": 16}, []),
]


@pytest.mark.parametrize(("row", "kinds"), WIDER)
def test_what_is_wider_than_what_holds_it_is_told_beyond_the_readings_precision(
    findings, row, kinds
):
    assert [kind for kind, _ in findings(row)] == kinds
