"""A survey saved for reading back in a moment: the other half of `buttonstudy.survey.saved`.

Parquet keeps numbers, words and missing values well. It does not keep the categories of a column
that has none filled, headings that stand twice, or columns in which kinds are mixed, as in a
survey's own columns that the kit carries through. These are noted beside the tables.
"""

import datetime as dt
import json
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy import __version__
from buttonstudy.publish.aside import write_aside
from buttonstudy.survey.saved import FORM, HOLDS, LEAF, TABLES, ColumnNote, SurveyLeaf

if TYPE_CHECKING:
    import pandas as pd

    from buttonstudy.survey.load import Survey

__all__ = ["save_survey"]


def save_survey(survey: "Survey", folder: Path) -> None:
    """Save a survey as it was understood.

    Parameters
    ----------
    survey
        What `load_survey` gave.
    folder
        Where; it is made if it is not there. ``load_survey([folder])`` reads it back.

    Raises
    ------
    PublishError
        If it cannot be written.
    """
    tables = {}
    for name in TABLES:
        content, tables[name] = _table(getattr(survey, name))
        write_aside(folder / f"{name}.parquet", content)
    leaf = SurveyLeaf(
        holds=HOLDS, form=FORM, kit=__version__, settings=dict(survey.settings), tables=tables
    )
    write_aside(folder / LEAF, (json.dumps(leaf, ensure_ascii=False, indent=1) + "\n").encode())


def _table(frame: "pd.DataFrame") -> tuple[bytes, list[ColumnNote]]:
    """Return a table as a Parquet file, and what must be noted of its columns."""
    import pandas as pd

    stored: dict[str, pd.Series] = {}
    notes = []
    for place, name in enumerate(frame.columns):
        column, note = _stored(frame.iloc[:, place].reset_index(drop=True))
        stored[f"c{place}"] = column
        notes.append(ColumnNote(name=str(name)) | note)
    content = BytesIO()
    pd.DataFrame(stored).to_parquet(content, engine="pyarrow", index=False)
    return content.getvalue(), notes


def _stored(column: "pd.Series") -> tuple["pd.Series", ColumnNote]:
    import pandas as pd

    if isinstance(column.dtype, pd.CategoricalDtype):
        categories = column.cat.categories
        note = ColumnNote(
            categories=categories.tolist(),
            of_words=isinstance(categories.dtype, pd.StringDtype),
            ordered=bool(column.cat.ordered),
        )
        return column.cat.codes, note
    if column.dtype == object:
        words = [None if pd.isna(value) else _in_words(value) for value in column]
        return pd.Series(words, dtype="str"), ColumnNote(mixed=True)
    return column, ColumnNote()


def _in_words(value: object) -> str:
    """Return one value of a mixed column as words that tell its kind."""
    if isinstance(value, bool | int | float):
        return f"{type(value).__name__}:{value!r}"
    if isinstance(value, dt.datetime | dt.date | dt.time):
        return f"{type(value).__name__}:{value.isoformat()}"
    if isinstance(value, dt.timedelta):
        return f"timedelta:{value.total_seconds()!r}"
    return f"str:{value}"
