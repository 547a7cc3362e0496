"""A finding about a whole record, and findings made into rows of the survey's problems."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import pandas as pd

from buttonstudy.schemes.findings import finding_kinds
from buttonstudy.survey.problems import COLUMNS, LEVELS

Mask = npt.NDArray[np.bool_]
Floats = npt.NDArray[np.float64]
NOT_CLEAR = ("not examined", "unclear")
ABSENT = "absent"


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding.

    Parameters
    ----------
    kind
        Its code in ``findings.csv``.
    place
        The record's place in the survey, from 0.
    says
        What was found in this record, a full sentence; the kind's rule is put behind it.
    field
        The field whose column is named; ``""`` for the record as a whole.
    """

    kind: str
    place: int
    says: str
    field: str = ""


def told(
    findings: Sequence[Finding], buttons: pd.DataFrame, columns: pd.DataFrame | None = None
) -> pd.DataFrame:
    """Make findings into problems.

    Parameters
    ----------
    findings
        What was found.
    buttons
        The record.
    columns
        What each heading was taken for, to name the column; without it no column is named.

    Returns
    -------
    pandas.DataFrame
        The columns of ``survey.problems``, in the record's order.
    """
    findings = sorted(findings, key=lambda one: one.place)
    at = [one.place for one in findings]
    kinds = [finding_kinds()[one.kind] for one in findings]
    names = column_names(columns)
    files, sheets = words(buttons, "file")[at], words(buttons, "sheet")[at]
    worded = {
        field: words(buttons, f"{field}_wording") for field in {one.field for one in findings}
    }
    frame = pd.DataFrame(
        {
            "file": files,
            "sheet": sheets,
            "row": buttons["row"].iloc[at].array,
            "column": [
                names.get((file, sheet, one.field), "")
                for file, sheet, one in zip(files, sheets, findings)
            ],
            "wording": [worded[one.field][one.place] for one in findings],
            "problem": [f"{one.says} {kind.rule}" for one, kind in zip(findings, kinds)],
            "what_to_do": [kind.what_to_do for kind in kinds],
            "kind": [one.kind for one in findings],
            "level": [kind.level for kind in kinds],
        },
        columns=list(COLUMNS),
    )
    texts = [name for name in COLUMNS if name not in ("row", "level")]
    frame[texts] = frame[texts].astype("str")
    frame["row"] = frame["row"].astype("Int64")
    frame["level"] = pd.Categorical(frame["level"], categories=list(LEVELS), ordered=True)
    return frame


def column_names(columns: pd.DataFrame | None) -> Mapping[tuple[str, str, str], str]:
    """Name the column of each field by file, sheet and field; a field in several has none."""
    if columns is None:
        return {}
    names: dict[tuple[str, str, str], str] = {}
    wanted = ("file", "sheet", "field", "column", "heading")
    for file, sheet, field, letter, heading in zip(*(columns[name].fillna("") for name in wanted)):
        if field:
            name = f"{letter}: {heading}" if heading else letter
            names[file, sheet, field] = "" if (file, sheet, field) in names else name
    return names


def words(buttons: pd.DataFrame, name: str) -> npt.NDArray[np.object_]:
    """Give a column as plain texts, blank where missing or where there is no such column."""
    if name not in buttons:
        return np.full(len(buttons), "", dtype=object)
    return buttons[name].to_numpy(dtype=object, na_value="")


def has_text(buttons: pd.DataFrame, name: str) -> Mask:
    """Tell where a column of texts holds any; blank ones are missing."""
    return buttons[name].notna().to_numpy(dtype=bool)


def numbers(buttons: pd.DataFrame, name: str) -> Floats:
    """Give a column as plain numbers."""
    return buttons[name].to_numpy(dtype=float, na_value=np.nan)


def is_clear(buttons: pd.DataFrame, field: str) -> Mask:
    """Tell where a term was examined with a clear answer, absence among them."""
    return _by_name(buttons[field], lambda name: name not in NOT_CLEAR)


def is_named(buttons: pd.DataFrame, field: str) -> Mask:
    """Tell where a term is named that is there."""
    return is_clear(buttons, field) & ~is_absent(buttons, field)


def is_absent(buttons: pd.DataFrame, field: str) -> Mask:
    """Tell where a feature was looked for and was not there."""
    return _by_name(buttons[field], lambda name: name == ABSENT)


def holds(values: pd.Series, term: str) -> Mask:
    """Tell where a column of terms names one, by itself or with others."""
    return _by_name(values, lambda name: term in name.split("; "))


def _by_name(values: pd.Series, fits: Callable[[str], bool]) -> Mask:
    """Judge each name of a category once, and tell the rows; a missing value never fits."""
    judged = [*(fits(str(name)) for name in values.cat.categories), False]
    return np.array(judged, dtype=bool)[values.cat.codes.to_numpy()]


def row_names(buttons: pd.DataFrame) -> list[str]:
    """Name each record by its file, sheet and row, for use in a sentence."""
    files, sheets, rows = (words(buttons, name) for name in ("file", "sheet", "row"))
    return [
        f'{file}, sheet "{sheet}", row {row}' if sheet else f"{file}, row {row}"
        for file, sheet, row in zip(files, sheets, rows)
    ]


def listed(parts: Sequence[str], number: int) -> str:
    """List the first three of `number` parts and count the others."""
    shown = "; ".join(parts[:3])
    return shown if number <= 3 else f"{shown} and {number - 3} more places"
