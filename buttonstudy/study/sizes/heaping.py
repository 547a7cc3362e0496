"""Where a recorder's sizes heap on round values.

Readers of rulers prefer round figures: a whole or half millimetre, an eighth rather than a
sixteenth. Such heaps are the ruler's, not the maker's, and look like trade sizes to whoever does
not ask. For each recorder and notation, the last digits of the readings (for rulers divided by
halving, the odd and even divisions) are held against what chance would give if every division
were read alike.
"""

from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from buttonstudy.schemes import limit, units
from buttonstudy.study.evidence.columns import Floats, floats, length_bounds, recorders, texts
from buttonstudy.study.evidence.sets import set_keys
from buttonstudy.study.shares.tally import wilson
from buttonstudy.study.sizes.precision import step_in_words

__all__ = ["DIGIT_COLUMNS", "HEAPING_COLUMNS", "heaping_by_recorder", "terminal_digits"]

DIGIT_COLUMNS = (
    "recorder",
    "unit",
    "step",
    "ending",
    "round",
    "readings",
    "of",
    "chance",
)
HEAPING_COLUMNS = (
    "recorder",
    "unit",
    "step",
    "readings",
    "on_round",
    "share",
    "low",
    "high",
    "chance",
    "few",
    "left_out",
)

_ON_GRID = 0.02
_TENS = 1e-6
_ROUND_DIGITS = (0, 5)


@dataclass(frozen=True, slots=True)
class _Ruler:
    """How one recorder's readings in one unit can end, and which endings are round."""

    base: int
    names: tuple[str, ...]
    chances: tuple[float, ...]
    round: tuple[bool, ...]

    def endings(self, steps: NDArray[np.int64]) -> NDArray[np.int64]:
        """Give the place of each reading's ending, from its size in whole steps."""
        if self.base == 10:
            return np.asarray(steps % 10)
        return np.asarray(steps % 2 == 0).astype(np.int64)


def terminal_digits(buttons: pd.DataFrame) -> pd.DataFrame:
    """Count the endings of diameters, for each recorder and notation.

    Parameters
    ----------
    buttons
        With ``diameter_mm``, ``diameter_unit``, ``diameter_step_mm`` and ``recorder``.

    Returns
    -------
    DataFrame
        :data:`DIGIT_COLUMNS`, one row for each possible ending: ``recorder``, ``unit`` and
        ``step`` (the finest that the recorder uses in that unit, passing over a few finer
        readings); ``ending`` ("0" to "9", the last digit, for steps of 1, 0.1 and the like;
        ".5" and ".0" for halves; for any other step its odd and even multiples, such as "odd
        1/16 in" and "even 1/16 in", "odd lines" and "even lines", "odd × 2 lines"); ``round``
        (0, 5 and the even divisions); ``readings`` with that ending ``of`` all; ``chance``, the
        share it would have if all endings were read alike.

    Notes
    -----
    The terminal-digit count is the demographers' test of age heaping (Myers 1940; in use in the
    United Nations' manuals) turned on rulers; chance shares hold where sizes spread over several
    times ten steps. Even button lines are the trade sizes, so that a heap there may be the
    maker's doing. Matching buttons with one and the same reading count once. Combined readings
    that no longer lie on the ruler's divisions are left out.
    """
    rows = []
    for notation, readings in _notations(buttons):
        recorder, unit, step = notation
        ruler = _ruler(step, unit)
        steps, on_grid = _in_steps(readings["size"].to_numpy(), step)
        found = np.bincount(ruler.endings(steps[on_grid]), minlength=len(ruler.names))
        for name, chance, is_round, number in zip(ruler.names, ruler.chances, ruler.round, found):
            words = (recorder, unit, step_in_words(step, unit))
            rows.append((*words, name, is_round, int(number), int(on_grid.sum()), chance))
    return pd.DataFrame(rows, columns=list(DIGIT_COLUMNS))


def heaping_by_recorder(buttons: pd.DataFrame) -> pd.DataFrame:
    """Tell how often each recorder's diameters end on a round value, and how often by chance.

    Parameters
    ----------
    buttons
        As for :func:`terminal_digits`.

    Returns
    -------
    DataFrame
        :data:`HEAPING_COLUMNS`, one row for each recorder and unit: ``readings`` (one for each
        different size of a set), ``on_round``, their ``share`` with its Wilson interval ``low``
        to ``high``, the ``chance`` share, ``few`` readings (below the limit ``few-sets``), and
        ``left_out``: readings that do not lie on the recorder's divisions.

    Examples
    --------
    >>> buttons = pd.DataFrame(
    ...     {"diameter_mm": [15.0, 20.0, 16.0, 25.0], "diameter_unit": "mm", "recorder": "A",
    ...      "diameter_step_mm": 1.0}
    ... )
    >>> heaping_by_recorder(buttons)[["readings", "on_round", "chance"]].values.tolist()
    [[4.0, 3.0, 0.2]]
    """
    digits = terminal_digits(buttons)
    rows = []
    for notation, readings in _notations(buttons):
        recorder, unit, step = notation
        words = (recorder, unit, step_in_words(step, unit))
        of_this = digits[(digits["recorder"] == recorder) & (digits["unit"] == unit)]
        rounds = of_this[of_this["round"]]
        number = int(of_this["readings"].sum())
        left_out = len(readings) - number
        rows.append(
            (*words, number, int(rounds["readings"].sum()), rounds["chance"].sum(), left_out)
        )
    columns = ["recorder", "unit", "step", "readings", "on_round", "chance", "left_out"]
    table = pd.DataFrame(rows, columns=columns).astype({"readings": "int64", "on_round": "int64"})
    of, on_round = floats(table, "readings"), floats(table, "on_round")
    table["share"] = np.divide(on_round, of, out=np.full(len(table), np.nan), where=of > 0)
    table["low"], table["high"] = wilson(on_round, of)
    table["few"] = table["readings"] < limit("few-sets")
    return table[list(HEAPING_COLUMNS)]


def _notations(buttons: pd.DataFrame) -> list[tuple[tuple[str, str, float], pd.DataFrame]]:
    """Part the readings by recorder and unit, each with the step that the recorder uses."""
    _, best, _ = length_bounds(buttons, "diameter")
    table = pd.DataFrame(
        {
            "set": set_keys(buttons).to_numpy(),
            "recorder": recorders(buttons),
            "unit": texts(buttons, "diameter_unit"),
            "step": floats(buttons, "diameter_step_mm"),
            "size": best.round(4),
        }
    )
    known = table["unit"].isin(list(units())) & (table["step"] > 0) & table["size"].notna()
    distinct = table[known].drop_duplicates()
    return [
        ((str(recorder), str(unit), _finest_step(readings["step"].to_numpy())), readings)
        for (recorder, unit), readings in distinct.groupby(["recorder", "unit"], sort=True)
    ]


def _finest_step(steps: Floats) -> float:
    """Give the finest step that enough of the readings use."""
    ordered = np.sort(steps)
    place = int(np.ceil(limit("heaping-finest-share") * len(ordered))) - 1
    return float(ordered[max(place, 0)])


def _in_steps(sizes: Floats, step: float) -> tuple[NDArray[np.int64], NDArray[np.bool_]]:
    """Give sizes in whole steps, and which of them lie on the divisions."""
    exact = sizes / step
    whole = np.rint(exact)
    return whole.astype(np.int64), np.abs(exact - whole) < _ON_GRID


def _ruler(step: float, unit: str) -> _Ruler:
    steps = step / float(units()[unit])
    tens = np.log10(steps)
    if abs(tens - round(tens)) < _TENS and not (unit == "lines" and round(tens) == 0):
        digits = tuple(str(digit) for digit in range(10))
        return _Ruler(10, digits, (0.1,) * 10, tuple(digit in _ROUND_DIGITS for digit in range(10)))
    name = step_in_words(step, unit).replace("1 line", "lines")
    times = "× " if steps > 1 + _TENS else ""
    names = (f"odd {times}{name}", f"even {times}{name}")
    if abs(steps - 0.5) < _TENS:
        names = (".5", ".0")
    return _Ruler(2, names, (0.5, 0.5), (False, True))
