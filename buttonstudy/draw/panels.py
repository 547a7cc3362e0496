"""Panels of labelled rows: the layout that most of the kit's figures share.

Each row has its label at the left, its numbers at the right and its marks between, on axes whose
vertical unit is the millimetre. Panels stand side by side where the page is wide enough; where
they or their rows are more than the page holds, the last ones are left out and the figure's
caption says how many.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from buttonstudy.draw.lettering import Lettering, lettering, line_height_mm
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import SMALL_PT, ink

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["Panel", "PlacedPanel", "Plan", "Row", "plan_panels"]

_ROW_GAP = 0.6
_COLUMN_GAP = 1.2
_PANEL_GAP = 2.2
_LABEL_SHARE = 0.36
_LABEL_SHARE_BESIDE = 0.42
_FIGURES_SHARE = 0.36
_RULE_GAP = 0.8
_PANEL_WIDTH = 52.0


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its label, its numbers in words, and whether a line parts it from those above."""

    label: str
    figures: str
    ruled: bool = False


@dataclass(frozen=True, slots=True)
class Panel:
    """A titled group of rows; the title may be empty."""

    title: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class PlacedPanel:
    """A panel's axes, and the middle of each of its rows on them in mm from the top."""

    panel: Panel
    axes: "Axes"
    middles: tuple[float, ...]
    width_mm: float
    lowest: bool


@dataclass(frozen=True, slots=True)
class Plan:
    """Where everything goes.

    Attributes
    ----------
    panels
        The panels shown, perhaps with fewer rows than asked for.
    columns
        Panels side by side.
    label_mm, axes_mm, figures_mm
        Widths of the three parts; labels stand only left of the first column.
    body_mm
        The height of it all.
    head_mm, foot_mm
        Room for a scale above the first panels and below the last.
    left_out
        How many panels did not fit.
    rows_left_out
        How many rows of a panel did not fit.
    """

    panels: tuple[Panel, ...]
    columns: int
    label_mm: float
    axes_mm: float
    figures_mm: float
    body_mm: float
    head_mm: float
    foot_mm: float
    left_out: int
    rows_left_out: int

    def place(self, sheet: Sheet) -> list[PlacedPanel]:
        """Open the sheet, write titles, labels and numbers, and give each panel's axes."""
        sheet.open(self.body_mm)
        placed = []
        top = self.head_mm
        for first in range(0, len(self.panels), self.columns):
            line = self.panels[first : first + self.columns]
            lowest = first + self.columns >= len(self.panels)
            heads = [self._title(panel, place) for place, panel in enumerate(line)]
            head_mm = max(head.height_mm for head in heads)
            for place, (panel, head) in enumerate(zip(line, heads)):
                x_mm = self._x_mm(place)
                sheet.text(0 if place == 0 else x_mm, top, head, weight="bold")
                below = lowest or first + self.columns + place >= len(self.panels)
                heights = self.heights(line)
                placed.append(self._rows(sheet, panel, heights, place, top + head_mm, below))
            top += head_mm + _height(self.heights(line)) + _PANEL_GAP
        return placed

    def line_mm(self, line: Sequence[Panel]) -> float:
        """Give the height of panels that stand side by side."""
        heads = [self._title(panel, place).height_mm for place, panel in enumerate(line)]
        return max(heads) + _height(self.heights(line))

    def heights(self, line: Sequence[Panel]) -> list[tuple[float, float]]:
        """Give for each row of panels side by side the gap before it and its height."""
        label_mm, figures_mm = self.label_mm - _COLUMN_GAP, self.figures_mm - _COLUMN_GAP
        return [
            (
                2 * _RULE_GAP if rows[0].ruled else 0.0,
                max(_row_mm(row, label_mm, figures_mm) for row in rows) + _ROW_GAP,
            )
            for rows in zip(*(panel.rows for panel in line))
        ]

    def _x_mm(self, place: int) -> float:
        return self.label_mm + place * (self.axes_mm + self.figures_mm + _COLUMN_GAP)

    def _title(self, panel: Panel, place: int) -> Lettering:
        within = self.axes_mm + self.figures_mm + (self.label_mm if place == 0 else 0.0)
        return lettering(panel.title, within, bold=True)

    def _rows(
        self,
        sheet: Sheet,
        panel: Panel,
        heights: Sequence[tuple[float, float]],
        place: int,
        top: float,
        lowest: bool,
    ) -> PlacedPanel:
        x_mm = self._x_mm(place)
        axes = sheet.axes(x_mm, top, self.axes_mm, _height(heights))
        axes.set_ylim(_height(heights), 0)
        axes.set_yticks([])
        middles = []
        y_mm = 0.0
        for row, (before, height) in zip(panel.rows, heights):
            y_mm += before
            if row.ruled:
                axes.axhline(y_mm - before / 2, color=ink("quiet").colour, linewidth=0.4)
            middle = y_mm + height / 2
            middles.append(middle)
            if place == 0:
                label = lettering(row.label, self.label_mm - _COLUMN_GAP)
                sheet.text(0, top + middle - label.height_mm / 2, label)
            figures = lettering(row.figures, self.figures_mm - _COLUMN_GAP)
            right = x_mm + self.axes_mm + _COLUMN_GAP
            sheet.text(right, top + middle - figures.height_mm / 2, figures)
            y_mm += height
        return PlacedPanel(panel, axes, tuple(middles), self.axes_mm, lowest)


def plan_panels(
    sheet: Sheet, panels: Sequence[Panel], foot_mm: float, head_mm: float = 0.0
) -> Plan:
    """Plan panels whose rows have the same labels.

    Parameters
    ----------
    sheet
        The sheet, not yet open.
    panels
        At least one, each with at least one row; the same number of rows in each.
    foot_mm, head_mm
        Room for a scale below the lowest panels and above the first.
    """
    most = max(1, min(len(panels), int(sheet.width_mm // _PANEL_WIDTH)))
    columns = math.ceil(len(panels) / math.ceil(len(panels) / most))
    share = _LABEL_SHARE if columns == 1 else _LABEL_SHARE_BESIDE
    label_mm = _column_mm([row.label for row in panels[0].rows], share, sheet, columns)
    texts = [row.figures for panel in panels for row in panel.rows]
    figures_mm = _column_mm(texts, _FIGURES_SHARE, sheet, columns)
    across = sheet.width_mm - label_mm - columns * figures_mm - (columns - 1) * _COLUMN_GAP
    plan = Plan(
        tuple(panels), columns, label_mm, across / columns, figures_mm, 0, head_mm, foot_mm, 0, 0
    )
    return _fit(_fit_rows(plan, sheet.room_mm), sheet.room_mm, len(panels))


def _column_mm(texts: Sequence[str], share: float, sheet: Sheet, columns: int) -> float:
    """Give the width of a column of texts: the widest, but no more than its share of a panel."""
    most = share * sheet.width_mm / columns
    widest = max((lettering(text, most).width_mm for text in texts), default=0.0)
    return widest + _COLUMN_GAP if widest else 0.0


def _fit_rows(plan: Plan, room_mm: float) -> Plan:
    """Leave out the rows of long panels that no page holds; the row for all stays."""
    panels = plan.panels
    count = len(panels[0].rows)
    while count > 1 and plan.line_mm(panels[:1]) + plan.head_mm + plan.foot_mm > room_mm:
        count -= 1
        panels = tuple(_shortened(panel, count) for panel in plan.panels)
    left_out = len(plan.panels[0].rows) - count
    return replace(plan, panels=panels, rows_left_out=left_out)


def _shortened(panel: Panel, count: int) -> Panel:
    if not any(row.ruled for row in panel.rows):
        return replace(panel, rows=panel.rows[:count])
    return replace(panel, rows=(*panel.rows[: count - 1], replace(panel.rows[-1], ruled=True)))


def _fit(plan: Plan, room_mm: float, asked: int) -> Plan:
    """Leave out the panels that the page does not hold."""
    shown = len(plan.panels)
    while shown > plan.columns and _body_mm(plan, shown) > room_mm:
        shown -= 1
    kept = plan.panels[:shown]
    return replace(plan, panels=kept, body_mm=_body_mm(plan, shown), left_out=asked - shown)


def _body_mm(plan: Plan, shown: int) -> float:
    lines = [plan.panels[first : first + plan.columns] for first in range(0, shown, plan.columns)]
    heights = [plan.line_mm(line) for line in lines]
    return sum(heights) + _PANEL_GAP * (len(lines) - 1) + plan.head_mm + plan.foot_mm


def _row_mm(row: Row, label_mm: float, figures_mm: float) -> float:
    label = lettering(row.label, label_mm) if row.label else None
    figures = lettering(row.figures, figures_mm) if row.figures else None
    heights = [letters.height_mm for letters in (label, figures) if letters]
    return max([line_height_mm(SMALL_PT), *heights])


def _height(heights: Sequence[tuple[float, float]]) -> float:
    return sum(before + height for before, height in heights)
