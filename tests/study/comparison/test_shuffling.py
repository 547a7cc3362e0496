import numpy as np
import pytest
from scipy import stats

from buttonstudy.schemes import limit
from buttonstudy.study.comparison import shuffling
from buttonstudy.study.comparison.shuffling import shuffle_answers

CONTROL = (
    [13, 12, 9, 9, 8, 8, 12, 11, 9, 9, 8, 11, 4, 5, 7, 7],
    [13, 12, 9, 9, 8, 8, 13, 12, 10, 10, 9, 13, 5, 7, 10, 10],
)
TREATED = (
    [12, 11, 10, 9, 10, 9, 9, 8, 8, 4, 7, 4, 5, 3, 3, 0],
    [12, 11, 10, 9, 11, 10, 10, 9, 9, 5, 9, 7, 10, 6, 10, 7],
)


@pytest.fixture
def without_stopping(monkeypatch: pytest.MonkeyPatch) -> None:
    def patient(name: str) -> float:
        return 1e9 if name == "shuffles-enough" else limit(name)

    monkeypatch.setattr(shuffling, "limit", patient)


def test_the_measure_is_pearsons_for_sure_dates() -> None:
    rng = np.random.default_rng(1)
    group, answer = rng.integers(0, 4, 90), (rng.random(90) < 0.4).astype(float)
    table = np.zeros((4, 2))
    np.add.at(table, (group, answer.astype(int)), 1)
    found = shuffle_answers(np.eye(4), group, answer)
    assert found is not None
    assert found.observed == pytest.approx(stats.chi2_contingency(table, False).statistic / 90)


@pytest.mark.usefixtures("without_stopping")
def test_tasting_tea() -> None:
    """Fisher 1935: two-sided 0.4857 (also R's ?fisher.test)."""
    answer = np.array([1, 1, 1, 0, 0, 0, 0, 1.0])
    found = shuffle_answers(np.eye(2), np.repeat([0, 1], 4), answer, shuffles=20000)
    assert found is not None
    assert found.chance == pytest.approx(0.485714, abs=0.012)


@pytest.mark.usefixtures("without_stopping")
def test_litters_not_animals_are_shuffled() -> None:
    """Weil 1970: the naive test says 0.003, set-aware ones 0.04 to 0.07.

    0.044 is Rao & Scott's (R package aod); shuffling whole litters gives what
    scipy.stats.permutation_test gives for the litters' shares.
    """
    shares = [np.array(alive) / np.array(all_) for alive, all_ in (CONTROL, TREATED)]
    found = shuffle_answers(
        np.eye(2), np.repeat([0, 1], 16), np.concatenate(shares), shuffles=20000
    )
    reference = stats.permutation_test(
        shares,
        lambda one, two, axis: one.mean(axis) - two.mean(axis),
        n_resamples=20000,
        vectorized=True,
        rng=np.random.default_rng(1),
    )
    assert found is not None
    assert found.chance == pytest.approx(reference.pvalue, abs=0.008)
    assert found.chance > 0.04


def test_shuffling_keeps_its_size_however_wide_the_dates() -> None:
    rng = np.random.default_rng(5)
    means = rng.dirichlet([0.3] * 5, 60)
    answers = (rng.random((200, 60)) < 0.3).astype(float)
    outcomes = [shuffle_answers(means, np.arange(60), answer, shuffles=200) for answer in answers]
    below = np.mean([found.chance <= 0.05 for found in outcomes if found is not None])
    assert 0.01 <= below <= 0.10


def test_within_layers_a_difference_between_layers_is_no_difference() -> None:
    """One recorder has all the late sets and sees the trait everywhere."""
    layer = np.repeat([0, 1], 40)
    period = np.concatenate([np.repeat([0, 1], [35, 5]), np.repeat([0, 1], [5, 35])])
    answer = np.where(layer == 1, np.arange(80) % 4 > 0, np.arange(80) % 4 == 0).astype(float)
    plain = shuffle_answers(np.eye(2), period, answer)
    layered = shuffle_answers(np.eye(2), period, answer, layer)
    assert plain is not None
    assert layered is not None
    assert plain.chance < 0.01
    assert layered.chance > 0.2


def test_layers_that_each_say_little_say_much_together() -> None:
    """In one layer of four and four, chance alone parts them as well 2 in 70 times."""
    period, layer = np.tile(np.repeat([0, 1], 4), 3), np.repeat([0, 1, 2], 8)
    answer = period.astype(float)
    alone = shuffle_answers(np.eye(2), period[:8], answer[:8], layer[:8])
    together = shuffle_answers(np.eye(2), period, answer, layer)
    assert alone is not None
    assert together is not None
    assert alone.chance == pytest.approx(2 / 70, abs=0.012)
    assert together.chance < 0.005


def test_it_stops_once_enough_shuffles_were_as_large() -> None:
    answer = np.tile([0.0, 1.0], 30)
    found = shuffle_answers(np.eye(2), np.repeat([0, 1], 30), answer)
    assert found is not None
    assert found.as_large == limit("shuffles-enough")
    assert found.shuffles < limit("shuffles")
    assert found.chance == found.as_large / found.shuffles


def test_a_chance_is_never_told_as_nought() -> None:
    answer = np.repeat([0.0, 1.0], 30)
    found = shuffle_answers(np.eye(2), np.repeat([0, 1], 30), answer, shuffles=99)
    assert found is not None
    assert (found.as_large, found.shuffles, found.chance) == (0, 99, 0.01)


@pytest.mark.parametrize(
    ("group", "answer"), [([0, 0, 0], [0.0, 1, 1]), ([0, 1, 1], [1.0, 1, 1]), ([], [])]
)
def test_nothing_to_shuffle(group: list[int], answer: list[float]) -> None:
    assert shuffle_answers(np.eye(2), np.array(group, int), np.array(answer)) is None


def test_the_seed_decides_the_shuffles() -> None:
    group, answer = np.arange(30) % 3, (np.arange(30) % 4 == 0).astype(float)
    first, again = (shuffle_answers(np.eye(3), group, answer, seed=9) for _ in range(2))
    assert first == again
