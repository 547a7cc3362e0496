import numpy as np
import pandas as pd
import pytest

from buttonstudy.schemes import Period, PeriodScheme, limit
from buttonstudy.study.evidence.patterns import count_patterns, dated_sets, grouped_rows
from buttonstudy.study.shares.latent_model import most_likely_cells

GAPPED = PeriodScheme(
    "gapped", "Two periods with a gap", "", (Period("a", 1800, 1819), Period("b", 1840, 1859))
)


def dates(*ranges: tuple[int | None, int | None]) -> pd.DataFrame:
    return pd.DataFrame(ranges, columns=["year_from", "year_to"]).astype("Int64")


def test_years_before_between_and_after_the_periods_are_stretches_of_their_own() -> None:
    dated = dated_sets(dates((1790, 1809), (1810, 1849), (1850, 1869)), GAPPED)
    assert dated.labels == ("a", "b")
    assert dated.years.tolist() == [20, 20, 10, 20, 10]
    expected = [[0.5, 0, 0.5, 0, 0], [0.25, 0.25, 0, 0.5, 0], [0, 0.5, 0, 0, 0.5]]
    assert dated.weights == pytest.approx(np.array(expected))
    assert dated.inside == pytest.approx(np.array(expected)[:, :2])


def test_undated_sets_have_no_weight_anywhere() -> None:
    dated = dated_sets(dates((1800, 1819), (None, 1850), (None, None)), GAPPED)
    assert dated.dated.tolist() == [True, False, False]
    assert dated.weights[1:].sum() == 0


def test_open_ends_close_at_the_bounds_given() -> None:
    dated = dated_sets(dates((None, 1819)), GAPPED, earliest=1800)
    assert dated.weights[0].tolist()[0] == 1


@pytest.mark.parametrize("ranges", [[], [(None, None)]])
def test_no_dates_give_no_stretches_beyond_the_gap(ranges: list) -> None:
    assert not dated_sets(dates(*ranges), GAPPED).dated.any()


def test_equal_dates_make_one_group_each() -> None:
    means, group = grouped_rows(np.array([[1.0, 0.0], [0.5, 0.5], [1.0, 0.0]]))
    assert means[group].tolist() == [[1.0, 0.0], [0.5, 0.5], [1.0, 0.0]]
    assert len(means) == 2


def test_very_many_date_ranges_are_grouped_without_moving_their_total_or_periods() -> None:
    weights = np.random.default_rng(1).dirichlet([1, 1, 1], 5000)
    weights[:2500, 2] = 0
    weights /= weights.sum(axis=1, keepdims=True)
    means, group = grouped_rows(weights)
    assert len(means) <= limit("most-date-groups")
    assert means[group].sum(axis=0) == pytest.approx(weights.sum(axis=0))
    assert ((means[group] > 0) == (weights > 0)).all()
    assert np.abs(means[group] - weights).max() < 0.2


def test_patterns_count_every_set_used_once() -> None:
    dated = dated_sets(dates((1800, 1819), (1800, 1819), (1800, 1819), (1840, 1859)), GAPPED)
    use = np.array([True, True, True, False])
    patterns = count_patterns(dated, use, np.array([1, 0, 1, 1]), np.eye(2))
    assert patterns.kind.tolist() == [0, 1]
    assert patterns.sets.tolist() == [1, 2]
    assert (patterns.overlap[:, 0] > 0).all()


def test_a_wide_date_falls_to_periods_by_their_sets_not_by_their_years() -> None:
    """As many sets are of ten years as of ninety; so is a set that may be of either, half."""
    scheme = PeriodScheme("two", "", "", (Period("short", 1800, 1809), Period("long", 1810, 1899)))
    dated = dated_sets(dates(*[(1800, 1809)] * 10, *[(1810, 1899)] * 10, (1800, 1899)), scheme)
    patterns = count_patterns(dated, dated.dated, np.zeros(21, dtype=int), np.ones((1, 1)))
    assert most_likely_cells(patterns, until=1e-9)[0] == pytest.approx([10.5, 10.5], abs=1e-4)
