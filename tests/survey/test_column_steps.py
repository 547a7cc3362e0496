"""Columns whose decimals show that they were read to half a millimetre."""

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
]


@pytest.mark.parametrize(("sizes", "steps"), STEPS)
def test_decimals_that_all_end_on_halves_were_read_to_half_a_millimetre(csv_file, sizes, steps):
    rows = "\n".join(f"{number},{size}" for number, size in enumerate(sizes))
    buttons = load_survey(csv_file(f"No,Diameter (mm)\n{rows}\n")).buttons
    assert buttons["diameter_step_mm"].tolist() == pytest.approx(steps)
    width = buttons["diameter_mm_high"] - buttons["diameter_mm_low"]
    assert width[0] == pytest.approx(steps[0])


def test_a_step_that_the_heading_states_goes_first(csv_file):
    rows = "\n".join(f"{number},{size}" for number, size in enumerate(HALVES))
    buttons = load_survey(csv_file(f"No,Diam. to nearest 0.1 mm\n{rows}\n")).buttons
    assert set(buttons["diameter_step_mm"].round(6)) == {0.1}


def test_the_demos_reader_of_halves_counts_as_one():
    buttons = load_survey("demo").buttons
    read = buttons[buttons["file"] == "marchwane.ods"]["diameter_step_mm"].dropna()
    assert set(read.round(6)) == {0.5, 1.0}
