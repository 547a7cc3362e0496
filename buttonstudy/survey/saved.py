"""A survey that was understood once, read back as it was.

A report reads its survey files once and saves what it understood; its notebooks read that back in
a moment, with every kind of column and every missing value as before. A saved survey is a folder:
one Parquet table each for buttons, problems, columns and sources, and ``survey.json``, which
holds the conventions in force and what Parquet cannot tell of the columns.
"""

import datetime as dt
import json
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict, cast

if TYPE_CHECKING:
    import pandas as pd

    from buttonstudy.survey.load import Survey

__all__ = ["FORM", "HOLDS", "LEAF", "TABLES", "SavedSurveyError", "is_saved_survey"]
__all__ += ["read_saved_survey"]

LEAF = "survey.json"
"""The file that tells a saved survey from any other folder."""

HOLDS = "a survey understood by buttonstudy"
FORM = 1
TABLES = ("buttons", "problems", "columns", "sources")

_FROM_WORDS: Mapping[str, Callable[[str], object]] = {
    "int": int,
    "float": float,
    "bool": lambda words: words == "True",
    "datetime": dt.datetime.fromisoformat,
    "date": dt.date.fromisoformat,
    "time": dt.time.fromisoformat,
    "timedelta": lambda words: dt.timedelta(seconds=float(words)),
}


class SavedSurveyError(ValueError):
    """A saved survey cannot be read; the message says which and what to do."""


class ColumnNote(TypedDict, total=False):
    """What Parquet does not keep of a column, and its own name."""

    name: str
    categories: list[object]
    of_words: bool
    ordered: bool
    mixed: bool


class SurveyLeaf(TypedDict):
    """The content of ``survey.json``."""

    holds: str
    form: int
    kit: str
    settings: dict[str, str]
    tables: dict[str, list[ColumnNote]]


def is_saved_survey(path: str | Path) -> bool:
    """Tell whether a path is a folder that holds a saved survey."""
    leaf = Path(path) / LEAF
    try:
        return leaf.is_file() and _leaf(leaf)["holds"] == HOLDS
    except (OSError, ValueError, KeyError, TypeError):
        return False


def read_saved_survey(folder: str | Path) -> "Survey":
    """Read a saved survey.

    Parameters
    ----------
    folder
        A folder made by ``save_survey``.

    Returns
    -------
    Survey
        Equal to the one that was saved.

    Raises
    ------
    SavedSurveyError
        If the folder is not a saved survey, is damaged, or was made by a later kit.
    """
    from buttonstudy.survey.load import Survey

    folder = Path(folder)
    leaf = _checked_leaf(folder)
    try:
        tables = {name: _read_table(folder, name, leaf["tables"][name]) for name in TABLES}
    except (OSError, ValueError, KeyError) as error:
        raise SavedSurveyError(
            f"The saved survey in {folder} is damaged. Load the survey files themselves again."
        ) from error
    return Survey(
        buttons=tables["buttons"],
        problems=tables["problems"],
        columns=tables["columns"],
        sources=tables["sources"],
        settings=leaf["settings"],
    )


def _checked_leaf(folder: Path) -> SurveyLeaf:
    if not is_saved_survey(folder):
        raise SavedSurveyError(f"{folder} is not a saved survey. Name the survey files instead.")
    leaf = _leaf(folder / LEAF)
    if leaf["form"] != FORM:
        raise SavedSurveyError(
            f"The saved survey in {folder} was made by another version of the kit "
            f"({leaf['kit']}). Load the survey files themselves again."
        )
    return leaf


def _leaf(path: Path) -> SurveyLeaf:
    return cast(SurveyLeaf, json.loads(path.read_text(encoding="utf-8")))


def _read_table(folder: Path, name: str, notes: list[ColumnNote]) -> "pd.DataFrame":
    import pandas as pd

    stored = pd.read_parquet(folder / f"{name}.parquet", engine="pyarrow")
    if len(stored.columns) != len(notes):
        raise ValueError("columns are missing")
    columns = [_restored(stored.iloc[:, place], note) for place, note in enumerate(notes)]
    frame = pd.concat(columns, axis=1) if columns else stored
    frame.columns = pd.Index([note["name"] for note in notes], dtype="str")
    return frame


def _restored(stored: "pd.Series", note: ColumnNote) -> "pd.Series":
    """Give a stored column its own kind again."""
    import pandas as pd

    if note.get("mixed"):
        values = [None if pd.isna(words) else _from_words(words) for words in stored]
        return pd.Series(values, index=stored.index, dtype=object)
    if "categories" in note:
        of = pd.Index(note["categories"], dtype="str" if note["of_words"] else None)
        codes = pd.Categorical.from_codes(stored.to_numpy(), of, ordered=note["ordered"])
        return pd.Series(codes, index=stored.index)
    return stored


def _from_words(words: str) -> object:
    kind, _, rest = words.partition(":")
    return _FROM_WORDS.get(kind, str)(rest)
