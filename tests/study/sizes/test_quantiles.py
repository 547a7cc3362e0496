import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.study.sizes.quantiles import weighted_quantiles

SHARES = [0.0, 0.1, 0.25, 0.5, 0.75, 0.9, 1.0]


@given(sizes=st.lists(st.integers(5, 60), min_size=1, max_size=30))
def test_equal_weights_give_numpys_quantiles(sizes):
    ordered = np.sort(np.array(sizes, dtype=float))
    found = weighted_quantiles(ordered, np.ones(len(sizes)), SHARES)
    expected = np.quantile(ordered, SHARES, method="averaged_inverted_cdf")
    assert found.tolist() == pytest.approx(expected.tolist())


@given(times=st.lists(st.integers(0, 4), min_size=3, max_size=12).filter(any))
def test_a_weight_counts_as_so_many_sizes(times):
    sizes = np.arange(len(times), dtype=float)
    repeated = np.repeat(sizes, times)
    expected = np.quantile(repeated, SHARES, method="averaged_inverted_cdf")
    found = weighted_quantiles(sizes, np.array(times, dtype=float), SHARES)
    assert found.tolist() == pytest.approx(expected.tolist())


def test_many_surveys_are_answered_at_once():
    sizes = np.array([10.0, 20.0, 30.0])
    weights = np.array([[1.0, 0, 0], [0, 0, 2], [0, 0, 0]])
    found = weighted_quantiles(sizes, weights, [0.5])
    assert found[:2, 0].tolist() == [10, 30]
    assert np.isnan(found[2, 0])


def test_no_sizes_have_no_quantiles():
    assert np.isnan(weighted_quantiles(np.array([]), np.array([]), [0.5])).all()
