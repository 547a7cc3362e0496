"""Pieces of sentences that estimates and comparisons share."""

import pandas as pd

from buttonstudy.study.telling.words import count, field_label, span_in_words, term_label

__all__ = ["capital", "none_or_count", "possible_span", "trait_name"]


def trait_name(row: pd.Series) -> str:
    """Name a trait by its field and term.

    Examples
    --------
    >>> trait_name(pd.Series({"field": "mould_material", "term": "bone"}))
    'mould material “bone”'
    """
    return f"{field_label(str(row['field']))} “{term_label(str(row['term']))}”"


def capital(text: str) -> str:
    """Begin a sentence, leaving capitals within it as they are."""
    return text[:1].upper() + text[1:]


def none_or_count(number: float) -> str:
    """Word a number of sets, nought as "none"."""
    return "none" if number == 0 else count(number)


def possible_span(row: pd.Series, low: str, high: str) -> str:
    """Word the span between two columns of a row, in tenths where it has few sets."""
    return span_in_words(row[low], row[high], bool(row["few"]))
