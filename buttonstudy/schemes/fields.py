"""The record's fields, as the table ``fields.csv`` defines them.

One table says which fields a button has, what kind of reading each takes and whether it can be
seen only on an opened button, so that reading, statistics and pages agree.
"""

from dataclasses import dataclass
from functools import cache

from buttonstudy.schemes.tables import rows

__all__ = ["Field", "fields"]


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a button's record.

    Parameters
    ----------
    field
        Its name in code and in tables, such as ``"mould_material"``.
    kind
        What is read from its cells: ``"id"``, ``"text"``, ``"length"``, ``"date"``, ``"term"``,
        ``"count"`` or ``"opened"``.
    inside
        True if it can be seen only when the button is opened.
    ordered
        True if its terms have an order, which is the vocabulary's, such as thin, medium, thick.
    label
        What a reader sees, such as ``"Mould material"``.
    definition
        One sentence.
    """

    field: str
    kind: str
    inside: bool
    ordered: bool
    label: str
    definition: str


@cache
def fields() -> tuple[Field, ...]:
    """Give the record's fields in their order.

    Examples
    --------
    >>> [field.label for field in fields() if field.kind == "count"]
    ['Cover layers']
    """
    return tuple(
        Field(
            row["field"],
            row["kind"],
            row["inside"] == "yes",
            row["ordered"] == "yes",
            row["label"],
            row["definition"],
        )
        for row in rows("fields")
    )
