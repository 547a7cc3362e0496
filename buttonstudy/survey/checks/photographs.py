"""Photographs that records name: whether they are there, and can be opened."""

from collections.abc import Iterator, Mapping
from pathlib import Path

import numpy as np
import pandas as pd

from buttonstudy.schemes import limit
from buttonstudy.survey.checks.finding import Finding, words
from buttonstudy.survey.photographs import find_photograph, photograph_names
from buttonstudy.survey.pictures import PhotographError, check_photograph

_FIELD = "photos"


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
    for place in np.flatnonzero(told != ""):
        folder = folders.get(str(files[place]))
        if folder is None:
            continue
        for name in photograph_names(str(told[place])):
            try:
                path = find_photograph(folder, name)
                if to_open > 0:
                    to_open -= 1
                    check_photograph(path)
            except PhotographError as error:
                yield Finding(error.kind, int(place), error.says, _FIELD)
