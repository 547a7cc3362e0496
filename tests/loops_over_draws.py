"""Estimates beside straightforward loops over draws that answer alike, on 240 sets.

`benchmark_estimates.py` times them. Each pair is one way of the kit and one plain loop.
"""

import numpy as np
import pandas as pd

from buttonstudy.study.comparison.shuffling import shuffle_answers
from buttonstudy.study.evidence.patterns import Patterns
from buttonstudy.study.shares.count_draws import drawn_shares
from buttonstudy.study.shares.latent_model import draw_cells, most_likely_cells
from buttonstudy.study.shares.traits import Trait, answer_patterns
from buttonstudy.study.sizes.intervals import QUANTILES, size_quantiles
from buttonstudy.study.sizes.quantogram import simulated_waves

TAILS = (0.025, 0.5, 0.975)


def shuffled(trait: Trait, shuffles: int) -> list[float]:
    """Ask by the kit how often shuffled answers differ as much between periods."""
    means = trait.dated.means[:, : len(trait.dated.labels)]
    group, answer = trait.dated.group[trait.heard], trait.answer[trait.heard]
    dealt = shuffle_answers(means, group, answer, shuffles=shuffles)
    return [dealt.observed, dealt.chance]


def shuffled_in_a_loop(trait: Trait, shuffles: int) -> list[float]:
    """Shuffle the answers one survey after another, by plain least squares."""
    weights, answer = trait.dated.inside[trait.heard], trait.answer[trait.heard]
    design, about = weights - weights.mean(axis=0), answer - answer.mean()
    rng = np.random.default_rng(1)
    reached = []
    for turn in range(shuffles + 1):
        dealt = rng.permutation(about) if turn else about
        slopes = np.linalg.lstsq(design, dealt, rcond=None)[0]
        reached.append(((design @ slopes) ** 2).sum() / (about**2).sum())
    return [reached[0], float(np.mean(np.array(reached) >= reached[0] - 1e-9))]


def drawn(trait: Trait, draws: int) -> list[float]:
    """Ask the kit for the ends of the middle periods' shares."""
    patterns = answer_patterns(trait.dated, np.where(trait.heard, trait.answer, np.nan))
    given = np.flatnonzero(patterns.parts[patterns.kind][:, 2] == 0)
    heard = Patterns(
        patterns.overlap[given], patterns.kind[given], patterns.sets[given], patterns.parts[:, :2]
    )
    prior = np.full((2, heard.overlap.shape[1]), 0.5)
    cells = draw_cells(heard, prior, most_likely_cells(heard), draws).cells
    return _ends(cells[:, 1] / cells.sum(axis=1), trait)


def drawn_in_a_loop(trait: Trait, draws: int) -> list[float]:
    """Draw every set's period, then the shares, one survey after another."""
    overlap = trait.dated.weights[trait.heard] / trait.dated.years
    yes = trait.answer[trait.heard] > 0.5
    rng = np.random.default_rng(1)
    cells = np.ones((2, overlap.shape[1]))
    kept = []
    for turn in range(draws + 200):
        counts = np.full(cells.shape, 0.5)
        for places, has in zip(overlap, yes):
            chance = np.cumsum(places * cells[int(has)])
            counts[int(has), np.searchsorted(chance, rng.random() * chance[-1])] += 1
        cells = rng.standard_gamma(counts)
        if turn >= 200:
            kept.append(cells[1] / cells.sum(axis=0))
    return _ends(np.array(kept), trait)


def _ends(shares: np.ndarray, trait: Trait) -> list[float]:
    ends = np.quantile(shares[:, 1 : len(trait.dated.labels) - 1], TAILS, axis=0)
    return [float(end) for end in ends.ravel()]


def middle_sizes(buttons: pd.DataFrame, _: int) -> list[float]:
    """Ask the kit for quantiles of the diameter."""
    return size_quantiles(buttons)["size_mm"].tolist()


def middle_sizes_in_a_loop(buttons: pd.DataFrame, draws: int) -> list[float]:
    """Draw each size from within its reading, one survey after another."""
    rng = np.random.default_rng(1)
    read = buttons.dropna(subset=["diameter_mm"])
    low, high = read["diameter_mm_low"].to_numpy(), read["diameter_mm_high"].to_numpy()
    every = np.concatenate([rng.uniform(low, high) for _ in range(draws)])
    return np.quantile(every, QUANTILES).tolist()


def counted(buttons: pd.DataFrame, draws: int) -> list[float]:
    """Ask the kit for shares of sets with so many layers, of which often only bounds are known."""
    low, high = layer_bounds(buttons)
    pairs, votes = np.unique(np.column_stack([low, high]), axis=0, return_counts=True)
    shares = drawn_shares(*pairs.T, votes.astype(float), 4, n_draws=draws, seed=1)
    return np.quantile(shares[:, 1:5], TAILS, axis=0).ravel().tolist()


def counted_in_a_loop(buttons: pd.DataFrame, draws: int) -> list[float]:
    """Draw every set's number of layers, then the shares, one survey after another."""
    low, high = layer_bounds(buttons)
    rng = np.random.default_rng(1)
    shares, kept = np.full(6, 1 / 6), []
    for turn in range(draws + 200):
        counts = np.full(6, 1 / 6)
        for first, last in zip(low.astype(int), np.minimum(high, 5).astype(int)):
            chance = np.cumsum(shares[first : last + 1])
            counts[first + np.searchsorted(chance, rng.random() * chance[-1])] += 1
        shares = rng.dirichlet(counts)
        if turn >= 200:
            kept.append(shares)
    return np.quantile(np.array(kept)[:, 1:5], TAILS, axis=0).ravel().tolist()


def layer_bounds(buttons: pd.DataFrame) -> tuple[np.ndarray, np.ndarray]:
    """Give the bounds of each set's layers."""
    known = buttons["cover_layers_low"].notna()
    low = buttons.loc[known, "cover_layers_low"].to_numpy(float)
    return low, buttons.loc[known, "cover_layers_high"].to_numpy(float, na_value=np.inf)


WAVES = np.array([1.27, 1.5875, 2.54])


def waves(buttons: pd.DataFrame, draws: int) -> list[float]:
    """Ask the kit how high quantograms of surveys without a step come."""
    read = buttons.dropna(subset=["diameter_mm"])
    null = simulated_waves(
        read["diameter_mm"].to_numpy(), read["diameter_step_mm"].to_numpy(), WAVES, draws=draws
    )
    return [*null.waves.mean(axis=0).tolist(), *null.waves.std(axis=0).tolist()]


def waves_in_a_loop(buttons: pd.DataFrame, draws: int) -> list[float]:
    """Draw each size near another reading by the same ruler, read it, and add up the waves."""
    read = buttons.dropna(subset=["diameter_mm"])
    sizes, steps = read["diameter_mm"].to_numpy(), read["diameter_step_mm"].to_numpy()
    rng = np.random.default_rng(1)
    width = max(0.9 * np.std(sizes) * len(sizes) ** -0.2, WAVES.max() / 2)
    usable = steps[:, None] <= 0.25 * WAVES + 1e-6
    scale = np.sqrt(2 / np.maximum(usable.sum(axis=0), 1))
    found = []
    for _ in range(2 * draws):
        drawn = np.empty(len(sizes))
        for ruler in np.unique(steps):
            alike = steps == ruler
            near = rng.choice(sizes[alike], alike.sum())
            near = near + rng.normal(0, np.sqrt(width**2 + ruler**2 / 12), len(near))
            drawn[alike] = np.round(near / ruler) * ruler
        found.append(scale * (np.cos(2 * np.pi * drawn[:, None] / WAVES) * usable).sum(axis=0))
    held = np.array(found)
    return [*held.mean(axis=0).tolist(), *held.std(axis=0).tolist()]


PAIRS = (
    ("shuffling answers", shuffled, shuffled_in_a_loop, 0.03),
    ("shares by period", drawn, drawn_in_a_loop, 0.05),
    ("bounded counts", counted, counted_in_a_loop, 0.05),
    ("quantogram without a step", waves, waves_in_a_loop, 0.12),
    ("quantiles of sizes", middle_sizes, middle_sizes_in_a_loop, 0.05),
)
OF_A_TRAIT = (shuffled, drawn)
