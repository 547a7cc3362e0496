"""The size of the trade nearest to a button: catalogue sizes in lines, with an honest between."""

from bisect import bisect_left
from functools import cache

from buttonstudy.schemes.tables import rows
from buttonstudy.schemes.units import units

__all__ = ["nearest_trade_lines"]


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
    exact, sizes = round(lines, 9), _trade_lines()
    above = bisect_left(sizes, exact)
    return min(
        sizes[max(above - 1, 0) : above + 1],
        key=lambda size: (abs(size - exact), -size if upward else size),
    )


@cache
def _trade_lines() -> tuple[int, ...]:
    sizes = set[int]()
    for row in rows("trade_lines"):
        sizes.update(range(int(row["from"]), int(row["to"]) + 1, int(row["step"])))
    return tuple(sorted(sizes))
