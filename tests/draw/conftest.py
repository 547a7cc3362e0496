"""Invented buttons to draw, and a way to measure what was drawn."""

import itertools
from collections.abc import Callable

import numpy as np
import pandas as pd
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.text import Text

from buttonstudy.draw.style import house_style

_SLACK = 1.0  # pixels at 150 dots per inch


def _bounds(rng: np.random.Generator, chance: float, low: int, high: int) -> tuple[object, object]:
    if rng.random() < chance:
        return int(rng.integers(low, high)), None
    number = int(rng.integers(low, high))
    return number, number


def _button(rng: np.random.Generator, recorder: str, size: float) -> dict[str, object]:
    step, unit = {"A. Teal": (0.1, "mm"), "Brook & Fenn": (25.4 / 16, "in")}.get(
        recorder, (1, "mm")
    )
    size = round(size / step) * step
    hole = float(rng.integers(1, 6))
    layers = _bounds(rng, 0.2, 1, 4)
    return {
        "diameter_mm": size,
        "diameter_mm_low": size - step / 2,
        "diameter_mm_high": size + step / 2,
        "diameter_unit": unit,
        "diameter_step_mm": step,
        "size_class": "small" if size < 19.05 else "medium",
        "size_class_borderline": abs(size - 19.05) < step / 2,
        "hole_diameter_mm": hole,
        "hole_diameter_mm_low": hole - 0.5,
        "hole_diameter_mm_high": hole + 0.5,
        "cover_layers_low": layers[0],
        "cover_layers_high": layers[1],
        "cover_layers_state": "counted" if layers[1] else "bounded",
    }


def invented(sets: int = 120, seed: int = 1) -> pd.DataFrame:
    """Make an invented survey; nothing in it stands for real buttons, people or places."""
    rng = np.random.default_rng(seed)
    rows = []
    for number in range(sets):
        year, width = int(rng.integers(1785, 1900)), int(rng.choice([1, 10, 20, 40]))
        recorder = str(rng.choice(["A. Teal", "Brook & Fenn", "M. Harrow"]))
        opened = bool(rng.random() < 0.5)
        common = {
            "file": f"{recorder.split()[-1].lower()}.csv",
            "set_id": f"S{number}",
            "recorder": recorder,
            "year_from": year if rng.random() < 0.95 else None,
            "opened": "opened" if opened else "not opened",
            "mould_material": str(rng.choice(["wood", "bone", "metal", "bone; wood"])),
            "hole_fill": str(rng.choice(["thread", "wax", "absent", "unclear"])),
        }
        common["year_to"] = None if common["year_from"] is None else year + width - 1
        if not opened:
            common |= dict.fromkeys(["mould_material", "hole_fill"], "not examined")
        size = float(np.clip(rng.lognormal(np.log(17), 0.3), 7, 45))
        matching = int(rng.choice([1, 2, 6]))
        rows += [common | _button(rng, recorder, size) for _ in range(matching)]
    whole = ["year_from", "year_to", "cover_layers_low", "cover_layers_high"]
    return pd.DataFrame(rows).astype(dict.fromkeys(whole, "Int64"))


@pytest.fixture(scope="session")
def buttons() -> pd.DataFrame:
    return invented()


def drawn_texts(figure: Figure) -> list[tuple[Text, np.ndarray]]:
    """Give every text that shows, with its box in pixels: left, bottom, right, top."""
    figure.set_dpi(150)
    renderer = FigureCanvasAgg(figure).get_renderer()
    with house_style():
        figure.draw_without_rendering()
    found = []
    for text in figure.findobj(Text):
        if text.get_visible() and text.get_text().strip() and _on_scale(text):
            found.append((text, text.get_window_extent(renderer).extents))
    return found


def _on_scale(text: Text) -> bool:
    """Leave out tick labels beyond their axis's ends, which are not drawn."""
    axes = text.axes
    if axes is None or text not in [*axes.get_xticklabels(), *axes.get_yticklabels()]:
        return True
    horizontal = text in axes.get_xticklabels()
    low, high = sorted(axes.get_xlim() if horizontal else axes.get_ylim())
    place = text.get_position()[0 if horizontal else 1]
    return low - 1e-9 <= place <= high + 1e-9


def _check(figure: Figure) -> None:
    texts = drawn_texts(figure)
    width, height = figure.get_size_inches() * 150
    for text, (left, bottom, right, top) in texts:
        inside = left >= -_SLACK and right <= width + _SLACK
        assert inside, f"cut at the side: {text.get_text()!r}"
        assert bottom >= -_SLACK, f"cut below: {text.get_text()!r}"
        assert top <= height + _SLACK, f"cut above: {text.get_text()!r}"
        assert text.get_fontsize() >= 7, f"too small: {text.get_text()!r}"
        assert not text.get_parse_math(), f"dollar signs are set as formulae: {text.get_text()!r}"
    for (one, first), (other, second) in itertools.combinations(texts, 2):
        across = min(first[2], second[2]) - max(first[0], second[0])
        down = min(first[3], second[3]) - max(first[1], second[1])
        overlap = across > _SLACK and down > 2 * _SLACK
        assert not overlap, f"overlap: {one.get_text()!r} and {other.get_text()!r}"


@pytest.fixture
def legible() -> Callable[[Figure], None]:
    """Check that no text overlaps another, is cut, or is smaller than 7 points."""
    return _check
