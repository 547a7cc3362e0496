"""The tables of a researcher's own with which a survey was read, to be kept beside what was read.

A mapping file, accepted findings, a vocabulary or a scheme decide what a record says. So whoever
hands on a report or an archive hands them on too.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.names import safe_name
from buttonstudy.readings.formula_marks import harmless
from buttonstudy.schemes import read_scheme_file

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["OwnTable", "own_frame", "own_tables"]

_NUMBER = re.compile(r"[-+]?\d+(?:\.\d+)?")


@dataclass(frozen=True, slots=True)
class OwnTable:
    """A table of a researcher's own: the setting that names it, its file, and a safe name."""

    setting: str
    file: Path
    name: str


def own_tables(settings: Mapping[str, str]) -> list[OwnTable]:
    """Return the files of a researcher's own among settings.

    A folder stands for the tables (.csv) in it. A file that is no longer there is left out.
    """
    files = [(name, one) for name, value in settings.items() if value for one in _files(value)]
    names = [safe_name(f"{setting}-{file.stem}") for setting, file in files]
    if len(set(names)) < len(names):
        names = [f"{name}-{number}" for number, name in enumerate(names, start=1)]
    return [OwnTable(*one, name) for one, name in zip(files, names)]


def _files(value: str) -> list[Path]:
    place = Path(value)
    if place.is_dir():
        return sorted(place.glob("*.csv"))
    return [place] if place.is_file() else []


def own_frame(table: OwnTable) -> "pd.DataFrame":
    """Read a table of a researcher's own as text that no spreadsheet program runs."""
    import pandas as pd

    read = read_scheme_file(table.file)
    frame = pd.DataFrame([[_safe(cell) for cell in row.values()] for row in read], dtype="str")
    frame.columns = pd.Index([harmless(heading) for heading in read[0]])
    return frame


def _safe(cell: str) -> str:
    """Return a cell made harmless; a number below nought is no formula and stays a number."""
    return cell if _NUMBER.fullmatch(cell) else harmless(cell)
