"""One trait of a survey's sets, with all that is known of it by period.

"Mould material: bone" is a trait; so is "hole fill: none". It holds what each set answered, how
the sets are dated, and draws of the share in each period, so that every table about the trait
(its shares, how periods differ, how sure that is) rests on the same draws.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import PeriodScheme, limit
from buttonstudy.study.evidence.columns import Floats
from buttonstudy.study.evidence.dating import period_weights
from buttonstudy.study.evidence.holes import asked_of
from buttonstudy.study.evidence.labels import set_texts
from buttonstudy.study.evidence.patterns import DatedSets, Patterns, count_patterns, dated_sets
from buttonstudy.study.evidence.sets import field_evidence, set_dates, set_keys
from buttonstudy.study.shares.by_period import described_by_period
from buttonstudy.study.shares.latent_model import SEED, draw_cells, most_likely_cells

__all__ = ["Trait", "answer_patterns", "estimate_traits", "quantile_interval"]

_NOTHING = 1e-3


@dataclass(frozen=True, slots=True)
class Trait:
    """What a survey of ``n`` sets says of one trait, by ``p`` periods.

    Attributes
    ----------
    field, term
        The field and the term that together name the trait.
    dated
        How the sets that can be asked are dated; the same for all traits of one field.
    recorders, files
        Shape (n,): who noted each set (of several, all of them), and in which file.
    answer
        Shape (n,): the share of the set's examined buttons that have the trait, missing where
        none was examined with a clear answer.
    described
        The trait's rows as :func:`buttonstudy.study.shares.by_period.shares_by_period` has them.
    likely
        Shape (3, p): the most likely numbers of sets without the trait, with it, and without an
        answer, in each period of the scheme.
    shares
        Shape (draws, p): draws of the share of sets with the trait.
    parts
        Shape (draws, p): draws of how the examined sets lie over the periods, whatever lies
        outside them left out; rows sum to one.
    as_dated
        Shape (draws, p): the share among the survey's own examined sets, if they belonged to the
        periods drawn for them; missing where none did.
    """

    field: str
    term: str
    dated: DatedSets
    recorders: NDArray[np.object_]
    files: NDArray[np.object_]
    answer: Floats
    described: pd.DataFrame
    likely: Floats
    shares: Floats
    parts: Floats
    as_dated: Floats

    @property
    def heard(self) -> NDArray[np.bool_]:
        """Which sets are dated and were examined with a clear answer."""
        return self.dated.dated & ~np.isnan(self.answer)

    @property
    def estimate(self) -> Floats:
        """Give the most likely share in each period; missing where no examined set may belong.

        Where sets may belong but most likely none does, it is the median of the draws.
        """
        no, yes = np.where(self.likely[:2] < _NOTHING, 0.0, self.likely[:2])
        share = np.divide(yes, no + yes, out=np.full(len(yes), np.nan), where=no + yes > 0)
        groups = np.unique(self.dated.group[self.heard])
        reached = (self.dated.means[groups, : len(yes)] > 0).any(axis=0)
        open_ = reached & np.isnan(share)
        share[open_] = np.median(self.shares[:, open_], axis=0)
        return share


def estimate_traits(
    buttons: pd.DataFrame,
    fields: Sequence[str],
    scheme: PeriodScheme,
    terms: Mapping[str, Sequence[str]] | None = None,
    earliest: int | None = None,
    latest: int | None = None,
    draws: int | None = None,
    seed: int = SEED,
) -> list[Trait]:
    """Estimate the share of sets with each trait in each period.

    Parameters
    ----------
    buttons
        One row per button.
    fields
        Base names of the fields whose terms are the traits.
    scheme, earliest, latest
        As for :func:`buttonstudy.study.evidence.dating.period_weights`.
    terms
        For some fields the terms wanted; all terms that occur for the others.
    draws, seed
        Number of draws (the limit ``estimate-draws`` if not given) and the seed of their random
        numbers. The same seed gives the same draws, whatever other traits are asked for.

    Returns
    -------
    list of Trait
        By field, then in the order in which the field's terms are read.

    Notes
    -----
    A button with "bone; wood" has both traits; each trait is estimated on its own. A set whose
    examined buttons differ counts for its share as "yes" and for the rest as "no", which makes
    intervals wide rather than narrow. See :mod:`.shares.latent_model` for the model.
    """
    number = int(limit("estimate-draws")) if draws is None else draws
    every = _laid_out(buttons, scheme, earliest, latest)
    found = []
    for field in fields:
        asked = asked_of(buttons, field)
        sets = every if asked is buttons else _laid_out(asked, scheme, earliest, latest)
        evidence = field_evidence(asked, sets.keys, field, (terms or {}).get(field))
        described = described_by_period(evidence, sets.weights, scheme)
        for place, term in enumerate(evidence.shares.columns):
            answer = evidence.shares[term].to_numpy(dtype=np.float64)
            rows = described.iloc[place :: evidence.shares.shape[1]].reset_index(drop=True)
            modelled = _modelled(sets.dated, answer, number, seed)
            texts = (sets.recorders, sets.files)
            found.append(Trait(field, term, sets.dated, *texts, answer, rows, *modelled))
    return found


@dataclass(frozen=True, slots=True)
class _Sets:
    """The sets of some buttons: how these make them up, how they are dated, and who noted them."""

    keys: pd.Series
    weights: pd.DataFrame
    dated: DatedSets
    recorders: NDArray[np.object_]
    files: NDArray[np.object_]


def _laid_out(
    buttons: pd.DataFrame, scheme: PeriodScheme, earliest: int | None, latest: int | None
) -> _Sets:
    keys = set_keys(buttons)
    dates = set_dates(buttons, keys)
    weights = period_weights(dates["year_from"], dates["year_to"], scheme, earliest, latest)
    recorders, files = (set_texts(buttons, keys, name) for name in ("recorder", "file"))
    return _Sets(keys, weights, dated_sets(dates, scheme, earliest, latest), recorders, files)


def _modelled(
    dated: DatedSets, answer: Floats, draws: int, seed: int
) -> tuple[Floats, Floats, Floats, Floats]:
    """Find the most likely cells, and draw shares, parts and shares as dated."""
    inside = len(dated.scheme.periods)
    patterns = answer_patterns(dated, answer)
    likely = most_likely_cells(patterns)
    given = np.flatnonzero(patterns.parts[patterns.kind][:, 2] == 0)
    heard = Patterns(
        patterns.overlap[given], patterns.kind[given], patterns.sets[given], patterns.parts[:, :2]
    )
    drawn = draw_cells(heard, np.full((2, len(dated.years)), 0.5), likely[:2], draws, seed)
    no, yes = drawn.cells[:, 0, :inside], drawn.cells[:, 1, :inside]
    sets = no + yes
    of_these = drawn.counts[:, :, :inside].sum(axis=1)
    as_dated = np.divide(
        drawn.counts[:, 1, :inside], of_these, out=np.full(sets.shape, np.nan), where=of_these > 0
    )
    return likely[:, :inside], yes / sets, sets / sets.sum(axis=1, keepdims=True), as_dated


def answer_patterns(dated: DatedSets, answer: Floats) -> Patterns:
    """Count the dated sets by date range and answer; the cells are no, yes and no answer.

    Examples
    --------
    >>> from buttonstudy.schemes import period_scheme
    >>> years = {"year_from": [1800, 1800, 1700], "year_to": [1899, 1899, 1799]}
    >>> dated = dated_sets(pd.DataFrame(years).astype("Int64"), period_scheme("centuries"))
    >>> patterns = answer_patterns(dated, np.array([1.0, 1.0, np.nan]))
    >>> patterns.sets.tolist(), patterns.parts[patterns.kind].tolist()
    ([2, 1], [[0.0, 1.0, 0.0], [0.0, 0.0, 1.0]])
    """
    levels, kind = np.unique(np.round(answer, 4), return_inverse=True)
    told = ~np.isnan(levels)
    yes = np.where(told, levels, 0.0)
    parts = np.stack([np.where(told, 1 - yes, 0.0), yes, np.where(told, 0.0, 1.0)], axis=1)
    return count_patterns(dated, dated.dated, kind.astype(np.int64), parts)


def quantile_interval(draws: Floats, level: float | None = None) -> tuple[Floats, Floats]:
    """Give the interval that leaves out the same share of the draws at each end, per column.

    Parameters
    ----------
    draws
        Shape (draws, columns); missing values are left out.
    level
        Share of the draws within; the limit ``confidence`` if not given.
    """
    within = limit("confidence") / 100 if level is None else level
    tails = [(1 - within) / 2, (1 + within) / 2]
    ends = np.full((2, draws.shape[1]), np.nan)
    full = ~np.isnan(draws).any(axis=0)
    if full.any():
        ends[:, full] = np.quantile(draws[:, full], tails, axis=0)
    for place in np.flatnonzero(~full):
        known = draws[~np.isnan(draws[:, place]), place]
        if len(known):
            ends[:, place] = np.quantile(known, tails)
    return ends[0], ends[1]
