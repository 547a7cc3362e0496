"""The record finished: every column there with its type, sizes classed, blanks given meaning.

Runs once over all files together, on whole columns.
"""

from collections.abc import Sequence
from functools import cache
from typing import Literal

import numpy as np
import numpy.typing as npt
import pandas as pd

from buttonstudy.readings.blanks import blank_state
from buttonstudy.schemes import OPENED, SizeClassScheme, fields, units
from buttonstudy.survey.trade import trade_sizes

STATES = ("absent", "not examined", "unclear")
COUNT_STATES = ("counted", "bounded", "not examined", "unclear")
_ENDS = {  # how a field's columns are called, by the field's kind
    "length": ("_mm", "_mm_low", "_mm_high", "_wording"),
    "count": ("_low", "_high", "_state", "_wording"),
    "date": ("_wording",),
}
_FURTHER = (
    *("file", "sheet", "row", "year_from", "year_to", "date_basis"),
    *("diameter_lines", "diameter_lines_low", "diameter_lines_high"),
    *("diameter_unit", "diameter_step_mm", "sizes_agree"),
    *("trade_lines", "trade_lines_from", "size_class", "size_class_borderline"),
)


def finish_records(frame: pd.DataFrame, size_classes: SizeClassScheme) -> pd.DataFrame:
    """Complete the record.

    Parameters
    ----------
    frame
        Records of all tables, with the fields that were found.
    size_classes
        The size-class scheme in force.

    Returns
    -------
    pandas.DataFrame
        One row per record, columns in the record's order and of the record's types, then the
        columns that were carried through.
    """
    frame = frame.reset_index(drop=True)
    done: dict[str, pd.Series] = {
        "button_id": _text(frame, "button_id"),
        "set_id": _text(frame, "set_id"),
        "recorder": _text(frame, "recorder"),
        "file": frame["file"].astype("str"),
        "sheet": frame["sheet"].astype("str"),
        "row": frame["row"].astype("Int64"),
    }
    done |= _sizes(frame, size_classes)
    done |= {
        "year_from": _number(frame, "year_from", "Int64"),
        "year_to": _number(frame, "year_to", "Int64"),
        "date_basis": _text(frame, "date_basis"),
    }
    opened = _category(_text(frame, "opened"), OPENED)
    unopened = (opened == "not opened").to_numpy(dtype=bool)
    for one in fields():
        if one.kind == "term":
            values = _text(frame, one.field)
            done[one.field] = _terms(values, _hidden(values, one.inside, unopened))
        elif one.kind == "count":
            done |= _counts(frame, one.field, one.inside, unopened)
        elif one.kind == "opened":
            done[one.field] = opened
        elif one.kind == "text" and one.field not in done:
            done[one.field] = _text(frame, one.field)
    for one in fields():
        done[f"{one.field}_wording"] = _text(frame, f"{one.field}_wording")
    done["hole_fill"] = _nothing_to_fill(done)
    carried = {name: frame[name].astype("str") for name in frame.columns if name not in done}
    return pd.DataFrame(done | carried)


@cache
def record_columns() -> frozenset[str]:
    """Name the record's own columns, which no carried column may be called."""
    own = (one.field + end for one in fields() for end in _ENDS.get(one.kind, ("", "_wording")))
    return frozenset([*own, *_FURTHER])


def _hidden(
    values: pd.Series, inside: bool, unopened: npt.NDArray[np.bool_]
) -> npt.NDArray[np.bool_]:
    """Tell where a blank means that nobody could see: inside features of unopened buttons."""
    return values.isna().to_numpy() & unopened & inside


def _nothing_to_fill(done: dict[str, pd.Series]) -> pd.Series:
    """Read "none" under the fill of a mould without a hole as nothing to fill, not as left open."""
    fill = done["hole_fill"]
    solid = (
        ((fill == "open") & (done["mould_hole"] == STATES[0])).fillna(False).to_numpy(dtype=bool)
    )
    if not solid.any():
        return fill
    places = np.flatnonzero(solid)
    words = done["hole_fill_wording"].iloc[places]
    plain = [place for place, text in zip(places, words) if blank_state(str(text)) == STATES[0]]
    return fill.mask(np.isin(np.arange(len(fill)), plain), STATES[0])


def _sizes(frame: pd.DataFrame, scheme: SizeClassScheme) -> dict[str, pd.Series]:
    done: dict[str, pd.Series] = {}
    for field in ("diameter", "mould_diameter", "height", "hole_diameter"):
        for name in (f"{field}_mm", f"{field}_mm_low", f"{field}_mm_high"):
            done[name] = _number(frame, name, "Float64")
        if field == "diameter":
            for end in ("", "_low", "_high"):
                done[f"diameter_lines{end}"] = done[f"diameter_mm{end}"] / float(units()["lines"])
            done["diameter_unit"] = _text(frame, "diameter_unit").astype("category")
            done["diameter_step_mm"] = _number(frame, "diameter_step_mm", "Float64")
            done["sizes_agree"] = _number(frame, "sizes_agree", "boolean")
    done |= trade_sizes(done)
    done |= _classes(done, scheme)
    return done


def _classes(done: dict[str, pd.Series], scheme: SizeClassScheme) -> dict[str, pd.Series]:
    """Class each size; exactly on an edge is still the smaller class."""
    edges = np.array(scheme.edges_mm())
    labels = [one.label for one in scheme.classes]

    def place(size: pd.Series) -> npt.NDArray[np.intp]:
        return np.searchsorted(
            edges, np.round(size.to_numpy(dtype=float, na_value=np.nan), 6), side="left"
        )

    best, low, high = (done[f"diameter_mm{end}"] for end in ("", "_low", "_high"))
    known = best.notna().to_numpy()
    codes = np.minimum(place(best), len(labels) - 1)
    borderline = pd.Series(pd.array(place(low) != place(high), dtype="boolean"))
    return {
        "size_class": pd.Series(
            pd.Categorical.from_codes(
                np.where(known, codes, -1), categories=pd.Index(labels), ordered=True
            )
        ),
        "size_class_borderline": borderline.mask(~known),
    }


def _counts(
    frame: pd.DataFrame, field: str, inside: bool, unopened: npt.NDArray[np.bool_]
) -> dict[str, pd.Series]:
    state = _text(frame, f"{field}_state")
    return {
        f"{field}_low": _number(frame, f"{field}_low", "Int64"),
        f"{field}_high": _number(frame, f"{field}_high", "Int64"),
        f"{field}_state": _category(state, COUNT_STATES, _hidden(state, inside, unopened)),
    }


def _terms(values: pd.Series, hidden: npt.NDArray[np.bool_]) -> pd.Series:
    """Make a category of terms in alphabetical order, the three states last."""
    found = set(values.dropna().unique())
    order = [*sorted(found - set(STATES)), *STATES]
    return _category(values, order, hidden)


def _category(
    values: pd.Series, order: Sequence[str], hidden: npt.NDArray[np.bool_] | None = None
) -> pd.Series:
    """Make a category from its distinct values; where hidden, the state is "not examined"."""
    codes, found = pd.factorize(values)
    place = {name: at for at, name in enumerate(order)}
    # A missing value has the code -1, which takes the last place, and that is missing again.
    placed = np.array([*(place.get(one, -1) for one in found), -1], dtype=np.intp)[codes]
    if hidden is not None:
        placed[hidden] = place[STATES[1]]
    return pd.Series(pd.Categorical.from_codes(placed, categories=pd.Index(order)))


def _text(frame: pd.DataFrame, name: str) -> pd.Series:
    return frame[name].astype("str") if name in frame else _missing(len(frame), "str")


def _number(
    frame: pd.DataFrame, name: str, kind: Literal["Int64", "Float64", "boolean"]
) -> pd.Series:
    return frame[name].astype(kind) if name in frame else _missing(len(frame), kind)


def _missing(rows: int, kind: Literal["str", "Int64", "Float64", "boolean"]) -> pd.Series:
    """Give a column in which nothing is recorded."""
    return pd.Series(pd.array([None], dtype=kind).take(np.zeros(rows, dtype=np.intp)))
