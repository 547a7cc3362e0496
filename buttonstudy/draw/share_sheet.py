"""The sheet of a figure of shares, planned until what it says of itself is true.

Its note explains the marks, which depend on how wide the panels come out; the line under it names
what did not fit, which depends on the room that this very line leaves.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import pandas as pd

from buttonstudy.draw.lettering import Lettering, lettering
from buttonstudy.draw.panels import Panel, Plan, plan_panels
from buttonstudy.draw.share_marks import bar_scale_mm, draws_bars
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import print_size

__all__ = ["Foot", "draw_foot", "share_sheet"]

_TICKS_MM = 3.7
_GAP_MM = 0.6


@dataclass(frozen=True, slots=True)
class Foot:
    """What the scales below the lowest panels count.

    Attributes
    ----------
    counted
        Such as ``"sets examined"``.
    shares, bars
        Whether any row is a share, and whether any is a count that may be a bar.
    """

    counted: str
    shares: bool
    bars: bool

    @classmethod
    def of(cls, counted: str, few: pd.Series) -> "Foot":
        """Make it from what is counted and from whether each row counts few sets."""
        return cls(counted, shares=not few.all(), bars=bool(few.any()))

    def lines(self, width_mm: float, axes_mm: float) -> list[tuple[Lettering, bool]]:
        """Give the lines below the scales, with whether each is about bars, from the top down."""
        told = []
        if self.shares:
            marks = " (dot and line)" if self.bars else ""  # counts have no scale of shares
            told.append((lettering(f"share of the {self.counted}{marks}", width_mm), False))
        if self.bars and draws_bars(axes_mm):
            told.append((lettering(f"{self.counted} (bar)", width_mm), True))
        return told


def share_sheet(
    size: str,
    title: str,
    note: Callable[[float], str],
    source: str,
    panels: Sequence[Panel],
    foot: Foot,
    under: Callable[[int], str] = lambda shown: "",
    *,
    titled: Callable[[int], str] = lambda shown: "",
) -> tuple[Sheet, Plan]:
    """Plan panels of shares on a sheet.

    Parameters
    ----------
    size, title, source
        As for :class:`.sheet.Sheet` and :func:`.style.print_size`.
    note
        Gives the note for the width of a panel's axes, in mm.
    panels
        As for :func:`.panels.plan_panels`.
    foot
        What the scales below count.
    under
        Gives the line under the panels for the number of panels that are shown.
    titled
        Gives what the title says further for the number of panels that are shown.
    """
    place = print_size(size)
    plain = Sheet(place, title, "", source)
    width_mm = plan_panels(plain, panels, 0.0).axes_mm
    lines = foot.lines(plain.width_mm, width_mm)
    foot_mm = sum(_TICKS_MM + letters.height_mm for letters, _ in lines)
    shown = len(panels)
    while True:
        sheet = Sheet(place, title + titled(shown), note(width_mm), source, under=under(shown))
        plan = plan_panels(sheet, panels, foot_mm)
        if len(plan.panels) >= shown:
            return sheet, plan
        shown = len(plan.panels)


def draw_foot(sheet: Sheet, plan: Plan, foot: Foot) -> None:
    """Write what each scale counts, and the numbers on that of bars; axes write those of shares."""
    y_mm = plan.body_mm - plan.foot_mm
    for letters, bars in foot.lines(sheet.width_mm, plan.axes_mm):
        for number, x_mm in bar_scale_mm(plan.axes_mm) if bars else ():
            told = lettering(f"{number}", sheet.width_mm)
            sheet.text(plan.label_mm + x_mm, y_mm + _GAP_MM, told, align="center")
        y_mm += _TICKS_MM
        sheet.text(min(plan.label_mm, sheet.width_mm - letters.width_mm), y_mm, letters)
        y_mm += letters.height_mm
