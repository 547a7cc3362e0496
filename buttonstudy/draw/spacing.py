"""Whether sizes sit on a common step: the score of every step, and what chance and rulers give.

The line is the free search over all steps; dots are the steps named beforehand, each with the
sets that can tell about it. Only what rises out of the grey is more than a survey without any step,
read with the same rulers, would show.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
import pandas as pd

from buttonstudy.draw.drawn import Drawn, not_drawn
from buttonstudy.draw.lettering import drawable, lettering, line_height_mm, width_mm
from buttonstudy.draw.scales import fitting_step, ticks_between
from buttonstudy.draw.sheet import Sheet
from buttonstudy.draw.style import house_style, ink, print_size
from buttonstudy.schemes import limit, units
from buttonstudy.study.sizes.spacing import SpacingSearch
from buttonstudy.study.telling.words import listed

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["spacing_figure"]

_TICKS_MM = 4.0
_PLOT_SHARE = 0.38
_PLOT_MOST_MM = 50.0
_TICKS = (0.5, 1, 1.5, 2, 2.5, 3)
_EDGE = 1.06
_LETTERS_MM = 3.3
_MARKS = {"shown": "ink", "not shown": "paper"}


def spacing_figure(
    search: SpacingSearch, tests: pd.DataFrame, size: str = "a5-page", *, source: str = ""
) -> Drawn:
    """Draw the score of each step, with what surveys without any step reach.

    Parameters
    ----------
    search
        As :func:`buttonstudy.study.sizes.spacing.search_spacing` gives it.
    tests
        As :func:`buttonstudy.study.sizes.spacing.spacing_tests` gives it.
    size
        The name of a print size.
    source
        For the figure's foot, as :func:`buttonstudy.study.telling.words.source_line` words it.
    """
    name = "trade-steps"
    waves = search.waves.dropna(subset=["height"])
    if waves.empty:
        return not_drawn(name, "too few sizes were read finely enough to tell any step")
    title = "Do sizes go up by a common step?"
    note = (
        f"Line: how well sizes sit on each step. Grey: what {limit('confidence'):.0f} of 100 "
        f"surveys without a step reach. Dot: a step named beforehand, filled where shown. Cross: "
        f"cannot be tested."
    )
    with house_style():
        sheet = Sheet(print_size(size), title, note, source)
        axes = _axes(sheet, waves, tests)
        _draw(axes, waves, tests)
        figure = sheet.figure
    return Drawn(figure, *_words(title, waves, tests), name)


def _axes(sheet: Sheet, waves: pd.DataFrame, tests: pd.DataFrame) -> "Axes":
    """Open the sheet: names of steps on top, lines above the plot, millimetres below."""
    names_mm = max((width_mm(drawable(name)) for name in tests["step"]), default=0.0) + 1.5
    height = min(_PLOT_SHARE * sheet.width_mm + 14, _PLOT_MOST_MM)
    top = names_mm + line_height_mm() + _TICKS_MM
    sheet.open(top + height + _TICKS_MM + line_height_mm())
    scores = np.concatenate([waves["height"], waves["high_without"], tests["height"].dropna()])
    low, high = float(np.nanmin(scores)) - 0.5, float(np.nanmax(scores)) + 0.5
    step = fitting_step(low, high, height)
    ticks = ticks_between(low, high, step)
    left = max(width_mm(f"−{abs(tick):.0f}") for tick in ticks) + 2.5
    width = sheet.width_mm - left - 2
    axes = sheet.axes(left, top, width, height)
    axes.set_xscale("log")
    axes.set_xlim(_reach(waves, tests))
    axes.set_ylim(low, high)
    axes.set_yticks(ticks, [f"{tick:.0f}".replace("-", "−") for tick in ticks])
    _step_scales(axes)
    below = top + height + _TICKS_MM
    sheet.text(left, below, lettering("step in mm; upwards: score", width))
    sheet.text(left, names_mm, lettering("step in button lines", width))
    _name_steps(sheet, axes, tests, left, width, names_mm)
    return axes


def _reach(waves: pd.DataFrame, tests: pd.DataFrame) -> tuple[float, float]:
    steps = np.concatenate([waves["step_mm"], tests["step_mm"]])
    return float(steps.min()) / _EDGE, float(steps.max()) * _EDGE


def _step_scales(axes: "Axes") -> None:
    low, high = axes.get_xlim()
    ticks = [tick for tick in _TICKS if low <= tick <= high]
    axes.set_xticks(ticks, [f"{tick:g}" for tick in ticks])
    axes.set_xticks([], minor=True)
    line = float(units()["lines"])
    above = axes.secondary_xaxis("top")
    lines = [number for number in range(1, 9) if low <= number * line <= high]
    above.set_xticks([number * line for number in lines], [str(number) for number in lines])
    above.set_xticks([], minor=True)
    above.spines["top"].set_visible(True)


def _name_steps(
    sheet: Sheet, axes: "Axes", tests: pd.DataFrame, left: float, width: float, names_mm: float
) -> None:
    """Write the steps' names upright over their places, moved apart where they would touch."""
    low, high = np.log(axes.get_xlim())
    wanted = (np.log(tests["step_mm"].to_numpy(dtype=float)) - low) / (high - low) * width
    for name, across in zip(tests["step"], _apart(wanted.tolist(), width)):
        sheet.text(left + across, names_mm - 1.0, lettering(str(name), 999.0), upright=True)
    for step in tests["step_mm"]:
        axes.axvline(step, color=ink("quiet").colour, linewidth=0.4, linestyle=":", zorder=1)


def _apart(wanted: Sequence[float], most: float) -> list[float]:
    """Move ascending places to the left until neighbours are a line of letters apart."""
    placed: list[float] = []
    limit_mm = most
    for place in reversed(wanted):
        placed.append(min(place, limit_mm))
        limit_mm = placed[-1] - _LETTERS_MM
    return placed[::-1]


def _draw(axes: "Axes", waves: pd.DataFrame, tests: pd.DataFrame) -> None:
    bottom = axes.get_ylim()[0]
    grey = ink("faint").colour
    axes.fill_between(waves["step_mm"], bottom, waves["high_without"], color=grey, zorder=0)
    axes.plot(waves["step_mm"], waves["height"], color=ink("deep").colour, linewidth=1, zorder=2)
    dark = ink("ink").colour
    for row in tests.to_dict("records"):
        if row["answer"] in _MARKS:
            axes.plot(
                row["step_mm"],
                row["height"],
                "o",
                markersize=4.0,
                markerfacecolor=ink(_MARKS[row["answer"]]).colour,
                markeredgecolor=dark,
                zorder=4,
            )
        else:
            axes.plot(row["step_mm"], 0, "x", color=dark, markersize=4.0, zorder=4)


def _words(title: str, waves: pd.DataFrame, tests: pd.DataFrame) -> tuple[str, str]:
    ends = sorted({int(waves["usable"].min()), int(waves["usable"].max())})
    sets = " to ".join(f"{number:,}" for number in ends)
    confidence = f"{limit('confidence'):.0f}"
    caption = (
        f"{title} Score (Kendall's cosine quantogram, 1974) of steps from "
        f"{waves['step_mm'].min():.1f} to {waves['step_mm'].max():.1f} mm, from {sets} sets read "
        f"to a quarter of the step or finer. At any one step {confidence} of 100 surveys "
        f"simulated without a step, and read with the same rulers, score no higher than the grey; "
        f"among many steps some line above it is to be expected. {_answers(tests)}"
    )
    peak = waves.iloc[int(waves["height"].to_numpy().argmax())]
    alt = (
        f"{title} A curve of scores that is highest, {peak['height']:.1f}, at "
        f"{peak['step_mm']:.2f} mm, where surveys without any step seldom pass "
        f"{peak['high_without']:.1f}. {_answers(tests)}"
    )
    return caption, alt


def _answers(tests: pd.DataFrame) -> str:
    told = [
        f"{answer}: {listed(tests.loc[tests['answer'] == answer, 'step'])}"
        for answer in ("shown", "not shown", "cannot be tested")
        if (tests["answer"] == answer).any()
    ]
    return f"Steps named beforehand: {'; '.join(told)}."
