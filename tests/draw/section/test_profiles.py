import numpy as np
import pytest

from buttonstudy.draw.section.profiles import (
    PROFILES,
    between,
    half_profile,
    laid_over,
    raised,
    span,
)


def area(outline):
    """Give the area that an outline encloses (Gauss's shoelace formula)."""
    x, y = outline[:, 0], outline[:, 1]
    return abs(float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)))) / 2


@pytest.mark.parametrize("profile", PROFILES)
def test_each_profile_has_the_width_and_thickness_asked_for(profile):
    half = half_profile(profile, 8.0, 4.0)
    assert half[:, 0].max() == pytest.approx(8.0)
    assert np.ptp(half[:, 1]) == pytest.approx(4.0, abs=0.1)
    assert half[[0, -1], 0].tolist() == [0, 0]


def test_a_ball_is_round_and_what_lies_over_it_is_rounder_by_its_thickness():
    half = half_profile("ball", 8.0, 16.0)
    assert np.hypot(half[:, 0], half[:, 1] - 8) == pytest.approx(np.full(len(half), 8.0), abs=1e-6)
    over = laid_over(half, 1.0)
    assert np.hypot(over[:, 0], over[:, 1] - 8) == pytest.approx(np.full(len(over), 9.0), abs=0.01)


@pytest.mark.parametrize("profile", PROFILES)
def test_a_cover_keeps_its_thickness(profile):
    half = half_profile(profile, 8.0, 4.0)
    over = laid_over(half, 0.3)
    assert over[:, 0].max() == pytest.approx(8.3, abs=0.02)
    assert over[0].tolist() == pytest.approx([0, -0.3])
    assert over[-1, 1] - half[-1, 1] == pytest.approx(0.3, abs=0.02)


def test_a_whole_span_has_the_area_of_the_figure():
    ball = half_profile("ball", 5.0, 10.0)
    assert area(span(ball, -5, 5)) == pytest.approx(np.pi * 25, rel=0.002)


def test_padding_lies_between_mould_and_cover_and_ends_at_the_edge():
    half = half_profile("dome", 8.0, 4.0)
    pad = raised(half, 1.0)
    assert pad[-1, 1] - half[-1, 1] == pytest.approx(1.0)
    # the integral of 1 - r^4 from -1 to 1 is 8/5
    assert area(between(half, pad)) == pytest.approx(1.6 * 8.0, rel=0.01)
