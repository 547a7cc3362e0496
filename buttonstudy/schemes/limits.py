"""The kit's thresholds, as the table ``limits.csv`` gives them with their meaning and source.

A threshold decides what a reader is warned of or what is told as a count only. Kept in one table,
each can be read, questioned and changed without looking through code.
"""

from functools import cache

from buttonstudy.schemes.tables import SchemeError, rows

__all__ = ["limit"]


def limit(name: str) -> float:
    """Give a threshold by its name, in the unit that the table states.

    Raises
    ------
    SchemeError
        If the table has no such name, or its value is not a number.

    Examples
    --------
    >>> limit("few-sets")
    30.0
    """
    try:
        return _limits()[name]
    except KeyError:
        raise SchemeError(
            f'There is no limit called "{name}". limits.csv has: {", ".join(_limits())}.'
        ) from None


@cache
def _limits() -> dict[str, float]:
    values = {}
    for row in rows("limits"):
        try:
            values[row["name"]] = float(row["value"])
        except ValueError:
            raise row.error("value", "is not a number", "Write a number such as 30.") from None
    return values
