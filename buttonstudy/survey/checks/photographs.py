"""Photographs that records name: whether they are there, and can be opened."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

import numpy as np
import numpy.typing as npt
import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.survey.checks.finding import Finding, words
from buttonstudy.survey.photographs import find_photograph, photograph_names
from buttonstudy.survey.pictures import PhotographError, check_photograph

_FIELD = "photos"
_MISSING = "photo-missing"


def photograph_findings(buttons: pd.DataFrame, folders: Mapping[str, Path]) -> Iterator[Finding]:
    """Tell photographs that are missing, cannot be opened, or may not be.

    Parameters
    ----------
    buttons
        The record.
    folders
        Where each survey file lies.
    """
    told, files = words(buttons, _FIELD), words(buttons, "file")
    to_open = int(limit("photos-opened"))
    looked_for: Counter[str] = Counter()
    found: list[Finding] = []
    for place in np.flatnonzero(told != ""):
        file = str(files[place])
        folder = folders.get(file)
        if folder is None:
            continue
        for name in photograph_names(str(told[place])):
            looked_for[file] += 1
            try:
                path = find_photograph(folder, name)
                if to_open > 0:
                    to_open -= 1
                    check_photograph(path)
            except PhotographError as error:
                found.append(Finding(error.kind, int(place), error.says, _FIELD))
    return _not_sent_along(found, looked_for, files)


def _not_sent_along(
    found: Sequence[Finding], looked_for: Mapping[str, int], files: npt.NDArray[np.object_]
) -> Iterator[Finding]:
    """Tell once, not name by name, where a file came without any of its photographs."""
    missing = Counter(str(files[one.place]) for one in found if one.kind == _MISSING)
    without = {
        file
        for file, number in missing.items()
        if number >= limit("photos-not-there") and number == looked_for[file]
    }
    told: set[str] = set()
    for one in found:
        file = str(files[one.place])
        if file not in without:
            yield one
        elif file not in told:
            told.add(file)
            says = f"None of the {missing[file]} photographs that {file} names lies beside it."
            yield Finding("photos-not-there", one.place, says, _FIELD)
