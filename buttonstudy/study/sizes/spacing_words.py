"""Says in plain sentences what the sizes tell about a common step, and what they cannot tell."""

from collections.abc import Callable
from fractions import Fraction

import pandas as pd

from buttonstudy.schemes import limit, units
from buttonstudy.study.sizes.spacing import SpacingSearch
from buttonstudy.study.telling.words import listed, number_of

__all__ = [
    "search_sentence",
    "showable_findings",
    "showable_sentence",
    "spacing_findings",
    "step_sentence",
]


def showable_findings(showable: pd.DataFrame) -> list[str]:
    """Say, before anything is looked for, which steps the survey could show.

    Steps of which the same is to be said are told together; the table has each by itself.

    Parameters
    ----------
    showable
        As :func:`buttonstudy.study.sizes.spacing_readings.showable_steps` gives it.
    """
    if not showable["sets"].any():
        return ["No step can be tested: no set has a diameter whose rounding is known."]
    fewest = limit("spacing-fewest-sets")
    enough = showable[showable["usable"] >= fewest]
    groups = [enough[enough["could_show"] == answer] for answer in ("yes", "only close work", "no")]
    return [
        *(_alone_or(showable_sentence, _could_together, rows) for rows in groups if len(rows)),
        *_cannot_together(showable[showable["usable"] < fewest]),
    ]


def spacing_findings(tests: pd.DataFrame, search: SpacingSearch) -> list[str]:
    """Say what each step that could be tested and the free search gave.

    Steps that cannot be tested are told where it is said what could be shown.

    Parameters
    ----------
    tests
        As :func:`buttonstudy.study.sizes.spacing.spacing_tests` gives it.
    search
        As :func:`buttonstudy.study.sizes.spacing.search_spacing` gives it.
    """
    shown, hidden = (tests[tests["answer"] == answer] for answer in ("shown", "not shown"))
    told = [step_sentence(row) for _, row in shown.iterrows()]
    if len(hidden):
        told.append(_not_shown(hidden))
    return [*told, search_sentence(search)]


def _alone_or(
    alone: Callable[[pd.Series], str], together: Callable[[pd.DataFrame], str], rows: pd.DataFrame
) -> str:
    return alone(rows.iloc[0]) if len(rows) == 1 else together(rows)


def _could_together(rows: pd.DataFrame) -> str:
    """Say steps that a survey could show alike well, or not at all."""
    sets = f"{_between(rows['usable'], '{:,.0f}')} sets could tell about steps of {_steps(rows)}"
    if rows["could_show"].iloc[0] == "no":
        return f"{sets}: too few to show them even in exact work."
    scatter = f"{_between(rows['largest_scatter_mm'], '{:.2f}')} mm of it (standard deviation)"
    if rows["could_show"].iloc[0] == "yes":
        return f"{sets}; they would show such a step if makers kept within about {scatter}."
    usual = f"{limit('spacing-workmanship'):g} mm"
    return (
        f"{sets}; they would show such a step only if makers kept within about {scatter}, and "
        f"hand work is hardly so close: {usual} is more usual."
    )


def _cannot_together(rows: pd.DataFrame) -> list[str]:
    """Say which steps cannot be tested, and once what the commonest ruler does to them."""
    if len(rows) < 2:
        return [_cannot(row) for _, row in rows.iterrows()]
    sets = number_of(int(rows["sets"].iloc[0]), "set")
    told = (
        f"Steps of {_steps(rows)} cannot be tested: of {sets}, too few were read to a quarter of "
        f"the step or finer, and in another unit than the step's own."
    )
    ruled = rows[rows["ruler_steps"] != ""]
    if ruled.empty:
        return [told]
    return [
        told,
        f"Most often they were read to {rows['commonest_ruler'].iloc[0]}: such sizes sit on "
        f"steps of {_steps(ruled)}, or on half of them, whoever made the buttons.",
    ]


def _not_shown(rows: pd.DataFrame) -> str:
    """Say what was looked for, that it was not found, and what could be there all the same."""
    sets = f"{_between(rows['usable'], '{:,.0f}')} sets that could tell"
    which = "Looked for and not found" if len(rows) == 1 else "Looked for together and not found"
    told = f"{which}: a step of {_steps(rows, 'or')}, in the {sets}"
    close = rows["largest_scatter_mm"].min()
    if close <= 0:
        return f"{told}. So few sets would not show a step either way."
    return (
        f"{told}. Makers who kept within {close:.2f} mm of such a step would have been seen; "
        f"looser work could still have had one."
    )


def _steps(rows: pd.DataFrame, last: str = "and") -> str:
    named = listed(rows["step"])
    return named if last == "and" else f" {last} ".join(named.rsplit(" and ", 1))


def _between(values: pd.Series, pattern: str) -> str:
    ends = [pattern.format(values.min()), pattern.format(values.max())]
    return ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"


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
    if row["answer"] == "not shown":
        return _not_shown(pd.DataFrame([row]))
    sets = f"The {number_of(row['usable'], 'set')} that could tell"
    heights = (
        f"height {row['height']:.1f}; without a step {row['high_without']:.1f} is seldom passed"
    )
    alike = _alike(row["chance"], row["surveys"])
    return (
        f"{sets} have sizes that sit on steps of {row['step']} more than rulers and chance "
        f"explain ({heights}): {alike} is it as high. Sizes on multiples of a step also sit on "
        f"its halves and thirds, and few sizes on some other steps too: of several steps "
        f"shown, the highest counts for most."
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
    near = (
        f" It cannot be told apart from {listed(row['near'].split('; '))}." if row["near"] else ""
    )
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
        f"{said} Most often they were read to {ruler}{exactly}: such sizes sit on "
        f"that step, or on its half, whoever made the buttons."
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
