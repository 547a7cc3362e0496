"""What every figure function gives back: a figure with its words, or the words alone."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["Drawn", "not_drawn"]


@dataclass(frozen=True, slots=True)
class Drawn:
    """A figure and its words.

    Attributes
    ----------
    figure
        A matplotlib figure at its printed size, or None where there was nothing to draw.
    caption
        One or more sentences for under the figure; where there is none, why.
    alt_text
        What the figure shows, for a reader who cannot see it.
    name
        A short name for files, such as ``"sizes-by-period"``.
    """

    figure: "Figure | None"
    caption: str
    alt_text: str
    name: str


def not_drawn(name: str, why: str) -> Drawn:
    """Say in words why there is no figure.

    Examples
    --------
    >>> not_drawn("size-classes", "no button has a size").caption
    'There is no figure here: no button has a size.'
    """
    sentence = f"There is no figure here: {why}."
    return Drawn(None, sentence, sentence, name)
