"""Old workbooks (.xls) looked at first in a process of their own.

Their inside is a small file system, and the reader takes a damaged one at its word: it may follow
a chain of blocks that never ends until no memory is left, and the program would be stopped before
it could say anything. So they are read once where they can do no harm.
"""

import subprocess
import sys

from buttonstudy.schemes import limit

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


def can_be_read(data: bytes) -> bool:
    """Tell whether an old workbook can be read within the limits of memory and time."""
    most = int(limit("unpacked-bytes"))
    try:
        ran = subprocess.run(
            [sys.executable, "-P", "-c", _READ, str(most)],
            input=data,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            timeout=limit("old-workbook-seconds"),
            check=False,
        )
    except (subprocess.TimeoutExpired, OSError):
        return False
    return ran.returncode == 0
