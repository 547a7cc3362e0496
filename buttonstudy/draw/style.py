"""The house style: printed widths in millimetres, one typeface, colours that survive a photocopier.

A newsletter prints a figure at the width of its column, often in grey. So every figure is made at
its printed size with type of 7 points or more, in colours that differ in lightness first (from
Okabe and Ito's set for colour-blind readers), with a hatch as the second cue. Figures are drawn
apart from pyplot: nothing that a notebook has set changes them, and they change nothing there.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache

from buttonstudy.draw.typefaces import families
from buttonstudy.schemes import SchemeError, rows

__all__ = [
    "MM_PER_INCH",
    "MM_PER_POINT",
    "SMALL_PT",
    "TITLE_PT",
    "Ink",
    "PrintSize",
    "house_style",
    "ink",
    "print_size",
    "print_sizes",
]

SMALL_PT = 7.0
TITLE_PT = 8.5
MM_PER_INCH = 25.4
MM_PER_POINT = MM_PER_INCH / 72


@dataclass(frozen=True, slots=True)
class PrintSize:
    """A place for a figure on a printed page.

    Attributes
    ----------
    name
        Such as ``"a5-page"``.
    paper
        The sheet, such as ``"A5"``.
    width_mm, height_mm
        The figure's width, and the height of the page's text.
    caption_mm
        The part of the height that is kept for the figure's caption.
    periods_by_years
        Whether figures of many rows label periods by their years, for want of room for names.
    says
        What the name means.
    """

    name: str
    paper: str
    width_mm: float
    height_mm: float
    caption_mm: float
    periods_by_years: bool
    says: str

    @property
    def tallest_mm(self) -> float:
        """The height that a figure may have at most, so that its caption fits below it."""
        return self.height_mm - self.caption_mm


@dataclass(frozen=True, slots=True)
class Ink:
    """A colour with its second cue for grey prints; an empty hatch is a plain fill."""

    colour: str
    hatch: str


@cache
def print_sizes() -> tuple[PrintSize, ...]:
    """Give the printed sizes that figures can have.

    Examples
    --------
    >>> [size.name for size in print_sizes()]
    ['a5-column', 'a5-page', 'a4-column', 'a4-page']
    """
    return tuple(
        PrintSize(
            row["name"],
            row["paper"],
            float(row["width_mm"]),
            float(row["height_mm"]),
            float(row["caption_mm"]),
            row["periods_by"] == "years",
            row["says"],
        )
        for row in rows("print_sizes")
    )


def print_size(name: str) -> PrintSize:
    """Give one printed size by its name.

    Raises
    ------
    SchemeError
        If there is none of that name; the message lists them.

    Examples
    --------
    >>> print_size("a5-column").width_mm
    57.0
    """
    for size in print_sizes():
        if size.name == name:
            return size
    names = ", ".join(size.name for size in print_sizes())
    raise SchemeError(f'There is no print size called "{name}". Use one of: {names}.')


@cache
def _inks() -> dict[str, Ink]:
    return {row["name"]: Ink(row["colour"], row["hatch"]) for row in rows("palette")}


def ink(name: str) -> Ink:
    """Give a colour of the palette with its hatch.

    Examples
    --------
    >>> ink("deep").colour
    '#0072B2'
    """
    return _inks()[name]


@contextmanager
def house_style() -> Iterator[None]:
    """Draw in the house style within a ``with`` block, and leave all settings as they were."""
    import matplotlib

    with matplotlib.rc_context():
        matplotlib.rcdefaults()
        matplotlib.rcParams.update(
            {
                "font.family": list(families()),
                "font.size": SMALL_PT,
                "text.parse_math": False,
                "axes.unicode_minus": True,
                "axes.linewidth": 0.5,
                "axes.edgecolor": ink("quiet").colour,
                "axes.spines.top": False,
                "axes.spines.right": False,
                "xtick.major.width": 0.5,
                "ytick.major.width": 0.5,
                "xtick.minor.width": 0.4,
                "xtick.major.size": 2.0,
                "ytick.major.size": 2.0,
                "xtick.minor.size": 1.2,
                "xtick.major.pad": 1.5,
                "ytick.major.pad": 1.5,
                "xtick.labelsize": SMALL_PT,
                "ytick.labelsize": SMALL_PT,
                "hatch.linewidth": 0.4,
                "lines.linewidth": 1.0,
                "patch.linewidth": 0.5,
                "figure.dpi": 150,
                "savefig.dpi": 300,
                "savefig.bbox": None,
                "pdf.fonttype": 42,
                "svg.fonttype": "path",
                "svg.hashsalt": "buttonstudy",
            }
        )
        yield
