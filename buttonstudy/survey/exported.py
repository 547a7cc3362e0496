"""A survey read back from an archive: CSV tables that a Data Package describes.

An archive is meant to outlive the kit, so its tables are plain text and everything that plain text
does not say (kinds, categories, what an empty cell means) stands in ``datapackage.json``, in the
words of the open Table Schema. This reads the two together, and gives the survey that was exported.
"""

import csv
import io
import json
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict

from buttonstudy.readings.formula_marks import restored
from buttonstudy.schemes import Term, Vocabulary
from buttonstudy.survey.saved import TABLES, SavedSurveyError

if TYPE_CHECKING:
    import pandas as pd

    from buttonstudy.survey.load import Survey

__all__ = ["DESCRIPTOR", "HOLDS", "TableField", "exported_files", "is_exported_survey"]
__all__ += ["read_exported_survey", "read_exported_vocabulary"]

DESCRIPTOR = "datapackage.json"
HOLDS = "records of a survey, exported by buttonstudy"
_FROM_TEXT: dict[str, Callable[[str], object]] = {
    "integer": int,
    "number": float,
    "boolean": {"True": True, "False": False}.__getitem__,
}
_KINDS = {  # by type, and whether a value must be there
    ("integer", False): "Int64",
    ("integer", True): "int64",
    ("number", False): "Float64",
    ("number", True): "float64",
    ("boolean", False): "boolean",
    ("boolean", True): "bool",
}


class TableField(TypedDict, total=False):
    """What a Table Schema says of one column, as far as the kit writes it."""

    name: str
    type: str
    title: str
    description: str
    unit: str
    constraints: dict[str, object]
    missingValues: list[str]
    categories: list[str]
    categoriesOrdered: bool


class _Descriptor(TypedDict):
    holds: str
    conventions: dict[str, str]
    schemas: dict[str, list[TableField]]


def is_exported_survey(path: str | Path) -> bool:
    """Tell whether a path is a folder that holds an exported survey."""
    try:
        return _descriptor(Path(path))["holds"] == HOLDS
    except (OSError, ValueError, KeyError, TypeError):
        return False


def read_exported_survey(folder: str | Path) -> "Survey":
    """Read an exported survey.

    Parameters
    ----------
    folder
        A folder made by ``buttonstudy export``.

    Returns
    -------
    Survey
        Equal to the one that was exported.

    Raises
    ------
    SavedSurveyError
        Naming file, row and column, if a table does not fit its description.
    """
    from buttonstudy.survey.load import Survey

    tables = _tables(Path(folder), TABLES)
    return Survey(**tables, settings=dict(_descriptor(Path(folder))["conventions"]))


def read_exported_vocabulary(folder: str | Path) -> Vocabulary:
    """Read the vocabulary that an exported survey was read with.

    Raises
    ------
    SavedSurveyError
        Naming file, row and column, if its table does not fit its description.
    """
    terms = _tables(Path(folder), ["vocabulary"])["vocabulary"].fillna("")
    if not {"field", "term"} <= set(terms):
        raise SavedSurveyError(
            f"The vocabulary in {folder} has no columns field and term. Take a fresh copy of the "
            "archive, or name the survey files themselves."
        )
    return Vocabulary(
        tuple(
            Term(
                one["field"],
                one["term"],
                tuple(filter(None, one.get("synonyms", "").split("|"))),
                *(one.get(name, "") for name in ("definition", "source", "aat", "vaguer")),
            )
            for one in terms.to_dict("records")
        )
    )


def exported_files(folder: Path) -> dict[str, Path]:
    """Give the tables of an exported survey that are plain text and lie in its folder, by name."""
    names = map(str, _descriptor(folder)["schemas"])
    files = {name: folder / f"{name}.csv" for name in names}
    return {
        name: file
        for name, file in files.items()
        if file.parent == folder and file.is_file() and not file.is_symlink()
    }


def _tables(folder: Path, names: Iterable[str]) -> dict[str, "pd.DataFrame"]:
    try:
        schemas = _descriptor(folder)["schemas"]
        return {name: _table(folder / f"{name}.csv", schemas[name]) for name in names}
    except (OSError, UnicodeDecodeError, KeyError, TypeError, csv.Error) as error:
        raise SavedSurveyError(
            f"The exported survey in {folder} is not whole ({_short(error)}). Take a fresh copy "
            "of the archive, or name the survey files themselves."
        ) from error


def _descriptor(folder: Path) -> _Descriptor:
    read = json.loads((folder / DESCRIPTOR).read_text(encoding="utf-8"))
    fields = {one["name"]: one["schema"]["fields"] for one in read["resources"] if "schema" in one}
    return _Descriptor(holds=read["holds"], conventions=read["conventions"], schemas=fields)


def _table(path: Path, fields: list[TableField]) -> "pd.DataFrame":
    import pandas as pd

    text = path.read_bytes().decode("utf-8-sig")
    rows = list(csv.reader(io.StringIO(text, newline="")))
    names = [restored(heading) for heading in rows[0]] if rows else []
    expected = [restored(one["name"]) for one in fields]
    if names != expected:
        raise SavedSurveyError(
            f"{path}, row 1: the headings are not those that {DESCRIPTOR} lists. Put the columns "
            "back as they were."
        )
    for number, row in enumerate(rows[1:], start=2):
        if len(row) != len(fields):
            raise SavedSurveyError(
                f"{path}, row {number}: there are {len(row)} cells where {len(fields)} belong. "
                "Put the row back as it was."
            )
    cells = list(zip(*rows[1:])) or [()] * len(fields)
    columns = [_column(path, one, texts) for one, texts in zip(fields, cells)]
    frame = pd.concat(columns, axis=1) if columns else pd.DataFrame()
    frame.columns = pd.Index(expected, dtype="str")
    return frame


def _column(path: Path, field: TableField, texts: tuple[str, ...]) -> "pd.Series":
    """Give one column its kind."""
    import pandas as pd

    absent = field.get("missingValues", [""])
    if field["type"] == "string":
        words = pd.array([None if t in absent else restored(t) for t in texts], dtype="str")
        if "categories" not in field:
            return pd.Series(words)
        of = pd.Index(field["categories"], dtype="str")
        ordered = bool(field.get("categoriesOrdered"))
        return pd.Series(pd.Categorical(words, categories=of, ordered=ordered))
    values = [
        None if text in absent else _value(path, field, text, number)
        for number, text in enumerate(texts, start=2)
    ]
    required = bool(field.get("constraints", {}).get("required"))
    return pd.Series(values, dtype=_KINDS[field["type"], required])


def _value(path: Path, field: TableField, text: str, number: int) -> object:
    try:
        return _FROM_TEXT[field["type"]](text)
    except (ValueError, KeyError):
        raise SavedSurveyError(
            f'{path}, row {number}, column {field["name"]}: "{text[:60]}" is no '
            f"{field['type']}. Put back what stood there."
        ) from None


def _short(error: Exception) -> str:
    return " ".join(str(error).split())[:120] or type(error).__name__
