"""How often would chance alone make periods differ as much? Answers are dealt anew to find out.

If a trait has nothing to do with the period, any set could as well have had any other set's
answer. So the answers are shuffled among the sets: each set keeps its buttons, its dates, and
whether it was examined. Sets are dealt, never buttons, so a card of ninety-six counts once (a
permutation test: Fisher 1935, The Design of Experiments, section 21; Good 2005, Permutation,
Parametric and Bootstrap Tests of Hypotheses, chapter 3). Within layers, such as recorders,
answers are dealt inside each layer only.
"""

from dataclasses import dataclass

import numpy as np
from scipy.stats import random_table

from buttonstudy.schemes import limit
from buttonstudy.study.evidence.columns import Floats
from buttonstudy.study.evidence.patterns import Ints, grouped_rows
from buttonstudy.study.shares.latent_model import SEED

__all__ = ["Shuffled", "shuffle_answers"]

_BLOCK = 2_000_000
_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class Shuffled:
    """The outcome of shuffling.

    Attributes
    ----------
    observed
        How much of the answers' variance the groups account for, 0 to 1.
    as_large, shuffles
        In how many of the shuffles they accounted for at least as much. Shuffling stops early
        once this has happened often enough to be sure that it is nothing rare.
    """

    observed: float
    as_large: int
    shuffles: int

    @property
    def chance(self) -> float:
        """The chance of so large a difference, never told as nought.

        As large / shuffles where shuffling stopped early, else (as large + 1) / (shuffles + 1):
        sequential Monte Carlo p-values (Besag & Clifford 1991, Biometrika 78:301).
        """
        if self.as_large >= limit("shuffles-enough"):
            return self.as_large / self.shuffles
        return (self.as_large + 1) / (self.shuffles + 1)


@dataclass(frozen=True, slots=True)
class _Table:
    """One layer: kinds of set by answers, the weights and answers measured from their means."""

    weights: Floats
    answers: Floats
    counts: Ints


def shuffle_answers(
    means: Floats,
    group: Ints,
    answer: Floats,
    layer: Ints | None = None,
    shuffles: int | None = None,
    seed: int = SEED,
) -> Shuffled | None:
    """Deal the answers anew among the sets, and see how often the groups differ as much.

    Parameters
    ----------
    means, group
        Shape (g, p) and (n,): the weights of each kind of set in the ``p`` groups, and the kind
        of each set, as :func:`buttonstudy.study.evidence.patterns.grouped_rows` gives them.
    answer
        Shape (n,): each set's answer, 0 to 1.
    layer
        Shape (n,): answers are dealt within equal layers only. One layer if not given.
    shuffles, seed
        Most shuffles (the limit ``shuffles`` if not given; fewer once the limit
        ``shuffles-enough`` of them were as large) and the seed of their random
        numbers.

    Returns
    -------
    Shuffled or None
        None where nothing can be shuffled: no layer has two kinds of set and two answers.

    Notes
    -----
    The measure is the sum of squares of the answers' regression on the weights, within layers.
    Where each set is of one group it is Pearson's chi-squared divided by n; where dates are wide
    it is the score statistic of the latent-period model. The test keeps its size whatever the
    dates, since shuffled answers meet the very same weights. Above the limit
    ``shuffled-exactly`` sets of nearly the same date are taken together, and a set whose buttons
    differ counts half: quicker, and as fair, since the shuffled surveys are measured alike.
    """
    number = int(limit("shuffles")) if shuffles is None else shuffles
    layers = np.zeros(len(answer), dtype=np.int64) if layer is None else layer
    if len(answer) > limit("shuffled-exactly"):
        means, group, answer = _coarser(means, group, answer)
    tables = [
        _table(means, group[layers == one], answer[layers == one]) for one in np.unique(layers)
    ]
    movable = [table for table in tables if table is not None]
    if not movable:
        return None
    inner = np.sum([_spread(table) for table in movable], axis=0)
    whiten = _root_inverse(inner)
    total = sum(_variance(table) for table in movable)
    slopes = np.sum([_slopes(table, table.counts[None]) for table in movable], axis=0)
    observed = _measure(slopes, whiten)[0]
    rng = np.random.default_rng(seed)
    enough = int(limit("shuffles-enough"))
    as_large, done = 0, 0
    largest = max(table.counts.size for table in movable)
    while done < number and as_large < enough:
        block = min(number - done, max(4 * enough, done), max(1, _BLOCK // largest))
        slopes = np.sum([_dealt(table, block, rng) for table in movable], axis=0)
        reached = np.cumsum(_measure(slopes, whiten) >= observed * (1 - _SLACK)) + as_large
        taken = min(block, int(np.searchsorted(reached, enough)) + 1)
        as_large, done = int(reached[taken - 1]), done + taken
    return Shuffled(float(observed / total), as_large, done)


def _coarser(means: Floats, group: Ints, answer: Floats) -> tuple[Floats, Ints, Floats]:
    """Take like dates together, and all mixed answers as one."""
    rough, again = grouped_rows(means, limit("shuffled-date-groups"))
    return rough, again[group], np.where((answer > 0) & (answer < 1), 0.5, answer)


def _dealt(table: _Table, block: int, rng: np.random.Generator) -> Floats:
    """Deal a layer's answers anew."""
    dealt = random_table(table.counts.sum(axis=1), table.counts.sum(axis=0))
    return _slopes(table, dealt.rvs(block, random_state=rng))


def _table(means: Floats, group: Ints, answer: Floats) -> _Table | None:
    kinds, row = np.unique(group, return_inverse=True)
    levels, column = np.unique(np.round(answer, 4), return_inverse=True)
    if len(kinds) < 2 or len(levels) < 2:
        return None
    counts = np.zeros((len(kinds), len(levels)), dtype=np.int64)
    np.add.at(counts, (row, column), 1)
    weights = means[kinds] - np.average(means[kinds], axis=0, weights=counts.sum(axis=1))
    if not np.abs(weights).max() > _SLACK:
        return None
    return _Table(weights, levels - np.average(levels, weights=counts.sum(axis=0)), counts)


def _spread(table: _Table) -> Floats:
    return np.asarray((table.weights.T * table.counts.sum(axis=1)) @ table.weights)


def _variance(table: _Table) -> float:
    return float(table.counts.sum(axis=0) @ table.answers**2)


def _slopes(table: _Table, counts: Ints) -> Floats:
    """Give how the answers lean on each group's weights, shape (shuffles, groups)."""
    return np.asarray((counts @ table.answers) @ table.weights)


def _root_inverse(inner: Floats) -> Floats:
    """Give R with R R' the pseudo-inverse of a symmetric matrix."""
    values, vectors = np.linalg.eigh(inner)
    kept = values > values.max() * 1e-9
    return np.asarray(vectors[:, kept] / np.sqrt(values[kept]))


def _measure(slopes: Floats, whiten: Floats) -> Floats:
    return np.asarray(((slopes @ whiten) ** 2).sum(axis=1))
