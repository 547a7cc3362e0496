"""What is drawn, in millimetres of the button, before any paper is thought of."""

from dataclasses import dataclass, field

import numpy as np

from buttonstudy.draw.section.profiles import Outline

__all__ = ["Callout", "Piece", "Pieces", "Stroke", "ellipse", "mirrored", "rectangle"]


@dataclass(frozen=True, slots=True)
class Piece:
    """A cut surface.

    Attributes
    ----------
    outline
        Closed, n by 2.
    material
        A material's name; empty for none (unfilled).
    certain
        False draws the edge dashed.
    edged
        False draws no edge: strokes stand for it.
    turned
        True leans the hatch the other way, as draughtsmen part two pieces of one material.
    assumed
        True draws a certain piece's edge dotted: a size of it was assumed.
    """

    outline: Outline
    material: str = ""
    certain: bool = True
    edged: bool = True
    turned: bool = False
    assumed: bool = False

    @property
    def style(self) -> str:
        """How its edge is drawn."""
        if not self.edged:
            return "none"
        return "dashed" if not self.certain else "dotted" if self.assumed else "solid"


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line, such as a thread seen from the side or an edge that nobody saw.

    Attributes
    ----------
    assumed
        True lays dots over a drawn edge whose place was assumed.
    """

    points: Outline
    width_mm: float = 0.0
    certain: bool = True
    assumed: bool = False


@dataclass(frozen=True, slots=True)
class Callout:
    """Words for a part, with a place on it.

    Attributes
    ----------
    x, y
        The place, in the right half; it serves on the left as well if ``both`` is true.
    """

    says: str
    x: float
    y: float
    both: bool = True


@dataclass(slots=True)
class Pieces:
    """All that makes up one drawing, from the back to the front."""

    surfaces: list[Piece] = field(default_factory=list)
    strokes: list[Stroke] = field(default_factory=list)
    callouts: list[Callout] = field(default_factory=list)

    def box(self) -> tuple[float, float, float, float]:
        """Give left, bottom, right and top of what is drawn."""
        outlines = [one.outline for one in self.surfaces] + [one.points for one in self.strokes]
        points = np.concatenate(outlines)
        low, high = points.min(axis=0), points.max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def ellipse(x: float, y: float, across: float, up: float) -> Outline:
    """Trace an ellipse about a middle, by its half widths."""
    turn = np.linspace(0, 2 * np.pi, 48, endpoint=False)
    return np.column_stack([x + across * np.cos(turn), y + up * np.sin(turn)])


def rectangle(left: float, bottom: float, right: float, top: float) -> Outline:
    """Trace a rectangle."""
    return np.array([(left, bottom), (right, bottom), (right, top), (left, top)], dtype=float)


def mirrored(outline: Outline) -> Outline:
    """Give the same on the other side."""
    return outline * (-1, 1)
