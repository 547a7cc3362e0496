"""Gower's distance, against published tables and the R function daisy."""

import itertools

import numpy as np
import pytest

from buttonstudy.study.one_button.gower import Measured, Named, gower_distances


def exact(values):
    values = np.array(values, dtype=float)
    return Measured(values, values, float(np.nanmax(values) - np.nanmin(values)))


def nominal(values):
    """Every value its own term; None is not examined."""
    terms = sorted({value for value in values if value is not None}, key=str)
    has = np.array([[value == term for term in terms] for value in values])
    return Named(has, np.array([value is not None for value in values]))


def asymmetric(values, present=1):
    """One term, present or absent; None is not examined."""
    has = np.array([[value == present] for value in values])
    return Named(has, np.array([value is not None for value in values]))


# Everitt, Cluster Analysis, 3rd ed., pp. 45-46: five psychiatric patients (first similarity 0.0625
# as printed; all ten as R's daisy gives them, two being misprinted in the book).
PATIENTS = [
    exact([120, 150, 110, 145, 120]),
    nominal([1, 2, 3, 1, 1]),
    asymmetric([1, 2, 2, 1, 1], present=2),
    asymmetric([1, 1, 2, 2, 2], present=2),
    nominal([1, 2, 3, 3, 1]),
]
SIMILARITIES = [0.0625, 0.15, 0.34375, 0.75, 0.2, 0.175, 0.05, 0.425, 0.35, 0.59375]

# Tests of R's package cluster, daisy-ex: eleven rows of five binaries with missing values.
DAISY = [
    asymmetric([None if mark == "." else int(mark) for mark in column.split()])
    for column in (
        "0 0 0 1 0 0 0 0 1 0 .",
        ". 0 1 1 0 1 0 1 0 1 0",
        "0 1 1 0 1 . 1 0 1 0 .",
        "1 1 0 1 0 0 0 0 0 1 0",
        "1 . 0 1 0 0 0 0 . 1 1",
    )
]

# Example data "dummy" of R's package FD without its ordered traits; distances by R's daisy.
FD = [
    exact([9, 8.1, np.nan, 3.2, 5.8, 3.4, 7.5, 4.3]),
    exact([4.5, 6, 2.3, 5.4, 1.2, 8.5, 2.1, 6.5]),
    nominal(["A", "A", "C", "B", "C", "C", "B", None]),
    nominal(["X", "Z", "Y", "Z", "X", "Y", "X", "Z"]),
    nominal([0, 0, 1, 0, None, 1, 1, 0]),
    nominal([1, 1, 1, 0, 0, 1, 0, 1]),
]


def test_everitts_patients_have_their_similarities():
    found = [
        1 - gower_distances(PATIENTS, one)[0][other]
        for one, other in itertools.combinations(range(5), 2)
    ]
    assert found == pytest.approx(SIMILARITIES, abs=1e-9)


def test_asymmetric_binaries_with_missing_values_are_as_daisy_has_them():
    distances, _ = gower_distances(DAISY, 0)
    assert distances[1:] == pytest.approx([0.5, 1, 1 / 3, 1, 1, 1, 1, 1, 0, 0.5], abs=1e-7)


def test_a_pair_with_nothing_in_common_has_no_distance():
    distances, compared = gower_distances(DAISY, 8)
    assert np.isnan(distances[10])
    assert compared[10] == 0


def test_symmetric_binaries_count_where_both_are_absent():
    # daisy-ex again, the first two columns symmetric.
    symmetric = [
        nominal([None if mark == "." else mark for mark in column.split()])
        for column in ("0 0 0 1 0 0 0 0 1 0 .", ". 0 1 1 0 1 0 1 0 1 0")
    ]
    distances, _ = gower_distances([*symmetric, *DAISY[2:]], 0)
    assert distances[1:] == pytest.approx(
        [1 / 3, 0.75, 1 / 3, 0.75, 2 / 3, 0.75, 2 / 3, 1, 0, 0.5], abs=1e-7
    )


@pytest.mark.parametrize(
    ("one", "other", "distance"),
    [(1, 2, 0.2267753), (3, 6, 0.1698630), (2, 8, 0.1447331), (3, 4, 0.8849315)],
)
def test_mixed_fields_with_missing_values_are_as_daisy_has_them(one, other, distance):
    assert gower_distances(FD, one - 1)[0][other - 1] == pytest.approx(distance, abs=1e-7)
    assert gower_distances(FD, other - 1)[0][one - 1] == pytest.approx(distance, abs=1e-7)


def test_readings_that_overlap_are_at_no_distance():
    sizes = Measured(
        np.array([15.5, 16.4, 17.5, 2.0, np.nan]), np.array([16.5, 16.6, np.inf, 3.0, np.nan]), 10.0
    )
    distances, compared = gower_distances([sizes], 0)
    assert distances[:3] == pytest.approx([0, 0, 0.1])
    assert distances[3] == 1
    assert compared.tolist() == [1, 1, 1, 1, 0]


def test_of_several_terms_those_that_only_one_has_count():
    # Two of three: "bone; wood" against "bone", 1/2; against "wood; wire", 2/3.
    moulds = Named(np.array([[1, 1, 0], [1, 0, 0], [0, 1, 1]], dtype=bool), np.ones(3, dtype=bool))
    assert gower_distances([moulds], 0)[0] == pytest.approx([0, 0.5, 2 / 3])
