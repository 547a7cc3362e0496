"""Taking over from the last report what would come out the same.

A report's record says of each notebook what it was made from: the survey files, what was set, the
kit's code and the libraries, each as a hash. Where all of that is as it was, and every file that
the notebook wrote is there unchanged, its results are copied instead of made again. Whatever is
in doubt is made again.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path, PureWindowsPath
from typing import TYPE_CHECKING, TypedDict, TypeGuard, cast

from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.captions import CAPTION_FILES, read_captions
from buttonstudy.publish.executed import read_executed, records
from buttonstudy.publish.fingerprints import (
    files_below,
    fingerprint,
    fingerprint_of_files,
    kit_fingerprint,
)
from buttonstudy.publish.notebooks import Notebook, Value
from buttonstudy.publish.progress import Progress
from buttonstudy.publish.provenance import read_record, versions, without_folder
from buttonstudy.publish.running import Job, Ran

if TYPE_CHECKING:
    from buttonstudy.survey.load import Survey

__all__ = ["LastReport", "files_of", "last_report", "made_from", "take_over"]

_CHANGED = {
    "surveys": "a survey file has changed",
    "set": "something else was set",
    "own tables": "a table of your own has changed",
    "photographs": "a photograph has changed",
    "notebook": "the notebook has changed",
    "kit": "the kit has changed",
    "versions": "a library has changed",
}
_WRITTEN_BY_THE_RUN = ("survey/", "schemes/", "photographs/")
_LONGEST_SECONDS = 1e9
_TABLES_OF_THE_RUN = {"buttons.csv", "columns.csv", "problems.csv", "wordings.csv"}


class _NotebookRecord(TypedDict, total=False):
    name: str
    seconds: float
    made_from: dict[str, str]
    files: list[str]


@dataclass(frozen=True, slots=True)
class LastReport:
    """A finished report: its folder, the hashes of its files, what it says of its notebooks."""

    folder: Path
    hashes: Mapping[str, str]
    notebooks: Mapping[str, _NotebookRecord]

    @property
    def seconds(self) -> dict[str, float]:
        """How long each notebook took."""
        return {name: one.get("seconds", 0.0) for name, one in self.notebooks.items()}

    def strays(self) -> list[str]:
        """Return files of which the record does not say who wrote them."""
        claimed = {file for one in self.notebooks.values() for file in one.get("files", ())}
        return [
            name
            for name in self.hashes
            if name not in claimed | _TABLES_OF_THE_RUN
            and not name.startswith(_WRITTEN_BY_THE_RUN)
            and not ("/" not in name and name.endswith(".html"))
        ]


def last_report(place: Path) -> LastReport | None:
    """Return the finished report at a place, or None if there is none, or none in good order."""
    record = read_record(place)
    if record is None or not record.get("finished"):
        return None
    notebooks = record.get("notebooks")
    if not isinstance(notebooks, list) or not all(_in_order(one) for one in notebooks):
        return None
    hashes = cast(dict[str, str], record["files"])
    return LastReport(place, hashes, {one["name"]: one for one in notebooks})


def _in_order(one: object) -> TypeGuard[_NotebookRecord]:
    """Tell whether what a record says of a notebook is such as the kit writes it."""
    if not isinstance(one, dict) or not isinstance(one.get("name"), str):
        return False
    seconds, hashes, files = one.get("seconds", 0), one.get("made_from", {}), one.get("files", [])
    return (
        isinstance(seconds, int | float)
        and 0 <= seconds < _LONGEST_SECONDS
        and isinstance(hashes, dict)
        and isinstance(files, list)
        and all(isinstance(name, str) and _is_below(name) for name in files)
    )


def _is_below(name: str) -> bool:
    """Tell whether a name leads to something below a folder, on every system."""
    path = PureWindowsPath(name)
    return bool(path.parts) and not path.anchor and ".." not in path.parts


def made_from(
    notebook: Notebook,
    parameters: Mapping[str, Value],
    folder: Path,
    survey: "Survey",
    own: Iterable[Path],
) -> dict[str, str]:
    """Return a hash of each thing that a notebook's results hang on.

    Parameters
    ----------
    notebook
        The notebook.
    parameters
        What it is told.
    folder
        The passing folder of the run, which holds copies of photographs.
    survey
        The survey as understood.
    own
        The files of a researcher's own that it may read.
    """
    sources = survey.sources[["file", "sha256"]].astype(str).to_dict("records")
    told = json.dumps(without_folder(folder, dict(parameters)), sort_keys=True)
    settings = json.dumps(survey.settings, sort_keys=True)
    return {
        "surveys": fingerprint(json.dumps(sources).encode()),
        "set": fingerprint(f"{told} {settings}".encode()),
        "own tables": fingerprint_of_files(own),
        "photographs": fingerprint_of_files(files_below(folder / "photographs"), folder),
        "notebook": fingerprint(notebook.path.read_bytes()),
        "kit": kit_fingerprint(),
        "versions": fingerprint(json.dumps(versions(), sort_keys=True).encode()),
    }


def files_of(executed: Path, outputs: Path) -> list[str]:
    """Return the files that a notebook's pages wrote, and its own, by name."""
    shown = [record for record, _ in records(read_executed(executed))]
    figures = {record["name"] for record in shown if record.get("kind") == "figure"}
    lists = [
        f"figures/{path.name}"
        for path in sorted((outputs / "figures").glob(f"*{CAPTION_FILES}"))
        if figures & {caption.name for caption in read_captions(path)}
    ]
    saved = [file for record in shown for file in record.get("files", ())]
    own = executed.relative_to(outputs).as_posix()
    return list(dict.fromkeys([own, *saved, *lists]))


def take_over(
    jobs: Iterable[Job], last: LastReport | None, kits: Path, progress: Progress
) -> dict[str, Ran]:
    """Copy results from the last report, and tell of each notebook whether that could be done.

    Parameters
    ----------
    jobs
        What would be run.
    last
        The last report; None if there is none.
    kits
        The folder of the kit's notebooks. Others may read what the kit does not know of.
    progress
        Told of each notebook.

    Returns
    -------
    dict of str to Ran
        The notebooks that need not run, by name.

    Raises
    ------
    PublishError
        If a copy cannot be written.
    """
    if last is None:
        progress.line("There is no last report in this folder to take anything over from.")
        return {}
    taken: dict[str, Ran] = {}
    for job in jobs:
        name = job.notebook.name
        why = _why_again(job, last, kits)
        if why:
            progress.line(f"  {name}: is run again, since {why}")
            continue
        for file in last.notebooks[name]["files"]:
            write_aside(_outputs(job) / file, (last.folder / file).read_bytes())
        taken[name] = Ran(job, last.notebooks[name].get("seconds", 0.0), None, taken_over=True)
        progress.line(f"  {name}: taken over from the last report")
    return taken


def _why_again(job: Job, last: LastReport, kits: Path) -> str:
    """Return why a notebook has to run again, or nothing."""
    earlier = last.notebooks.get(job.notebook.name)
    if earlier is None or not earlier.get("made_from") or not earlier.get("files"):
        return "the last report does not have it"
    if job.notebook.path.parent != kits.absolute():
        return "a notebook of your own may read more than is known here"
    for part, why in _CHANGED.items():
        if earlier["made_from"].get(part) != job.made_from.get(part):
            return why
    if not all(_unchanged(last, name) for name in earlier["files"]):
        return "files of it are missing or changed in the last report"
    return "the last report has files of unknown origin" if last.strays() else ""


def _outputs(job: Job) -> Path:
    return job.executed.parent.parent


def _unchanged(last: LastReport, name: str) -> bool:
    try:
        return last.hashes.get(name) == fingerprint((last.folder / name).read_bytes())
    except (OSError, ValueError):
        return False
