"""Buttons found inside buttons: links that lead nowhere, and dates or sizes that cannot be.

Old buttons were covered anew. The cover that hides another button was put on after that button
was made, so that the outer button cannot be earlier than the inner one, nor smaller.
"""

from collections.abc import Iterator, Mapping

import numpy as np
import pandas as pd

from buttonstudy.schemes import leads_back
from buttonstudy.survey.checks.finding import Finding, numbers, words
from buttonstudy.survey.links import contained_records, doubtful_links, named_records

_FIELD = "found_inside"
_OTHER_WAY = "contains"


def nested_findings(buttons: pd.DataFrame) -> Iterator[Finding]:
    """Tell what is wrong with links between buttons."""
    named = named_records(buttons)
    outer_of = {place: found[0] for place, found in named.items() if len(found) == 1}
    ids = words(buttons, "button_id")
    for place, found in named.items():
        if not found:
            yield Finding(
                "found-inside-unknown", place, "This names no button of the survey.", _FIELD
            )
        elif len(found) > 1:
            yield Finding("found-inside-unsure", place, "This names more than one button.", _FIELD)
        elif leads_back(place, outer_of):
            says = f"Button {ids[place]} is said to lie inside itself, or inside one it holds."
            yield Finding("found-inside-itself", place, says, _FIELD)
    yield from _contained(buttons, outer_of)
    single = {place: (outer,) for place, outer in outer_of.items()}
    yield from _taken_apart(buttons, single, _FIELD)
    yield from _taken_apart(buttons, contained_records(buttons), _OTHER_WAY)
    linked = np.array(
        [pair for pair in outer_of.items() if not leads_back(pair[0], outer_of)], dtype=np.intp
    ).reshape(-1, 2)
    yield from _contradicted(buttons, linked[:, 0], linked[:, 1])


def _taken_apart(
    buttons: pd.DataFrame, named: Mapping[int, tuple[int, ...]], field: str
) -> Iterator[Finding]:
    """Tell numbers taken out of wordings that may hold other ones."""
    ids = words(buttons, "button_id")
    for place, others in doubtful_links(buttons, named, f"{field}_wording").items():
        read = " and ".join(ids[one] for one in named[place])
        says = (
            f"This was read as button {read}, though {' and '.join(others)} in it may be part of "
            "a number, or another one."
        )
        yield Finding("found-inside-part", place, says, field)


def _contained(buttons: pd.DataFrame, outer_of: Mapping[int, int]) -> Iterator[Finding]:
    """Tell where outer buttons name no inner one, or one that says something else."""
    ids = words(buttons, "button_id")
    for place, inner in contained_records(buttons).items():
        if not inner:
            says = "This names no button of the survey."
            yield Finding("found-inside-unknown", place, says, _OTHER_WAY)
        for one in inner:
            if outer_of.get(one) != place:
                says = f"Button {ids[one]} has another word in its own row on where it was found."
                yield Finding("found-inside-unsure", place, says, _OTHER_WAY)


def _contradicted(buttons: pd.DataFrame, inner: np.ndarray, outer: np.ndarray) -> Iterator[Finding]:
    ids = words(buttons, "button_id")
    first, last = numbers(buttons, "year_from"), numbers(buttons, "year_to")
    low, high = numbers(buttons, "diameter_mm_low"), numbers(buttons, "diameter_mm_high")
    best = numbers(buttons, "diameter_mm")
    start, end = first[inner], last[outer]
    narrower, earlier = high[inner] < low[outer], last[inner] < first[outer]
    for at in np.flatnonzero(end < start):
        yield Finding(
            "found-inside-date",
            int(inner[at]),
            f"Button {ids[outer[at]]} is dated to {end[at]:.0f} at the latest, but the button "
            f"found inside it, {ids[inner[at]]}, to {start[at]:.0f} at the earliest."
            f"{'' if narrower[at] else _turned(ids[inner[at]], ids[outer[at]])}",
            _FIELD,
        )
    for at in np.flatnonzero(low[inner] > high[outer]):
        yield Finding(
            "found-inside-size",
            int(inner[at]),
            f"Button {ids[outer[at]]} has {best[outer[at]]:.4g} mm, and the button found inside "
            f"it, {ids[inner[at]]}, {best[inner[at]]:.4g} mm."
            f"{'' if earlier[at] else _turned(ids[inner[at]], ids[outer[at]])}",
            _FIELD,
        )


def _turned(inner: str, outer: str) -> str:
    """Say in whose row the number belongs if the two were taken the wrong way round."""
    return (
        f" Perhaps they are the wrong way round: if {outer} was found inside {inner}, write "
        f"{inner} in the row of {outer} and nothing here."
    )
