"""A notebook's voice: its figures, tables and sentences, shown and saved alike.

A notebook makes one `Page` and hands it every result. The page numbers figures and tables, shows
them with their words, and, when it is given a folder for outputs, saves each figure for print and
each table as a file. Text from a survey is escaped on the way: nothing in a cell of a spreadsheet
becomes HTML here.
"""

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.captions import CaptionList
from buttonstudy.publish.csv_files import write_csv
from buttonstudy.publish.names import safe_name
from buttonstudy.publish.pictures import (
    DOTS_PER_INCH,
    KINDS,
    DrawnFigure,
    picture_files,
    pixel_size,
)
from buttonstudy.publish.prose import prose_html
from buttonstudy.publish.showing import Shown, ShownRecord, show
from buttonstudy.publish.table_html import LONGEST, table_html

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["Page"]

_SCREEN_DOTS_PER_INCH = 120  # figures made for print are read from farther away on a screen
_MM_PER_INCH = 25.4


class Page:
    """What one notebook shows and saves.

    Parameters
    ----------
    name
        The page's short name; the names of its files start with it.
    outputs
        A folder in which ``figures`` and ``tables`` are saved. Empty: nothing is saved.

    Examples
    --------
    >>> page = Page("sizes")
    >>> page.say("Sizes are known for 12 of 14 sets.", "The rest were not measured.")
    Sizes are known for 12 of 14 sets. The rest were not measured.
    """

    def __init__(self, name: str, outputs: str | Path = "") -> None:
        self.name = safe_name(name)
        self._folder = Path(outputs).absolute() if str(outputs) else None
        self._captions = CaptionList(self.name, self._folder)
        self._tables: dict[str, int] = {}

    def figure(self, drawn: DrawnFigure) -> None:
        """Show a figure with its number and caption, save it, and close it.

        A figure shown again under the same name keeps its number. Where nothing was drawn, the
        caption says why and stands alone.

        Parameters
        ----------
        drawn
            A figure with `caption`, `alt_text` and `name`; `figure` is None for words alone.

        Raises
        ------
        ValueError
            If a figure comes without caption or alternative text.
        PublishError
            If its files cannot be written.
        """
        if drawn.figure is None:
            self.note(drawn.caption)
            return
        if not drawn.alt_text.strip() or not drawn.caption.strip():
            raise ValueError(f"The figure {drawn.name!r} needs a caption and an alternative text.")
        stem = f"{self.name}-{safe_name(drawn.name, 'figure')}"
        files = [f"figures/{stem}.{kind}" for kind in KINDS] if self._folder else []
        number = self._captions.number(stem, drawn.caption, drawn.alt_text)
        png = self._save_pictures(drawn, files)
        record = ShownRecord(
            kind="figure",
            name=stem,
            number=number,
            caption=drawn.caption,
            alt=drawn.alt_text,
            width_mm=round(pixel_size(png)[0] / DOTS_PER_INCH * _MM_PER_INCH, 1),
            files=files,
        )
        label = f"Figure {number}. {drawn.caption}"
        show(Shown(drawn.alt_text, record, png=png, size=_screen_size(png)))
        show(Shown(label, ShownRecord(kind="caption", name=stem), html=_caption(label)))
        _close(drawn)

    def table(
        self,
        frame: "pd.DataFrame",
        name: str,
        title: str,
        *,
        shown: "pd.DataFrame | None" = None,
        headings: Mapping[str, str] | None = None,
        longest: int = LONGEST,
    ) -> None:
        """Show a table and save it whole as CSV; one without rows is neither shown nor saved.

        Parameters
        ----------
        frame
            The table. Missing values are shown as a dash and saved as empty cells.
        name
            A short name for its file.
        title
            Its caption.
        shown
            The same results in a form for reading; without it the table itself is shown.
        headings
            Words for columns by name; others get words made from their names.
        longest
            Rows to show; a line under a shortened table says so.
        """
        reading = frame if shown is None else shown
        if reading.empty:
            return
        stem = f"{self.name}-{safe_name(name, 'table')}"
        number = self._tables.setdefault(stem, len(self._tables) + 1)
        label = f"Table {number}. {title}"
        files = [f"tables/{stem}.csv"] if self._folder else []
        for file in files:
            write_csv(frame, self._path(file))
        rows, rows_shown = len(reading), min(len(reading), longest)
        html = table_html(reading, label, headings=headings, longest=longest)
        if rows_shown < rows:
            html += f"\n<p>The first {rows_shown} of {rows} rows are shown.</p>"
        record = ShownRecord(
            kind="table", name=stem, number=number, files=files, rows=rows, rows_shown=rows_shown
        )
        show(Shown(f"{label}\n{reading.to_string(max_rows=longest)}", record, html=html))

    def say(self, *sentences: str, announce: int = 0) -> None:
        """Show sentences as one paragraph.

        Parameters
        ----------
        sentences
            Full sentences, each true by itself.
        announce
            How many of them, from the first, are the page's main finding: a report's first page
            announces the page with them.
        """
        text = " ".join(sentences)
        record = ShownRecord(kind="say", sentences=list(sentences))
        if announce:
            record["announced"] = " ".join(sentences[:announce])
        show(Shown(text, record, html=f'<p class="say">{prose_html(text)}</p>'))

    def note(self, *sentences: str) -> None:
        """Show sentences set apart: what a result rests on, or why there is none."""
        self._set_apart("note", "Note", (" ".join(sentences),))

    def caution(self, *sentences: str) -> None:
        """Show cautions set apart, each a paragraph of its own."""
        self._set_apart("caution", "Caution", sentences)

    def _set_apart(self, kind: str, label: str, paragraphs: tuple[str, ...]) -> None:
        if not paragraphs:
            return
        first, *others = map(prose_html, paragraphs)
        told = [f"<strong>{label}.</strong> {first}", *others]
        html = (
            f'<div class="{kind}" role="note" '
            'style="border-left: 3px solid; padding-left: 1em; margin: 1em 0">'
            f"{''.join(f'<p>{paragraph}</p>' for paragraph in told)}</div>"
        )
        record = ShownRecord(kind=kind, sentences=list(paragraphs))
        show(Shown(f"{label}. {' '.join(paragraphs)}", record, html=html))

    def _save_pictures(self, drawn: DrawnFigure, files: list[str]) -> bytes:
        made = picture_files(drawn, KINDS if files else ("png",))
        for file, kind in zip(files, KINDS):
            write_aside(self._path(file), made[kind])
        return made["png"]

    def _path(self, file: str) -> Path:
        return (self._folder or Path()) / file


def _caption(label: str) -> str:
    return f'<p class="caption" style="max-width: 45em"><em>{prose_html(label)}</em></p>'


def _screen_size(png: bytes) -> tuple[int, int]:
    width, height = pixel_size(png)
    scale = _SCREEN_DOTS_PER_INCH / DOTS_PER_INCH
    return round(width * scale), round(height * scale)


def _close(drawn: DrawnFigure) -> None:
    """Free the figure's memory, and keep the notebook from showing it a second time."""
    import sys

    pyplot = sys.modules.get("matplotlib.pyplot")
    if pyplot is not None and drawn.figure is not None:
        pyplot.close(drawn.figure)
