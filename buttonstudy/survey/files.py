"""Survey files found and read: what kind each is, by its content, and its sheets of raw cells.

A file's name may lie about its kind; its first bytes do not. A file is read once, whole, and is
never written to.
"""

import hashlib
import io
import stat
import zipfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from buttonstudy.schemes import limit, rows
from buttonstudy.survey.delimited import read_delimited
from buttonstudy.survey.old_workbooks import OLD_WORKBOOK
from buttonstudy.survey.packed import DAMAGED
from buttonstudy.survey.problems import FOR_INFORMATION, NOT_READ, Problems
from buttonstudy.survey.sheets import Sheet
from buttonstudy.survey.workbook import read_workbook

SUFFIXES = (".xlsx", ".ods", ".csv", ".tsv", ".txt", ".xlsm", ".xls", ".xlsb")

_OTHER_DOCUMENTS = {"other-document": "a text or other office document", "pdf": "a PDF file"}


@dataclass(frozen=True, slots=True)
class SurveyFile:
    """One survey file as read.

    Parameters
    ----------
    name
        How the file is called in the record: its name, or its path where two share a name.
    sha256
        Hash of its bytes; ``""`` if it could not be read.
    size
        Bytes.
    form
        What it is, in plain words, such as ``"workbook"`` or ``"text, UTF-8, semicolon"``.
    sheets
        Its sheets.
    data
        A workbook's bytes, for looking up number formats; nothing of a text.
    """

    name: str
    sha256: str
    size: int
    form: str
    sheets: tuple[Sheet, ...]
    data: bytes


def find_files(paths: Sequence[str | Path]) -> list[Path]:
    """Name the survey files: files as given, folders as the survey files in them, each once.

    Hidden files, a spreadsheet program's lock files (``~$...``) and texts about the folder
    (:func:`left_out_files`) in folders are passed over.
    """
    found: dict[Path, None] = {}
    for path in map(Path, paths):
        if path.is_dir():
            found |= dict.fromkeys(one for one in _inside(path) if not _is_about(one))
        else:
            found[path] = None
    unique = {_resolved(path): path for path in found}
    return list(unique.values())


def left_out_files(paths: Sequence[str | Path]) -> list[Path]:
    """Name the texts that tell about a folder (readme.txt), where a folder is given, not they."""
    given = {_resolved(path) for path in map(Path, paths)}
    folders = [path for path in map(Path, paths) if path.is_dir()]
    about = [one for path in folders for one in _inside(path) if _is_about(one)]
    return [one for one in about if _resolved(one) not in given]


def _inside(folder: Path) -> list[Path]:
    return sorted(
        one
        for one in folder.iterdir()
        if one.suffix.lower() in SUFFIXES and not one.name.startswith((".", "~$"))
    )


def _is_about(path: Path) -> bool:
    name = "".join(filter(str.isalpha, path.stem.casefold()))
    return path.suffix.lower() == ".txt" and any(
        row["name"] == name for row in rows("left_out_files")
    )


def _resolved(path: Path) -> Path:
    try:
        return path.resolve()
    except (OSError, RuntimeError):  # links that lead in a circle: told when it is read
        return path.absolute()


def display_names(paths: Sequence[Path]) -> list[str]:
    """Call each file by its name, or by its path where two files share a name."""
    names = [path.name for path in paths]
    return [name if names.count(name) == 1 else path.as_posix() for name, path in zip(names, paths)]


def read_file(path: Path, name: str, problems: Problems) -> SurveyFile:
    """Read one file; what cannot be read is noted among the problems."""
    data = _bytes(path, problems)
    if data is None:
        return SurveyFile(name, "", 0, "not read", (), b"")
    kind = _kind(data)
    if not data.strip():
        problems.add(
            "file-empty",
            "This file is empty.",
            "Check that it is the right file and that it was saved.",
            level=NOT_READ,
        )
        sheets, form = [], "empty"
    elif kind == "text":
        sheet, text_form = read_delimited(data, problems)
        sheets = [sheet] if sheet else []
        form = f"text, {text_form.encoding}, {text_form.separator}" if text_form else "not a table"
    elif kind == "encrypted":
        problems.add(
            "password",
            "This workbook is protected by a password and cannot be opened.",
            "Save a copy without the password and name that file.",
            level=NOT_READ,
        )
        sheets, form = [], "protected workbook"
    elif kind in _OTHER_DOCUMENTS:
        problems.add(
            "no-spreadsheet",
            f"This is {_OTHER_DOCUMENTS[kind]}, whatever its name says, and no spreadsheet.",
            "Copy its table into a spreadsheet, and name that file.",
            level=NOT_READ,
        )
        sheets, form = [], "no spreadsheet"
    else:
        sheets, form = read_workbook(data, problems), "workbook"
    if sheets:  # of a file from which nothing was read its own problem is told
        _tell_wrong_suffix(path, kind, problems)
    kept = b"" if kind == "text" else data
    return SurveyFile(name, hashlib.sha256(data).hexdigest(), len(data), form, tuple(sheets), kept)


def _bytes(path: Path, problems: Problems) -> bytes | None:
    largest = limit("file-bytes")
    try:
        about = path.stat()
        size = about.st_size
        if not stat.S_ISREG(about.st_mode):  # a pipe or a device may have no end
            problem, kind = "This is no file that can be read to its end.", "file-unreadable"
            remedy = "Copy what it gives into a file and name that."
        elif size <= largest:
            return path.read_bytes()
        else:
            problem, kind = _too_large(size, largest), "file-too-large"
            remedy = "Check that it is the right file; if it is, split it."
    except FileNotFoundError:
        problem, kind = "There is no such file.", "file-missing"
        remedy = "Check the name and the folder."
    except PermissionError:
        problem, kind = "This file may not be opened.", "file-locked"
        remedy = "Close it in other programs, or ask for permission to read it."
    except OSError as error:
        problem, kind = f"This file cannot be read ({error.strerror}).", "file-unreadable"
        remedy = "Copy it to this computer and try again."
    problems.add(kind, problem, remedy, level=NOT_READ)
    return None


def _too_large(size: float, largest: float) -> str:
    return f"This file has {size / 1e6:,.0f} MB, more than the {largest / 1e6:,.0f} MB read."


def _kind(data: bytes) -> str:
    """Tell from the content: workbook, encrypted workbook, another document, or text."""
    if data.startswith(OLD_WORKBOOK):
        # An encrypted .xlsx is an old-office container that holds an EncryptedPackage.
        return "encrypted" if "EncryptedPackage".encode("utf-16-le") in data else "workbook"
    if data.startswith(b"PK\x03\x04"):
        return _packed_kind(data)
    return "pdf" if data.startswith(b"%PDF-") else "text"


def _packed_kind(data: bytes) -> str:
    """Tell what a zip file is by the parts that its standard asks for (ECMA-376, ODF 1.3)."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            parts = set(archive.namelist())
            if "META-INF/manifest.xml" in parts:
                with archive.open("META-INF/manifest.xml") as manifest:
                    if b"encryption-data" in manifest.read(1_000_000):
                        return "encrypted"
            if "mimetype" in parts:
                with archive.open("mimetype") as says:
                    kind = says.read(200).removeprefix(b"application/vnd.oasis.opendocument.")
                return "workbook" if kind.startswith(b"spreadsheet") else "other-document"
            if {"word/document.xml", "ppt/presentation.xml"} & parts:
                return "other-document"
    except DAMAGED:
        pass
    return "workbook"


def _tell_wrong_suffix(path: Path, kind: str, problems: Problems) -> None:
    suffix = path.suffix.lower()
    textual = suffix in (".csv", ".tsv", ".txt")
    if kind == "workbook" and textual:
        says = f"This file is called {suffix} but is a workbook; it was read as one."
    elif kind == "text" and not textual and suffix in SUFFIXES:
        says = f"This file is called {suffix} but holds plain text; it was read as a text table."
    else:
        return
    problems.add(
        "wrong-extension",
        says,
        "Rename the file so that its ending tells what it is.",
        level=FOR_INFORMATION,
    )
