"""The typeface of figures, small enough to be put into every PDF file in no time.

It is DejaVu Sans, cut by `buttonstudy.draw.typefaces.cut` to the letters that Latin scripts use and
the signs of the trade, under a name of its own, as its licence asks. Any other letter is taken from
the whole DejaVu Sans, which comes with matplotlib.
"""

from functools import cache
from pathlib import Path

__all__ = ["CUT", "WHOLE", "families"]

CUT = "Buttonstudy Sans"
WHOLE = "DejaVu Sans"


@cache
def families() -> tuple[str, str]:
    """Make the typeface known to matplotlib, and name the families in which letters are sought."""
    from matplotlib.font_manager import fontManager

    for file in sorted(Path(__file__).parent.glob("*.ttf")):
        fontManager.addfont(file)
    return CUT, WHOLE
