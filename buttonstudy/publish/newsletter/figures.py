"""The figures that a newsletter can choose from, by the names that they have in a report.

Which there are, and what stands over and is said about each, is a table; how each is drawn is in
`counted` and `compared`.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from buttonstudy.publish.errors import CallError
from buttonstudy.publish.suggesting import suggestion
from buttonstudy.schemes import rows

__all__ = ["FigureChoice", "chosen_figures", "figure_choices"]


@dataclass(frozen=True, slots=True)
class FigureChoice:
    """One figure to choose: its name, its heading, and in sentences how its numbers were got."""

    name: str
    heading: str
    method: tuple[str, ...]


@cache
def figure_choices() -> dict[str, FigureChoice]:
    """Give all figures by name, in the order of the notebooks that show them.

    Examples
    --------
    >>> figure_choices()["construction-mould-material-by-period"].heading
    'Moulds'
    """
    return {
        row["name"]: FigureChoice(row["name"], row["heading"], tuple(row["method"].split("|")))
        for row in rows("newsletter_figures")
    }


def chosen_figures(names: Iterable[str]) -> tuple[FigureChoice, ...]:
    """Return the figures of these names in the order in which they were named, each once.

    Raises
    ------
    CallError
        If there is none of a name, with the nearest names; or if none was named.

    Examples
    --------
    >>> chosen_figures(["mould-material"])
    Traceback (most recent call last):
    buttonstudy.publish.errors.CallError: There is no figure called 'mould-material'. Did you mean
    construction-mould-material-by-period or fills-hole-fill-by-mould-material?
    """
    known = figure_choices()
    chosen = {}
    for name in names:
        if name not in known:
            raise CallError(f"There is no figure called {name!r}. {_nearest(name)}")
        chosen[name] = known[name]
    if not chosen:
        raise CallError(f"No figure was named. {suggestion('', known)}")
    return tuple(chosen.values())


def _nearest(name: str) -> str:
    part = name.strip().casefold().replace("_", "-").replace(" ", "-")
    holding = [known for known in figure_choices() if part and part in known]
    if holding:
        return f"Did you mean {' or '.join(holding)}?"
    return suggestion(name, figure_choices())
