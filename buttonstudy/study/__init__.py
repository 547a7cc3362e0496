"""The statistics. DataFrame in, DataFrame out; nothing here reads files or draws."""

from buttonstudy.study.crossed import shares_crossed
from buttonstudy.study.dating import date_spans, period_weights, record_by_period
from buttonstudy.study.examined import examined_by_field
from buttonstudy.study.findings import (
    cautions_called_for,
    class_findings,
    crossed_findings,
    dating_findings,
    examined_findings,
    heaping_findings,
    precision_findings,
    share_findings,
    size_findings,
    survey_findings,
)
from buttonstudy.study.heaping import heaping_by_recorder, terminal_digits
from buttonstudy.study.precision import precision_table
from buttonstudy.study.sets import set_keys, set_table
from buttonstudy.study.shares import shares_by_period
from buttonstudy.study.size_counts import size_class_counts, size_histogram
from buttonstudy.study.sizes import size_summary, sizes_by_period
from buttonstudy.study.words import source_line

__all__ = [
    "cautions_called_for",
    "class_findings",
    "crossed_findings",
    "date_spans",
    "dating_findings",
    "examined_by_field",
    "examined_findings",
    "heaping_by_recorder",
    "heaping_findings",
    "period_weights",
    "precision_findings",
    "precision_table",
    "record_by_period",
    "set_keys",
    "set_table",
    "share_findings",
    "shares_by_period",
    "shares_crossed",
    "size_class_counts",
    "size_findings",
    "size_histogram",
    "size_summary",
    "sizes_by_period",
    "source_line",
    "survey_findings",
    "terminal_digits",
]
