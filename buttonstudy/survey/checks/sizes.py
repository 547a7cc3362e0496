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
from buttonstudy.schemes import units as all_units
from buttonstudy.schemes.findings import Slip, slips
from buttonstudy.survey.checks.finding import Finding, Floats, Mask, has_text, numbers, words
from buttonstudy.survey.sizes import spelt_unit


def size_findings(buttons: pd.DataFrame) -> Iterator[Finding]:
    """Tell sizes that stand far from all others of their survey, or contradict others."""
    for field, known, others, _ in _by_file(buttons):
        read_in = words(buttons, f"{field}_unit")
        sizes = numbers(buttons, f"{field}_mm")
        for place in map(int, known):
            yield _far(place, sizes[place], others, field, str(read_in[place]))
    yield from _wider(buttons)


def unread_slips(buttons: pd.DataFrame, columns: pd.DataFrame) -> Iterator[tuple[int, str, str]]:
    """Give the slips that explain sizes that were not read: place, field, and a sentence."""
    units = _units(columns)
    for field, _, others, here in _by_file(buttons):
        sizes, written = numbers(buttons, f"{field}_mm"), has_text(buttons, f"{field}_wording")
        unread = here[np.isnan(sizes[here]) & written[here]]
        yield from _unread(unread, buttons, units, others, field)


def _by_file(
    buttons: pd.DataFrame,
) -> Iterator[tuple[str, npt.NDArray[np.intp], Floats, npt.NDArray[np.intp]]]:
    """Give for each length and file the sizes that stand alone, the others, and all records."""
    files, names = pd.factorize(buttons["file"])
    of_file = [np.flatnonzero(files == file) for file in range(len(names))]
    for field in (one.field for one in fields() if one.kind == "length"):
        sizes = numbers(buttons, f"{field}_mm")
        for here in of_file:
            known = here[sizes[here] > 0]
            alone = _stands_alone(sizes[known])
            lone, others = known[alone], sizes[known[~alone]]
            if len(others) < limit("outlier-fewest"):
                continue
            yield field, lone, others, here


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


def _far(place: int, size: float, others: Floats, field: str, unit: str) -> Finding:
    low, middle, high = np.quantile(others, [0.05, 0.5, 0.95])
    fitting = _fitting(size, low, high, unit)
    says = (
        f"A {field.replace('_', ' ')} of {size:.4g} mm stands far from all others: those of this "
        f"survey are about {middle:.3g} mm (most {low:.3g} to {high:.3g} mm)."
        f"{_perhaps(fitting, unit)}"
    )
    return Finding("size-outlier" if fitting else "size-unusual", place, says, field)


def _fitting(size: float, low: float, high: float, unit: str) -> list[tuple[Slip, float]]:
    """Give the slips without which the size would lie among the others, and that size."""
    mended = [(slip, size / slip.factor) for slip in slips() if slip.alone and slip.may_be_in(unit)]
    return [(slip, true) for slip, true in mended if low <= true <= high]


def _perhaps(fitting: list[tuple[Slip, float]], unit: str) -> str:
    told = "; or ".join(
        f"{slip.says} ({_would_be(true, '' if slip.read_in else unit)} would fit)"
        for slip, true in fitting
    )
    return f" Perhaps {told}." if told else ""


def _would_be(true: float, unit: str) -> str:
    """Give a size in mm, and first in the unit in which it was read."""
    if unit in ("", "mm"):
        return f"{true:.3g} mm"
    return f"{true / float(all_units()[unit]):.3g} {spelt_unit(unit)}, {true:.3g} mm"


def _units(columns: pd.DataFrame) -> dict[tuple[str, str, str], str]:
    return {
        (str(one.file), str(one.sheet), str(one.field)): str(one.unit)
        for one in columns.itertuples()
    }


def _unread(
    places: npt.NDArray[np.intp],
    buttons: pd.DataFrame,
    units: dict[tuple[str, str, str], str],
    others: Floats,
    field: str,
) -> Iterator[tuple[int, str, str]]:
    low, high = np.quantile(others, [0.05, 0.95])
    wordings = words(buttons, f"{field}_wording")
    sheets, files = words(buttons, "sheet"), words(buttons, "file")
    told: dict[tuple[str, str], str] = {}
    for place in map(int, places):
        key = str(wordings[place]), units.get((files[place], sheets[place], field), "")
        if key not in told:
            found = read_lengths(key[0], key[1] or None).lengths
            size, unit = (found[0].best, found[0].unit) if len(found) == 1 else (0.0, "")
            told[key] = _perhaps(_fitting(size, low, high, unit), unit).strip()
        if told[key]:
            yield place, field, told[key]


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
