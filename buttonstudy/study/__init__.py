"""The statistics. DataFrame in, DataFrame out; nothing here reads files or draws.

What notebooks and pages use has its name here and is imported when it is first used.
"""

from importlib import import_module

_HOMES = {
    "at_least_by_period": "shares.bounded_counts",
    "at_least_findings": "shares.count_words",
    "cautions_called_for": "telling.findings",
    "chosen_findings": "comparison.chosen",
    "class_findings": "telling.findings",
    "compare_periods": "comparison.periods",
    "compare_sizes": "sizes.comparison",
    "comparison_findings": "comparison.findings",
    "comparison_sensitivity": "comparison.otherwise",
    "count_distribution": "shares.bounded_counts",
    "counts_at_least": "shares.bounded_counts",
    "counts_side_by_side": "telling.reading_tables",
    "crossed_findings": "telling.findings",
    "crossed_sentence": "telling.words",
    "date_spans": "evidence.dating",
    "dating_findings": "telling.findings",
    "difference_findings": "comparison.findings",
    "differences_between": "comparison.periods",
    "estimate_traits": "shares.traits",
    "estimated_shares": "shares.latent",
    "examined_by_field": "evidence.examined",
    "examined_findings": "telling.findings",
    "for_readers": "telling.reading_tables",
    "heaping_by_recorder": "sizes.heaping",
    "heaping_findings": "telling.findings",
    "heaping_sentence": "telling.words",
    "opened_compared": "shares.opening",
    "opened_sentence": "comparison.words",
    "period_weights": "evidence.dating",
    "precision_findings": "telling.findings",
    "precision_table": "sizes.precision",
    "printed": "telling.printing",
    "record_by_period": "evidence.dating",
    "recorder_findings": "comparison.findings",
    "reweighted_estimates": "shares.reweighting",
    "reweighted_findings": "comparison.findings",
    "search_spacing": "sizes.spacing",
    "sensitivity_findings": "shares.sensitivity",
    "set_dates": "evidence.sets",
    "set_keys": "evidence.sets",
    "set_table": "evidence.sets",
    "share_findings": "telling.findings",
    "share_sensitivity": "shares.otherwise",
    "share_sentence": "telling.words",
    "shares_by_period": "shares.by_period",
    "shares_crossed": "shares.crossed",
    "showable_findings": "sizes.spacing_words",
    "showable_steps": "sizes.spacing_readings",
    "size_class_counts": "sizes.counts",
    "size_comparison_findings": "sizes.words",
    "size_distribution": "sizes.intervals",
    "size_findings": "sizes.words",
    "size_histogram": "sizes.counts",
    "size_quantiles": "sizes.intervals",
    "size_sensitivity": "sizes.otherwise",
    "sizes_by_period": "sizes.intervals",
    "source_line": "telling.words",
    "spacing_findings": "sizes.spacing_words",
    "spacing_tests": "sizes.spacing",
    "spans_in_words": "comparison.findings",
    "surest_first": "comparison.chosen",
    "survey_findings": "telling.findings",
    "terminal_digits": "sizes.heaping",
    "terms_to_compare": "comparison.chosen",
    "tie_findings": "comparison.association_words",
    "tie_sensitivity": "comparison.otherwise",
    "ties_of": "comparison.ties",
    "turning_findings": "comparison.findings",
    "turning_of_surest": "comparison.chosen",
    "uncertainty_lines": "comparison.findings",
    "ways_side_by_side": "shares.sensitivity",
    "with_visible_kind": "shares.reweighting",
}


def __getattr__(name: str) -> object:
    if name in _HOMES:
        return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
    raise AttributeError(f"{__name__} has no {name!r}; it has {', '.join(_HOMES)}")


def __dir__() -> list[str]:
    return sorted([*globals(), *_HOMES])
