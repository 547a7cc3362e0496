"""Tables described in the words of Table Schema, part of the open Data Package standard.

Each column gets its type, a title, a definition and, where it is measured, its unit. Version 2 of
the standard has ``categories`` for columns of terms and ``missingValues`` for single columns.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from buttonstudy.readings.formula_marks import harmless
from buttonstudy.schemes import Field, fields
from buttonstudy.schemes.tables import Row, rows
from buttonstudy.survey.exported import TableField

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["described"]

_CARRIED = "A column of the survey's own, carried through as it stands."


def described(frame: "pd.DataFrame", table: str) -> list[TableField]:
    """Describe a table's columns.

    Parameters
    ----------
    frame
        The table.
    table
        Its name in ``column_words.csv``.

    Examples
    --------
    >>> import pandas as pd
    >>> (one,) = described(pd.DataFrame({"height_mm": pd.array([4.5], "Float64")}), "buttons")
    >>> one["type"], one["unit"], one["title"]
    ('number', 'mm', 'Height (mm)')
    """
    return [_described(frame.iloc[:, place], str(name), table) for place, name in enumerate(frame)]


def _described(column: "pd.Series", name: str, table: str) -> TableField:
    from buttonstudy.publish.table_html import heading_text

    told = TableField(name=harmless(name), **_kind(column))
    field = next((one for one in _owners(name) if table == "buttons"), None)
    words = _words(name, table)
    if words is not None:
        label, definition = (field.label, field.definition) if field else ("", "")
        told["title"] = heading_text(name)
        told["description"] = words["description"].format(label=label, definition=definition)
        if words["unit"]:
            told["unit"] = words["unit"]
    elif field is not None and field.field == name:
        told["title"] = field.label
        told["description"] = field.definition
    else:
        told["title"] = name
        told["description"] = _CARRIED
    return told


def _kind(column: "pd.Series") -> TableField:
    import pandas as pd

    dtype = column.dtype
    if isinstance(dtype, pd.CategoricalDtype):
        names = [str(one) for one in dtype.categories]
        return TableField(type="string", categories=names, categoriesOrdered=bool(dtype.ordered))
    if pd.api.types.is_bool_dtype(dtype):
        kind = "boolean"
    elif pd.api.types.is_integer_dtype(dtype):
        kind = "integer"
    elif pd.api.types.is_float_dtype(dtype):
        kind = "number"
    else:
        # Where an empty text is an answer of its own, as the sheet of a text file, none is missing.
        empty = bool((column == "").any()) and not column.isna().any()
        return TableField(type="string", missingValues=[]) if empty else TableField(type="string")
    if pd.api.types.is_extension_array_dtype(dtype):
        return TableField(type=kind)
    return TableField(type=kind, constraints={"required": True})


def _owners(name: str) -> Iterator[Field]:
    """Give the fields whose columns begin so, the longest name first."""
    named = [one for one in fields() if name == one.field or name.startswith(f"{one.field}_")]
    yield from sorted(named, key=lambda one: -len(one.field))


def _words(name: str, table: str) -> Row | None:
    """Find what the kit says of a column: by its name, else by how it ends."""
    here = [row for row in rows("column_words") if row["table"] == table]
    exact = next((row for row in here if row["column"] == name), None)
    if exact is not None or table != "buttons":
        return exact
    owned = {name.removeprefix(one.field) for one in _owners(name)}
    return next((row for row in here if row["column"].removeprefix("*") in owned), None)
