"""The tables of a researcher's own with which a survey was read, to be kept beside what was read.

A mapping file, accepted findings, a vocabulary or a scheme decide what a record says. So whoever
hands on a report or an archive hands them on too, and nothing else: a name of one of the kit's
schemes is never taken for that of a file or folder. An archive, and a report beside the survey that
it saved, hold them already: from there they are handed on.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.choices import Choices
from buttonstudy.publish.names import safe_name
from buttonstudy.readings.formula_marks import harmless, restored
from buttonstudy.schemes import (
    Vocabulary,
    date_conventions,
    period_schemes,
    read_scheme_file,
    size_class_schemes,
    vocabulary,
)
from buttonstudy.survey.exported import (
    exported_files,
    is_exported_survey,
    read_exported_vocabulary,
)
from buttonstudy.survey.saved import is_saved_survey

if TYPE_CHECKING:
    import pandas as pd

__all__ = [
    "ARCHIVED",
    "KEPT_IN",
    "OwnTable",
    "kept_tables",
    "own_frame",
    "own_tables",
    "vocabulary_of",
]

ARCHIVED = "own-"
"""How the names of these tables begin in an archive."""

KEPT_IN = "schemes"
"""The folder in a report that holds copies of them."""

_SCHEMES = {
    "date_convention": date_conventions,
    "size_classes": size_class_schemes,
    "period_scheme": period_schemes,
}
_NAMING_FILES = {*_SCHEMES, "vocabulary", "mapping", "accepted"}
_READ_WITH = sorted(_NAMING_FILES - {"period_scheme"})
_NUMBER = re.compile(r"[-+]?\d+(?:\.\d+)?")


@dataclass(frozen=True, slots=True)
class OwnTable:
    """A table of a researcher's own: the setting that names it, its file, and a safe name.

    An archived one has the marks already that keep its text from being run as a formula.
    """

    setting: str
    file: Path
    name: str
    archived: bool = False


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


def kept_tables(paths: Sequence[str | Path]) -> list[OwnTable]:
    """Return the tables that an archive holds, or a report beside the survey that it saved.

    Only files that lie there are looked at, and nothing that their settings name elsewhere.
    """
    if len(paths) != 1:
        return []
    folder = Path(paths[0])
    if is_exported_survey(folder):
        return list(_archived(folder))
    if not is_saved_survey(folder):
        return []
    below = {one: sorted((folder.parent / KEPT_IN / one).rglob("*.csv")) for one in _READ_WITH}
    return [
        table
        for setting, files in below.items()
        for file in files
        if file.resolve().is_relative_to(folder.parent.resolve())  # no link leads elsewhere
        for table in own_tables({setting: str(file)})
    ]


def _archived(folder: Path) -> Iterator[OwnTable]:
    for name, file in exported_files(folder).items():
        for setting in _READ_WITH:
            if name.startswith(safe_name(f"{ARCHIVED}{setting}") + "-"):
                yield OwnTable(setting, file, name.removeprefix(ARCHIVED), archived=True)


def vocabulary_of(paths: Sequence[str | Path], choices: Choices) -> Vocabulary:
    """Return the vocabulary with which a survey was read: as chosen, or as kept with it.

    Parameters
    ----------
    paths
        The survey files or folders.
    choices
        With which they were read.

    Raises
    ------
    SchemeError, SavedSurveyError
        If it cannot be used.
    """
    if len(paths) == 1 and is_exported_survey(paths[0]):
        return read_exported_vocabulary(paths[0])
    kept = (one.file for one in kept_tables(paths) if one.setting == "vocabulary")
    return vocabulary(choices.vocabulary or next(kept, None))


def own_frame(table: OwnTable) -> "pd.DataFrame":
    """Read a table of a researcher's own as text that no spreadsheet program runs."""
    import pandas as pd

    read = read_scheme_file(table.file)
    plain = restored if table.archived else str
    frame = pd.DataFrame(
        [[_safe(plain(cell)) for cell in row.values()] for row in read], dtype="str"
    )
    frame.columns = pd.Index([harmless(plain(heading)) for heading in read[0]])
    return frame


def _safe(cell: str) -> str:
    """Return a cell made harmless; a number below nought is no formula and stays a number."""
    return cell if _NUMBER.fullmatch(cell) else harmless(cell)
