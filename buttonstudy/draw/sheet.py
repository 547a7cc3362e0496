"""Lays a figure out in millimetres from the top down: heading, notes, what is drawn, source.

All places are known before drawing: heights come from measured text and numbers of rows, the
width from the column on the page. Nothing is trimmed or scaled afterwards, so that a figure made
for a 57 mm column is 57 mm wide and its 7-point type is 7 points.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from buttonstudy.draw.lettering import Lettering, lettering, line_height_mm
from buttonstudy.draw.style import MM_PER_INCH, SMALL_PT, TITLE_PT, Ink, PrintSize, ink

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

__all__ = ["KeyEntry", "Sheet"]

_EDGE = 1.0
_GAP = 1.2
_PATCH = 4.0


@dataclass(frozen=True, slots=True)
class KeyEntry:
    """One entry of a key: a filled patch and what it stands for."""

    ink: Ink
    says: str


class Sheet:
    """A figure of a fixed width that is planned first and drawn once.

    Parameters
    ----------
    size
        The place on the page.
    title, note, source
        The heading, the lines under it that say what is counted in which unit, and the line at
        the foot.
    key
        Entries of a key below the note.
    under
        What is to be said right under what is drawn, such as what it leaves out.

    Attributes
    ----------
    left_mm, width_mm
        The printable width.
    """

    def __init__(
        self,
        size: PrintSize,
        title: str,
        note: str,
        source: str,
        key: Sequence[KeyEntry] = (),
        under: str = "",
    ) -> None:
        self.size = size
        self.left_mm = _EDGE
        self.width_mm = size.width_mm - 2 * _EDGE
        self._title = lettering(title, self.width_mm, TITLE_PT, bold=True)
        self._note = lettering(note, self.width_mm)
        self._source = lettering(f"Source: {source}" if source else "", self.width_mm)
        self._under = lettering(under, self.width_mm)
        self._key = _place_key(key, self.width_mm)
        self._key_mm = _key_height(self._key)
        self._head_mm = _EDGE + self._title.height_mm + self._note.height_mm + _GAP + self._key_mm
        self._under_mm = self._under.height_mm + (_GAP if under else 0.0)
        self._foot_mm = self._under_mm + self._source.height_mm + (_GAP if source else 0.0) + _EDGE
        self._height_mm = 0.0
        self._figure: Figure | None = None

    @property
    def room_mm(self) -> float:
        """The height that the page leaves for what is drawn."""
        return self.size.tallest_mm - self._head_mm - self._foot_mm

    @property
    def figure(self) -> "Figure":
        """The figure; only after :meth:`open`."""
        if self._figure is None:
            raise RuntimeError("The sheet is not open yet.")
        return self._figure

    def open(self, body_mm: float) -> "Figure":
        """Make the figure with room of this height for what is drawn."""
        from matplotlib.figure import Figure

        self._height_mm = self._head_mm + body_mm + self._foot_mm
        width = self.size.width_mm
        self._figure = Figure(figsize=(width / MM_PER_INCH, self._height_mm / MM_PER_INCH))
        top = _EDGE - self._head_mm
        self.text(0, top, self._title, TITLE_PT, weight="bold")
        self.text(0, top + self._title.height_mm, self._note)
        self._draw_key(-self._key_mm)
        self.text(0, body_mm + _GAP, self._under)
        self.text(0, body_mm + self._under_mm + _GAP, self._source, colour=ink("quiet").colour)
        return self._figure

    def axes(self, x_mm: float, y_mm: float, width_mm: float, height_mm: float) -> "Axes":
        """Add axes at a place measured from the body's upper left corner."""
        left, top = self._place(x_mm, y_mm)
        _, bottom = self._place(x_mm, y_mm + height_mm)
        width = width_mm / self.size.width_mm
        return self.figure.add_axes((left, bottom, width, top - bottom))

    def text(
        self,
        x_mm: float,
        y_mm: float,
        letters: Lettering,
        points: float = SMALL_PT,
        *,
        align: str = "left",
        colour: str = "black",
        weight: str = "normal",
        upright: bool = False,
    ) -> None:
        """Write lines with their upper edge at ``y_mm`` from the body's top.

        Upright letters are one line that reads upwards from ``y_mm``, centred on ``x_mm``.
        """
        if not letters.text:
            return
        if upright:
            left, bottom = self._place(x_mm, y_mm)
            self.figure.text(
                left, bottom, letters.text, fontsize=points, rotation=90, ha="center", va="bottom"
            )
            return
        lines = letters.text.split("\n")
        for number, line in enumerate(lines):
            middle = y_mm + (number + 0.5) * line_height_mm(points)
            left, top = self._place(x_mm, middle)
            self.figure.text(
                left,
                top,
                line,
                fontsize=points,
                ha=align,
                va="center_baseline",
                color=colour,
                fontweight=weight,
            )

    def _place(self, x_mm: float, y_mm: float) -> tuple[float, float]:
        """Turn a place in the body into the figure's own coordinates."""
        across = (self.left_mm + x_mm) / self.size.width_mm
        return across, 1 - (self._head_mm + y_mm) / self._height_mm

    def _draw_key(self, y_mm: float) -> None:
        from matplotlib.patches import Rectangle

        for x_mm, below_mm, entry, letters in self._key:
            left, top = self._place(x_mm, y_mm + below_mm + 0.6)
            right, bottom = self._place(x_mm + _PATCH, y_mm + below_mm + line_height_mm() - 0.6)
            patch = Rectangle(
                (left, bottom),
                right - left,
                top - bottom,
                facecolor=entry.ink.colour,
                edgecolor=ink("ink").colour,
                hatch=entry.ink.hatch,
                linewidth=0.4,
                transform=self.figure.transFigure,
            )
            self.figure.add_artist(patch)
            self.text(x_mm + _PATCH + 0.8, y_mm + below_mm, letters)


def _key_height(key: Sequence[tuple[float, float, KeyEntry, Lettering]]) -> float:
    return key[-1][1] + key[-1][3].height_mm + _GAP if key else 0.0


def _place_key(
    key: Sequence[KeyEntry], within_mm: float
) -> list[tuple[float, float, KeyEntry, Lettering]]:
    """Place a key's entries side by side, over as many rows as they need."""
    placed = []
    x_mm = y_mm = 0.0
    for entry in key:
        letters = lettering(entry.says, within_mm - _PATCH - 0.8)
        wide = _PATCH + 0.8 + letters.width_mm + 2.5
        if x_mm > 0 and x_mm + wide - 2.5 > within_mm:
            x_mm, y_mm = 0.0, y_mm + line_height_mm()
        placed.append((x_mm, y_mm, entry, letters))
        x_mm += wide
        if "\n" in letters.text:
            x_mm, y_mm = 0.0, y_mm + letters.height_mm
    return placed
