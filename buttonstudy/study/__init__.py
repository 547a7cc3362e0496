"""The statistics. DataFrame in, DataFrame out; nothing here reads files or draws.

What notebooks and pages use has its name here and is imported when it is first used.
"""

from importlib import import_module

_HOMES = {
    "cautions_called_for": "findings",
    "class_findings": "findings",
    "compare_periods": "comparison",
    "comparison_sentence": "comparison_words",
    "crossed_findings": "findings",
    "crossed_sentence": "words",
    "date_spans": "dating",
    "dating_findings": "findings",
    "difference_sentence": "comparison_words",
    "differences_between": "comparison",
    "estimate_lines": "comparison_words",
    "estimate_traits": "traits",
    "estimated_shares": "latent",
    "examined_by_field": "examined",
    "examined_findings": "findings",
    "heaping_by_recorder": "heaping",
    "heaping_findings": "findings",
    "heaping_sentence": "words",
    "opened_compared": "opening",
    "opened_sentence": "comparison_words",
    "period_weights": "dating",
    "precision_findings": "findings",
    "precision_table": "precision",
    "printed": "printing",
    "record_by_period": "dating",
    "reweighted_by_period": "reweighted_periods",
    "reweighted_sentence": "comparison_words",
    "reweighted_shares": "reweighted",
    "set_dates": "sets",
    "set_keys": "sets",
    "set_table": "sets",
    "share_findings": "findings",
    "share_sentence": "words",
    "shares_by_period": "shares",
    "shares_crossed": "crossed",
    "size_class_counts": "size_counts",
    "size_findings": "findings",
    "size_histogram": "size_counts",
    "size_summary": "sizes",
    "sizes_by_period": "sizes",
    "source_line": "words",
    "stratum_counts": "reweighted",
    "survey_findings": "findings",
    "terminal_digits": "heaping",
    "turning_sentence": "comparison_words",
    "turning_years": "turning",
}


def __getattr__(name: str) -> object:
    if name in _HOMES:
        return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
    raise AttributeError(f"{__name__} has no {name!r}; it has {', '.join(_HOMES)}")


def __dir__() -> list[str]:
    return sorted([*globals(), *_HOMES])
