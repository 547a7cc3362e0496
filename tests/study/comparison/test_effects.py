import numpy as np
import pytest
from scipy import stats
from scipy.stats import contingency

from buttonstudy.study.comparison.effects import (
    cramers_v,
    newcombe,
    simultaneous_interval,
    strength_of_draws,
)

JOBS = np.array([[1, 2, 1, 0], [3, 3, 6, 1], [10, 10, 14, 9], [6, 7, 12, 11]], dtype=float)
"""Job satisfaction, Agresti 2002, p. 57."""


@pytest.mark.parametrize(
    ("counts", "expected"),
    [
        ((48, 80, 56, 70), (0.0524, 0.3339)),
        ((3, 10, 9, 10), (0.1705, 0.8090)),
        ((0, 29, 5, 56), (-0.0381, 0.1926)),
    ],
)
def test_newcombes_table(counts: tuple, expected: tuple) -> None:
    """Newcombe 1998, Statistics in Medicine 17:873, Table II, method 10."""
    assert newcombe(*counts) == pytest.approx(expected, abs=5e-5)


@pytest.mark.parametrize("counts", [(0, 0, 3, 5), (1, 4, 0, 0)])
def test_an_empty_group_has_no_difference(counts: tuple) -> None:
    assert np.isnan(newcombe(*counts)).all()


def test_cramers_v_is_bergsmas() -> None:
    """Bergsma's formula on scipy's plain V."""
    plain = contingency.association(JOBS.astype(int), "cramer")
    total = JOBS.sum()
    squared = max(0, plain**2 * 3 - 9 / (total - 1))
    side = 4 - 9 / (total - 1)
    assert cramers_v(JOBS) == pytest.approx(np.sqrt(squared / (side - 1)))


@pytest.mark.parametrize(("table", "expected"), [(10 * np.eye(3), 1), (np.ones((2, 2)) * 10, 0)])
def test_cramers_v_at_its_ends(table: np.ndarray, expected: float) -> None:
    assert cramers_v(table) == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize("table", [np.ones((1, 3)), np.zeros((2, 2)), np.array([[3.0, 0], [2, 0]])])
def test_a_table_of_one_row_or_column_has_no_strength(table: np.ndarray) -> None:
    assert np.isnan(cramers_v(table))


def posterior(yes: list[int], sets: list[int]) -> tuple[np.ndarray, np.ndarray]:
    rng = np.random.default_rng(1)
    yes_, sets_ = np.array(yes), np.array(sets)
    shares = rng.beta(0.5 + yes_, 0.5 + sets_ - yes_, (4000, len(yes)))
    return shares, rng.dirichlet(1 + sets_, 4000)


@pytest.mark.parametrize(
    ("yes", "sets"), [([3, 8, 12, 20], [30] * 4), ([1, 1, 27, 28], [30] * 4), ([9] * 4, [30] * 4)]
)
def test_strength_is_near_bergsmas_for_sure_dates(yes: list[int], sets: list[int]) -> None:
    table = np.array([yes, np.array(sets) - yes], dtype=float)
    strength, low, high = strength_of_draws(*posterior(yes, sets))
    assert strength == pytest.approx(cramers_v(table), abs=0.04)
    assert low <= strength <= high


def test_the_interval_of_no_strength_begins_at_nought() -> None:
    strength, low, high = strength_of_draws(*posterior([9, 10, 8, 9], [30] * 4))
    assert (strength, low) == (0, 0)
    assert 0.05 < high < 0.4


def test_simultaneous_intervals_hold_together() -> None:
    draws = np.random.default_rng(2).normal(size=(20000, 6))
    low, high = simultaneous_interval(draws)
    inside = ((draws >= low) & (draws <= high)).all(axis=1).mean()
    assert inside == pytest.approx(0.95, abs=0.01)
    independent = stats.norm.ppf((1 + 0.95 ** (1 / 6)) / 2)
    assert high == pytest.approx(np.full(6, independent), abs=0.12)
