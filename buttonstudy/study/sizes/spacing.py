"""Whether sizes go up by a common step, such as two button lines or a sixteenth of an inch.

Named steps are asked about directly; a free search over all steps between 0.4 and 3 mm stands
beside, to show what else there may be. Both are held against simulated surveys without a step
that went through the same rulers, and use one reading of each set, fine enough to tell
(:mod:`buttonstudy.study.sizes.spacing_readings`).
"""

from dataclasses import dataclass

import numpy as np
import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.study.comparison.together import holm
from buttonstudy.study.sizes.quantogram import (
    highest_studentised,
    simulated_waves,
    step_grid,
    waves_of,
)
from buttonstudy.study.sizes.spacing_readings import (
    SpacingStep,
    showable_steps,
    spacing_readings,
    spacing_steps,
    usable_readings,
)

__all__ = ["SpacingSearch", "search_spacing", "spacing_tests"]

_PEAK_COLUMNS = (
    "step_mm",
    "near",
    "usable",
    "own_unit",
    "height",
    "studentised",
    "chance",
    "surveys",
    "stands_out",
)


@dataclass(frozen=True, slots=True)
class SpacingSearch:
    """A search over all steps.

    Attributes
    ----------
    waves
        One row for each step looked at, the largest first: ``step_mm``, ``usable`` (sets whose
        reading is fine enough), ``height`` (quantogram), ``mean_without``, ``high_without``
        (mean, and the height that simulated surveys without a step reach as often as the limit
        ``confidence`` leaves over) and ``studentised``. Steps that too few readings could tell
        have no height.
    peak
        The step that stands out most, one row or none: ``step_mm``, ``near`` (named steps that
        cannot be told from it; "" if none), ``usable``, ``own_unit`` (how many of these
        readings are written in a unit of a near step: where all are, the peak may be the
        recorders' liking for round values), ``height``, ``studentised``, ``chance`` (share of
        the simulated surveys in which some step stands out as much), ``surveys`` (how many
        were simulated) and ``stands_out``.
    """

    waves: pd.DataFrame
    peak: pd.DataFrame


def spacing_tests(
    buttons: pd.DataFrame, *, n_surveys: int | None = None, seed: int = 1
) -> pd.DataFrame:
    """Test the named steps, each with the readings that are evidence for it.

    Parameters
    ----------
    buttons
        One row per button, with ``diameter_mm``, ``diameter_step_mm`` and ``diameter_unit``.
    n_surveys
        Number of simulated surveys; the limit ``simulated-surveys`` if not given.
    seed
        Seed of their random numbers: the same seed gives the same answer.

    Returns
    -------
    DataFrame
        The tested rows of :func:`buttonstudy.study.sizes.spacing_readings.showable_steps` with
        ``height`` (quantogram), ``high_without`` (height that simulated surveys without a step
        exceed as seldom as the limit ``confidence`` allows), ``chance`` (share of them that
        reach the height), ``chance_holm`` (adjusted for the steps tested together: Holm 1979,
        Scandinavian Journal of Statistics 6:65), ``surveys`` and ``answer``: "shown", "not
        shown" or "cannot be tested".

    Notes
    -----
    At one step fixed beforehand Kendall's quantogram (1974, Phil Trans R Soc A 276:231) is the
    V test of Greenwood & Durand 1955 (Annals of Mathematical Statistics 26:233).
    """
    readings = spacing_readings(buttons)
    draws = int(limit("simulated-surveys")) if n_surveys is None else n_surveys
    table = showable_steps(buttons)
    table = table[table["tested"]].reset_index(drop=True)
    tested = [step for step in spacing_steps() if step.tested]
    found = np.array([_tested(readings, step, draws, seed) for step in tested])
    table["height"], table["high_without"], table["chance"] = found.T
    table["chance_holm"] = holm(table["chance"].to_numpy(dtype=float))
    table["surveys"] = draws
    shown = table["chance_holm"] <= 1 - limit("confidence") / 100
    table["answer"] = np.where(shown, "shown", "not shown")
    table.loc[table["chance"].isna(), "answer"] = "cannot be tested"
    return table


def search_spacing(
    buttons: pd.DataFrame, *, n_surveys: int | None = None, seed: int = 1
) -> SpacingSearch:
    """Search all steps within the limits for the one that stands out most.

    Parameters
    ----------
    buttons, n_surveys, seed
        As for :func:`spacing_tests`.

    Notes
    -----
    Kendall 1974, Phil Trans R Soc A 276:231, on a grid even in 1/q. The heights are studentised
    before the highest is taken: where rulers alone lift some steps, the raw highest value would
    be theirs. In simulated surveys of mixed rulers without a step, 5 % of the searches found
    one at the 5 % level. The search is exploratory; a step named beforehand is better tested
    with :func:`spacing_tests`.
    """
    readings = spacing_readings(buttons)
    draws = int(limit("simulated-surveys")) if n_surveys is None else n_surveys
    sizes = readings["size_mm"].to_numpy(dtype=float)
    rounding = readings["rounding_mm"].to_numpy(dtype=float)
    reach = float(np.ptp(sizes)) if len(sizes) else 0.0
    steps = step_grid(limit("spacing-smallest-step"), limit("spacing-largest-step"), reach)
    share, fewest = limit("spacing-finest-share"), int(limit("spacing-fewest-sets"))
    waves, usable = waves_of(sizes, rounding, steps, finest_share=share, fewest=fewest)
    table = pd.DataFrame({"step_mm": steps, "usable": usable, "height": waves})
    if not np.isfinite(waves).any():
        empty = dict.fromkeys(("mean_without", "high_without", "studentised"), np.nan)
        return SpacingSearch(table.assign(**empty), pd.DataFrame(columns=list(_PEAK_COLUMNS)))
    null = simulated_waves(
        sizes, rounding, steps, finest_share=share, fewest=fewest, draws=draws, seed=seed
    )
    table["mean_without"] = null.mean
    table["high_without"] = np.quantile(null.waves, limit("confidence") / 100, axis=0)
    table["studentised"] = (waves - null.mean) / np.where(null.spread > 0, null.spread, np.nan)
    best, height, chance = highest_studentised(waves, null)
    near = [step for step in spacing_steps() if _near(step, steps[best], reach)]
    fine = rounding <= steps[best] * share + 1e-6
    written = readings["unit"].isin([unit for step in near for unit in step.own_units])
    peak = {
        "step_mm": steps[best],
        "near": "; ".join(step.name for step in near),
        "usable": int(usable[best]),
        "own_unit": int((fine & written.to_numpy(dtype=bool)).sum()),
        "height": waves[best],
        "studentised": height,
        "chance": chance,
        "surveys": draws,
        "stands_out": chance <= 1 - limit("confidence") / 100,
    }
    return SpacingSearch(table, pd.DataFrame([peak], columns=list(_PEAK_COLUMNS)))


def _tested(
    readings: pd.DataFrame, step: SpacingStep, draws: int, seed: int
) -> tuple[float, float, float]:
    """Give a step's height, the height seldom exceeded without it, and the chance of it."""
    usable = readings[usable_readings(readings, step)]
    if len(usable) < limit("spacing-fewest-sets"):
        return float("nan"), float("nan"), float("nan")
    sizes = usable["size_mm"].to_numpy(dtype=float)
    rounding = usable["rounding_mm"].to_numpy(dtype=float)
    steps = np.array([float(step.mm)])
    height = float(waves_of(sizes, rounding, steps)[0][0])
    null = simulated_waves(sizes, rounding, steps, draws=draws, seed=seed).waves[:, 0]
    chance = (1 + int((null >= height - 1e-9).sum())) / (1 + draws)
    return height, float(np.quantile(null, limit("confidence") / 100)), chance


def _near(step: SpacingStep, found_mm: float, reach: float) -> bool:
    """Say whether a named step lies within the width of a peak, which is 1/(2 x range) in 1/q."""
    return abs(1 / float(step.mm) - 1 / found_mm) <= 1 / (2 * max(reach, found_mm))
