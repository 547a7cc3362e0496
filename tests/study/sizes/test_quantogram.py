"""The quantogram, against published dimensions, identities and simulation."""

import numpy as np
import pytest

from buttonstudy.study.sizes.quantogram import (
    can_tell,
    highest_studentised,
    simulated_waves,
    step_grid,
    waves_of,
)

# Dimensions of the Erechtheion in metres: Pakkanen 2002, Table 1.
ERECHTHEION = np.loadtxt(
    ["1.3 .664 .49 1.3 .912 .491 2.608 .77 .633 3.89 1.648 1.94 .285 .617 .298 .683 1.297 .96 .284"]
)


def cosine_quantogram(sizes, steps):
    """Evaluate the quantogram of exact sizes."""
    return waves_of(sizes, np.zeros(len(sizes)), steps)[0]


@pytest.mark.parametrize(
    ("spacing", "step", "height"),
    [
        # The vignette of the R package quantatools: "base measure should be about 0.325m".
        (0.005, 0.325, None),
        # The Python package cqarchaeo 0.0.6 on the same numbers in cm: 32.44 and 3.66667.
        (0.0001, 0.3244, 3.66667),
    ],
)
def test_the_erechtheion_gives_its_published_foot(spacing, step, height):
    steps = np.arange(0.055, 1.0 + spacing / 2, spacing)
    waves = cosine_quantogram(ERECHTHEION, steps)
    assert steps[waves.argmax()] == pytest.approx(step, abs=1e-9)
    if height is not None:
        assert waves.max() == pytest.approx(height, abs=2e-5)


def test_exact_multiples_reach_the_square_root_of_twice_their_number():
    # By definition: every cosine is 1.
    sizes = 0.635 * np.arange(15, 115)
    assert cosine_quantogram(sizes, np.array([0.635]))[0] == pytest.approx(np.sqrt(200))


def test_the_quantogram_is_the_v_test():
    # V = phi * sqrt(N/2): docstring of pingouin.circ_vtest, V = 2.486 for these angles about 1.
    angles = np.array([0.785, 1.570, 3.141, 0.839, 5.934])
    phi = cosine_quantogram(angles - 1, np.array([2 * np.pi]))[0]
    assert phi * np.sqrt(5 / 2) == pytest.approx(2.486, abs=5e-4)


def test_scatter_lowers_the_peak_as_kendall_gives_it():
    # Kendall 1974: the mean is sqrt(2N) exp(-2 pi^2 s^2 / q^2).
    rng = np.random.default_rng(4)
    heights = [
        cosine_quantogram(
            1.27 * rng.integers(8, 30, 200) + rng.normal(0, 0.1, 200), np.array([1.27])
        )[0]
        for _ in range(300)
    ]
    expected = np.sqrt(400) * np.exp(-2 * np.pi**2 * 0.1**2 / 1.27**2)
    assert np.mean(heights) == pytest.approx(expected, abs=0.06)


def test_the_grid_is_even_in_the_inverse_and_fine_enough():
    steps = step_grid(0.4, 3.0, 30.0)
    gaps = np.diff(1 / steps)
    assert (steps[0], steps[-1]) == (pytest.approx(3.0), pytest.approx(0.4))
    assert gaps == pytest.approx(gaps[0])
    assert gaps[0] <= 1 / (4 * 30.0) + 1e-12


def test_only_readings_finer_than_a_quarter_of_the_step_count():
    rounding = np.array([0.1, 0.5, 1.0, 1.5875])
    assert can_tell(rounding, np.array([0.4, 2.0, 4.0]), 0.25).sum(axis=0).tolist() == [1, 2, 3]
    waves, counted = waves_of(np.full(4, 12.0), rounding, np.array([0.4, 2.0, 3.0]), fewest=2)
    assert counted.tolist() == [1, 2, 2]
    assert np.isnan(waves).tolist() == [True, False, False]
    # Both usable readings are multiples of 2 and of 3: sqrt(2 * 2).
    assert waves[1:] == pytest.approx([2.0, 2.0])


def test_counting_equal_sizes_once_changes_nothing():
    rng = np.random.default_rng(1)
    sizes = rng.uniform(8, 30, 50)
    steps = step_grid(0.4, 3.0, 22.0)
    waves, _ = waves_of(sizes, np.zeros(50), steps)
    assert waves == pytest.approx(cosine_quantogram(np.round(sizes, 6), steps), abs=1e-4)


def test_the_null_is_flat_for_fine_readings_and_peaks_at_the_rulers_own_step():
    rng = np.random.default_rng(2)
    sizes = np.exp(rng.normal(np.log(17), 0.3, 120))
    fine = simulated_waves(np.round(sizes, 1), np.full(120, 0.1), np.array([1.27, 2.5]), draws=400)
    assert fine.mean == pytest.approx([0, 0], abs=0.2)
    assert fine.spread == pytest.approx([1, 1], abs=0.12)
    # Sizes taped in eighths of an inch: every one is a multiple of 5 button lines, whoever made it.
    eighth = 3.175
    coarse = np.round(sizes / eighth) * eighth
    steps = np.array([0.635, 1.5875, 3.175])
    null = simulated_waves(coarse, np.full(120, eighth), steps, finest_share=9, draws=50)
    assert null.mean == pytest.approx(np.full(3, np.sqrt(240)))
    assert waves_of(coarse, np.full(120, eighth), steps, finest_share=9)[0] == pytest.approx(
        null.mean
    )


def test_the_same_seed_gives_the_same_null():
    sizes, rounding, steps = np.linspace(10, 30, 40), np.full(40, 0.1), np.array([1.0, 1.27])
    one, same, other = (
        simulated_waves(sizes, rounding, steps, draws=20, seed=seed).waves for seed in (5, 5, 6)
    )
    assert (one == same).all()
    assert (one != other).any()


def test_nothing_stands_out_where_nothing_can_be_told():
    steps = np.array([0.4, 3.0])
    null = simulated_waves(np.array([12.0, 15.0]), np.array([3.0, 3.0]), steps, draws=10)
    waves, _ = waves_of(np.array([12.0, 15.0]), np.array([3.0, 3.0]), steps)
    best, height, chance = highest_studentised(waves, null)
    assert best == -1
    assert np.isnan([height, chance]).all()
