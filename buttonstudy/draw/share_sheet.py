"""The sheet of a figure of shares, planned until what it says of itself is true.

Its note explains the marks, which depend on how wide the panels come out; the line under it names
what did not fit, which depends on the room that this very line leaves.
"""

from collections.abc import Callable, Sequence

from buttonstudy.draw.lettering import lettering, line_height_mm
from buttonstudy.draw.panels import Panel, Plan, plan_panels
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import print_size

__all__ = ["draw_foot", "share_sheet"]

_FOOT_MM = 6.8


def share_sheet(
    size: str,
    title: str,
    note: Callable[[float], str],
    source: str,
    panels: Sequence[Panel],
    under: Callable[[int], str] = lambda shown: "",
    *,
    titled: Callable[[int], str] = lambda shown: "",
    scaled: bool = True,
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
    under
        Gives the line under the panels for the number of panels that are shown.
    titled
        Gives what the title says further for the number of panels that are shown.
    scaled
        Whether any row is a share, and so has a scale below.
    """
    place, foot_mm = print_size(size), _FOOT_MM if scaled else 0.0
    width_mm = plan_panels(Sheet(place, title, "", source), panels, foot_mm).axes_mm
    shown = len(panels)
    while True:
        sheet = Sheet(place, title + titled(shown), note(width_mm), source, under=under(shown))
        plan = plan_panels(sheet, panels, foot_mm)
        if len(plan.panels) >= shown:
            return sheet, plan
        shown = len(plan.panels)


def draw_foot(sheet: Sheet, plan: Plan, says: str) -> None:
    """Write what the scale below the lowest panels counts, where there is one."""
    if not plan.foot_mm:
        return
    foot = lettering(says, sheet.width_mm)
    left = min(plan.label_mm, sheet.width_mm - foot.width_mm)
    sheet.text(left, plan.body_mm - line_height_mm(), foot)
