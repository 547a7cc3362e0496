"""The pack made from survey files, through the same run as a report.

The notebook drafts the article and saves it. Here the survey's records are taken out again, since
a pack goes to print and not the records, and all is packed once more as one file to send.
"""

import json
import re
import shutil
import zipfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.choices import Choices
from buttonstudy.publish.executed import read_executed, records
from buttonstudy.publish.newsletter.figures import chosen_figures
from buttonstudy.publish.notebooks import choose_notebooks
from buttonstudy.publish.progress import Progress
from buttonstudy.publish.provenance import RECORD_FILE, write_record
from buttonstudy.publish.read_back import SAVED_SURVEY
from buttonstudy.publish.report import ReportResult, make_report
from buttonstudy.publish.report_pages import Facts, run_record
from buttonstudy.publish.surveys import DEMO, about

__all__ = ["NEWSLETTER", "PackWanted", "make_newsletter", "remarks"]

NEWSLETTER = "newsletter"
"""The notebook that makes the pack, and the name of the zip."""


@dataclass(frozen=True, slots=True)
class PackWanted:
    """What a pack is to hold.

    Parameters
    ----------
    figures
        Names of figures, each perhaps several joined by commas; none for the notebook's own.
    width, paper
        ``"column"`` or ``"page"`` of ``"A5"`` or ``"A4"``.
    title
        The article's title; empty for one made from the survey.
    names
        Whether recorders are named.
    """

    figures: Sequence[str] = ()
    width: str = "column"
    paper: str = "A5"
    title: str = ""
    names: bool = True

    def parameters(self) -> dict[str, str]:
        """Return what the notebook is to be told, as it would be typed.

        Raises
        ------
        CallError
            If there is no figure of some name.
        SchemeError
            If there is no such width of such paper.
        """
        from buttonstudy.draw.style import print_size

        size = print_size(f"{self.paper}-{self.width}".lower()).name
        told = {"figure_size": size, "title": self.title, "names": "yes" if self.names else "no"}
        split = [name.strip() for names in self.figures for name in names.split(",")]
        if split:
            told["figures"] = ", ".join(one.name for one in chosen_figures(split))
        return told


def make_newsletter(
    paths: Sequence[str | Path] = (),
    to: str | Path = "",
    *,
    name: str = "",
    wanted: PackWanted | None = None,
    choices: Choices | None = None,
    parameters: Mapping[str, str] | None = None,
    progress: Progress | None = None,
) -> ReportResult:
    """Make a newsletter pack.

    Parameters
    ----------
    paths, to, name, choices, parameters, progress
        As for `make_report`.
    wanted
        What the pack is to hold.

    Raises
    ------
    PublishError
        If there is nothing to read, the call makes no sense, or the place cannot be written.
    SchemeError
        If a scheme or a mapping file cannot be used.
    """
    return make_report(
        paths,
        to or Path("reports") / f"{about(paths).name}-{NEWSLETTER}",
        name=name,
        notebooks=[str(choose_notebooks([NEWSLETTER])[0].path)],
        choices=choices,
        parameters={**(wanted or PackWanted()).parameters(), **(parameters or {})},
        progress=progress,
        finish=_finish,
    )


def remarks(result: ReportResult) -> list[str]:
    """Return what the notebook said last of a pack: what it holds, and what to know of it."""
    executed = result.folder / "notebooks" / f"{NEWSLETTER}.ipynb"
    said = [record["sentences"] for record, _ in records(read_executed(executed)) if _says(record)]
    return said[-1] if said else []


def _says(record: Mapping[str, object]) -> bool:
    return record.get("kind") == "say"


def _finish(facts: Facts, folder: Path) -> None:
    """Take the records out, pack the rest, and write the record of the run."""
    shutil.rmtree(folder / SAVED_SURVEY)
    files = [DEMO] if facts.about.demo else [str(name) for name in facts.survey.sources["file"]]
    for ran in facts.ran:
        _name_surveys(ran.job.executed, files)
    if not any(ran.failure for ran in facts.ran):
        write_aside(folder / f"{NEWSLETTER}.zip", _zipped(folder))
    write_record(folder, run_record(facts, datetime.now(UTC), folder))


def _name_surveys(path: Path, files: Sequence[str]) -> None:
    """Let the executed notebook name the survey files instead of what was saved of them."""
    notebook = read_executed(path)
    line = f"surveys = {json.dumps(list(files), ensure_ascii=False)}"
    for cell in notebook["cells"]:
        if cell.get("id") == "set-by-report":
            source = "".join(cell.get("source", ""))
            cell["source"] = re.sub(r"(?m)^surveys = .*$", lambda _: line, source)
    text = json.dumps(notebook, ensure_ascii=False, indent=1)
    write_aside(path, (text + "\n").encode())


def _zipped(folder: Path) -> bytes:
    """Return a folder's files as one zip file that says nothing of the day it was made."""
    content = BytesIO()
    with zipfile.ZipFile(content, "w") as packed:
        for path in sorted(folder.rglob("*")):
            name = path.relative_to(folder).as_posix()
            if path.is_file() and name != RECORD_FILE:
                entry = zipfile.ZipInfo(f"{NEWSLETTER}/{name}")
                entry.external_attr = 0o644 << 16
                packed.writestr(entry, path.read_bytes(), zipfile.ZIP_DEFLATED)
    return content.getvalue()
