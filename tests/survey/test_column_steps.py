"""Columns that show in what steps they were read.

A fraction is written in lowest terms, so that 10/16 in is 5/8 in (common practice, no source): of
sizes read to sixteenths half need no sixteenths. `data/` says that the demo's tape was read so.
"""

import pytest

from buttonstudy.survey.load import load_survey

HALVES = ["16.5", "15.0", "14.5", "13.5", "16.0", "15.5", "17.5", "18.5", "19.5", "14.0"]
STEPS = [
    (HALVES, [0.5] * 10),
    (HALVES[:9], [0.1] * 9),  # too few to tell
    ([*HALVES, "16"], [0.5] * 10 + [1.0]),
    (["14.25", *HALVES], [0.01] + [0.5] * 10),  # one finer reading makes no other finer
    ([*HALVES, "16.2", "15.3"], [0.1] * 12),
    ([*HALVES[:9], "15.50"], [0.5] * 10),
    ([*HALVES, "15.5 ± 0.1"], [0.5] * 10 + [0.2]),  # the cell's own word goes first
    ([*HALVES, "14.5-15.5"], [0.5] * 11),
    ([*HALVES, "15.5 ± 0.05"], [0.5] * 10 + [0.1]),
]
ODD = ["9/16", "11/16", "7/16", "13/16", "15/16", "1 1/16", "9/16", "11/16", "5/16", "3/16"]
FRACTIONS = [
    ([*ODD, "5/8", "1", "1/2"], [16] * 13),
    ([*ODD, *["5/8"] * 15], [16] * 25),
    ([*ODD, *["5/8"] * 16], [16] * 10 + [8] * 16),  # a mixture of tapes, or of habits
    ([*ODD[:9], "5/8"], [16] * 9 + [8]),  # too few to tell
    ([*ODD, "19/32", "5/8"], [16] * 10 + [32, 16]),  # one finer reading makes no other finer
    ([*(f"{odd}/32" for odd in range(9, 29, 2)), "5/8", "9/16"], [32] * 12),
    ([*ODD, "0.625", "0.62"], [16] * 11 + [100]),
    ([*ODD, "5/8 ± 1/16", "c. 5/8"], [16] * 10 + [8, 8]),  # the cell's own word goes first
]


@pytest.mark.parametrize(("sizes", "steps"), STEPS)
def test_decimals_that_all_end_on_halves_were_read_to_half_a_millimetre(csv_file, sizes, steps):
    rows = "\n".join(f"{number},{size}" for number, size in enumerate(sizes))
    buttons = load_survey(csv_file(f"No,Diameter (mm)\n{rows}\n")).buttons
    assert buttons["diameter_step_mm"].tolist() == pytest.approx(steps)
    width = buttons["diameter_mm_high"] - buttons["diameter_mm_low"]
    assert width[0] == pytest.approx(steps[0])


@pytest.mark.parametrize(("sizes", "parts"), FRACTIONS)
def test_fractions_beside_many_odd_sixteenths_were_read_to_sixteenths(csv_file, sizes, parts):
    rows = "\n".join(f"{number},{size}" for number, size in enumerate(sizes))
    buttons = load_survey(csv_file(f"No,Diameter (in)\n{rows}\n")).buttons
    assert (25.4 / buttons["diameter_step_mm"]).tolist() == pytest.approx(parts)


EIGHTHS = ["5/8", "3/8", "7/8", "1/2", "1", "3/4", "5/8", "3/4"]


def test_one_recorders_sixteenths_make_no_other_recorder_finer(csv_file):
    by_b = [f"{size},B" for size in [*ODD, "5/8"] * 3]
    by_a = [f"{size},A" for size in EIGHTHS]
    rows = "\n".join(
        f"{number},{row}" for number, row in enumerate([*by_b, *by_a, "5/8,", "1, b "])
    )
    buttons = load_survey(csv_file(f"No,Diameter (in),Recorder\n{rows}\n")).buttons
    parts = (25.4 / buttons["diameter_step_mm"]).round(6)
    assert parts.tolist() == [16] * 33 + [8] * 8 + [8, 16]
    width = buttons["diameter_mm_high"] - buttons["diameter_mm_low"]
    assert width[33] == pytest.approx(25.4 / 8)


def test_a_recorder_of_halves_counts_as_one_beside_a_finer_one(csv_file):
    finer = [f"{16 + tenth / 10},B" for tenth in range(1, 10) for _ in range(3)]
    rows = "\n".join(
        f"{n},{row}" for n, row in enumerate([*(f"{one},A" for one in HALVES), *finer])
    )
    buttons = load_survey(csv_file(f"No,Diameter (mm),Recorder\n{rows}\n")).buttons
    assert buttons["diameter_step_mm"].tolist() == pytest.approx([0.5] * 10 + [0.1] * 27)


def test_five_eighths_to_the_sixteenth_leave_half_as_much_open(csv_file):
    rows = "\n".join(f"{number},{size}" for number, size in enumerate(["5/8", *ODD]))
    buttons = load_survey(csv_file(f"No,Diameter (in)\n{rows}\n")).buttons
    low, high = (buttons[f"diameter_mm_{end}"][0] for end in ("low", "high"))
    assert (low, high) == pytest.approx((25.4 * 19 / 32, 25.4 * 21 / 32))


def test_the_demos_tape_was_read_to_sixteenths():
    buttons = load_survey("demo").buttons
    read = buttons[buttons["file"] == "parvel.xlsx"]["diameter_step_mm"].dropna()
    assert set(read.round(6)) == {25.4 / 16}


def test_a_step_that_the_heading_states_goes_first(csv_file):
    rows = "\n".join(f"{number},{size}" for number, size in enumerate(HALVES))
    buttons = load_survey(csv_file(f"No,Diam. to nearest 0.1 mm\n{rows}\n")).buttons
    assert set(buttons["diameter_step_mm"].round(6)) == {0.1}


def test_the_demos_reader_of_halves_counts_as_one():
    buttons = load_survey("demo").buttons
    read = buttons[buttons["file"] == "marchwane.ods"]["diameter_step_mm"].dropna()
    assert set(read.round(6)) == {0.5, 1.0}
