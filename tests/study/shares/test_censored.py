"""The estimate from bounded readings, against published tables of interval-censored data."""

import csv
from pathlib import Path

import numpy as np
import pytest

from buttonstudy.study.shares.censored import innermost_intervals, most_likely_masses

OPEN_DATA = Path(__file__).parents[4] / "shared" / "open-data"
COSMESIS = OPEN_DATA / "breast_cosmesis_intervals.csv"

# Fay & Shaw 2010, Journal of Statistical Software 36(2), summary of the fitted curves: ends of
# the innermost intervals in months, and the probability of each.
PUBLISHED = {
    "Rad": {
        (4, 5): 0.0463,
        (6, 7): 0.0334,
        (7, 8): 0.0887,
        (11, 12): 0.0708,
        (24, 25): 0.0926,
        (33, 34): 0.0818,
        (38, 40): 0.1209,
        (46, 48): 0.4656,
    },
    "RadChem": {
        (4, 5): 0.0433,
        (5, 8): 0.0433,
        (11, 12): 0.0692,
        (16, 17): 0.1454,
        (18, 19): 0.1411,
        (19, 20): 0.1157,
        (24, 25): 0.0999,
        (30, 31): 0.0709,
        (35, 36): 0.1608,
        (44, 48): 0.0552,
        (48, 60): 0.0552,
    },
}


def estimated(low, high, weights=None, **options):
    low, high = np.asarray(low, float), np.asarray(high, float)
    found = innermost_intervals(low, high)
    votes = np.ones(len(low)) if weights is None else np.asarray(weights, float)
    return found, most_likely_masses(found.first, found.last, votes, len(found.low), **options)


@pytest.mark.skipif(not COSMESIS.exists(), reason="the open data are not beside this checkout")
@pytest.mark.parametrize("treatment", PUBLISHED)
def test_the_breast_cosmesis_curves_are_the_published_ones(treatment):
    with COSMESIS.open(newline="") as file:
        read = [row for row in csv.DictReader(file) if row["treatment"] == treatment]
    found, masses = estimated([row["left"] for row in read], [row["right"] for row in read])
    held = masses > 1e-6
    intervals = zip(found.low[held], found.high[held])
    assert dict(zip(intervals, masses[held])) == pytest.approx(PUBLISHED[treatment], abs=5e-5)


def test_exact_values_get_their_share_each():
    found, masses = estimated([3, 1, 3, 2], [3, 1, 3, 2])
    assert found.low.tolist() == [1, 2, 3]
    assert masses == pytest.approx([0.25, 0.25, 0.5])


def test_rounding_intervals_that_touch_share_no_value():
    found, masses = estimated([15.5, 16.5], [16.5, 17.5])
    assert list(zip(found.low, found.high)) == [(15.5, 16.5), (16.5, 17.5)]
    assert masses == pytest.approx([0.5, 0.5])


def test_an_exact_value_on_an_edge_belongs_to_the_interval_that_ends_there():
    found, masses = estimated([1, 2, 2], [2, 3, 2])
    # (1, 2] holds the exact 2 and (2, 3] does not.
    assert list(zip(found.low, found.high)) == [(2, 2), (2, 3)]
    assert masses == pytest.approx([2 / 3, 1 / 3])


def test_a_reading_open_above_is_spread_over_what_lies_above():
    # Closed form of Kaplan & Meier 1958 (J Am Stat Assoc 53:457): 1, 2+, 3, 4.
    found, masses = estimated([1, 2, 3, 4], [1, np.inf, 3, 4])
    assert found.low.tolist() == [1, 3, 4]
    assert masses == pytest.approx([0.25, 0.375, 0.375], abs=1e-6)


def test_the_estimate_cannot_be_bettered():
    # Gentleman & Geyer 1994 (Biometrika 81:618): at the maximum no interval has a slope above n.
    rng = np.random.default_rng(8)
    low = rng.uniform(0, 30, 60)
    high = low + rng.uniform(0.5, 9, 60)
    found, masses = estimated(low, high)
    covers = (found.low >= low[:, None]) & (found.high <= high[:, None])
    slope = (covers / (covers @ masses)[:, None]).sum(axis=0)
    assert slope.max() <= 60 * (1 + 1e-5)


def test_no_votes_give_no_masses():
    _, masses = estimated([1, 2], [2, 3], [0, 0])
    assert masses.tolist() == [0, 0]
    found, masses = estimated([], [])
    assert len(found.low) == len(masses) == 0


@pytest.mark.parametrize(("low", "high"), [([2.0], [1.0]), ([np.nan], [1.0]), ([1.0], [np.nan])])
def test_bounds_that_cannot_be_are_refused(low, high):
    with pytest.raises(ValueError, match="needs a lower bound that does not exceed its upper"):
        innermost_intervals(np.array(low), np.array(high))
