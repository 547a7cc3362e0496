from itertools import pairwise

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from buttonstudy.schemes import Period, PeriodScheme, period_scheme
from buttonstudy.study.evidence.dating import (
    date_spans,
    period_rows,
    period_weights,
    record_by_period,
    wholly_within,
)


def _scheme(*edges: int) -> PeriodScheme:
    """Make periods from each edge to the year before the next."""
    pairs = pairwise(edges)
    periods = tuple(Period(f"from {low}", low, high - 1) for low, high in pairs)
    return PeriodScheme("test", "Periods of the test", "none", periods)


def _weights(spans, scheme, **bounds):
    years = pd.DataFrame(spans, columns=["year_from", "year_to"]).astype("Int64")
    return period_weights(years["year_from"], years["year_to"], scheme, **bounds)


def test_the_published_example_of_palmisano_2017():
    # Palmisano et al. 2017, Journal of Archaeological Science 87:59, as kept in the test snapshots
    # of the R package kairos 2.3.0; exact values 1/4, 13/12, 13/12, 19/12. Their years are points
    # in time, so that the last whole year is one earlier.
    spans = [(-2200, -1401), (-2000, -1601), (-1600, -1401), (-2000, -1401)]
    weights = _weights(spans, _scheme(-2200, -2000, -1800, -1600, -1400))
    assert weights.sum().tolist() == pytest.approx([1 / 4, 13 / 12, 13 / 12, 19 / 12, 0, 0])
    assert (weights > 0).sum().tolist() == [1, 3, 3, 3, 0, 0]


def test_the_documented_example_of_archseries():
    # R package archSeries, documentation of aorist(): starts 450, 450, 600, ends 700, 800, 650,
    # weights 3, 6, 25, bins of 50 years from 500.
    spans = [(450, 699), (450, 799), (600, 649)]
    weights = _weights(spans, _scheme(500, 550, 600, 650, 700, 750, 800)).iloc[:, :6]
    summed = np.array([3, 6, 25]) @ weights.to_numpy()
    expected = [1.45714, 1.45714, 26.4571, 1.45714, 0.857143, 0.857143]
    assert summed.tolist() == pytest.approx(expected, abs=5e-5)


def test_ratcliffes_eight_hours():
    # Ratcliffe 2000, International Journal of Geographical Information Science 14:669: an event
    # between 8 and 16 o'clock has 1/8 in each hour.
    weights = _weights([(8, 15)], _scheme(*range(8, 17)))
    assert weights.iloc[0, :8].tolist() == [0.125] * 8


def test_1820_to_1860_is_41_years():
    weights = _weights([(1820, 1860)], _scheme(1820, 1840, 1860, 1880))
    assert weights.iloc[0].tolist() == pytest.approx([20 / 41, 20 / 41, 1 / 41, 0, 0])


def test_a_single_year_goes_wholly_to_one_period():
    weights = _weights([(1839, 1839), (1840, 1840)], _scheme(1820, 1840, 1860))
    assert weights.to_numpy().tolist() == [[1, 0, 0, 0], [0, 1, 0, 0]]


def test_years_outside_the_periods_are_told_and_not_shared_out_anew():
    gap = PeriodScheme("g", "g", "g", (Period("a", 1800, 1809), Period("b", 1820, 1829)))
    weights = _weights([(1800, 1839), (1700, 1709)], gap)
    assert weights.to_numpy().tolist() == [[0.25, 0.25, 0.5, 0], [0, 0, 1, 0]]


# (year_from, year_to) with bounds -> weights over 1800-1849, 1850-1899, outside, undated
OPEN_ENDS = [
    ((1875, None), {}, [0, 0, 0, 1]),
    ((None, None), {}, [0, 0, 0, 1]),
    ((None, None), {"earliest": 1800}, [0, 0, 0, 1]),
    ((1875, None), {"latest": 1899}, [0, 1, 0, 0]),
    ((None, 1874), {"earliest": 1825}, [0.5, 0.5, 0, 0]),
    ((1875, None), {"latest": 1860}, [0, 0, 0, 1]),
]


@pytest.mark.parametrize(("span", "bounds", "expected"), OPEN_ENDS)
def test_an_open_end_is_spread_only_where_a_bound_is_given(span, bounds, expected):
    weights = _weights([span], _scheme(1800, 1850, 1900), **bounds)
    assert weights.iloc[0].tolist() == expected


def test_a_reversed_range_is_refused_with_its_row():
    with pytest.raises(ValueError, match="ends before it begins: 1860 to 1820") as caught:
        _weights([(1800, 1810), (1860, 1820)], _scheme(1800, 1900))
    assert "(row 1; 1 in all). Put the earlier year first." in str(caught.value)


def test_a_period_may_not_bear_the_name_of_another_column():
    scheme = PeriodScheme("own", "own", "own", (Period("undated", 1800, 1899),))
    with pytest.raises(ValueError, match='calls a period "undated"'):
        _weights([(1800, 1810)], scheme)


@given(
    start=st.integers(1500, 2000),
    length=st.integers(0, 300),
    extra=st.integers(1650, 1950),
)
def test_weights_sum_to_one_and_a_further_edge_changes_nothing(start, length, extra):
    edges = sorted({1600, 1650, 1700, 1800, 1840, 1950, 1999})
    split = _weights([(start, start + length)], _scheme(*sorted({*edges, extra})))
    whole = _weights([(start, start + length)], _scheme(*edges))
    assert split.iloc[0].sum() == pytest.approx(1)
    assert split["outside"].iloc[0] == pytest.approx(whole["outside"].iloc[0])
    joined = split.iloc[0, :-2].sum()
    assert joined == pytest.approx(whole.iloc[0, :-2].sum())


def test_drawing_single_years_gives_the_weights_in_the_long_run():
    rng = np.random.default_rng(1)
    spans = [(1790, 1829), (1811, 1812), (1700, 1899)]
    scheme = _scheme(1780, 1800, 1820, 1840)
    drawn = np.concatenate([rng.integers(low, high + 1, 20_000) for low, high in spans])
    points = _weights([(int(year), int(year)) for year in drawn], scheme).sum() / 20_000
    assert points.tolist() == pytest.approx(_weights(spans, scheme).sum().tolist(), abs=0.015)


def test_undated_rows_lie_wholly_within_nothing():
    weights = _weights([(1801, 1802), (None, None)], _scheme(1800, 1900))
    assert wholly_within(weights).to_numpy().tolist() == [
        [True, False, False],
        [False, False, False],
    ]


def test_the_rows_of_a_table_end_with_what_the_periods_do_not_hold():
    rows = period_rows(period_scheme("centuries"))
    assert rows["kind"].tolist()[-3:] == ["outside", "undated", "all"]
    assert rows["year_from"].isna().tolist()[-3:] == [True, True, True]


def test_the_record_is_described_by_sets():
    buttons = pd.DataFrame(
        {
            "set_id": ["1", "1", None, None],
            "year_from": pd.array([1800, 1800, 1790, None], dtype="Int64"),
            "year_to": pd.array([1809, 1809, 1809, None], dtype="Int64"),
        }
    )
    table = record_by_period(buttons, _scheme(1790, 1800, 1810)).set_index("period")
    assert table["sets"].tolist() == [0.5, 1.5, 0, 1, 3]
    assert table["dated_within"].tolist() == [0, 1, 0, 0, 1]
    assert table["could_be"].tolist() == [1, 2, 0, 1, 2]


def test_spans_are_inclusive_and_ordered():
    buttons = pd.DataFrame({"year_from": [1850, 1820, 1900], "year_to": [1850, 1860, None]})
    assert date_spans(buttons).to_numpy().tolist() == [[1820, 1860, 41], [1850, 1850, 1]]
