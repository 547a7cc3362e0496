"""What every wording was read as: each once, with how often it stands and where first.

A term that was understood only in part, a slip that was read as the word it resembles, or a
wording that means something else in this survey tells itself nowhere. In one table of all wordings
it can be seen.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import numpy as np
import numpy.typing as npt
import pandas as pd

from buttonstudy.readings.terms.medium import MEDIUM_FIELDS, read_medium
from buttonstudy.readings.terms.reading import read_terms
from buttonstudy.schemes import Field, Vocabulary, fields
from buttonstudy.survey.mapping import MEDIUM
from buttonstudy.survey.records import carried_name

__all__ = ["different_wordings", "wordings_read"]

_COLUMNS = (
    *("field", "wording", "read_as", "passed_over", "records"),
    *("first_file", "first_sheet", "first_row"),
)
_BETWEEN = " … "
_ENDS = {"date_from": "date", "date_to": "date"}  # columns that are joined into another's field
_PLACE = ["file", "sheet"]
_TAKEN = ["file", "sheet", "field", "column", "heading"]
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
        `passed_over` where no word was passed over. Where a field stands in several columns of a
        sheet, each column's wording has a row of its own, behind the column's name, and is read
        as what all of them say together. A list of materials of which nothing is known has the
        field ``medium``. Identifiers, names and remarks, which are kept as they are, are not
        among them.

    Examples
    --------
    >>> from buttonstudy.schemes import vocabulary
    >>> buttons = pd.DataFrame({"file": "a.csv", "sheet": "", "row": [2, 3, 4],
    ...     "padding": ["wool", "wool", "wool"],
    ...     "padding_wording": ["wool", "wool of a ewe", "wool"]})
    >>> columns = pd.DataFrame({"file": ["a.csv"], "sheet": [""], "field": ["padding"],
    ...     "column": ["B"], "heading": ["Padding"]})
    >>> told = wordings_read(buttons, columns, vocabulary())
    >>> told[["wording", "read_as", "passed_over", "records", "first_row"]].values.tolist()
    [['wool', 'wool', '', 2, 2], ['wool of a ewe', 'wool', 'ewe', 1, 3]]
    """
    taken = columns[_TAKEN].astype(object).fillna("")
    begins = _beginnings(taken)
    found = [_of_field(one, buttons, taken, begins) for one in fields() if one.kind in _VALUES]
    parts = [part for part in (*found, _unknown_lists(buttons, taken)) if len(part)]
    if not parts:
        return pd.DataFrame(columns=list(_COLUMNS), dtype="str")
    told = pd.concat(parts, ignore_index=True)
    told["passed_over"] = _passed(told, vocabulary)
    return told[list(_COLUMNS)]


def different_wordings(buttons: pd.DataFrame, columns: pd.DataFrame) -> int:
    """Count the different wordings of each field that is understood, all fields together."""
    taken = columns[_TAKEN].astype(object).fillna("")
    begins = _beginnings(taken)
    number = _unread_lists(buttons, taken).nunique()
    for one in fields():
        if one.kind in _VALUES and f"{one.field}_wording" in buttons:
            said = buttons[f"{one.field}_wording"]
            if one.field in begins:
                said = _parted(said.drop_duplicates(), begins[one.field]).explode()
            number += said.nunique()
    return int(number)


def _of_field(
    field: Field,
    buttons: pd.DataFrame,
    taken: pd.DataFrame,
    begins: Mapping[str, re.Pattern[str]],
) -> pd.DataFrame:
    """Give the distinct wordings of one field, those read alike together, the commonest first."""
    wording = f"{field.field}_wording"
    values = [form.format(field.field) for form in _VALUES[field.kind]]
    if not {wording, *values} <= set(buttons.columns):
        return pd.DataFrame()
    filled = buttons.loc[buttons[wording].notna(), [wording, *values, *_PLACE, "row"]]
    filled = filled.rename(columns={wording: "wording"})
    filled["listed"] = _listed(filled, field.field, taken)
    first = _counted_once(filled.assign(records=1), values)
    if field.field in begins:
        parted = _parted(first["wording"], begins[field.field])
        first = _counted_once(first.assign(wording=parted).explode("wording"), values)
    rising = [*[True] * len(values), False]
    first = first.sort_values(
        [*values, "records"], ascending=rising, kind="stable", na_position="first"
    )
    read = first[values].astype(object)
    said = [_said(field.kind, some) for some in read.where(read.notna(), None).to_numpy().tolist()]
    return _placed(first).assign(field=field.field, read_as=said).drop(columns=values)


def _counted_once(rows: pd.DataFrame, values: Sequence[str]) -> pd.DataFrame:
    """Keep the first of the rows that say and are read as the same, with the records of all."""
    keys = ["wording", *values, "listed"]
    number = rows.groupby(keys, sort=False, dropna=False, observed=True).ngroup().to_numpy()
    records = np.bincount(number, weights=rows["records"].to_numpy())
    first = np.unique(number, return_index=True)[1]
    return rows.iloc[first].assign(records=records.astype(np.int64))


def _placed(first: pd.DataFrame) -> pd.DataFrame:
    return first.rename(columns={name: f"first_{name}" for name in (*_PLACE, "row")})


def _beginnings(taken: pd.DataFrame) -> dict[str, re.Pattern[str]]:
    """Give how a column's wording begins, for fields that stand in several columns of a sheet."""
    names: dict[tuple[str, str, str], list[str]] = {}
    for file, sheet, field, letter, heading in taken.itertuples(index=False):
        name = f"{letter}: {heading}" if heading else letter
        names.setdefault((file, sheet, _ENDS.get(field, field)), []).append(re.escape(name))
    several: dict[str, set[str]] = {}
    for (*_, field), here in names.items():
        if field and len(here) > 1:
            several.setdefault(field, set()).update(here)
    return {
        field: re.compile(rf"(?:^| \| )(?=(?:{'|'.join(sorted(here))}): )")
        for field, here in several.items()
    }


def _parted(wordings: pd.Series, begins: re.Pattern[str]) -> pd.Series:
    """Part wordings that were joined from several columns of a sheet into lists of theirs."""
    return wordings.map(lambda text: list(filter(None, begins.split(text))), na_action="ignore")


def _listed(rows: pd.DataFrame, field: str, taken: pd.DataFrame) -> npt.NDArray[np.bool_]:
    """Tell which rows have a field from their sheet's list of materials."""
    lists = taken[taken["field"] == MEDIUM] if field in MEDIUM_FIELDS else taken[:0]
    if lists.empty:
        return np.zeros(len(rows), dtype=bool)
    own = set(_places(taken[taken["field"] == field]))
    wanted = set(_places(lists)) - own
    return np.array([place in wanted for place in _places(rows)], dtype=bool)


def _places(rows: pd.DataFrame) -> Iterator[tuple[str, str]]:
    return zip(rows["file"], rows["sheet"].astype(object).fillna(""))


def _unknown_lists(buttons: pd.DataFrame, taken: pd.DataFrame) -> pd.DataFrame:
    """Give the distinct lists of materials of which nothing was read."""
    unread = _unread_lists(buttons, taken)
    rows = buttons.loc[unread.index, [*_PLACE, "row"]].assign(wording=unread, records=1)
    first = _counted_once(rows.assign(listed=True), ())
    first = first.sort_values("records", ascending=False, kind="stable")
    return _placed(first).assign(field=MEDIUM, read_as="")


def _unread_lists(buttons: pd.DataFrame, taken: pd.DataFrame) -> pd.Series:
    """Give the lists of materials, as the record carries them, that no field has a term from."""
    unread = [pd.Series([], dtype="str")]
    lists = taken[taken["field"] == MEDIUM].drop_duplicates(_PLACE)
    for file, sheet, letter, heading in zip(
        *(lists[name] for name in (*_PLACE, "column", "heading"))
    ):
        name = carried_name(heading or f"column {letter}")
        if name in buttons:
            here = (buttons["file"] == file) & (buttons["sheet"].astype(object).fillna("") == sheet)
            own = set(taken.loc[(taken[_PLACE] == [file, sheet]).all(axis=1), "field"])
            read = [f"{one}_wording" for one in MEDIUM_FIELDS if one not in own]
            filled = buttons.loc[here & buttons[name].notna()]
            unread.append(filled.loc[filled[read].isna().all(axis=1), name])
    return pd.concat(unread)


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


def _passed(told: pd.DataFrame, vocabulary: Vocabulary) -> list[str]:
    """Give for each wording the words that were passed over in it."""
    terms = {one.field for one in fields() if one.kind == "term"}

    def passed(field: str, wording: str, listed: bool) -> str:
        if listed:
            return _BETWEEN.join(read_medium(wording, vocabulary).unknown)
        if field not in terms:
            return ""
        reading = read_terms(wording, field, vocabulary)
        return _BETWEEN.join((*reading.passed, *reading.beside))

    return [passed(*one) for one in zip(told["field"], told["wording"], told["listed"])]
