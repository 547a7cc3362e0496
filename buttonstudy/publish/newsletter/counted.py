"""The figures that describe a survey, with their sentences: sizes, construction and fills.

Each is drawn and told by the same functions as in the notebooks.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from buttonstudy import draw
from buttonstudy.schemes import size_classes
from buttonstudy.study.comparison.association_words import tie_findings
from buttonstudy.study.comparison.ties import ties_of
from buttonstudy.study.evidence.dating import date_spans, record_by_period
from buttonstudy.study.evidence.examined import examined_by_field
from buttonstudy.study.shares.bounded_counts import (
    at_least_by_period,
    count_distribution,
    counts_at_least,
)
from buttonstudy.study.shares.by_period import shares_by_period
from buttonstudy.study.shares.count_words import at_least_findings
from buttonstudy.study.shares.crossed import shares_crossed
from buttonstudy.study.sizes.counts import size_class_counts, size_histogram
from buttonstudy.study.sizes.heaping import heaping_by_recorder, terminal_digits
from buttonstudy.study.sizes.intervals import size_distribution, size_quantiles, sizes_by_period
from buttonstudy.study.sizes.precision import precision_table
from buttonstudy.study.sizes.spacing import search_spacing, spacing_tests
from buttonstudy.study.sizes.spacing_words import spacing_findings
from buttonstudy.study.sizes.words import size_findings
from buttonstudy.study.telling.findings import (
    class_findings,
    dating_findings,
    examined_findings,
    heaping_findings,
    precision_findings,
)
from buttonstudy.study.telling.share_words import crossed_findings, share_findings

if TYPE_CHECKING:
    import pandas as pd

    from buttonstudy.draw.drawn import Drawn
    from buttonstudy.schemes import PeriodScheme

__all__ = ["COUNTED", "Told", "Wanted"]

_HOLE = (
    "mould_hole",
    "hole_fill",
    "hole_diameter",
    "padding",
    "cover_layers",
    "cover_thickness",
)
_FILLS_WITH = ("mould_material", "hole_diameter", "cover_layers", "cover_thickness")


@dataclass(frozen=True, slots=True)
class Wanted:
    """What figures are made from, and how large.

    Parameters
    ----------
    buttons
        The records.
    periods, classes
        The periods to count by, and the name of the size classes.
    size
        The name of a print size.
    compare, earlier, later
        The fields whose traits are compared, and two periods to set side by side, as in the
        notebook on comparison.
    source
        The line at the foot of each figure.
    seed
        Of the random numbers.
    """

    buttons: "pd.DataFrame"
    periods: "PeriodScheme"
    classes: str
    size: str
    source: str
    compare: Sequence[str]
    earlier: str
    later: str
    seed: int


@dataclass(frozen=True, slots=True)
class Told:
    """A figure, or the reason why there is none, and the sentences that go with it."""

    drawn: "Drawn"
    sentences: Sequence[str]


def _distribution(wanted: Wanted) -> Told:
    counted = size_histogram(wanted.buttons)
    drawn = draw.size_distribution(counted, wanted.size, source=wanted.source)
    return Told(drawn, precision_findings(precision_table(wanted.buttons)))


def _curve(wanted: Wanted) -> Told:
    curve = size_distribution(wanted.buttons)
    quantiles = size_quantiles(wanted.buttons)
    by_period = sizes_by_period(wanted.buttons, wanted.periods)
    drawn = draw.size_curve(curve, quantiles, wanted.size, source=wanted.source)
    return Told(drawn, size_findings(quantiles, by_period))


def _sizes_by_period(wanted: Wanted) -> Told:
    quantiles = size_quantiles(wanted.buttons)
    by_period = sizes_by_period(wanted.buttons, wanted.periods)
    drawn = draw.sizes_by_period(by_period, wanted.size, source=wanted.source)
    return Told(drawn, size_findings(quantiles, by_period))


def _size_classes(wanted: Wanted) -> Told:
    counted = size_class_counts(wanted.buttons)
    scheme = size_classes(wanted.classes).title
    drawn = draw.size_classes_figure(counted, wanted.size, scheme=scheme, source=wanted.source)
    return Told(drawn, class_findings(counted))


def _steps(wanted: Wanted) -> Told:
    tests, search = spacing_tests(wanted.buttons), search_spacing(wanted.buttons)
    drawn = draw.spacing_figure(search, tests, wanted.size, source=wanted.source)
    return Told(drawn, spacing_findings(tests, search))


def _round_values(wanted: Wanted) -> Told:
    digits = terminal_digits(wanted.buttons)
    drawn = draw.heaping_figure(digits, wanted.size, source=wanted.source)
    return Told(drawn, heaping_findings(heaping_by_recorder(wanted.buttons)))


def _dating(wanted: Wanted) -> Told:
    record = record_by_period(wanted.buttons, wanted.periods)
    spans = date_spans(wanted.buttons)
    scheme = wanted.periods.title
    drawn = draw.periods_figure(record, spans, wanted.size, scheme=scheme, source=wanted.source)
    return Told(drawn, dating_findings(record))


def _examined(wanted: Wanted) -> Told:
    return _examined_told(wanted, examined_by_field(wanted.buttons))


def _hole_examined(wanted: Wanted) -> Told:
    return _examined_told(wanted, examined_by_field(wanted.buttons, list(_HOLE)))


def _examined_told(wanted: Wanted, examined: "pd.DataFrame") -> Told:
    drawn = draw.examined_figure(examined, wanted.size, source=wanted.source)
    return Told(drawn, examined_findings(examined))


def _layers(wanted: Wanted) -> Told:
    by_period = at_least_by_period(wanted.buttons, wanted.periods)
    drawn = draw.at_least_figure(by_period, "cover_layers", wanted.size, source=wanted.source)
    layers = counts_at_least(wanted.buttons)
    told = at_least_findings(count_distribution(wanted.buttons), layers)
    return Told(drawn, told)


def _by_period(field: str) -> Callable[[Wanted], Told]:
    def told(wanted: Wanted) -> Told:
        shares = shares_by_period(wanted.buttons, field, wanted.periods)
        drawn = draw.shares_figure(shares, field, wanted.size, source=wanted.source)
        return Told(drawn, share_findings(shares, field))

    return told


def _fills_by(other: str) -> Callable[[Wanted], Told]:
    def told(wanted: Wanted) -> Told:
        crossed = shares_crossed(wanted.buttons, "hole_fill", other)
        drawn = draw.crossed_figure(crossed, "hole_fill", other, wanted.size, source=wanted.source)
        return Told(drawn, crossed_findings(crossed, "hole_fill", other))

    return told


def _ties(wanted: Wanted) -> Told:
    others = list(_FILLS_WITH)
    ties = ties_of(wanted.buttons, "hole_fill", others)
    drawn = draw.ties_figure(ties, wanted.size, source=wanted.source)
    return Told(drawn, tie_findings(ties, "hole_fill", others))


COUNTED: dict[str, Callable[[Wanted], Told]] = {
    "sizes-diameter-distribution": _distribution,
    "sizes-diameter-curve": _curve,
    "sizes-diameter-by-period": _sizes_by_period,
    "sizes-size-classes": _size_classes,
    "sizes-trade-steps": _steps,
    "sizes-heaping": _round_values,
    "construction-dates-of-the-record": _dating,
    "construction-examined": _examined,
    "construction-mould-material-by-period": _by_period("mould_material"),
    "construction-cover-material-by-period": _by_period("cover_material"),
    "construction-cover-layers-at-least": _layers,
    "construction-cover-cut-by-period": _by_period("cover_cut"),
    "construction-cover-drawn-up-by-period": _by_period("cover_drawn_up"),
    "construction-back-finish-by-period": _by_period("back_finish"),
    "construction-attachment-by-period": _by_period("attachment"),
    "fills-examined": _hole_examined,
    "fills-hole-fill-by-period": _by_period("hole_fill"),
    **{f"fills-hole-fill-by-{other.replace('_', '-')}": _fills_by(other) for other in _FILLS_WITH},
    "fills-ties": _ties,
}
"""How each figure of the describing notebooks is drawn and told, by name."""
