"""A recorder who reads otherwise than others on shared sets."""

import numpy as np
import pytest


def shared(sets, shift, seed=0, step=0.1):
    """Sets of two buttons, one measured by Ann and one by Ben, who reads `shift` mm more."""
    rng = np.random.default_rng(seed)
    rows = []
    for number in range(sets):
        true = rng.uniform(12, 24)
        for who, by in (("Ann", 0.0), ("Ben", shift)):
            size = np.round((true + rng.normal(0, 0.3) + by) / step) * step
            rows.append({"set_id": f"s{number}", "recorder": who, "diameter_mm": size})
    return rows


def told(findings, rows):
    return [one for one in findings(*rows) if one[0] == "recorder-reads-otherwise"]


def test_a_recorder_who_reads_larger_on_many_shared_sets_is_told(findings):
    problems = findings(*shared(20, 1.0), whole=True)
    here = problems[problems["kind"] == "recorder-reads-otherwise"]
    assert here["row"].tolist() == [2, 3]
    assert here["problem"].iloc[0].startswith("Ann reads smaller than others in ")
    assert "sets that both measured" in here["problem"].iloc[1]


@pytest.mark.parametrize("rows", [shared(20, 0.0), shared(7, 2.0), shared(20, 0.1)])
def test_chance_few_sets_and_small_differences_are_silent(findings, rows):
    assert told(findings, rows) == []


def test_sets_that_nobody_else_measured_say_nothing(findings):
    rows = [{**row, "set_id": f"{row['set_id']}{row['recorder']}"} for row in shared(20, 2.0)]
    assert told(findings, rows) == []


def test_without_a_difference_hardly_any_survey_raises_an_alarm(findings):
    # The chance asked for is 1 % over all recorders; 60 surveys then give 0.6 alarms on average.
    assert sum(bool(told(findings, shared(15, 0.0, seed))) for seed in range(60)) <= 3
