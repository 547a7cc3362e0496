"""Old workbooks (.xls) looked at first in a process of their own.

Their inside is a small file system, and the reader takes a damaged one at its word: it may follow
a chain of blocks that never ends until no memory is left, and the program would be stopped before
it could say anything. So they are read once where they can do no harm: for so long, and
with so much memory where the system heeds such a limit (Linux does; Windows knows none, and there
the time alone ends it).
"""

import subprocess
import sys

from buttonstudy.schemes import limit
from buttonstudy.survey.problems import NOT_READ, Problems

__all__ = ["OLD_WORKBOOK", "can_be_read"]

OLD_WORKBOOK = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
"""How these files begin (Microsoft: "[MS-CFB]: Compound File Binary File Format", 2.2)."""

# What is an ordinary error there is the same ordinary error here, where it is told.
_READ = """
import io, sys
try:
    import resource
    resource.setrlimit(resource.RLIMIT_AS, (int(sys.argv[1]),) * 2)
except (ImportError, ValueError, OSError):
    pass
from python_calamine import CalamineWorkbook
try:
    book = CalamineWorkbook.from_filelike(io.BytesIO(sys.stdin.buffer.read()))
    for name in book.sheet_names:
        book.get_sheet_by_name(name)
except Exception:
    pass
"""


def can_be_read(data: bytes, problems: Problems) -> bool:
    """Tell whether an old workbook can be read within the limits; if not, say why."""
    most, seconds = int(limit("unpacked-bytes")), limit("old-workbook-seconds")
    try:
        ran = subprocess.run(
            [sys.executable, "-P", "-c", _READ, str(most)],
            input=data,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            timeout=seconds,
            check=False,
        )
    except subprocess.TimeoutExpired:
        _tell(
            "file-slow",
            f"This workbook could not be read within {seconds:.0f} seconds: it is damaged, or the "
            "computer has too much else to do.",
            "Try once more. If it is told again, open the workbook in your spreadsheet program and "
            "save it as .xlsx.",
            problems,
        )
        return False
    except OSError as error:
        _tell(
            "file-not-looked-at",
            "This workbook was not read: an old one (.xls) is first looked at by a program of its "
            f"own, which could not be started ({(error.strerror or str(error)).lower()}).",
            "Close other programs and try again, or open the workbook in your spreadsheet program "
            "and save it as .xlsx.",
            problems,
        )
        return False
    if ran.returncode:
        _tell(
            "file-damaged",
            "This workbook is damaged and cannot be opened (its inner order is broken, or it needs "
            f"more than {most / 1e6:,.0f} MB of memory).",
            "Open it in your spreadsheet program, let it repair the file, and save it again.",
            problems,
        )
    return not ran.returncode


def _tell(kind: str, says: str, remedy: str, problems: Problems) -> None:
    problems.add(kind, says, remedy, level=NOT_READ)
