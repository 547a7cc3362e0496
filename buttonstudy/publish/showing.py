"""Showing something under a notebook's cell, with a note of what it is.

Each thing shown carries a small record in its output's metadata (``buttonstudy``): a figure's
number and files, a table's file. The report's pages are made from that record, and the runner
checks with it that nothing got lost on the way.
"""

from base64 import b64encode
from dataclasses import dataclass, field
from typing import TypedDict

__all__ = ["RECORD", "Shown", "ShownRecord", "show"]

RECORD = "buttonstudy"
"""The key of the record in an output's metadata."""


class ShownRecord(TypedDict, total=False):
    """What a shown thing is: only plain values, so that it survives in a notebook file."""

    kind: str
    name: str
    number: int
    caption: str
    alt: str
    width_mm: float
    files: list[str]
    rows: int
    rows_shown: int
    sentences: list[str]
    announced: str


@dataclass(frozen=True, slots=True)
class Shown:
    """One thing to show: as plain text, as HTML, or as a picture with its alternative text."""

    text: str
    record: ShownRecord
    html: str = ""
    png: bytes = b""
    size: tuple[int, int] = field(default=(0, 0))


def show(shown: Shown) -> None:
    """Show it in the running notebook; in a plain Python session print its text."""
    from IPython import get_ipython

    shell = get_ipython()
    if shell is None:
        print(shown.text)
        return
    data = {"text/plain": shown.text}
    metadata: dict[str, object] = {RECORD: dict(shown.record)}
    if shown.html:
        data["text/html"] = shown.html
    if shown.png:
        data["image/png"] = b64encode(shown.png).decode("ascii")
        width, height = shown.size
        metadata["image/png"] = {
            "alt": shown.record.get("alt", ""),
            "width": width,
            "height": height,
        }
    shell.display_pub.publish(data=data, metadata=metadata)
