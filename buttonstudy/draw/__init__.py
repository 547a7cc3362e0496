"""Figures made from the study's tables, each with its caption and alternative text.

Every function takes a table that `buttonstudy.study` gives and the name of a print size, and
returns a `Drawn`. Each is imported when it is first used, since the drawing library is slow to
load.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from buttonstudy.draw.bounded import at_least_figure
    from buttonstudy.draw.curve import size_curve
    from buttonstudy.draw.differences import comparison_figure, differences_figure
    from buttonstudy.draw.distribution import size_distribution
    from buttonstudy.draw.drawn import Drawn
    from buttonstudy.draw.estimates import estimates_figure, reweighted_figure
    from buttonstudy.draw.examined import examined_figure
    from buttonstudy.draw.heaping import heaping_figure
    from buttonstudy.draw.one_button import traits_figure
    from buttonstudy.draw.periods import periods_figure
    from buttonstudy.draw.photographs import photograph_figure
    from buttonstudy.draw.section.figure import cross_section
    from buttonstudy.draw.section.side_by_side import cross_sections
    from buttonstudy.draw.shares import crossed_figure, shares_figure
    from buttonstudy.draw.size_rows import size_classes_figure, sizes_by_period
    from buttonstudy.draw.spacing import spacing_figure
    from buttonstudy.draw.style import print_sizes
    from buttonstudy.draw.ties import ties_figure
    from buttonstudy.draw.turning import turning_figure

__all__ = [
    "Drawn",
    "at_least_figure",
    "comparison_figure",
    "cross_section",
    "cross_sections",
    "crossed_figure",
    "differences_figure",
    "estimates_figure",
    "examined_figure",
    "heaping_figure",
    "periods_figure",
    "photograph_figure",
    "print_sizes",
    "reweighted_figure",
    "shares_figure",
    "size_classes_figure",
    "size_curve",
    "size_distribution",
    "sizes_by_period",
    "spacing_figure",
    "ties_figure",
    "traits_figure",
    "turning_figure",
]

_HOMES = {
    "Drawn": "drawn",
    "at_least_figure": "bounded",
    "comparison_figure": "differences",
    "cross_section": "section.figure",
    "cross_sections": "section.side_by_side",
    "crossed_figure": "shares",
    "differences_figure": "differences",
    "estimates_figure": "estimates",
    "examined_figure": "examined",
    "heaping_figure": "heaping",
    "periods_figure": "periods",
    "photograph_figure": "photographs",
    "print_sizes": "style",
    "reweighted_figure": "estimates",
    "shares_figure": "shares",
    "size_classes_figure": "size_rows",
    "size_curve": "curve",
    "size_distribution": "distribution",
    "sizes_by_period": "size_rows",
    "spacing_figure": "spacing",
    "ties_figure": "ties",
    "traits_figure": "one_button",
    "turning_figure": "turning",
}


def __getattr__(name: str) -> object:
    if name in _HOMES:
        return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
    raise AttributeError(f"{__name__} has no {name!r}; it has {', '.join(__all__)}")


def __dir__() -> list[str]:
    return sorted([*globals(), *__all__])
