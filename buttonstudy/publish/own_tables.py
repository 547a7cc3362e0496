"""The tables of a researcher's own with which a survey was read, to be kept beside what was read.

A mapping file, accepted findings, a vocabulary or a scheme decide what a record says. So whoever
hands on a report or an archive hands them on too, and nothing else: a name of one of the kit's
schemes is never taken for that of a file or folder.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.names import safe_name
from buttonstudy.readings.formula_marks import harmless
from buttonstudy.schemes import (
    date_conventions,
    period_schemes,
    read_scheme_file,
    size_class_schemes,
)

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["OwnTable", "own_frame", "own_tables"]

_SCHEMES = {
    "date_convention": date_conventions,
    "size_classes": size_class_schemes,
    "period_scheme": period_schemes,
}
_NAMING_FILES = {*_SCHEMES, "vocabulary", "mapping", "accepted"}
_NUMBER = re.compile(r"[-+]?\d+(?:\.\d+)?")


@dataclass(frozen=True, slots=True)
class OwnTable:
    """A table of a researcher's own: the setting that names it, its file, and a safe name."""

    setting: str
    file: Path
    name: str


def own_tables(settings: Mapping[str, str]) -> list[OwnTable]:
    """Return the files of a researcher's own among settings.

    Only settings that name tables are looked at. A folder of mapping files stands for the tables
    (.csv) in it. A file that is no longer there is left out.
    """
    files = [(name, one) for name, value in settings.items() for one in _files(name, value)]
    names = [safe_name(f"{setting}-{file.stem}") for setting, file in files]
    if len(set(names)) < len(names):
        names = [f"{name}-{number}" for number, name in enumerate(names, start=1)]
    return [OwnTable(*one, name) for one, name in zip(files, names)]


def _files(setting: str, value: str) -> list[Path]:
    known = _SCHEMES[setting]() if setting in _SCHEMES else ()
    if setting not in _NAMING_FILES or not value or value in known:
        return []
    place = Path(value)
    try:
        if setting == "mapping" and place.is_dir():
            return sorted(one for one in place.glob("*.csv") if one.is_file())
        return [place] if place.is_file() else []
    except (OSError, ValueError):  # such as a name longer than any file's
        return []


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
