import numpy as np
import pandas as pd
import pytest
from statsmodels.stats.proportion import proportion_confint

from buttonstudy.study.evidence.sets import Evidence
from buttonstudy.study.shares.tally import tally, wilson

# Newcombe 1998, Statistics in Medicine 17:857, Table I, Wilson score method: 95 % intervals.
NEWCOMBE = [
    (81, 263, 0.2553, 0.3662),
    (15, 148, 0.0624, 0.1605),
    (0, 20, 0.0, 0.1611),
    (1, 29, 0.0061, 0.1718),
]


@pytest.mark.parametrize(("successes", "trials", "low", "high"), NEWCOMBE)
def test_wilsons_interval_is_newcombes(successes, trials, low, high):
    found = wilson(np.array([float(successes)]), np.array([float(trials)]))
    assert [round(float(end[0]), 4) for end in found] == [low, high]


def test_wilsons_interval_is_statsmodels_also_for_weighted_counts():
    successes, trials = np.array([0.0, 3.4, 12.0, 8.0]), np.array([5.0, 8.2, 39.0, 8.0])
    low, high = wilson(successes, trials)
    expected = proportion_confint(successes, trials, alpha=0.05, method="wilson")
    assert np.allclose([low, high], np.clip(expected, 0, 1))


def test_no_trials_have_no_interval():
    low, high = wilson(np.array([0.0, 1.0]), np.array([0.0, 2.0]))
    assert np.isnan([low[0], high[0]]).all()
    assert 0 < low[1] < 0.5 < high[1] < 1


def _evidence(states, shares):
    state = np.array(states, dtype=object)
    return Evidence(state, (state == "examined").astype(np.int64), pd.DataFrame({"thread": shares}))


def test_the_counts_add_up_and_the_bounds_follow():
    states = ["examined", "examined", "not examined", "unclear", "not recorded"]
    evidence = _evidence(states, [1.0, 0.5, np.nan, np.nan, np.nan])
    row = tally(evidence, pd.DataFrame({"all": np.ones(5)})).iloc[0]
    assert row["sets"] == 5
    assert row["examined"] == 2
    assert [row["not_examined"], row["unclear"], row["not_recorded"]] == [1, 1, 1]
    assert row["with_term"] == 1.5
    assert row["share"] == 0.75
    assert [row["if_none"], row["if_all"]] == [1.5 / 5, 4.5 / 5]


def test_manskis_bounds_of_a_published_study():
    # Drum & Christacopoulos 1972, as analysed by Begg & Greenes 1983 (Biometrics 39:207): 258 with
    # the disease, 86 without, 306 not verified; bounds by arithmetic on these counts. Blank read
    # as absent gives 40 %, the examined alone 75 %.
    states = ["examined"] * 344 + ["not examined"] * 306
    shares = [1.0] * 258 + [0.0] * 86 + [np.nan] * 306
    row = tally(_evidence(states, shares), pd.DataFrame({"all": np.ones(650)})).iloc[0]
    assert row["share"] == 0.75
    assert [round(row["if_none"], 6), round(row["if_all"], 6)] == [0.396923, 0.867692]


def test_a_set_counts_in_a_group_by_its_weight():
    weights = pd.DataFrame({"early": [0.25, 1.0], "late": [0.75, 0.0]})
    table = tally(_evidence(["examined", "examined"], [1.0, 0.0]), weights)
    assert table[["group", "examined", "with_term"]].to_numpy().tolist() == [
        ["early", 1.25, 0.25],
        ["late", 0.75, 0.75],
    ]


def test_few_are_fewer_than_thirty_sets():
    # NCHS Data Presentation Standards for Proportions: Parker et al. 2017, Vital and Health
    # Statistics 2(175).
    few = [
        tally(_evidence(["examined"] * n, [1.0] * n), pd.DataFrame({"all": np.ones(n)}))["few"][0]
        for n in (29, 30)
    ]
    assert few == [True, False]


def test_a_group_without_examined_sets_has_no_share():
    row = tally(_evidence(["not examined"], [np.nan]), pd.DataFrame({"all": [1.0]})).iloc[0]
    assert np.isnan([row["share"], row["low"], row["high"]]).all()
    assert [row["if_none"], row["if_all"]] == [0, 1]
