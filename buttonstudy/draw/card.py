"""A record card for the bench: what is to be noted of one button, to be filled in by hand.

The face has a line to write on for each field, boxes to tick where the answer is one of a few,
and a ruler at actual size. The back lists the preferred terms. What is seen only on an opened
button stands on a tinted ground, as it does in the workbook.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from buttonstudy.draw.lettering import lettering, line_height_mm, width_mm
from buttonstudy.draw.paper import Paper, page
from buttonstudy.draw.ruler import RULER_MM, RULER_SAYS, draw_ruler, ruler_length
from buttonstudy.draw.style import TITLE_PT, house_style, ink

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

__all__ = ["CardLine", "card_figures"]

_TALLEST = 11.0  # a line to write on needs no more, in mm
_BOX = 2.4
_GAP = 1.2
_LABEL_SHARE = 0.24
_TERMS_SAY = "Any other word will do too: write what you see."
_INSIDE_SAYS = "Tinted lines: seen only on an opened button."


@dataclass(frozen=True, slots=True)
class CardLine:
    """One line of the card.

    Parameters
    ----------
    label
        What is to be noted, with its unit.
    boxes
        Answers to tick.
    terms
        Preferred terms, listed on the back.
    inside
        True if it can be seen only on an opened button.
    """

    label: str
    boxes: tuple[str, ...]
    terms: tuple[str, ...]
    inside: bool


def card_figures(lines: Sequence[CardLine], on: Paper) -> "list[Figure]":
    """Draw a card: its face, and its back (or more pages) if there are terms to list."""
    with house_style():
        return [_face(lines, on), *_backs([line for line in lines if line.terms], on)]


def _face(lines: Sequence[CardLine], on: Paper) -> "Figure":
    figure, axes = page(on)
    left, right = on.margin_mm, on.width_mm - on.margin_mm
    top = _title(axes, on, "Record of one button", _INSIDE_SAYS)
    words = lettering(RULER_SAYS, right - left)
    foot = on.margin_mm + words.height_mm + _GAP + RULER_MM + _GAP
    tall = min(_TALLEST, (top - foot) / len(lines))
    for number, line in enumerate(lines):
        _line(axes, line, left, right, top - (number + 1) * tall, tall)
    length = ruler_length(right - left)
    middle = on.margin_mm + words.height_mm + _GAP + RULER_MM / 2
    draw_ruler(axes, left + 1.0, middle, length)
    axes.text(left, on.margin_mm, words.text, va="bottom", linespacing=1.25)
    return figure


def _title(axes: "Axes", on: Paper, title: str, note: str) -> float:
    """Write the heading; return the height below which there is room."""
    top = on.height_mm - on.margin_mm
    axes.text(on.margin_mm, top, title, va="top", fontsize=TITLE_PT, fontweight="bold")
    axes.text(on.width_mm - on.margin_mm, top, note, va="top", ha="right")
    return top - line_height_mm(TITLE_PT) - _GAP


def _line(
    axes: "Axes", line: CardLine, left: float, right: float, bottom: float, tall: float
) -> None:
    from matplotlib.patches import Rectangle

    if line.inside:
        ground = Rectangle((left, bottom), right - left, tall, color=ink("faint").colour, lw=0)
        ground.set_alpha(0.45)
        axes.add_patch(ground)
    axes.plot([left, right], [bottom, bottom], color=ink("quiet").colour, linewidth=0.4)
    label = lettering(line.label, (right - left) * _LABEL_SHARE)
    axes.text(left + 0.8, bottom + tall / 2, label.text, va="center", linespacing=1.0)
    place = right
    for words in reversed(line.boxes):
        place -= width_mm(words) + _GAP
        axes.text(place, bottom + tall / 2, words, va="center")
        place -= _BOX + _GAP / 2
        corner = (place, bottom + (tall - _BOX) / 2)
        white = ink("paper").colour
        axes.add_patch(Rectangle(corner, _BOX, _BOX, facecolor=white, edgecolor=ink("ink").colour))
        place -= _GAP


def _backs(lines: Sequence[CardLine], on: Paper) -> "Iterator[Figure]":
    left, width = on.margin_mm, on.width_mm - 2 * on.margin_mm
    place, figure = 0.0, None
    for line in lines:
        label = lettering(line.label, width * _LABEL_SHARE, bold=True)
        terms = lettering(", ".join(line.terms), width * (1 - _LABEL_SHARE))
        tall = max(label.height_mm, terms.height_mm)
        if figure is None or place - tall < on.margin_mm:
            if figure is not None:
                yield figure
            figure, axes = page(on)
            place = _title(axes, on, "Preferred terms", _TERMS_SAY)
        axes.text(left, place, label.text, va="top", fontweight="bold", linespacing=1.25)
        axes.text(left + width * _LABEL_SHARE, place, terms.text, va="top", linespacing=1.25)
        place -= tall + _GAP
    if figure is not None:
        yield figure
