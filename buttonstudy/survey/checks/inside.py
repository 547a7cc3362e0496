"""What is said of a button's inside and cover, held against what could be seen or can be."""

from collections.abc import Iterator

import numpy as np
import pandas as pd

from buttonstudy.schemes import fields, rows
from buttonstudy.survey.checks.finding import (
    Finding,
    Mask,
    holds,
    is_absent,
    is_clear,
    is_named,
    numbers,
    words,
)

_FELT = ("mould_shape", "mould_diameter")


def inside_findings(buttons: pd.DataFrame) -> Iterator[Finding]:
    """Tell insides of unopened buttons, layers without a cover, and holes that cannot be."""
    yield from _unopened(buttons)
    yield from _layers(buttons)
    yield from _holes(buttons)


def _unopened(buttons: pd.DataFrame) -> Iterator[Finding]:
    closed = (buttons["opened"] == "not opened").fillna(False).to_numpy(dtype=bool)
    for row in rows("bare_insides"):
        closed = closed & ~holds(buttons[row["field"]], row["term"])
    if not closed.any():
        return
    inside = [one for one in fields() if one.inside]
    said = np.column_stack([closed & _is_said(buttons, one.field, one.kind) for one in inside])
    felt = np.array([one.field in _FELT for one in inside])
    for place in np.flatnonzero(said.any(axis=1)):
        seen = said[place] & ~felt
        kind, which = ("inside-of-unopened", seen) if seen.any() else ("felt-through-cover", felt)
        named = [one for one, here in zip(inside, said[place] & which) if here]
        labels = ", ".join(one.label.lower() for one in named)
        yield Finding(
            kind,
            int(place),
            f"What is inside is noted ({labels}), though the button was not opened.",
            named[0].field,
        )


def _is_said(buttons: pd.DataFrame, field: str, kind: str) -> Mask:
    if kind == "length":
        return ~np.isnan(numbers(buttons, f"{field}_mm"))
    if kind == "count":
        return ~np.isnan(numbers(buttons, f"{field}_low"))
    return is_clear(buttons, field)


def _layers(buttons: pd.DataFrame) -> Iterator[Finding]:
    low, high = numbers(buttons, "cover_layers_low"), numbers(buttons, "cover_layers_high")
    for place in np.flatnonzero(is_absent(buttons, "cover_material") & (low >= 1)):
        says = "Layers of cover are counted on a button noted as without a cover."
        yield Finding("layers-without-cover", int(place), says, "cover_layers")
    lost = buttons["cover_condition"].isin(["lost"]).to_numpy(dtype=bool)
    covers = words(buttons, "cover_material")
    for place in np.flatnonzero(is_named(buttons, "cover_material") & (high == 0) & ~lost):
        says = f"A cover of {covers[place]} is noted, and no layer of it."
        yield Finding("cover-without-layers", int(place), says, "cover_layers")


def _holes(buttons: pd.DataFrame) -> Iterator[Finding]:
    without, with_hole = is_absent(buttons, "mould_hole"), is_named(buttons, "mould_hole")
    fills, holes = words(buttons, "hole_fill"), words(buttons, "mould_hole")
    for place in np.flatnonzero(without & is_named(buttons, "hole_fill")):
        says = f"The hole's fill is noted ({fills[place]}), and that the mould has no hole."
        yield Finding("hole-filled-without-hole", int(place), says, "hole_fill")
    for place in np.flatnonzero(with_hole & is_absent(buttons, "hole_fill")):
        says = f"A hole is noted ({holes[place]}), and that there is none to fill."
        yield Finding("hole-without-fill", int(place), says, "hole_fill")
    for place in np.flatnonzero(without & ~np.isnan(numbers(buttons, "hole_diameter_mm"))):
        says = "A hole's diameter is noted, and that the mould has no hole."
        yield Finding("hole-measured-without-hole", int(place), says, "hole_diameter")
