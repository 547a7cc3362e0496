"""The record of a run: everything to believe a report, and to tell it from any other folder.

The record names the survey files with their hashes, the versions of what computed, what was set,
and every file of the report with its hash. With those the kit can tell that a folder is a report
of its own in which nobody has changed anything; only such a folder is ever replaced.
"""

import json
import platform
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from importlib import metadata
from pathlib import Path
from typing import cast

from buttonstudy import __version__
from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.errors import CallError
from buttonstudy.publish.fingerprints import fingerprint
from buttonstudy.study.telling.words import some_of

__all__ = [
    "RECORD_FILE",
    "check_replaceable",
    "read_record",
    "replaceable",
    "versions",
    "without_folder",
    "write_record",
]

RECORD_FILE = "provenance.json"
_HOLDS = "a report made by buttonstudy"
_PACKAGES = (
    "numpy",
    "pandas",
    "scipy",
    "statsmodels",
    "matplotlib",
    "seaborn",
    "python-calamine",
    "pyarrow",
    "edtf",
    "fonttools",
    "pillow",
    "pypdfium2",
    "papermill",
    "ipykernel",
)
_SCATTERED = {".DS_Store", "Thumbs.db", "desktop.ini"}
_SCATTERED_STARTS = ("._", ".~lock.", "~$")


def versions() -> dict[str, str]:
    """Return the versions of the kit, of Python and of the packages that compute and draw."""
    own = {"buttonstudy": __version__, "Python": platform.python_version()}
    return own | {package: _version(package) for package in _PACKAGES}


@cache
def _version(package: str) -> str:
    try:
        return metadata.version(package)
    except metadata.PackageNotFoundError:
        return "not installed"


def write_record(folder: Path, told: Mapping[str, object]) -> None:
    """Write the record of a run into its finished folder; the folder's files are added to it."""
    files = {name: _hash(path) for name, path in _files(folder) if name != RECORD_FILE}
    record = {"holds": _HOLDS, **told, "files": files}
    text = json.dumps(record, ensure_ascii=False, indent=1) + "\n"
    write_aside(folder / RECORD_FILE, text.encode())


def replaceable(place: Path) -> bool:
    """Tell whether a new report may take this place."""
    try:
        check_replaceable(place)
    except CallError:
        return False
    return True


def check_replaceable(place: Path) -> None:
    """Refuse a place that holds anything but an unchanged report of the kit.

    Raises
    ------
    CallError
        Naming what stands in the way.
    """
    if not place.exists():
        return
    if not place.is_dir():
        raise CallError(f"{place} is a file. Choose another folder with --to.")
    if Path.cwd().is_relative_to(place):
        raise CallError(f"{place} is the folder that you are in. Choose one below it with --to.")
    here = dict(_files(place))
    if not here:
        return
    record = read_record(place)
    if record is None:
        raise CallError(
            f"{place} holds something else than a report of the kit and was left alone. "
            "Choose another folder with --to."
        )
    recorded = cast(dict[str, str], record["files"])
    strange = [
        name
        for name, path in here.items()
        if name != RECORD_FILE and recorded.get(name) != _hash(path)
    ]
    if strange:
        raise CallError(
            f"{place} was left alone, for in it is work that is not the kit's: {some_of(strange)}. "
            "Move or delete that, or choose another folder with --to."
        )


def read_record(place: Path) -> dict[str, object] | None:
    """Return the record of a report with its ``files``, or None if this is no report."""
    try:
        record = json.loads((place / RECORD_FILE).read_text(encoding="utf-8"))
        known = record["holds"] == _HOLDS and isinstance(record["files"], dict)
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return None
    return cast(dict[str, object], record) if known else None


def without_folder(folder: Path, values: object) -> object:
    """Return values in which a run's passing folder is called ``.``, as the report itself.

    Examples
    --------
    >>> without_folder(Path("reports/Möbel"), {"outputs": "reports/Möbel", "seed": 1})
    {'outputs': '.', 'seed': 1}
    """
    if isinstance(values, str):
        return values.replace(folder.as_posix(), ".")
    if isinstance(values, dict):
        return {name: without_folder(folder, value) for name, value in values.items()}
    if isinstance(values, Sequence):
        return [without_folder(folder, value) for value in values]
    return values


def _files(folder: Path) -> Iterator[tuple[str, Path]]:
    """Give the files below a folder by name, without those that systems scatter about."""
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder)
        scattered = path.name in _SCATTERED or path.name.startswith(_SCATTERED_STARTS)
        if not scattered and ".ipynb_checkpoints" not in name.parts and not path.is_dir():
            yield name.as_posix(), path


def _hash(path: Path) -> str:
    try:
        return fingerprint(path.read_bytes())
    except OSError:
        return "not readable"
