"""Two folders change names in one step.

The usual rename cannot put a folder in the place of another. Linux and macOS have a call that
swaps two names at once, which Python does not offer, so it is called by its C name. Where there
is none, the caller moves the earlier folder away first.
"""

import ctypes
import errno
import os
import sys
from pathlib import Path

__all__ = ["exchange"]

_HERE = -100  # AT_FDCWD of Linux's <fcntl.h>: relative paths start at the current folder
_LINUX_EXCHANGE = 2  # RENAME_EXCHANGE of <linux/fs.h>
_MAC_SWAP = 2  # RENAME_SWAP of macOS's <sys/stdio.h>

_NOT_OFFERED = {errno.ENOSYS, errno.EINVAL, errno.ENOTSUP}


def exchange(one: Path, other: Path) -> bool:
    """Swap the names of two existing folders, or return False if this system cannot.

    Raises
    ------
    OSError
        If the system can but one of them must not be moved.
    """
    if sys.platform == "win32":
        return False
    library = ctypes.CDLL(None, use_errno=True)
    first, second = os.fsencode(one), os.fsencode(other)
    if hasattr(library, "renameat2"):
        failed = library.renameat2(_HERE, first, _HERE, second, _LINUX_EXCHANGE)
    elif hasattr(library, "renamex_np"):
        failed = library.renamex_np(first, second, _MAC_SWAP)
    else:
        return False
    code = ctypes.get_errno() if failed else 0
    if code in _NOT_OFFERED:
        return False
    if code:
        raise OSError(code, os.strerror(code), str(other))
    return True
