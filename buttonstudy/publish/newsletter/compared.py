"""The figures that compare periods, with their sentences.

They share one long computation, which is made once, and only if one of them is wanted.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from buttonstudy import draw
from buttonstudy.publish.newsletter.counted import Told, Wanted
from buttonstudy.study.comparison.chosen import (
    as_compared,
    surest_first,
    terms_to_compare,
    turning_of_surest,
)
from buttonstudy.study.comparison.differences import differences_between
from buttonstudy.study.comparison.findings import (
    comparison_findings,
    difference_findings,
    reweighted_findings,
    turning_findings,
    uncertainty_lines,
)
from buttonstudy.study.comparison.opening_words import opened_sentence
from buttonstudy.study.comparison.periods import compare_periods
from buttonstudy.study.shares.latent import estimated_shares
from buttonstudy.study.shares.opening import opened_compared
from buttonstudy.study.shares.reweighting import reweighted_estimates, with_visible_kind
from buttonstudy.study.shares.traits import estimate_traits

if TYPE_CHECKING:
    import pandas as pd

    from buttonstudy.study.shares.traits import Trait

__all__ = ["Compared"]


@dataclass(frozen=True)
class Compared:
    """The periods of a survey compared, as in the notebook on comparison, when first asked for."""

    wanted: Wanted

    def told(self, name: str) -> Told:
        """Return the figure of this name; a name without the part ``comparison-``."""
        tellers = {
            "estimated-shares": self._estimates_told,
            "reweighted-shares": self._reweighted_told,
            "largest-differences": self._comparison_told,
            "two-periods": self._two_periods_told,
            "turning-years": self._turning_told,
        }
        return tellers[name]()

    @cached_property
    def _traits(self) -> "list[Trait]":
        wanted, fields = self.wanted, list(self.wanted.compare)
        terms = terms_to_compare(wanted.buttons, fields)
        return estimate_traits(wanted.buttons, fields, wanted.periods, terms, seed=wanted.seed)

    @cached_property
    def _comparison(self) -> "pd.DataFrame":
        compared = compare_periods(self._traits, seed=self.wanted.seed)
        return surest_first(compared, compared)

    @cached_property
    def _estimates(self) -> "pd.DataFrame":
        return surest_first(estimated_shares(self._traits), self._comparison)

    def _estimates_told(self) -> Told:
        wanted, estimates = self.wanted, self._estimates
        drawn = draw.estimates_figure(estimates, wanted.size, source=wanted.source)
        return Told(drawn, uncertainty_lines(estimates))

    def _reweighted_told(self) -> Told:
        wanted, buttons = self.wanted, self.wanted.buttons
        opened = opened_compared(buttons, seed=wanted.seed)
        kinds = with_visible_kind(buttons, opened)
        table = reweighted_estimates(
            kinds, self._comparison, wanted.periods, self._estimates, seed=wanted.seed
        )
        drawn = draw.reweighted_figure(table, wanted.size, source=wanted.source)
        told = reweighted_findings(kinds["visible_kind"].tolist(), table)
        return Told(drawn, [opened_sentence(opened), *told])

    def _comparison_told(self) -> Told:
        wanted = self.wanted
        drawn = draw.comparison_figure(self._comparison, wanted.size, source=wanted.source)
        return Told(drawn, comparison_findings(self._comparison))

    def _two_periods_told(self) -> Told:
        wanted = self.wanted
        between = differences_between(self._traits, wanted.earlier, wanted.later)
        differences = as_compared(between, self._comparison)
        drawn = draw.differences_figure(differences, wanted.size, source=wanted.source)
        return Told(drawn, difference_findings(differences))

    def _turning_told(self) -> Told:
        wanted = self.wanted
        turning = turning_of_surest(wanted.buttons, self._comparison)
        drawn = draw.turning_figure(turning, wanted.size, source=wanted.source)
        return Told(drawn, turning_findings(turning))
