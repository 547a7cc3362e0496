"""Sizes that do not fit their survey, or do not fit one another.

A size far from all others is told only where it stands alone: real surveys hold tiny and huge
buttons. Where a common slip would bring it back among the others, the slip is named.
"""

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt
import pandas as pd

from buttonstudy.readings.lengths.reading import read_lengths
from buttonstudy.schemes import fields, limit
from buttonstudy.schemes.findings import Slip, slips
from buttonstudy.survey.checks.finding import Finding, Floats, Mask, numbers, words


def size_findings(buttons: pd.DataFrame, columns: pd.DataFrame | None = None) -> Iterator[Finding]:
    """Tell sizes that stand far from all others of their survey, and those that contradict others.

    With `columns`, sizes that were too large or too small to be read are looked at too.
    """
    files = words(buttons, "file")
    units = {} if columns is None else _units(columns)
    for field in (one.field for one in fields() if one.kind == "length"):
        sizes = numbers(buttons, f"{field}_mm")
        wordings = words(buttons, f"{field}_wording")
        for file in dict.fromkeys(files):
            here = np.flatnonzero(files == file)
            known = here[sizes[here] > 0]
            alone = _stands_alone(sizes[known])
            lone, others = known[alone], sizes[known[~alone]]
            if len(others) < limit("outlier-fewest"):
                continue
            for place in map(int, lone):
                yield _far(place, sizes[place], others, field)
            unread = here[np.isnan(sizes[here]) & (wordings[here] != "")]
            yield from _unread(unread, buttons, wordings, units, others, field)
    yield from _wider(buttons)


def _stands_alone(sizes: Floats) -> Mask:
    """Tell which sizes lie far from the others, with a gap between."""
    none = np.zeros(len(sizes), dtype=bool)
    if len(sizes) < limit("outlier-fewest"):
        return none
    logs = np.log(sizes)
    middle = np.median(logs)
    robust = 1.4826 * float(np.median(np.abs(logs - middle)))
    spread = max(robust, float(np.log(limit("outlier-least-spread"))))
    far = np.abs(logs - middle) > limit("outlier-spreads") * spread
    if not far.any() or far.mean() > limit("outlier-largest-share"):
        return none
    near = logs[~far]
    gap = np.where(logs > middle, logs - near.max(), near.min() - logs)
    alone: Mask = far & (gap > np.log(limit("outlier-gap")))
    return alone


def _far(place: int, size: float, others: Floats, field: str) -> Finding:
    low, middle, high = np.quantile(others, [0.05, 0.5, 0.95])
    fitting = _fitting(size, low, high)
    says = (
        f"A {field.replace('_', ' ')} of {size:.4g} mm stands far from all others: those of this "
        f"survey are about {middle:.3g} mm (most {low:.3g} to {high:.3g} mm).{_perhaps(fitting)}"
    )
    return Finding("size-outlier" if fitting else "size-unusual", place, says, field)


def _fitting(size: float, low: float, high: float) -> list[tuple[Slip, float]]:
    """Give the slips without which the size would lie among the others, and that size."""
    mended = [(slip, size / slip.factor) for slip in slips() if slip.alone]
    return [(slip, true) for slip, true in mended if low <= true <= high]


def _perhaps(fitting: list[tuple[Slip, float]]) -> str:
    told = "; or ".join(f"{slip.says} ({true:.3g} mm would fit)" for slip, true in fitting)
    return f" Perhaps {told}." if told else ""


def _units(columns: pd.DataFrame) -> dict[tuple[str, str, str], str]:
    return {
        (str(one.file), str(one.sheet), str(one.field)): str(one.unit)
        for one in columns.itertuples()
    }


def _unread(
    places: npt.NDArray[np.intp],
    buttons: pd.DataFrame,
    wordings: npt.NDArray[np.object_],
    units: dict[tuple[str, str, str], str],
    others: Floats,
    field: str,
) -> Iterator[Finding]:
    """Tell sizes that could not be a button's, where a common slip explains them."""
    sheets, files = words(buttons, "sheet"), words(buttons, "file")
    sizes: dict[tuple[str, str], float] = {}
    for place in map(int, places):
        key = str(wordings[place]), units.get((files[place], sheets[place], field), "")
        if key not in sizes:
            found = read_lengths(key[0], key[1] or None).lengths
            sizes[key] = found[0].best if len(found) == 1 else np.nan
        if sizes[key] > 0:
            finding = _far(place, sizes[key], others, field)
            if finding.kind == "size-outlier":
                yield finding


def _wider(buttons: pd.DataFrame) -> Iterator[Finding]:
    """Tell what is wider than what holds it, beyond the readings' own precision."""
    no_mould = np.isnan(numbers(buttons, "mould_diameter_mm"))
    out_of_round = limit("mould-out-of-round")
    for kind, inner, outer, slack, where in (
        ("hole-wider-than-mould", "hole_diameter", "mould_diameter", 0.0, ~no_mould),
        ("hole-wider-than-mould", "hole_diameter", "diameter", 0.0, no_mould),
        ("mould-wider-than-button", "mould_diameter", "diameter", out_of_round, ~no_mould),
    ):
        low, high = numbers(buttons, f"{inner}_mm_low"), numbers(buttons, f"{outer}_mm_high")
        best = numbers(buttons, f"{inner}_mm"), numbers(buttons, f"{outer}_mm")
        for place in np.flatnonzero(where & (low > high + slack)):
            says = (
                f"The {inner.replace('_', ' ')} ({best[0][place]:.4g} mm) is more than the "
                f"{outer.replace('_', ' ')} ({best[1][place]:.4g} mm)."
            )
            yield Finding(kind, int(place), says, inner)
