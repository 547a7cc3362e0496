"""Which readings can tell about a step, and which steps a survey could show at all.

A ruler divided in eighths of an inch puts every size on a multiple of five button lines, whoever
made the button. So before anything is looked for, it is said what could be found: only readings
much finer than the step count, only those not written in the step's own unit (a size written
"24 lines" is no evidence for lines), and only one of each set.
"""

from dataclasses import dataclass
from fractions import Fraction

import numpy as np
import pandas as pd
from numpy.typing import NDArray
from scipy import stats

from buttonstudy.schemes import limit, rows, units
from buttonstudy.study.evidence.columns import Floats, floats, length_bounds, texts
from buttonstudy.study.evidence.sets import set_keys
from buttonstudy.study.sizes.precision import step_in_words
from buttonstudy.study.sizes.quantogram import can_tell

__all__ = [
    "SpacingStep",
    "largest_scatter",
    "showable_steps",
    "spacing_readings",
    "spacing_steps",
    "usable_readings",
]

_MM_DIGITS = 6


@dataclass(frozen=True, slots=True)
class SpacingStep:
    """A step that sizes might go up by.

    Attributes
    ----------
    name
        As readers see it, such as "2 button lines".
    mm
        Its length, exactly.
    tested
        Whether it is tested, or only told of.
    own_units
        Units in which a reading written is no evidence for the step.
    source
        Where the step comes from.
    """

    name: str
    mm: Fraction
    tested: bool
    own_units: tuple[str, ...]
    source: str


def spacing_steps() -> tuple[SpacingStep, ...]:
    """List the steps of the table ``spacing_steps.csv``, the smallest first.

    Examples
    --------
    >>> [str(step.mm) for step in spacing_steps() if step.name == "5 button lines"]
    ['127/40']
    """
    found = [
        SpacingStep(
            row["step"],
            Fraction(row["number"]) * units()[row["unit"]],
            row["tested"] == "yes",
            tuple(row["own_units"].split(";")),
            row["source"],
        )
        for row in rows("spacing_steps")
    ]
    return tuple(sorted(found, key=lambda step: step.mm))


def spacing_readings(buttons: pd.DataFrame) -> pd.DataFrame:
    """Choose one diameter for each set: the most finely read, and of several the middle one.

    Returns
    -------
    DataFrame
        ``set``, ``size_mm``, ``rounding_mm`` (the step that the reading was rounded to; where
        the survey has none, the width that its bounds leave), ``unit`` (empty if unknown) and
        ``ruler`` (the rounding in words). Sets without a diameter, or whose rounding nobody
        knows, are left out: such a size may be as coarse as any.
    """
    low, best, high = length_bounds(buttons, "diameter")
    stated = floats(buttons, "diameter_step_mm")
    rounding = np.where(np.isnan(stated), high - low, stated)
    table = pd.DataFrame(
        {
            "set": set_keys(buttons).to_numpy(),
            "size_mm": best,
            "rounding_mm": np.round(rounding, _MM_DIGITS),
            "unit": texts(buttons, "diameter_unit"),
        }
    )
    table = table[(table["size_mm"] > 0) & (table["rounding_mm"] > 0)]
    finest = table.groupby("set")["rounding_mm"].transform("min")
    table = table[table["rounding_mm"] == finest].sort_values(["set", "size_mm"], kind="stable")
    place = table.groupby("set").cumcount()
    number = table.groupby("set")["size_mm"].transform("size")
    table = table[place == (number - 1) // 2].reset_index(drop=True)
    distinct = table[["rounding_mm", "unit"]].drop_duplicates()
    wording = {
        (step, unit): step_in_words(step, unit)
        for step, unit in zip(distinct["rounding_mm"], distinct["unit"])
    }
    pairs = zip(table["rounding_mm"], table["unit"])
    return table.assign(ruler=[wording[pair] for pair in pairs])


def usable_readings(readings: pd.DataFrame, step: SpacingStep) -> NDArray[np.bool_]:
    """Say which readings are evidence for a step: fine enough, and in another unit."""
    fine = _fine(readings, step)
    return fine & ~readings["unit"].isin(step.own_units).to_numpy(dtype=bool)


def showable_steps(buttons: pd.DataFrame) -> pd.DataFrame:
    """Say, before anything is looked for, which steps the survey could show.

    Returns
    -------
    DataFrame
        One row for each step of ``spacing_steps.csv``: ``step``, ``step_mm``, ``tested``,
        ``sets`` (with a size whose rounding is known), ``usable`` (sets whose reading is
        evidence for the step), ``too_coarse``, ``own_unit`` (fine enough, but written in the
        step's own unit), ``finest_needed_mm``, ``commonest_ruler`` (the rounding that most
        sets have, in words) and ``ruler_steps`` (how many of the step it is, as a fraction such
        as "5/2", where the ruler's divisions are small whole multiples of half the step; else
        ""), ``largest_scatter_mm`` (as :func:`largest_scatter`; missing where fewer sets than the
        limit ``spacing-fewest-sets`` could tell) and ``could_show``: "yes",
        "only close work" (makers would have had to keep closer to the step than the limit
        ``spacing-workmanship``) or "no".
    """
    readings = spacing_readings(buttons)
    return pd.DataFrame([_showable(readings, step) for step in spacing_steps()])


def largest_scatter(step_mm: float, rounding_mm: Floats, level: float, power: float) -> float:
    """Give the most that sizes may scatter about a step for a survey still to show it.

    Parameters
    ----------
    step_mm
        The step q.
    rounding_mm
        Rounding of the ``N`` readings that count.
    level
        Chance of a false alarm that is allowed.
    power
        How often such a survey would show the step.

    Returns
    -------
    float
        Standard deviation in mm; 0 if even exact work could not be shown.

    Notes
    -----
    The quantogram's mean is sqrt(2N) exp(-2 pi^2 s^2 / q^2) for scatter s (Kendall 1974, Phil
    Trans R Soc A 276:231), and rounding to r takes a further sinc(r/q) of it. Its spread is 1
    without a step, and taken as 1 with it, which errs on the safe side.

    Examples
    --------
    >>> round(largest_scatter(1.27, np.full(100, 0.1), 0.05, 0.8), 2)
    0.38
    """
    if len(rounding_mm) == 0:
        return 0.0
    kept = float(np.sinc(rounding_mm / step_mm).mean()) * np.sqrt(2 * len(rounding_mm))
    needed = float(stats.norm.isf(level) + stats.norm.ppf(power))
    if kept <= needed:
        return 0.0
    return float(step_mm / np.pi * np.sqrt(np.log(kept / needed) / 2))


def _showable(readings: pd.DataFrame, step: SpacingStep) -> dict[str, object]:
    usable = usable_readings(readings, step)
    fine = _fine(readings, step)
    tests = max(sum(known.tested for known in spacing_steps()), 1)
    level = (1 - limit("confidence") / 100) / tests
    scatter = np.nan
    if usable.sum() >= limit("spacing-fewest-sets"):
        rounding = readings.loc[usable, "rounding_mm"].to_numpy(dtype=float)
        scatter = largest_scatter(float(step.mm), rounding, level, limit("spacing-power") / 100)
    close = "only close work" if scatter > 0 else "no"
    return {
        "step": step.name,
        "step_mm": float(step.mm),
        "tested": step.tested,
        "sets": len(readings),
        "usable": int(usable.sum()),
        "too_coarse": int((~fine).sum()),
        "own_unit": int((fine & ~usable).sum()),
        "finest_needed_mm": float(step.mm) * limit("spacing-finest-share"),
        **_commonest_ruler(readings, step),
        "largest_scatter_mm": scatter,
        "could_show": "yes" if scatter >= limit("spacing-workmanship") else close,
    }


def _commonest_ruler(readings: pd.DataFrame, step: SpacingStep) -> dict[str, object]:
    """Name the rounding that most sets have, and say how many of the step it is."""
    if readings.empty:
        return {"commonest_ruler": "", "ruler_steps": ""}
    ruler = readings["ruler"].mode().iloc[0]
    rounding = readings.loc[readings["ruler"] == ruler, "rounding_mm"].iloc[0]
    halves = 2 * Fraction(float(rounding)).limit_denominator(10**_MM_DIGITS) / step.mm
    whole = Fraction(round(halves), 2)
    exact = whole > 0 and abs(float(halves / 2 - whole)) < 10**-_MM_DIGITS
    return {"commonest_ruler": str(ruler), "ruler_steps": str(whole) if exact else ""}


def _fine(readings: pd.DataFrame, step: SpacingStep) -> NDArray[np.bool_]:
    rounding = readings["rounding_mm"].to_numpy(dtype=float)
    share = limit("spacing-finest-share")
    return can_tell(rounding, np.array([float(step.mm)]), share)[:, 0]
