import numpy as np
import pytest
from scipy import stats

from buttonstudy.study.evidence.patterns import Patterns
from buttonstudy.study.shares import latent_model
from buttonstudy.study.shares.latent_model import draw_cells, most_likely_cells

YES_NO = np.eye(2)
WIDE = Patterns(
    overlap=np.array([[1.0, 0.0], [0.0, 1.0], [0.7, 0.3], [1.0, 0.0], [0.0, 1.0], [0.2, 0.8]]),
    kind=np.array([0, 0, 0, 1, 1, 1]),
    sets=np.array([4, 2, 3, 1, 5, 4]),
    parts=YES_NO,
)


def dated_for_sure(yes: list[int], sets: list[int]) -> Patterns:
    number = len(sets)
    counts = np.array([[n - k for k, n in zip(yes, sets)], yes]).reshape(-1)
    overlap = np.tile(np.eye(number), (2, 1))
    return Patterns(overlap, np.repeat([0, 1], number), counts, YES_NO)


def likelihood(cells: np.ndarray, patterns: Patterns) -> np.ndarray:
    """The likelihood of cells of shape (..., 2, periods), written out anew."""
    value = cells[..., patterns.kind, :] * patterns.overlap
    return (patterns.sets * np.log(value.sum(axis=-1))).sum(axis=-1)


def test_sure_dates_give_the_plain_shares() -> None:
    found = most_likely_cells(dated_for_sure([1, 7], [5, 10]))
    assert found == pytest.approx(np.array([[4, 3], [1, 7]]))


def test_period_shares_are_turnbulls_masses() -> None:
    """Test vector of lifelines' tests/test_npmle.py: masses 1/6, 1/3, 1/8, 3/8.

    Its closed intervals, laid over the innermost intervals 7, 8, 37-44 and 46-inf.
    """
    inner = [(7, 7), (8, 8), (37, 44), (46, np.inf)]
    left = [1, 8, 8, 7, 7, 17, 37, 46, 46, 45]
    right = [7, 8, 10, 16, 14, np.inf, 44, np.inf, np.inf, np.inf]
    holds = [[a >= low and b <= high for a, b in inner] for low, high in zip(left, right)]
    patterns = Patterns(
        np.array(holds, dtype=float), np.zeros(10, int), np.ones(10, int), np.ones((1, 1))
    )
    masses = most_likely_cells(patterns, rounds=5000, until=1e-9)[0] / 10
    assert masses == pytest.approx([0.166667, 0.333333, 0.125, 0.375], abs=1e-4)


def test_no_other_cells_are_more_likely() -> None:
    best = most_likely_cells(WIDE, rounds=5000, until=1e-10) / WIDE.sets.sum()
    others = np.random.default_rng(1).dirichlet(40 * best.reshape(-1) + 0.01, 20000)
    reached = likelihood(best, WIDE)
    assert (likelihood(np.maximum(others, 1e-12).reshape(-1, 2, 2), WIDE) <= reached + 1e-6).all()


def test_draws_match_the_posterior_found_by_weighting_the_prior() -> None:
    """Against brute force: draws from the prior weighted by the likelihood."""
    prior = np.random.default_rng(2).dirichlet([0.5] * 4, 400_000).reshape(-1, 2, 2)
    weight = np.exp(likelihood(np.maximum(prior, 1e-12), WIDE))
    weight /= weight.sum()
    share = prior[:, 1] / prior.sum(axis=1)
    mean = weight @ share
    spread = np.sqrt(weight @ (share - mean) ** 2)
    start = most_likely_cells(WIDE)
    cells = draw_cells(WIDE, np.full((2, 2), 0.5), start, draws=6000, seed=3).cells
    drawn = cells[:, 1] / cells.sum(axis=1)
    assert drawn.mean(axis=0) == pytest.approx(mean, abs=0.015)
    assert drawn.std(axis=0) == pytest.approx(spread, abs=0.012)


@pytest.mark.parametrize(
    ("yes", "sets", "low", "high"), [(0, 7, 0.000068, 0.292436), (5, 10, 0.223529, 0.776471)]
)
def test_sure_dates_give_jeffreys_intervals(yes: int, sets: int, low: float, high: float) -> None:
    """Values of R's qbeta."""
    patterns = dated_for_sure([yes], [sets])
    start = most_likely_cells(patterns)
    cells = draw_cells(patterns, np.full((2, 1), 0.5), start, draws=20000).cells
    share = cells[:, 1, 0] / cells.sum(axis=1)[:, 0]
    assert np.quantile(share, [0.025, 0.975]) == pytest.approx([low, high], abs=0.01)


def test_the_two_ways_of_dealing_sets_out_agree(monkeypatch: pytest.MonkeyPatch) -> None:
    prior, start = np.full((2, 2), 0.5), most_likely_cells(WIDE)
    singly = draw_cells(WIDE, prior, start, draws=4000)
    monkeypatch.setattr(latent_model, "_SINGLY", 0)
    together = draw_cells(WIDE, prior, start, draws=4000)
    for one, other in ((singly.cells, together.cells), (singly.counts, together.counts)):
        assert one.mean(axis=0) == pytest.approx(other.mean(axis=0), rel=0.05, abs=0.01)
        assert one.std(axis=0) == pytest.approx(other.std(axis=0), rel=0.1)


@pytest.mark.parametrize("singly", [0, 1000])
def test_every_set_is_dealt_to_a_period_that_it_may_be_of(
    singly: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(latent_model, "_SINGLY", singly)
    patterns = Patterns(
        np.array([[0.0, 1.0, 1.0, 0.0], [0.0, 0.0, 1.0, 1.0]]),
        np.array([0, 1]),
        np.array([30, 50]),
        YES_NO,
    )
    counts = draw_cells(patterns, np.full((2, 4), 0.01), np.full((2, 4), 10.0)).counts
    assert (counts[:, 0, [0, 3]] == 0).all()
    assert (counts[:, 1, [0, 1]] == 0).all()
    assert (counts[:, 0].sum(axis=1) == 30).all()
    assert (counts[:, 1].sum(axis=1) == 50).all()


def test_a_mixed_set_counts_for_its_parts() -> None:
    patterns = Patterns(np.ones((1, 1)), np.array([0]), np.array([8]), np.array([[0.75, 0.25]]))
    assert most_likely_cells(patterns).reshape(-1) == pytest.approx([6, 2])
    cells = draw_cells(patterns, np.full((2, 1), 0.5), np.array([[6.0], [2.0]]), 4000).cells
    assert cells[:, 1].mean() == pytest.approx(stats.beta.mean(2.5, 6.5), abs=0.01)


def test_the_seed_decides_the_draws() -> None:
    prior, start = np.full((2, 2), 0.5), most_likely_cells(WIDE)
    first, again, other = (draw_cells(WIDE, prior, start, 100, seed).cells for seed in (1, 1, 2))
    assert (first == again).all()
    assert (first != other).any()


def test_chains_forget_where_they_began() -> None:
    """Gelman & Rubin's comparison of chains, for dates that say almost nothing."""
    vague = Patterns(
        np.array([[1.0, 1.0], [1.0, 0.9]]), np.array([0, 1]), np.array([60, 60]), YES_NO
    )
    prior = np.full((2, 2), 0.5)
    near, far = (
        draw_cells(vague, prior, start, draws=6000, seed=4).cells
        for start in (np.array([[30.0, 30], [30, 30]]), np.array([[60.0, 0], [0, 60]]))
    )
    shares = [cells[:, 1] / cells.sum(axis=1) for cells in (near, far)]
    assert shares[0].std(axis=0) == pytest.approx(shares[1].std(axis=0), rel=0.15)
