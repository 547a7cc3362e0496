"""Where each recorder's sizes heap on round values: one small panel for each notation."""

import math
from typing import TYPE_CHECKING

import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import lettering, line_height_mm
from buttonstudy.draw.marks import edge_pt
from buttonstudy.draw.row_labels import left_out_words
from buttonstudy.draw.sheet import KeyEntry, Sheet
from buttonstudy.draw.style import SMALL_PT, house_style, ink, print_size
from buttonstudy.study.telling.words import listed, number_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["heaping_figure"]

_PANEL_WIDTH = 52.0
_GAP_MM = 4.0
_PLOT_MM = 18.0
_NUMBERS_MM = 3.4
_ENDINGS_MM = 4.0


def heaping_figure(table: pd.DataFrame, size: str = "a5-page", *, source: str = "") -> Drawn:
    """Draw how often each recorder's diameters end on each digit, and how often by chance.

    Parameters
    ----------
    table
        As :func:`buttonstudy.study.sizes.heaping.terminal_digits` gives it.
    size
        The name of a print size.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.
    """
    name, title = "heaping", "Where sizes heap on round values"
    counted = table[table["of"] > 0]
    if counted.empty:
        return not_drawn(name, "no diameter has a unit and a step to which it was read")
    groups = [rows for _, rows in counted.groupby(["recorder", "unit", "step"], sort=False)]
    groups.sort(key=lambda rows: -int(rows["of"].iloc[0]))
    note = "How many readings end on each digit or division. Dashed: what chance would give."
    key = [KeyEntry(ink("deep"), "round endings"), KeyEntry(ink("sky"), "other endings")]
    with house_style():
        sheet = Sheet(print_size(size), title, note, source, key)
        shown = _place(sheet, groups)
        figure = sheet.figure
    return Drawn(figure, *_words(title, groups, shown), name)


def _place(sheet: Sheet, groups: list[pd.DataFrame]) -> int:
    """Draw as many panels as the page holds, and give their number."""
    most = max(1, min(len(groups), int(sheet.width_mm // _PANEL_WIDTH)))
    columns = math.ceil(len(groups) / math.ceil(len(groups) / most))
    width = (sheet.width_mm - (columns - 1) * _GAP_MM) / columns
    heads = [lettering(_heading(rows), width, bold=True) for rows in groups]
    below = max(lettering(str(ending), width / 2).height_mm for ending in _endings(groups))
    plot = _NUMBERS_MM + _PLOT_MM + max(_ENDINGS_MM, below + 1)
    tops: list[tuple[float, float]] = []
    y_mm = 0.0
    for first in range(0, len(groups), columns):
        head = max(head.height_mm for head in heads[first : first + columns])
        if tops and y_mm + head + plot > sheet.room_mm:
            break
        tops.append((y_mm, head))
        y_mm += head + plot + _GAP_MM / 2
    sheet.open(y_mm - _GAP_MM / 2)
    shown = min(len(tops) * columns, len(groups))
    for place in range(shown):
        top, head = tops[place // columns]
        x_mm = (place % columns) * (width + _GAP_MM)
        sheet.text(x_mm, top, heads[place], weight="bold")
        axes = sheet.axes(x_mm, top + head + _NUMBERS_MM, width, _PLOT_MM)
        _draw(axes, groups[place], width)
    return shown


def _endings(groups: list[pd.DataFrame]) -> list[str]:
    return [str(ending) for rows in groups for ending in rows["ending"]]


def _heading(rows: pd.DataFrame) -> str:
    first = rows.iloc[0]
    recorder = str(first["recorder"])
    who = f"{recorder[:1].upper()}{recorder[1:]}"
    return f"{who}, to {first['step']}: {number_of(first['of'], 'reading')}"


def _draw(axes: "Axes", rows: pd.DataFrame, width_mm: float) -> None:
    places = range(len(rows))
    numbers = rows["readings"].tolist()
    expected = [chance * of for chance, of in zip(rows["chance"], rows["of"])]
    inks = [ink("deep" if is_round else "sky") for is_round in rows["round"]]
    bars = axes.bar(
        places,
        numbers,
        0.7,
        color=[one.colour for one in inks],
        edgecolor=ink("ink").colour,
        linewidth=edge_pt(),
    )
    for drawn, one in zip(bars, inks):
        drawn.set_hatch(one.hatch)
    ends = [(place - 0.45, place + 0.45) for place in places]
    axes.hlines(
        expected, *zip(*ends), color=ink("ink").colour, linewidth=0.9, linestyle=(0, (2, 1))
    )
    most = max([*numbers, *expected])
    axes.set_ylim(0, most)
    axes.set_xlim(-0.6, len(rows) - 0.4)
    endings = [lettering(str(ending), width_mm / len(rows)).text for ending in rows["ending"]]
    axes.set_xticks(list(places), endings)
    axes.tick_params(axis="x", length=0)
    axes.set_yticks([])
    axes.spines["left"].set_visible(False)
    for place, number, level in zip(places, numbers, expected):
        above = max(number, level) / most * _PLOT_MM + line_height_mm() / 2
        axes.annotate(
            str(number),
            (place, above / _PLOT_MM * most),
            ha="center",
            va="center_baseline",
            fontsize=SMALL_PT,
            annotation_clip=False,
        )


def _words(title: str, groups: list[pd.DataFrame], shown: int) -> tuple[str, str]:
    parts = [
        f"{title}. Matching buttons with one and the same reading count once. Chance: what there "
        f"would be if every ending were read alike. Even button lines are the trade sizes, so "
        f"that a heap there may be the makers' doing."
    ]
    if shown < len(groups):
        parts.append(f"{number_of(len(groups) - shown, 'further notation')} in the table only.")
    parts += left_out_words(0, *(_heading(rows) for rows in groups))
    told = []
    for rows in groups[:shown]:
        rounds = rows[rows["round"]]
        named = listed(f"{row.ending} {row.readings}" for row in rows.itertuples())
        by_chance = round(float((rounds["chance"] * rounds["of"]).sum()))
        told.append(
            f"{_heading(rows)}; on round endings {rounds['readings'].sum()}, by chance about "
            f"{by_chance}. By ending: {named}."
        )
    return " ".join(parts), f"{title}. {' '.join(told)}"
