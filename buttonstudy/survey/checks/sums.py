"""Rows at a sheet's end whose diameter is the sum or the mean of the others': perhaps no button."""

from collections.abc import Iterator

import numpy as np
import pandas as pd

from buttonstudy.schemes import fields, limit
from buttonstudy.survey.checks.finding import Finding, has_text, numbers

__all__ = ["sum_findings"]


def sum_findings(buttons: pd.DataFrame) -> Iterator[Finding]:
    """Tell the last rows of a sheet that hold a diameter only, where it adds the others up."""
    low, best, high = (numbers(buttons, f"diameter_mm{end}") for end in ("_low", "", "_high"))
    told = np.zeros(len(buttons), dtype=np.intp)
    for name in _other_wordings(buttons):
        told += has_text(buttons, name)
    places = buttons.groupby(["file", "sheet"], sort=False, dropna=False).indices
    for here in places.values():
        more = told[here]
        if np.median(more) < limit("sum-row-usual-cells"):
            continue
        last = np.flatnonzero(more > 0).max(initial=-1) + 1
        others = best[here[:last]]
        others = others[~np.isnan(others)]
        if len(others) < limit("sum-row-fewest"):
            continue
        for place in map(int, here[last:]):
            for name, value in (("sum", others.sum()), ("mean", others.mean())):
                if low[place] <= value <= high[place]:
                    says = (
                        f"This row holds little but a diameter of {best[place]:.4g} mm, and that "
                        f"is the {name} of the {len(others)} diameters above it."
                    )
                    yield Finding("size-sums-up", place, says, "diameter")


def _other_wordings(buttons: pd.DataFrame) -> list[str]:
    others = [one.field for one in fields() if one.kind != "id" and one.field != "diameter"]
    names = [f"{field}_wording" for field in others]
    return [name for name in names if name in buttons]
