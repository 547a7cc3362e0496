"""The measuring step of a whole column, or of one recorder's part of it, as its sizes show it.

One size tells only how finely it is written. Where all sizes of a column fall on even lines, or
nearly all its decimals of a millimetre on halves, the recorder read no more finely than that. Where
nearly half of one recorder's fractions of an inch are odd sixteenths, that recorder's others were
read to sixteenths too; another's in the same column may have been read to eighths.
"""

from collections import Counter
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from buttonstudy.readings.lengths.reading import Length
from buttonstudy.readings.lengths.steps import inch_parts, lines_step, with_step
from buttonstudy.schemes import limit, units
from buttonstudy.survey.coded import Coded

__all__ = ["Codes", "Lengths", "with_column_steps"]

_HALF_MM = 0.5
_WRITTEN_STEPS = (0.1, 0.01, 0.001)  # mm

Codes = npt.NDArray[np.intp]
Lengths = list[tuple[Length, ...]]


def with_column_steps(
    found: Lengths, codes: Codes, recorders: Coded | None = None
) -> tuple[Lengths, Codes]:
    """Give the readings of a column the steps in which it is read.

    Parameters
    ----------
    found
        What was read from each distinct wording.
    codes
        The wording of each row; shape (rows,).
    recorders
        Who read each row, where a column tells it. Rows without a name are taken together.

    Returns
    -------
    lengths, codes
        What was read from each wording, or from each wording of each recorder; and its place for
        each row.
    """
    counts = np.bincount(codes, minlength=len(found))
    found = _in_half_mm(_in_lines(found, counts), counts)
    who = _numbered(recorders) if recorders else np.zeros(len(codes), dtype=np.intp)
    if not who.any():
        return _in_inches(found, counts), codes
    pairs, codes, counts = np.unique(
        who * len(found) + codes, return_inverse=True, return_counts=True
    )
    ends = np.flatnonzero(np.diff(pairs // len(found), append=-1)) + 1
    parted: Lengths = []
    for start, end in zip([0, *ends.tolist()], ends.tolist()):
        own = [found[pair % len(found)] for pair in pairs[start:end].tolist()]
        parted += _in_inches(_in_half_mm(own, counts[start:end]), counts[start:end])
    return parted, codes


def _numbered(recorders: Coded) -> Codes:
    """Number the recorders of the rows from 0, however each name is spaced or capitalised."""
    numbers: dict[str, int] = {}
    names = (" ".join(text.casefold().split()) for text in recorders.wordings)
    return np.array([numbers.setdefault(name, len(numbers)) for name in names], dtype=np.intp)[
        recorders.codes
    ]


def _in_lines(found: Lengths, counts: Codes) -> Lengths:
    """Give readings in lines the step in which this column's lines are given."""
    per_line = float(units()["lines"])
    in_lines = [
        [round(one.best / per_line, 6) for one in some if one.unit == "lines"] for some in found
    ]
    if not any(in_lines):
        return found
    values = [value for some, n in zip(in_lines, counts) for value in some * int(n)]
    step = float(lines_step(values)) * per_line
    return [
        tuple(
            with_step(one, step) if one.unit == "lines" and not one.approximate else one
            for one in some
        )
        for some in found
    ]


def _in_half_mm(found: Lengths, counts: Codes) -> Lengths:
    """Give decimals of a millimetre the step of a half, where nearly all of them end on one.

    A few finer readings keep their own step, and make the others no finer.
    """
    decimals = [[_on_half(one) for one in some if _is_decimal(one)] for some in found]
    on_half = sum(sum(some) * int(n) for some, n in zip(decimals, counts))
    number = sum(len(some) * int(n) for some, n in zip(decimals, counts))
    if on_half < max(limit("half-mm-least"), limit("half-mm-share") * number):
        return found
    return [
        tuple(
            with_step(one, _HALF_MM) if _is_decimal(one) and _on_half(one) else one for one in some
        )
        for some in found
    ]


def _in_inches(found: Lengths, counts: Codes) -> Lengths:
    """Give fractions of an inch the step in which these are given together; never a coarser one."""
    written = Counter[int]()
    for some, n in zip(found, counts.tolist()):
        for one in some:
            written[_inch_parts(one)] += n
    del written[0]
    parts = inch_parts(written)
    if not parts:
        return found
    step = float(units()["in"]) / parts
    return [
        tuple(with_step(one, step) if 0 < _inch_parts(one) < parts else one for one in some)
        for some in found
    ]


def _inch_parts(one: Length) -> int:
    """Give the parts of an inch to which a size is written, if read off a ruler; else 0."""
    if one.unit != "in" or one.approximate or one.stated:
        return 0
    parts = round(float(units()["in"]) / one.step_mm)
    halved = parts & (parts - 1) == 0 and parts <= limit("inch-ruler-finest")
    return parts if halved else 0


def _is_decimal(one: Length) -> bool:
    written = any(abs(one.step_mm - step) < step / 100 for step in _WRITTEN_STEPS)
    return one.unit == "mm" and not (one.approximate or one.stated) and written


def _on_half(one: Length) -> bool:
    """Tell whether a size, or both ends of a range, are whole or half millimetres."""
    ends: Sequence[float] = (one.low + one.step_mm / 2, one.high - one.step_mm / 2)
    return all(abs(2 * end - round(2 * end)) < 2e-6 for end in ends)
