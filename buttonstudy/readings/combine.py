"""Several readings of one length brought together, and told in the sizes of the trade.

Readings agree if their intervals overlap, and the length then lies in the overlap. 5/8 in, 16 mm
and 26 lines agree in this way, though 5/8 in is exactly 25 lines: nothing may call that an error.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from buttonstudy.readings.precision import Length
from buttonstudy.schemes.tables import rows
from buttonstudy.schemes.units import units

__all__ = ["Combined", "combine", "nearest_trade_lines"]

_TOUCHING = 1e-9  # mm; edges that are equal in exact arithmetic count as touching


@dataclass(frozen=True, slots=True)
class Combined:
    """One length from several readings, in mm; see `combine`.

    Parameters
    ----------
    low, best, high
        The overlap of the readings and the best value in it, or the most precise reading alone
        where they do not agree.
    agree
        Whether the readings agree; None with one reading only.
    most_precise
        The reading with the narrowest interval.
    """

    low: float
    best: float
    high: float
    agree: bool | None
    most_precise: Length


def combine(lengths: Sequence[Length]) -> Combined:
    """Bring several readings of one length together.

    Parameters
    ----------
    lengths
        At least one reading, all of the same dimension of the same thing.

    Raises
    ------
    ValueError
        If there is no reading.

    Examples
    --------
    >>> from buttonstudy.readings.lengths import read_lengths
    >>> one = combine(read_lengths("5/8 in, 16 mm, 26 lines").lengths)
    >>> one.agree, round(one.low, 4), one.best, one.high
    (True, 16.1925, 16.5, 16.5)
    """
    if not lengths:
        raise ValueError("There is no reading to combine.")
    precise = min(lengths, key=lambda one: one.high - one.low)
    low = max(one.low for one in lengths)
    high = min(one.high for one in lengths)
    agree = low <= high + _TOUCHING
    if not agree:
        low, high = precise.low, precise.high
    high = max(low, high)
    best = min(max(precise.best, low), high)
    return Combined(low, best, high, agree if len(lengths) > 1 else None, precise)


def nearest_trade_lines(low: float, best: float, high: float) -> str:
    """Give the trade size in lines that a button of this size was most likely sold as.

    Parameters
    ----------
    low, best, high
        The button's size in mm, as an interval and its best value.

    Returns
    -------
    str
        ``"24"``, or ``"24–26"`` where the interval reaches nearer to another size at either end;
        ``""`` beyond the sizes of the table ``trade_lines.csv``.

    Notes
    -----
    Catalogue sizes are even lines, and 45, 55 and 65. A covered button's trade size is its mould's.

    Examples
    --------
    >>> nearest_trade_lines(15.1, 15.2, 15.3), nearest_trade_lines(15.5, 16.0, 16.5)
    ('24', '24–26')
    """
    sizes = _trade_lines()
    line = float(units()["lines"])
    if not sizes[0] - 1 <= best / line <= sizes[-1] + 1:
        return ""
    ends = {_nearest(low / line, upward=True), _nearest(high / line, upward=False)}
    return "–".join(map(str, sorted(ends)))


def _nearest(lines: float, *, upward: bool) -> int:
    """Give the trade size nearest to a size; halfway between two, the upper or the lower one.

    The lower end of an interval that begins halfway looks upward and the upper end downward, so
    that 24 lines to the nearest even line (23 to 25) is 24.
    """
    exact = round(lines, 9)
    return min(_trade_lines(), key=lambda size: (abs(size - exact), -size if upward else size))


@cache
def _trade_lines() -> tuple[int, ...]:
    sizes = set[int]()
    for row in rows("trade_lines"):
        sizes.update(range(int(row["from"]), int(row["to"]) + 1, int(row["step"])))
    return tuple(sorted(sizes))
