"""Figures made from the study's tables, each with its caption and alternative text."""

from buttonstudy.draw.drawn import Drawn
from buttonstudy.draw.examined import examined_figure
from buttonstudy.draw.heaping import heaping_figure
from buttonstudy.draw.periods import periods_figure
from buttonstudy.draw.shares import crossed_figure, shares_figure
from buttonstudy.draw.size_distribution import size_distribution
from buttonstudy.draw.size_rows import size_classes_figure, sizes_by_period

__all__ = [
    "Drawn",
    "crossed_figure",
    "examined_figure",
    "heaping_figure",
    "periods_figure",
    "shares_figure",
    "size_classes_figure",
    "size_distribution",
    "sizes_by_period",
]
