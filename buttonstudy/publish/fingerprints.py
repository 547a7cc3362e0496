"""Hashes by which a run knows whether something is as it was."""

import hashlib
from collections.abc import Iterable
from functools import cache
from pathlib import Path

__all__ = ["files_below", "fingerprint", "fingerprint_of_files", "kit_fingerprint"]


def fingerprint(content: bytes) -> str:
    """Return the SHA-256 of some content."""
    return hashlib.sha256(content).hexdigest()


def fingerprint_of_files(paths: Iterable[Path], root: Path | None = None) -> str:
    """Return one hash of several files' contents and names (below a root, if one is given)."""
    return fingerprint(
        "\n".join(
            f"{fingerprint(path.read_bytes())} {path.relative_to(root) if root else path.name}"
            for path in paths
        ).encode()
    )


def files_below(place: Path) -> list[Path]:
    """Return a file itself, or all files of a folder in the order of their names."""
    try:
        return [place] if place.is_file() else sorted(filter(Path.is_file, place.rglob("*")))
    except (OSError, ValueError):  # such as a name longer than any file's
        return []


@cache
def kit_fingerprint() -> str:
    """Return a hash of the kit's code and tables, which change more often than its version."""
    package = Path(__file__).parent.parent
    files = [path for path in files_below(package) if path.suffix != ".pyc"]
    return fingerprint_of_files(files, package)
