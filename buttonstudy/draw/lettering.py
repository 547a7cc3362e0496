"""Measures and breaks text, so that nothing on a figure overlaps or is cut.

Every label's place is planned from its measured width before anything is drawn. A term of eighty
letters is broken over lines; a letter that the typeface lacks is shown as an open box.
"""

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from buttonstudy.draw.style import MM_PER_POINT, SMALL_PT
from buttonstudy.draw.typefaces import families

if TYPE_CHECKING:
    from matplotlib.font_manager import FontProperties

__all__ = [
    "Lettering",
    "drawable",
    "has_gaps",
    "lettering",
    "line_height_mm",
    "shortened",
    "width_mm",
]

_LEADING = 1.25
_SPACES = re.compile(r" (?!(?:%|mm)(?!\w))")  # a number stays with its sign or unit
_MOST_LETTERS = 160
_SPARE = 1.045
_TOUCH = 1e-6
_MISSING = "▯"
_BREAK_AFTER = "-–/_,;"


@dataclass(frozen=True, slots=True)
class Lettering:
    """A text broken into lines, with its measured size.

    Attributes
    ----------
    text
        The lines, joined by line breaks.
    width_mm, height_mm
        The width of the longest line, and the height of them all.
    """

    text: str
    width_mm: float
    height_mm: float


@lru_cache(maxsize=5000)
def lettering(
    text: str, within_mm: float, points: float = SMALL_PT, *, bold: bool = False
) -> Lettering:
    r"""Break a text so that no line is wider than ``within_mm``.

    Breaks fall between words, else after hyphens and commas, else within the word.

    Examples
    --------
    >>> lettering("thread buttonhole stitch over a ring", 20).text
    'thread\nbuttonhole\nstitch over a\nring'
    """
    broken = _lines(drawable(text), within_mm + _TOUCH, points, bold)
    widest = max((width_mm(line, points, bold=bold) for line in broken), default=0.0)
    return Lettering("\n".join(broken), widest, len(broken) * line_height_mm(points))


def line_height_mm(points: float = SMALL_PT) -> float:
    """Give the distance from one line to the next."""
    return points * MM_PER_POINT * _LEADING


def drawable(text: str) -> str:
    r"""Put text on one line, with an open box for each letter that the typeface lacks.

    Examples
    --------
    >>> drawable("bone\n釦")
    'bone ▯'
    """
    known = _letters()
    return "".join(
        letter if ord(letter) in known else _MISSING
        for letter in " ".join(text.split())
        if letter.isprintable()
    )


def shortened(text: str) -> str:
    """Cut a text that is longer than any name should be.

    Examples
    --------
    >>> shortened("bone"), len(shortened("bone " * 100))
    ('bone', 160)
    """
    return text if len(text) <= _MOST_LETTERS else f"{text[: _MOST_LETTERS - 1].rstrip()}…"


def has_gaps(*texts: str) -> bool:
    """Say whether any of the texts has a letter that the typeface lacks."""
    return any(_MISSING in drawable(text) for text in texts)


def width_mm(text: str, points: float = SMALL_PT, *, bold: bool = False) -> float:
    """Measure one line of text, with a little to spare for how screens fit letters to dots."""
    return _SPARE * _width_of_one_point(text, bold) * points * MM_PER_POINT


@cache
def _width_of_one_point(text: str, bold: bool) -> float:
    from matplotlib.textpath import TextToPath

    if not text:
        return 0.0
    size = _font(bold).get_size_in_points()
    width, _, _ = TextToPath().get_text_width_height_descent(text, _font(bold), ismath=False)
    return float(width) / size


@cache
def _font(bold: bool) -> "FontProperties":
    from matplotlib.font_manager import FontProperties

    weight = "bold" if bold else "normal"
    return FontProperties(family=list(families()), weight=weight, size=100)


@cache
def _letters() -> frozenset[int]:
    from matplotlib.font_manager import findfont, get_font

    return frozenset().union(*(get_font(findfont(name)).get_charmap() for name in families()))


def _lines(text: str, within_mm: float, points: float, bold: bool) -> list[str]:
    lines: list[str] = []
    line = ""
    for word in _SPACES.split(text):
        joined = f"{line} {word}" if line else word
        if width_mm(joined, points, bold=bold) <= within_mm:
            line = joined
            continue
        if line:
            lines.append(line)
        *full, line = _pieces(word, within_mm, points, bold)
        lines.extend(full)
    return [*lines, line] if line else lines


def _pieces(word: str, within_mm: float, points: float, bold: bool) -> list[str]:
    """Break one word that is too wide, after a hyphen or the like if it has one."""
    pieces = []
    while width_mm(word, points, bold=bold) > within_mm and len(word) > 1:
        fits = next(
            length
            for length in range(len(word) - 1, 0, -1)
            if length == 1 or width_mm(word[:length], points, bold=bold) <= within_mm
        )
        after = max((word.rfind(mark, 0, fits) + 1 for mark in _BREAK_AFTER), default=0)
        pieces.append(word[: after or fits])
        word = word[after or fits :]
    return [*pieces, word]
