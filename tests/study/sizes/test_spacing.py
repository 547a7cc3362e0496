"""Steps between sizes, on an invented survey whose rulers fake a step ("rulers, not makers").

The survey: sizes without any step, or on two button lines with a scatter of 0.12 mm; each read
with its recorder's ruler (whole mm, sixteenths, eighths, tenths of a mm). The naive answer pools
all readings and knows nothing of rulers.
"""

from fractions import Fraction

import numpy as np
import pandas as pd
import pytest

from buttonstudy.study.sizes.quantogram import waves_of
from buttonstudy.study.sizes.spacing import search_spacing, spacing_tests
from buttonstudy.study.sizes.spacing_readings import (
    largest_scatter,
    showable_steps,
    spacing_readings,
    spacing_steps,
)
from buttonstudy.study.sizes.spacing_words import (
    search_sentence,
    showable_findings,
    showable_sentence,
    spacing_findings,
    step_sentence,
)

RULERS = {"mm": (1.0, "mm"), "16ths": (1.5875, "in"), "8ths": (3.175, "in"), "0.1": (0.1, "mm")}


def cosine_quantogram(sizes, steps):
    """Evaluate the quantogram of exact sizes."""
    return waves_of(sizes, np.zeros(len(sizes)), steps)[0]


def rulers_not_makers(seed, *, step_mm=0.0, rulers=(0.45, 0.30, 0.10, 0.15), sets=160):
    rng = np.random.default_rng(seed)
    sizes = np.clip(np.exp(rng.normal(np.log(17), 0.30, sets)), 7, 45)
    if step_mm:
        sizes = np.round(sizes / step_mm) * step_mm + rng.normal(0, 0.12, sets)
    which = rng.choice(len(RULERS), sets, p=rulers)
    step = np.array([ruler for ruler, _ in RULERS.values()])[which]
    read = np.round(sizes / step) * step
    return pd.DataFrame(
        {
            "diameter_mm": read,
            "diameter_mm_low": read - step / 2,
            "diameter_mm_high": read + step / 2,
            "diameter_step_mm": step,
            "diameter_unit": np.array([unit for _, unit in RULERS.values()])[which],
        }
    )


def naive_chance(buttons, seed, draws=100):
    """The highest peak of all readings pooled, against smooth sizes that no ruler rounded."""
    rng = np.random.default_rng(seed)
    sizes = buttons["diameter_mm"].to_numpy()
    steps = 1 / np.linspace(1 / 3, 1 / 0.4, 350)
    waves = cosine_quantogram(sizes, steps)
    logs = np.log(sizes)
    highest = [
        cosine_quantogram(np.exp(rng.normal(logs.mean(), logs.std(), len(sizes))), steps).max()
        for _ in range(draws)
    ]
    return steps[waves.argmax()], np.mean(np.array(highest) >= waves.max())


def test_the_naive_way_finds_a_rulers_step_where_there_is_none():
    for seed in range(5):
        step, chance = naive_chance(rulers_not_makers(seed), seed)
        # A recorder's millimetre or sixteenth of an inch, or half of it.
        assert np.abs(step - np.array([0.5, 1.0, 0.79375, 1.5875])).min() < 0.01
        assert chance == 0


def test_rulers_alone_seldom_make_a_step_stand_out():
    found = [
        search_spacing(rulers_not_makers(seed), n_surveys=100, seed=seed).peak.iloc[0]
        for seed in range(25)
    ]
    # 5 % of 25 is about 1; 6 or more would come less than once in 100 such trials.
    assert sum(row["stands_out"] for row in found) < 6
    named = [spacing_tests(rulers_not_makers(seed), n_surveys=100, seed=seed) for seed in range(25)]
    assert sum((table["answer"] == "shown").any() for table in named) < 6


def test_a_real_step_of_two_lines_is_found_by_the_fine_readings():
    for seed in range(6):
        buttons = rulers_not_makers(seed, step_mm=1.27)
        table = spacing_tests(buttons, n_surveys=300, seed=seed).set_index("step")
        assert table.loc["2 button lines", "answer"] == "shown"
        assert table["height"].idxmax() == "2 button lines"
        peak = search_spacing(buttons, n_surveys=300, seed=seed).peak.iloc[0]
        assert peak["stands_out"]
        assert "2 button lines" in peak["near"]
        assert peak["step_mm"] == pytest.approx(1.27, abs=0.03)
        assert abs(naive_chance(buttons, 1, draws=1)[0] - 1.27) > 0.2


def test_a_survey_taped_in_eighths_cannot_be_tested():
    buttons = rulers_not_makers(1, step_mm=1.27, rulers=(0, 0, 1, 0))
    # The naive quantogram is as high as can be at the line and at the sixteenth: sqrt(2 N).
    waves = cosine_quantogram(buttons["diameter_mm"].to_numpy(), np.array([0.635, 1.5875, 3.175]))
    assert waves == pytest.approx(np.full(3, np.sqrt(320)))
    table = spacing_tests(buttons, n_surveys=50)
    assert (table["answer"] == "cannot be tested").all()
    assert table["largest_scatter_mm"].isna().all()  # not 0: none was looked for
    assert table[["height", "chance", "chance_holm"]].isna().all(axis=None)
    search = search_spacing(buttons, n_surveys=50)
    assert search.peak.empty
    assert search.waves["height"].isna().all()
    said = {row["step"]: step_sentence(row) for _, row in table.iterrows()}
    assert said["2 button lines"] == (
        "A step of 2 button lines cannot be tested: of 160 sets, 160 were read more coarsely than "
        "to 0.32 mm. Most often they were read to 1/8 in, which is exactly 5 button lines: such sizes sit on "
        "that step, or on its half, whoever made the buttons."
    )
    assert search_sentence(search) == (
        "No step can be searched for: nowhere are 10 sets read finely enough to tell a step from "
        "the ruler's own divisions."
    )


def test_readings_in_the_steps_own_unit_are_no_evidence():
    fine = rulers_not_makers(3, rulers=(0, 0, 0, 1))
    assert showable_steps(fine).set_index("step")["usable"].to_dict() == {
        "1 button line": 160,
        "1 mm": 0,
        "2 button lines": 160,
        "1/16 in": 160,
        "1 Paris line": 160,
        "4 button lines": 160,
        "5 button lines": 160,
    }
    in_lines = fine.assign(diameter_unit="lines", diameter_step_mm=0.0635)
    usable = showable_steps(in_lines).set_index("step")
    assert usable.loc[["1 mm", "1 Paris line"], "usable"].tolist() == [160, 160]
    others = usable.drop(["1 mm", "1 Paris line"])
    assert (others["usable"] == 0).all()
    assert (others["own_unit"] == 160).all()


def test_a_card_of_matching_buttons_is_one_reading():
    sizes = [10.1, 10.4, 10.4, 10.9, 11.0, 20.0]
    buttons = pd.DataFrame(
        {
            "file": "a",
            "set_id": ["1", "1", "1", "1", "2", "2"],
            "diameter_mm": sizes,
            "diameter_step_mm": [0.1, 0.1, 0.1, 0.1, 1.0, 0.5],
            "diameter_unit": "mm",
        }
    )
    # The finest readings of a set, and of these the middle one.
    chosen = spacing_readings(buttons)
    assert chosen["size_mm"].tolist() == [10.4, 20.0]
    assert chosen["rounding_mm"].tolist() == [0.1, 0.5]
    many = pd.concat([buttons.iloc[:1]] * 400, ignore_index=True)
    assert search_spacing(many, n_surveys=10).peak.empty


def test_a_size_of_unknown_rounding_is_no_evidence():
    buttons = pd.DataFrame({"diameter_mm": np.linspace(10, 30, 50)})
    assert spacing_readings(buttons).empty
    bounded = buttons.assign(
        diameter_mm_low=buttons["diameter_mm"] - 0.05,
        diameter_mm_high=buttons["diameter_mm"] + 0.05,
    )
    assert spacing_readings(bounded)["rounding_mm"].tolist() == pytest.approx([0.1] * 50)


def test_the_steps_are_exact():
    # Inch of 1959, line of 1/40 inch, French line: identities of the units' definitions.
    mm = {step.name: step.mm for step in spacing_steps()}
    assert mm["2 button lines"] == Fraction(127, 100)
    assert mm["5 button lines"] == Fraction(254, 80) == 2 * mm["1/16 in"]
    assert float(mm["1 Paris line"]) == pytest.approx(2.2558, abs=5e-5)
    assert all(step.source for step in spacing_steps())


@pytest.mark.parametrize("step_mm", [1.27, 2.54])
def test_the_scatter_that_could_be_seen_is_seen_as_often_as_said(step_mm):
    rounding = np.full(60, 0.1)
    scatter = largest_scatter(step_mm, rounding, 0.05, 0.8)
    rng = np.random.default_rng(6)
    seen = 0
    for _ in range(400):
        sizes = step_mm * rng.integers(4, 12, 60) + rng.normal(0, scatter, 60)
        height = cosine_quantogram(np.round(sizes, 1), np.array([step_mm]))[0]
        seen += height > 1.645
    # The spread of the quantogram is a little below 1 where there is a step: never less often.
    assert 0.76 <= seen / 400 <= 0.9


def test_single_lines_are_said_to_be_out_of_reach():
    row = showable_steps(rulers_not_makers(1)).set_index("step", drop=False).loc["1 button line"]
    assert row["could_show"] == "only close work"
    assert not row["tested"]
    assert showable_sentence(row) == (
        "21 sets could tell about a step of 1 button line; they would show it only if makers kept "
        "within about 0.12 mm of it (standard deviation), and hand work is hardly so close: 0.3 mm "
        "is more usual."
    )


def test_answers_are_told_in_counts_of_simulated_surveys():
    buttons = rulers_not_makers(1, step_mm=1.27)
    table = spacing_tests(buttons, n_surveys=200).set_index("step", drop=False)
    assert step_sentence(table.loc["2 button lines"]).endswith(
        "in none of 200 simulated surveys without any step is it as high. Sizes on multiples of a "
        "step also sit on its halves and thirds, and few sizes on some other steps too: of several "
        "steps shown, the highest counts for most."
    )
    close = table.loc["1/16 in"]
    assert step_sentence(close) == (
        f"Looked for and not found: a step of 1/16 in, in the {close['usable']} sets that could "
        f"tell. Makers who kept within {close['largest_scatter_mm']:.2f} mm of such a step would "
        "have been seen; looser work could still have had one."
    )
    assert "in none of 200 simulated surveys without any step does any step do so." in (
        search_sentence(search_spacing(buttons, n_surveys=200))
    )


def test_what_could_be_shown_is_said_of_like_steps_together():
    close, hard, cannot = showable_findings(showable_steps(rulers_not_makers(5)))
    assert close == (
        "24 sets could tell about steps of 1/16 in, 1 Paris line, 4 button lines and 5 button "
        "lines; they would show such a step if makers kept within about 0.31 to 0.62 mm of it "
        "(standard deviation)."
    )
    assert hard.startswith("24 sets could tell about steps of 1 button line and 2 button lines;")
    assert hard.endswith("and hand work is hardly so close: 0.3 mm is more usual.")
    assert cannot.startswith("A step of 1 mm cannot be tested: of 160 sets, 136 were read")


def test_a_survey_taped_in_eighths_is_answered_once_for_all_steps():
    # 1/8 in is 3.175 mm and a button line 0.635 mm, exactly a fifth: arithmetic.
    told, ruled = showable_findings(showable_steps(rulers_not_makers(5, rulers=(0, 0, 1, 0))))
    assert told.startswith("Steps of 1 button line, 1 mm, 2 button lines")
    assert "5 button lines cannot be tested: of 160 sets, too few were read to a quarter" in told
    assert ruled == (
        "Most often they were read to 1/8 in: such sizes sit on steps of 1 button line, 2 button lines, "
        "1/16 in and 5 button lines, or on half of them, whoever made the buttons."
    )


def test_steps_not_shown_are_told_together_and_those_shown_each():
    buttons = rulers_not_makers(5, step_mm=1.27)
    tests = spacing_tests(buttons, n_surveys=200)
    shown, hidden, search = spacing_findings(tests, search_spacing(buttons, n_surveys=200))
    assert "sizes that sit on steps of 2 button lines more than rulers and chance" in shown
    assert hidden == (
        "Looked for together and not found: a step of 1/16 in, 1 Paris line, 4 button lines or "
        "5 button lines, in the 23 sets that could tell. Makers who kept within 0.31 mm of such a "
        "step would have been seen; looser work could still have had one."
    )
    assert "It cannot be told apart from 2 button lines." in search


def test_no_sizes_are_answered_in_words():
    assert showable_findings(showable_steps(pd.DataFrame())) == [
        "No step can be tested: no set has a diameter whose rounding is known."
    ]


@pytest.mark.parametrize(
    "buttons",
    [
        pd.DataFrame(),
        pd.DataFrame({"diameter_mm": [None, None]}),
        pd.DataFrame({"diameter_mm": [16.0], "diameter_step_mm": [0.1], "diameter_unit": ["mm"]}),
    ],
)
def test_without_enough_sizes_the_tables_stay_well_formed(buttons):
    table = spacing_tests(buttons, n_surveys=10)
    assert (table["answer"] == "cannot be tested").all()
    assert len(table) == 6
    assert search_spacing(buttons, n_surveys=10).peak.empty
    assert all(sentence.endswith(".") for sentence in map(step_sentence, _rows(table)))
    assert all(map(showable_sentence, _rows(showable_steps(buttons))))


def test_steps_tested_together_are_adjusted_for_it():
    # Holm 1979, by hand: the smallest times five, the next times four, never falling.
    table = spacing_tests(rulers_not_makers(2), n_surveys=100)
    known = table["chance"].notna()
    assert known.sum() == 5
    sorted_ = table[known].sort_values(["chance", "chance_holm"], kind="stable")
    stepped = np.maximum.accumulate(sorted_["chance"].to_numpy(float) * np.arange(5, 0, -1))
    found = np.sort(sorted_["chance_holm"].to_numpy(float))
    assert found == pytest.approx(np.minimum(stepped, 1))


def test_the_same_seed_gives_the_same_answer():
    buttons = rulers_not_makers(2)
    one, same = (search_spacing(buttons, n_surveys=50, seed=4) for _ in range(2))
    pd.testing.assert_frame_equal(one.waves, same.waves)
    pd.testing.assert_frame_equal(one.peak, same.peak)


def _rows(table):
    return [row for _, row in table.iterrows()]
