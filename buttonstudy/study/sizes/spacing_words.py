"""Says in plain sentences what the sizes tell about a common step, and what they cannot tell."""

from fractions import Fraction

import pandas as pd

from buttonstudy.schemes import limit, units
from buttonstudy.study.sizes.spacing import SpacingSearch
from buttonstudy.study.telling.words import listed, number_of

__all__ = ["search_sentence", "showable_sentence", "spacing_findings", "step_sentence"]


def spacing_findings(
    showable: pd.DataFrame, tests: pd.DataFrame, search: SpacingSearch
) -> list[str]:
    """Say first what could be shown, then what each named step and the free search gave.

    Steps that cannot be tested are told once, where it is said what could be shown.
    """
    tested = tests[tests["answer"] != "cannot be tested"]
    return [
        *(showable_sentence(row) for _, row in showable.iterrows()),
        *(step_sentence(row) for _, row in tested.iterrows()),
        search_sentence(search),
    ]


def showable_sentence(row: pd.Series) -> str:
    """Say one row of :func:`buttonstudy.study.sizes.spacing_readings.showable_steps`."""
    if row["usable"] < limit("spacing-fewest-sets"):
        return _cannot(row)
    sets = f"{number_of(row['usable'], 'set')} could tell about a step of {row['step']}"
    if row["could_show"] == "no":
        return f"{sets}: too few to show it even in exact work."
    scatter = f"within about {row['largest_scatter_mm']:.2f} mm of it (standard deviation)"
    if row["could_show"] == "yes":
        return f"{sets}; they would show it if makers kept {scatter}."
    usual = f"{limit('spacing-workmanship'):g} mm"
    return (
        f"{sets}; they would show it only if makers kept {scatter}, and hand work is hardly so "
        f"close: {usual} is more usual."
    )


def step_sentence(row: pd.Series) -> str:
    """Say one row of :func:`buttonstudy.study.sizes.spacing.spacing_tests`."""
    if row["answer"] == "cannot be tested":
        return _cannot(row)
    sets = f"The {number_of(row['usable'], 'set')} that could tell"
    heights = (
        f"height {row['height']:.1f}; without a step {row['high_without']:.1f} is seldom passed"
    )
    alike = _alike(row["chance"], row["surveys"])
    if row["answer"] == "shown":
        return (
            f"{sets} have sizes that sit on steps of {row['step']} more than rulers and chance "
            f"explain ({heights}): {alike} is it as high. Sizes on multiples of a step also sit on "
            f"its halves and thirds, and few sizes on some other steps too: of several steps "
            f"shown, the highest counts for most."
        )
    close = f"makers who kept within {row['largest_scatter_mm']:.2f} mm would have been seen"
    hidden = close if row["largest_scatter_mm"] > 0 else "so few sets would not show it either way"
    return (
        f"{sets} show no step of {row['step']} ({heights}): {alike} is it as high. This does not "
        f"say that there was none; {hidden}."
    )


def search_sentence(search: SpacingSearch) -> str:
    """Say what a free search over all steps found."""
    if search.peak.empty:
        fewest = int(limit("spacing-fewest-sets"))
        return (
            f"No step can be searched for: nowhere are {fewest} sets read finely enough to tell a "
            f"step from the ruler's own divisions."
        )
    row = search.peak.iloc[0]
    line = float(units()["lines"])
    step = f"{row['step_mm']:.2f} mm ({row['step_mm'] / line:.1f} button lines)"
    found = f"Of all steps searched, {step} stands out most, in {number_of(row['usable'], 'set')}"
    alike = _alike(row["chance"], row["surveys"])
    if not row["stands_out"]:
        return f"{found}; but chance and the rulers explain it: {alike} some step does so."
    near = f" It cannot be told from {listed(row['near'].split('; '))}." if row["near"] else ""
    heap = ""
    if row["own_unit"] > 0:
        heap = (
            f" {number_of(row['own_unit'], 'reading')} of these are written in its own unit, so "
            f"that it may be the recorders' liking for round values."
        )
    return f"{found}: {alike} does any step do so.{near}{heap}"


def _alike(chance: float, surveys: int) -> str:
    """Word a chance as a count of simulated surveys."""
    reached = round(chance * (1 + surveys)) - 1
    number = "none" if reached <= 0 else f"{reached:,}"
    return f"in {number} of {surveys:,} simulated surveys without any step"


def _cannot(row: pd.Series) -> str:
    """Say why a step cannot be tested."""
    step = f"A step of {row['step']} cannot be tested"
    if row["sets"] == 0:
        return f"{step}: no set has a diameter whose rounding is known."
    parts = []
    if row["too_coarse"]:
        parts.append(
            f"{row['too_coarse']:,} were read more coarsely than "
            f"to {row['finest_needed_mm']:.2f} mm"
        )
    if row["own_unit"]:
        parts.append(f"{row['own_unit']:,} are written in the step's own unit or one that fits it")
    if row["usable"]:
        parts.append(f"only {row['usable']:,} could tell")
    said = f"{step}: of {number_of(row['sets'], 'set')}, {listed(parts)}."
    if not row["ruler_steps"]:
        return said
    ruler, same = row["commonest_ruler"], _times(row["ruler_steps"], row["step"])
    exactly = "" if same == ruler else f", which is exactly {same}"
    return (
        f"{said} Most were read to {ruler}{exactly}: such sizes sit on that step, or on its half, "
        f"whoever made the buttons."
    )


def _times(steps: str, name: str) -> str:
    """Word a multiple of a named step: 5/2 of "2 button lines" is "5 button lines"."""
    number, _, unit = name.partition(" ")
    total = Fraction(steps) * Fraction(number)
    if unit == "in":
        return f"{total} in"
    word = unit if total != 1 else unit.removesuffix("s")
    plural = word if total == 1 or word.endswith("s") or unit == "mm" else f"{word}s"
    return f"{float(total):g} {plural}"
