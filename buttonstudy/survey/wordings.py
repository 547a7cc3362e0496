"""What every wording was read as: each once, with how often it stands and where first.

A term that was understood only in part, a slip that was read as the word it resembles, or a
wording that means something else in this survey tells itself nowhere. In one table of all wordings
it can be seen.
"""

from collections.abc import Sequence
from typing import Any

import pandas as pd

from buttonstudy.readings.terms.medium import MEDIUM_FIELDS, read_medium
from buttonstudy.readings.terms.reading import read_terms
from buttonstudy.schemes import Field, Vocabulary, fields
from buttonstudy.survey.mapping import MEDIUM

__all__ = ["different_wordings", "wordings_read"]

_COLUMNS = (
    *("field", "wording", "read_as", "passed_over", "records"),
    *("first_file", "first_sheet", "first_row"),
)
_BETWEEN = " … "
_VALUES = {  # the columns that hold what was read, by the field's kind
    "term": ("{}",),
    "opened": ("{}",),
    "length": ("{}_mm_low", "{}_mm_high"),
    "date": ("year_from", "year_to"),
    "count": ("{}_low", "{}_high", "{}_state"),
}


def wordings_read(
    buttons: pd.DataFrame, columns: pd.DataFrame, vocabulary: Vocabulary
) -> pd.DataFrame:
    """Give every distinct wording and what it was read as.

    Parameters
    ----------
    buttons, columns
        Tables of a survey as understood.
    vocabulary
        The vocabulary with which it was read.

    Returns
    -------
    pandas.DataFrame
        One row for each field, wording and what it was read as, in the order of the fields, of
        what was read, and of how often: columns ``field, wording, read_as, passed_over, records,
        first_file, first_sheet, first_row``. `read_as` is empty where nothing was read, and
        `passed_over` where no word was passed over. Identifiers, names and remarks, which are
        kept as they are, are not among them.

    Examples
    --------
    >>> from buttonstudy.schemes import vocabulary
    >>> buttons = pd.DataFrame({"file": "a.csv", "sheet": "", "row": [2, 3, 4],
    ...     "padding": ["wool", "wool", "wool"],
    ...     "padding_wording": ["wool", "wool of a ewe", "wool"]})
    >>> columns = pd.DataFrame({"file": ["a.csv"], "field": ["padding"]})
    >>> told = wordings_read(buttons, columns, vocabulary())
    >>> told[["wording", "read_as", "passed_over", "records", "first_row"]].values.tolist()
    [['wool', 'wool', '', 2, 2], ['wool of a ewe', 'wool', 'ewe', 1, 3]]
    """
    parts = [_of_field(one, buttons) for one in fields() if one.kind in _VALUES]
    found = [part for part in parts if len(part)]
    if not found:
        return pd.DataFrame(columns=list(_COLUMNS), dtype="str")
    told = pd.concat(found, ignore_index=True)
    told["passed_over"] = _passed(told, columns, vocabulary)
    return told[list(_COLUMNS)]


def different_wordings(buttons: pd.DataFrame) -> int:
    """Count the different wordings of each field that is understood, all fields together."""
    names = (f"{one.field}_wording" for one in fields() if one.kind in _VALUES)
    return sum(buttons[name].nunique() for name in names if name in buttons)


def _of_field(field: Field, buttons: pd.DataFrame) -> pd.DataFrame:
    """Give the distinct wordings of one field, those read alike together, the commonest first."""
    wording = f"{field.field}_wording"
    values = [form.format(field.field) for form in _VALUES[field.kind]]
    if not {wording, *values} <= set(buttons.columns):
        return pd.DataFrame()
    filled = buttons.loc[buttons[wording].notna(), [wording, *values, "file", "sheet", "row"]]
    number = filled.groupby([wording, *values], sort=False, dropna=False, observed=True).ngroup()
    first = filled[~number.duplicated()]
    first = first.assign(records=number.value_counts(sort=False).sort_index().to_numpy())
    rising = [*[True] * len(values), False]
    first = first.sort_values(
        [*values, "records"], ascending=rising, kind="stable", na_position="first"
    )
    read = first[values].astype(object)
    said = [_said(field.kind, some) for some in read.where(read.notna(), None).to_numpy().tolist()]
    places = {name: f"first_{name}" for name in ("file", "sheet", "row")}
    first = first.rename(columns=places | {wording: "wording"})
    return first.assign(field=field.field, read_as=said).drop(columns=values)


def _said(kind: str, values: Sequence[Any]) -> str:
    """Put what was read into words; nothing where a value is missing."""
    if kind == "count":
        return _counted(*values)
    if None in values:
        return ""
    if kind == "length":
        return " to ".join(f"{end:.2f}" for end in values) + " mm"
    return " to ".join(dict.fromkeys(map(str, values)))


def _counted(low: object, high: object, state: object) -> str:
    if low is None:
        return str(state or "")
    return f"{low} or more" if high is None else " to ".join(dict.fromkeys((f"{low}", f"{high}")))


def _passed(told: pd.DataFrame, columns: pd.DataFrame, vocabulary: Vocabulary) -> list[str]:
    """Give for each wording the words that were passed over in it."""
    terms = {one.field for one in fields() if one.kind == "term"}
    taken = set(zip(columns["file"], columns["field"]))

    def passed(field: str, wording: str, file: str) -> str:
        if field not in terms:
            return ""
        if field in MEDIUM_FIELDS and (file, field) not in taken and (file, MEDIUM) in taken:
            return _BETWEEN.join(read_medium(wording, vocabulary).unknown)
        reading = read_terms(wording, field, vocabulary)
        return _BETWEEN.join((*reading.passed, *reading.beside))

    return [passed(*one) for one in zip(told["field"], told["wording"], told["first_file"])]
