"""Buttons found inside buttons: who lay in whom, and what that says of their dates.

Old buttons were covered anew. The cover that hides another button was put on after that button
was made, so that the outer button cannot be earlier than the inner one. Where a survey's dates
say so, one of the two dates is wrong, or the link is. What a wording names was found out when
the survey was read (`survey/links.py`); here only the numbers are followed.
"""

from dataclasses import dataclass

import numpy as np
import pandas as pd

from buttonstudy.schemes import leads_back, rows
from buttonstudy.study.evidence.columns import floats, texts

__all__ = ["NESTED_COLUMNS", "nested_records"]

NESTED_COLUMNS = (
    "inner",
    "inner_id",
    "outer",
    "outer_id",
    "wording",
    "inner_from",
    "inner_to",
    "outer_from",
    "outer_to",
    "outer_not_before",
    "finding",
)
LINKED, NOT_LINKED, TOO_EARLY, ITSELF = (
    "linked",
    "does not name exactly one button of its file",
    "outer button dated too early",
    "names itself, or one that lay inside it",
)

_WHOLE_NUMBERS = (
    "inner",
    "outer",
    "inner_from",
    "inner_to",
    "outer_from",
    "outer_to",
    "outer_not_before",
)


@dataclass(frozen=True, slots=True)
class _Link:
    """A record found inside another, the places of both, and what is to be said of it."""

    inner: int
    outer: int | None
    finding: str


def nested_records(buttons: pd.DataFrame) -> pd.DataFrame:
    """Link each record found inside another button with that button's record.

    Parameters
    ----------
    buttons
        One row per button, with ``file``, ``button_id`` and ``found_inside``, which holds the
        number of the outer button, of the same file, where the wording names exactly one.

    Returns
    -------
    DataFrame
        :data:`NESTED_COLUMNS`, one row for each record with something in ``found_inside``:
        ``inner`` and ``outer`` (places in the survey, from 0; ``outer`` blank where not
        linked), their numbers and years, ``outer_not_before`` (the earliest year that the
        outer cover can have, which is the inner button's earliest) and ``finding``: "linked",
        "does not name exactly one button of its file", "outer button dated too early" or "names
        itself, or one that lay inside it".

    Examples
    --------
    >>> buttons = pd.DataFrame({"button_id": ["A1", "A2"], "found_inside": [None, "A1"],
    ...     "year_from": [1800, 1830], "year_to": [1820, 1850]})
    >>> nested_records(buttons)[["inner_id", "outer_id", "finding"]].values.tolist()
    [['A2', 'A1', 'outer button dated too early']]
    """
    links = _links(buttons)
    inner = [link.inner for link in links]
    numbers, wording = texts(buttons, "button_id"), texts(buttons, "found_inside")
    start, end = floats(buttons, "year_from"), floats(buttons, "year_to")
    outer = [link.outer for link in links]
    table = pd.DataFrame(
        {
            "inner": inner,
            "inner_id": numbers[inner],
            "outer": outer,
            "outer_id": ["" if place is None else numbers[place] for place in outer],
            "wording": wording[inner],
            "inner_from": start[inner],
            "inner_to": end[inner],
            "outer_from": [np.nan if place is None else start[place] for place in outer],
            "outer_to": [np.nan if place is None else end[place] for place in outer],
            "outer_not_before": [
                np.nan if link.outer is None else start[link.inner] for link in links
            ],
            "finding": [link.finding for link in links],
        },
        columns=list(NESTED_COLUMNS),
    )
    return table.astype(dict.fromkeys(_WHOLE_NUMBERS, "Int64"))


def _links(buttons: pd.DataFrame) -> list[_Link]:
    """Link every record that was found inside a button, and judge the link."""
    wording = texts(buttons, "found_inside")
    blank = {"", *(row["words"] for row in rows("blank_words"))}
    inner = [place for place, text in enumerate(wording) if _folded(text) not in blank]
    named = zip(texts(buttons, "file"), map(_folded, texts(buttons, "button_id")))
    by_number: dict[tuple[str, str], list[int]] = {}
    for place, number in enumerate(named if inner else ()):
        by_number.setdefault(number, []).append(place)
    files = texts(buttons, "file")
    found = {place: by_number.get((files[place], _folded(wording[place])), []) for place in inner}
    outer_of = {place: one[0] for place, one in found.items() if len(one) == 1}
    start, end = floats(buttons, "year_from"), floats(buttons, "year_to")
    links = []
    for place in inner:
        outer = outer_of.get(place)
        finding = NOT_LINKED
        if outer is not None:
            finding = TOO_EARLY if end[outer] < start[place] else LINKED
            finding = ITSELF if leads_back(place, outer_of) else finding
        links.append(_Link(place, outer, finding))
    return links


def _folded(text: str) -> str:
    return " ".join(text.casefold().split())
