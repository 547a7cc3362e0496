"""Shows what one button's record says, field by field."""

import numpy as np
import pandas as pd

from buttonstudy.schemes import Field, fields, rows
from buttonstudy.study.evidence.answers import NOT_EXAMINED, NOT_RECORDED, UNCLEAR, answers
from buttonstudy.study.evidence.columns import column, length_bounds, texts
from buttonstudy.study.evidence.keys import set_keys
from buttonstudy.study.one_button.by_number import place_in_words

__all__ = [
    "compared_fields",
    "record_findings",
    "record_table",
    "said_of",
    "trait_fields",
]


def record_findings(buttons: pd.DataFrame, row: int) -> list[str]:
    """Say which record it is, where it stands, its date, and the set that is left out with it.

    Parameters
    ----------
    buttons
        One row per button.
    row
        The record's place, as :func:`.one_button.by_number.find_record` gives it.
    """
    record = buttons.iloc[[row]]
    number, kept, recorder = (
        str(texts(record, name)[0]) for name in ("button_id", "set_id", "recorder")
    )
    place = place_in_words(str(texts(record, "file")[0]), str(texts(record, "sheet")[0]))
    line = column(record, "row").iloc[0]
    stands = f" It stands in {place}{f', row {line}' if pd.notna(line) else ''}." if place else ""
    hand = f" Noted by {recorder.rstrip('.')}." if recorder else ""
    keys = set_keys(buttons).to_numpy()
    matching = int((keys == keys[row]).sum())
    left_out = (
        f"The {matching:,} records of its set are left out of all that is counted below: matching "
        f"buttons are one piece of evidence."
        if matching > 1
        else "It is itself left out of all that is counted below."
    )
    return [
        f"Button {number}{f' of set {kept}' if kept else ''}.{stands}{hand} {_dated(record)}",
        left_out,
    ]


def _dated(record: pd.DataFrame) -> str:
    years = [column(record, name).iloc[0] for name in ("year_from", "year_to")]
    if all(pd.isna(year) for year in years):
        return "It has no date, so that it is held against all periods together."
    return f"It is dated {_years(record)}."


def _years(record: pd.DataFrame) -> str:
    first, last = (column(record, name).iloc[0] for name in ("year_from", "year_to"))
    if pd.isna(first) and pd.isna(last):
        return NOT_RECORDED
    if pd.isna(first):
        return f"{last} or earlier"
    if pd.isna(last):
        return f"{first} or later"
    return str(first) if first == last else f"{first} to {last}"


def record_table(buttons: pd.DataFrame, row: int) -> pd.DataFrame:
    """List what a record says, field by field, beside the cell as it was written.

    Returns
    -------
    DataFrame
        ``label``, ``says`` and ``wording`` (blank where the cell was), for each field with a
        size, date, term or count.
    """
    record = buttons.iloc[[row]]
    shown = [field for field in fields() if field.kind not in ("id", "text")]
    return pd.DataFrame(
        {
            "label": [field.label for field in shown],
            "says": [
                _years(record) if field.kind == "date" else said_of(record, field)[0]
                for field in shown
            ],
            "wording": [texts(record, f"{field.field}_wording")[0] for field in shown],
        }
    )


def compared_fields() -> tuple[Field, ...]:
    """List the fields by which buttons are compared, from ``resemblance_fields.csv``.

    Examples
    --------
    >>> [field.field for field in compared_fields()][:2]
    ['diameter', 'mould_diameter']
    """
    return _fields_with("compared")


def trait_fields() -> tuple[Field, ...]:
    """List the fields whose answers are traits of a button, from ``resemblance_fields.csv``.

    What befell a button since it was made is none.

    Examples
    --------
    >>> "cover_condition" in [field.field for field in trait_fields()]
    False
    """
    return _fields_with("trait")


def _fields_with(column: str) -> tuple[Field, ...]:
    known = {field.field: field for field in fields()}
    return tuple(known[row["field"]] for row in rows("resemblance_fields") if row[column] == "yes")


def said_of(buttons: pd.DataFrame, field: Field) -> list[str]:
    """Word what each record says of a field: its terms, its size, its count, or why nothing.

    Examples
    --------
    >>> size = compared_fields()[0]
    >>> said_of(pd.DataFrame({"diameter_mm": [16.0, None]}), size)
    ['16 mm', 'not recorded']
    """
    if field.kind == "length":
        _, best, _ = length_bounds(buttons, field.field)
        closed = (column(buttons, "opened") == "not opened").fillna(False).to_numpy(dtype=bool)
        blank = np.where(closed & field.inside, NOT_EXAMINED, NOT_RECORDED)
        return [
            str(missing) if np.isnan(size) else f"{size:.4g} mm"
            for size, missing in zip(best, blank)
        ]
    if field.kind == "count":
        found = answers(buttons, field.field)
        labels = np.array([*found.has.columns, ""], dtype=object)
        place = np.column_stack([found.has, ~found.examined]).argmax(axis=1)
        states = (NOT_RECORDED, UNCLEAR, NOT_EXAMINED)
        told = texts(buttons, f"{field.field}_state")
        other = np.where(np.isin(told, states), told, NOT_RECORDED)
        return [str(text) for text in np.where(found.examined, labels[place], other)]
    wording = texts(buttons, field.field)
    return [str(text) if text.strip() else NOT_RECORDED for text in wording]
