"""How finely each recorder read sizes, and in which notation.

A size is only as good as the step to which it was read. Recorders differ: one writes tenths of a
millimetre, another sixteenths of an inch. The tables here say who did what, and put steps into
the words of the ruler.
"""

import math
from fractions import Fraction

import numpy as np
import pandas as pd

from buttonstudy.schemes import units
from buttonstudy.study.evidence.columns import floats, length_bounds, recorders, texts
from buttonstudy.study.evidence.sets import set_keys

__all__ = ["precision_table", "step_in_words"]

_DIGITS = 4
_FINEST_FRACTION = 128


def precision_table(buttons: pd.DataFrame) -> pd.DataFrame:
    """Count, for each recorder, the units and steps to which diameters were read.

    Returns
    -------
    DataFrame
        ``recorder``, ``unit``, ``step`` (in words), ``step_mm``, ``buttons``, ``sets``: by
        recorder, the finest step first. Only buttons with a diameter.
    """
    _, best, _ = length_bounds(buttons, "diameter")
    has = ~np.isnan(best)
    table = pd.DataFrame(
        {
            "recorder": recorders(buttons),
            "unit": texts(buttons, "diameter_unit"),
            "step_mm": floats(buttons, "diameter_step_mm").round(_DIGITS),
            "set": set_keys(buttons).to_numpy(),
        }
    )[has]
    grouped = table.groupby(["recorder", "unit", "step_mm"], dropna=False, sort=True)["set"]
    counted = grouped.agg(buttons="size", sets="nunique").reset_index()
    counted["step"] = [
        step_in_words(step, unit) for step, unit in zip(counted["step_mm"], counted["unit"])
    ]
    counted["unit"] = counted["unit"].replace("", "not stated")
    ordered = counted.sort_values(["recorder", "step_mm", "unit"], kind="stable")
    columns = ["recorder", "unit", "step", "step_mm", "buttons", "sets"]
    return ordered[columns].reset_index(drop=True)


def step_in_words(step_mm: float, unit: str) -> str:
    """Word a rounding step as the ruler shows it.

    Examples
    --------
    >>> step_in_words(1.5875, "in"), step_in_words(0.1, "mm"), step_in_words(0.635, "lines")
    ('1/16 in', '0.1 mm', '1 line')
    >>> step_in_words(0.254, "in")
    '0.01 in'
    """
    if math.isnan(step_mm):
        return "not stated"
    if unit not in units():
        return f"{step_mm:g} mm"
    steps = Fraction(float(step_mm) / float(units()[unit])).limit_denominator(_FINEST_FRACTION)
    exact = float(step_mm) / float(units()[unit])
    if _is_halving(steps) and abs(float(steps) - exact) < 10**-_DIGITS and steps < 1:
        return f"{steps} {unit.replace('lines', 'line')}"
    name = unit.replace("lines", "line") if round(exact, _DIGITS) == 1 else unit
    return f"{exact:.4g} {name}"


def _is_halving(steps: Fraction) -> bool:
    """Say whether a ruler is divided by halving: into 2, 4, 8, 16, 32, 64."""
    return steps.denominator & (steps.denominator - 1) == 0 and steps.denominator > 1
