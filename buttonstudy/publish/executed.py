"""Executed notebooks, read back: what they show, whether anything got lost, and made tidy.

A run happens in a passing folder. Before its notebooks are handed over, the names of that folder
and the clock times in them give way to paths that hold beside the report, so that a notebook can
be opened there and run again, and two equal runs give equal files.
"""

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import TypedDict, cast

from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.captions import CAPTION_FILES, read_captions
from buttonstudy.publish.errors import PublishError
from buttonstudy.publish.pictures import KINDS
from buttonstudy.publish.showing import RECORD, ShownRecord

__all__ = ["NotebookCell", "NotebookFile", "lost_figures", "read_executed", "records", "tidy"]


class Output(TypedDict, total=False):
    """One output of a cell, as the notebook format has it."""

    output_type: str
    data: dict[str, object]
    metadata: dict[str, object]


class NotebookCell(TypedDict, total=False):
    """One cell, as the notebook format has it."""

    cell_type: str
    id: str
    source: str | list[str]
    metadata: dict[str, object]
    outputs: list[Output]


class NotebookFile(TypedDict, total=False):
    """A notebook, as the notebook format has it."""

    cells: list[NotebookCell]
    metadata: dict[str, object]
    nbformat: int
    nbformat_minor: int


def read_executed(path: Path) -> NotebookFile:
    """Read an executed notebook; one that was never written is empty.

    Raises
    ------
    PublishError
        If it was not written whole.
    """
    if not path.exists():
        return NotebookFile(cells=[], metadata={}, nbformat=4, nbformat_minor=5)
    try:
        return cast(NotebookFile, json.loads(path.read_text(encoding="utf-8")))
    except (OSError, ValueError) as error:
        raise PublishError(
            f"What the notebook {path.stem} gave was not written whole. Perhaps the disk is full: "
            "make room and try again."
        ) from error


def records(notebook: NotebookFile) -> Iterator[tuple[ShownRecord, Output]]:
    """Give each thing that a page showed in a notebook, with the output that shows it."""
    for cell in notebook["cells"]:
        for output in cell.get("outputs", []):
            record = output.get("metadata", {}).get(RECORD)
            if isinstance(record, dict):
                yield cast(ShownRecord, record), output


def lost_figures(outputs: Path, executed: Sequence[Path]) -> dict[str, list[str]]:
    """Return the figures that were announced but are not shown or not saved, by page.

    Parameters
    ----------
    outputs
        The folder with ``figures`` and their captions.
    executed
        The notebooks that were to show them.
    """
    shown = {
        record["name"]
        for path in executed
        for record, output in records(read_executed(path))
        if record.get("kind") == "figure" and output.get("data", {}).get("image/png")
    }
    folder = outputs / "figures"
    lost: dict[str, list[str]] = {}
    for file in sorted(folder.glob(f"*{CAPTION_FILES}")):
        names = [
            caption.name
            for caption in read_captions(file)
            if caption.name not in shown or not _all_saved(folder, caption.name)
        ]
        if names:
            lost[file.name.removesuffix(CAPTION_FILES)] = names
    return lost


def tidy(path: Path, root: Path) -> None:
    """Make an executed notebook hold in its report.

    Parameters
    ----------
    path
        The notebook, in a folder of the report's own.
    root
        The passing folder of the run, the parent of that folder. Wherever its name stands, it
        becomes ``..``.
    """
    notebook = read_executed(path)
    notebook["metadata"].pop("papermill", None)
    for cell in notebook["cells"]:
        metadata = cell.get("metadata", {})
        for key in ("papermill", "execution"):
            metadata.pop(key, None)
        if "injected-parameters" in _tags(cell):
            source = "".join(cell.get("source", ""))
            cell["id"] = "set-by-report"  # papermill gives it another each time
            cell["source"] = re.sub(r"(?m)^outputs = .*$", 'outputs = ""', source)
    text = json.dumps(notebook, ensure_ascii=False, indent=1)
    for name in {str(root), root.as_posix()}:
        text = text.replace(json.dumps(name, ensure_ascii=False)[1:-1], "..")
    write_aside(path, (text + "\n").encode())


def _tags(cell: Mapping[str, object]) -> Sequence[str]:
    metadata = cast(Mapping[str, Sequence[str]], cell.get("metadata", {}))
    return metadata.get("tags", ())


def _all_saved(folder: Path, name: str) -> bool:
    files = [folder / f"{name}.{kind}" for kind in KINDS]
    return all(file.is_file() and file.stat().st_size for file in files)
