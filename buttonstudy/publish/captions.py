"""The list of a page's figures, kept beside them.

Whoever puts a figure into a newsletter needs its caption and its alternative text, so they are
kept as a table with the figures. The list is written before a figure is shown, and so also tells
the runner which figures it must find afterwards: some notebook set-ups have lost figures without
a word.
"""

from dataclasses import dataclass
from pathlib import Path

from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.csv_files import safe_text

__all__ = ["CAPTION_FILES", "Caption", "CaptionList", "caption_file", "read_captions"]

CAPTION_FILES = "-captions.csv"
"""How the name of a list of figures ends."""

_HEADINGS = ("number", "name", "caption", "alternative text")


@dataclass(frozen=True, slots=True)
class Caption:
    """One figure's words, and the name of its files without ending."""

    number: int
    name: str
    caption: str
    alt_text: str


class CaptionList:
    """Numbers the figures of one page and keeps their words.

    Parameters
    ----------
    page
        The page's name.
    folder
        The outputs folder, or None to keep the list in memory only.
    """

    def __init__(self, page: str, folder: Path | None) -> None:
        self._file = caption_file(folder, page) if folder else None
        self._captions: dict[str, Caption] = {}

    def number(self, name: str, caption: str, alt_text: str) -> int:
        """Return a figure's number, the same as before if the name was there before."""
        earlier = self._captions.get(name)
        number = earlier.number if earlier else len(self._captions) + 1
        self._captions[name] = Caption(number, name, caption, alt_text)
        if self._file:
            write_aside(self._file, _as_csv(self._captions).encode("utf-8-sig"))
        return number


def caption_file(folder: Path, page: str) -> Path:
    """Return where a page's list of figures is kept in an outputs folder."""
    return folder / "figures" / f"{page}{CAPTION_FILES}"


def read_captions(path: Path) -> tuple[Caption, ...]:
    """Read a list of figures back; a missing file is an empty list."""
    import csv

    if not path.exists():
        return ()
    with path.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file))
    return tuple(Caption(int(number), *words) for number, *words in rows[1:])


def _as_csv(captions: dict[str, Caption]) -> str:
    import csv
    from io import StringIO

    text = StringIO()
    writer = csv.writer(text)
    writer.writerow(_HEADINGS)
    for one in captions.values():
        words = (safe_text(word) for word in (one.name, one.caption, one.alt_text))
        writer.writerow((one.number, *words))
    return text.getvalue()
