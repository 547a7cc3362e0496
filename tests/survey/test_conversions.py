"""Sizes reckoned from others beside them: they are no finer than what they were reckoned from."""

import pytest

from buttonstudy.survey.load import load_survey

# 1 inch = 25.4 mm, 1 button line = 1/40 inch (GNU units definitions)
INCHES = [("1/2 in", "12.7"), ("5/8 in", "15.88"), ("3/4 in", "19.05"), ("7/8 in", "22.23")]
INCHES += [("9/16 in", "14.29"), ("1 in", "25.4")]
MEASURED = [("1/2 in", "12.9"), ("5/8 in", "15.4"), ("3/4 in", "19.2"), ("7/8 in", "22.0")]
MEASURED += [("9/16 in", "14.1"), ("1 in", "25.4")]


def loaded(csv_file, pairs, headings="Size,Diameter (mm)"):
    rows = "\n".join(f"{number},{one},{other}" for number, (one, other) in enumerate(pairs))
    return load_survey(csv_file(f"No,{headings}\n{rows}\n"))


def told(survey):
    return survey.problems[survey.problems["kind"] == "sizes-converted"]


def test_converted_inches_count_as_read_in_inches(csv_file):
    survey = loaded(csv_file, INCHES)
    buttons = survey.buttons
    assert buttons["diameter_unit"].tolist() == ["in"] * 6
    assert buttons["diameter_step_mm"].tolist() == [3.175] * 4 + [1.5875, 3.175]
    assert buttons["diameter_mm"].tolist() == [12.7, 15.875, 19.05, 22.225, 14.2875, 25.4]
    assert (buttons["diameter_mm_low"][0], buttons["diameter_mm_high"][0]) == (11.1125, 14.2875)
    assert buttons["sizes_agree"].isna().all()  # a conversion is no second reading
    assert buttons["diameter_wording"][0] == "B: Size: 1/2 in | C: Diameter (mm): 12.7"


def test_conversions_are_told_once_for_a_table(csv_file):
    found = told(loaded(csv_file, INCHES))
    assert found["problem"].tolist() == [
        "The readings of this diameter in mm are exact conversions of those in inches in 6 of the "
        "6 records that have both, so they count as read to the step of the inches."
    ]
    assert found[["level", "column"]].values.tolist() == [["for information", "C: Diameter (mm)"]]


def test_records_whose_readings_are_too_coarse_to_tell_are_not_said_to_have_but_one(csv_file):
    found = told(loaded(csv_file, [*INCHES, ("1 1/8 in", "28"), ("1 1/4 in", "32")]))
    assert (
        found["problem"]
        .iloc[0]
        .startswith(
            "The readings of this diameter in mm are exact conversions of those in inches in 6 of the "
            "6 records that have both and whose mm are fine enough to tell (8 records have both), so"
        )
    )


def test_sizes_measured_in_both_units_stay_as_fine_as_they_are(csv_file):
    survey = loaded(csv_file, MEASURED)
    assert told(survey).empty
    assert survey.buttons["diameter_unit"].tolist() == ["mm"] * 6
    assert survey.buttons["sizes_agree"].tolist() == [True] * 6


KEPT = [
    (INCHES[:4], 0),  # too few to tell
    (INCHES[:5], 1),
    ([*INCHES, *INCHES, ("11/16 in", "17.1")], 1),
    ([*INCHES, ("11/16 in", "17.1")], 0),  # six of seven are not nearly all
    ([(inches, str(round(float(mm)))) for inches, mm in INCHES], 0),  # 16 mm may be measured
]


@pytest.mark.parametrize(("pairs", "number"), KEPT)
def test_only_many_exact_conversions_are_taken_for_such(csv_file, pairs, number):
    assert len(told(loaded(csv_file, pairs))) == number


def test_a_size_measured_among_conversions_stays(csv_file):
    buttons = loaded(csv_file, [*INCHES, *INCHES, ("11/16 in", "17.1")]).buttons
    assert buttons["diameter_unit"].tolist() == ["in"] * 12 + ["mm"]


def test_mm_reckoned_from_lines_count_as_read_in_lines(csv_file):
    pairs = [("24", "15.24"), ("30", "19.05"), ("27", "17.15"), ("36", "22.86"), ("20", "12.7")]
    survey = loaded(csv_file, pairs, "Diameter (lines),Diameter (mm)")
    assert len(told(survey)) == 1
    assert set(survey.buttons["diameter_step_mm"].round(6)) == {0.635}
    assert survey.buttons["diameter_unit"].tolist() == ["lines"] * 5


def test_lines_reckoned_from_inches_count_as_read_in_inches(csv_file):
    pairs = [("1/2", "20"), ("5/8", "25"), ("3/4", "30"), ("7/8", "35"), ("11/16", "27.5")]
    survey = loaded(csv_file, pairs, "Diameter (in),Diameter (lines)")
    assert "in lines are exact conversions of those in inches" in told(survey)["problem"].iloc[0]
    assert survey.buttons["diameter_step_mm"].tolist() == [3.175] * 4 + [1.5875]


def test_the_demo_was_measured():
    assert told(load_survey("demo")).empty
