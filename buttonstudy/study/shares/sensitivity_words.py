"""Says what the main figures depend on: each beside its interval, then the other ways.

A value outside the interval is never put down to chance but in one case: sets dated within one
period are fewer, so that their own interval is told, and whether it still holds the figure.
"""

import math
from collections.abc import Hashable, Mapping

import numpy as np
import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.study.shares.sensitivity import (
    AS_TOLD,
    BUTTONS,
    MIDPOINTS,
    MORE_OR_FEWER,
    ONE_PERIOD,
)
from buttonstudy.study.telling.words import count, in_tenths, listed, per_cent, span_in_words

__all__ = ["sensitivity_findings", "ways_side_by_side"]

_UNMOVED = 1e-9
_SLACK = 1e-9

_Row = Mapping[Hashable, object]


def sensitivity_findings(table: pd.DataFrame) -> list[str]:
    """Say for each figure of a table whether it rests on how it was taken.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.shares.sensitivity.sensitivity` gives it.
    """
    if table.empty:
        return ["There is no figure that could be taken in other ways."]
    return [_said(str(name), rows) for name, rows in table.groupby("figure", sort=False)]


def ways_side_by_side(table: pd.DataFrame) -> pd.DataFrame:
    """Set the ways side by side for a reader: a row for each figure, a column for each way.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.shares.sensitivity.sensitivity` gives it.

    Returns
    -------
    DataFrame
        ``figure`` and a column for each way, in words, the figure as told with its interval.
    """
    rows = []
    for name, found in table.groupby("figure", sort=False):
        few = _few(found)
        cells = {"figure": str(name)}
        for way, row in zip(found["taken"], found.to_dict("records")):
            cells[str(way)] = _with_interval(row, few) if way == AS_TOLD else _worded(row, few)
        rows.append(cells)
    return pd.DataFrame(rows, columns=["figure", AS_TOLD, BUTTONS, MIDPOINTS, ONE_PERIOD])


def _few(rows: pd.DataFrame) -> bool:
    """Say whether any way leaves a figure too few sets for a percentage."""
    return bool((rows.loc[rows["value"].notna(), "sets"] < limit("few-sets")).any())


def _said(name: str, rows: pd.DataFrame) -> str:
    few, (told, *others) = _few(rows), rows.to_dict("records")
    if np.isnan(told["value"]):
        return f"{name}: there is no figure to compare."
    first = f"{name}: {_with_interval(told, few)}."
    known = [row for row in others if not np.isnan(row["value"])]
    if not known:
        return f"{first} The other ways leave too little to say it."
    if not _span(told, few):
        return f"{first} There is no interval to hold the other ways against."
    parts = [first, *(_outside(row, told, few) for row in known if row["beyond"])]
    parts.append(_inside([row for row in known if not row["beyond"]], told, few))
    missing = [str(row["taken"]) for row in others if np.isnan(row["value"])]
    if missing:
        parts.append(f"Too little is left with {listed(missing)}.")
    return " ".join(part for part in parts if part)


def _outside(row: _Row, told: _Row, few: bool) -> str:
    """Say a value outside the interval; of sets of one period, whether chance may be why."""
    value = _worded(row, few)
    if row["taken"] != ONE_PERIOD:
        edge = " before rounding" if _rounds_inside(row, told, few) else ""
        return f"With {row['taken']} it is {value}, outside that{edge}: it rests on that choice."
    span, sets = _span(row, few), count(_number(row, "sets"))
    first = f"Sets dated within one period alone give {value}"
    if not span:
        return f"{first}, but they are only {sets}, too few for an interval."
    middle = _number(told, "value")
    if middle < _number(row, "low") or middle > _number(row, "high"):
        return f"{first} ({span}; {sets} sets): it rests on the sets with wide dates."
    return f"{first}, but they are only {sets} and allow {span}."


def _inside(rows: list[dict[Hashable, object]], told: _Row, few: bool) -> str:
    """Say the values that lie within the interval, from the least to the largest."""
    if not rows:
        return ""
    falls = all(row["unit"] == MORE_OR_FEWER and _number(row, "value") < 0 for row in rows)
    ordered = sorted(rows, key=lambda row: _number(row, "value"), reverse=falls)
    ways = "the other ways" if len(rows) > 2 else listed(str(row["taken"]) for row in rows)
    middle = _number(told, "value")
    if all(abs(_number(row, "value") - middle) <= _UNMOVED for row in rows):
        return f"It is the same with {ways}."
    ends = [_worded(ordered[place], few) for place in (0, -1)]
    unit = ends[0].removeprefix("about ").partition(" ")[2]
    alike = unit and ends[1].removeprefix("about ").endswith(f" {unit}")
    begins = ends[0].removesuffix(f" {unit}") if alike else ends[0]
    between = ends[0] if ends[0] == ends[1] else f"{begins} to {ends[1].removeprefix('about ')}"
    return f"With {ways} it is {between}, within that interval."


def _rounds_inside(row: _Row, told: _Row, few: bool) -> bool:
    """Say whether a value outside the interval is printed as if it were inside."""
    scale = {"share": 10 if few else 100, "year": 1}.get(str(told["unit"]), 10)
    low, value, high = (
        _number(of, name) * scale for of, name in ((told, "low"), (row, "value"), (told, "high"))
    )
    if told["unit"] == "share" and few:
        return bool(math.floor(low + _SLACK) <= round(value) <= math.ceil(high - _SLACK))
    return not (round(value) < np.round(low) or round(value) > np.round(high))


def _with_interval(row: _Row, few: bool) -> str:
    span, value = _span(row, few), _worded(row, few)
    return f"{value} ({span})" if span and value else value


def _span(row: _Row, few: bool) -> str:
    """Word an interval; an end may be open, and a difference keeps its way in words."""
    low, high, unit = _number(row, "low"), _number(row, "high"), str(row["unit"])
    if np.isnan(low) and np.isnan(high):
        return ""
    if unit == "share":
        return span_in_words(low, high, few)
    if unit == MORE_OR_FEWER and not np.isnan(low + high):
        return _span_of_difference(low, high)
    ends = [_digits(end, unit) for end in (low, high)]
    if np.isnan(low):
        return f"up to {ends[1]}"
    return f"{ends[0]} {'upwards' if np.isnan(high) else f'to {ends[1]}'}"


def _span_of_difference(low: float, high: float) -> str:
    """Word a range of differences from the smaller to the larger, without signs, outward."""
    if low < 0 < high:
        return f"{_up(-low):.1f} fewer to {_up(high):.1f} more"
    less, more = sorted([abs(low), abs(high)])
    least = math.floor(10 * less + _SLACK) / 10 or ("just over 0" if less else "none")
    return f"{least} to {_up(more):.1f} {'more' if high > 0 else 'fewer'}"


def _up(size: float) -> float:
    return math.ceil(10 * size - _SLACK) / 10


def _worded(row: _Row, few: bool) -> str:
    """Word a figure in its unit; a share of few sets in tenths, a difference by its way."""
    value, unit = _number(row, "value"), str(row["unit"])
    if np.isnan(value):
        return ""
    if unit == "share":
        return in_tenths(value) if few else per_cent(value)
    if unit == MORE_OR_FEWER:
        return f"{abs(value):.1f} {'fewer' if value < 0 else 'more'} of every 10 sets"
    return _digits(value, unit) if unit == "year" else f"{_digits(value, unit)} {unit}"


def _digits(value: float, unit: str) -> str:
    """Give a value the digits of its unit; an odds ratio below one needs two."""
    if unit == "year":
        return f"{value:.0f}"
    return f"{value:.2f}" if unit == "times" and value < 1 else f"{value:.1f}"


def _number(row: _Row, name: str) -> float:
    return float(str(row[name]))
