"""A survey read back from the last report, where reading its files again would give the same.

A report keeps the survey as it was understood, and in its record a hash of each thing that this
hangs on: the survey files, what was chosen for reading, the kit, the libraries, and which of the
named photographs lie beside. Whatever is in doubt is read from the survey files.
"""

import json
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, cast

from buttonstudy.publish.choices import Choices
from buttonstudy.publish.fingerprints import fingerprint, fingerprint_of_files, kit_fingerprint
from buttonstudy.publish.own_tables import own_tables
from buttonstudy.publish.provenance import read_record, versions
from buttonstudy.survey.saved import LEAF, TABLES

if TYPE_CHECKING:
    import pandas as pd

    from buttonstudy.survey.load import Survey

__all__ = ["SAVED_SURVEY", "read_back", "understood_from"]

SAVED_SURVEY = "survey"
"""The folder in a report that holds the survey as it was understood."""


def understood_from(
    survey: "Survey", paths: Sequence[str | Path], choices: Choices
) -> dict[str, str]:
    """Return a hash of each thing that an understood survey hangs on, for a report's record.

    Parameters
    ----------
    survey
        The survey as understood; its sources have the hashes of the files as they were read.
    paths, choices
        The survey files or folders, and what was chosen for reading.
    """
    files = survey.sources[["file", "sha256"]].astype(str).to_numpy().tolist()
    return {"survey files": _hash_of(files)} | _beside(survey.buttons, paths, choices)


def read_back(place: Path, paths: Sequence[str | Path], choices: Choices) -> "Survey | None":
    """Return the survey of the last report at a place, or None if it must be read anew.

    Parameters
    ----------
    place
        The report's folder.
    paths, choices
        The survey files or folders, and what was chosen for reading.
    """
    from buttonstudy.survey.files import display_names, find_files
    from buttonstudy.survey.saved import SavedSurveyError, read_saved_survey

    record = read_record(place)
    understood = record.get("understood_from") if record else None
    if record is None or not isinstance(understood, dict):
        return None
    recorded = cast(Mapping[str, object], record["files"])
    saved = [f"{SAVED_SURVEY}/{name}" for name in (LEAF, *(f"{one}.parquet" for one in TABLES))]
    try:
        files = find_files(paths)
        now = [[name, _hash_of_file(path)] for name, path in zip(display_names(files), files)]
        if understood.get("survey files") != _hash_of(now):
            return None
        if any(recorded.get(name) != _hash_of_file(place / name) for name in saved):
            return None
        survey = read_saved_survey(place / SAVED_SURVEY)
        beside = _beside(survey.buttons, paths, choices)
    except (OSError, SavedSurveyError):
        return None
    return survey if understood == {"survey files": _hash_of(now)} | beside else None


def _beside(
    buttons: "pd.DataFrame", paths: Sequence[str | Path], choices: Choices
) -> dict[str, str]:
    """Return a hash of each thing but the survey files themselves."""
    chosen = cast(Mapping[str, str], choices.reading())
    return {
        "chosen": _hash_of(dict(chosen)),
        "own tables": fingerprint_of_files(one.file for one in own_tables(chosen)),
        "photographs": _hash_of(_photographs(buttons, paths)),
        "kit": kit_fingerprint(),
        "versions": _hash_of(versions()),
        "year": str(datetime.now(UTC).year),  # dates of years to come are told
    }


def _photographs(buttons: "pd.DataFrame", paths: Sequence[str | Path]) -> list[list[object]]:
    """Return each named photograph with size and time, or why there is none to be had."""
    from buttonstudy.survey.photographs import find_photograph, photograph_names, survey_folders
    from buttonstudy.survey.pictures import PhotographError

    if "photos" not in buttons:
        return []
    folders = survey_folders(paths)
    named = buttons[["file", "photos"]].dropna().drop_duplicates()
    told: list[list[object]] = []
    for file, text in named.itertuples(index=False):
        for name in photograph_names(str(text)) if file in folders else ():
            try:
                found = find_photograph(folders[file], name).stat()
                told.append([file, name, found.st_size, found.st_mtime_ns])
            except (OSError, PhotographError) as error:
                told.append([file, name, str(error)])
    return told


def _hash_of(told: object) -> str:
    return fingerprint(json.dumps(told, sort_keys=True, ensure_ascii=False).encode())


def _hash_of_file(path: Path) -> str:
    return fingerprint(path.read_bytes())
