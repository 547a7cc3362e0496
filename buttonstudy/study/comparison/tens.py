"""Words differences of shares in sets of every ten: one rounding for text, tables and figures.

Ends of an interval are rounded outward, so that what is told never is narrower than what was
computed; below one set of ten they keep one decimal, so that an end that is not nought is none.
"""

import math

__all__ = ["furthest_of_ten", "possible_of_ten", "signed", "span_of_ten"]

_SLACK = 1e-9  # 0.07 * 10 is a little over 0.7


def signed(difference: float) -> str:
    """Word a difference of shares in sets of every ten, with its sign; nought has none.

    Examples
    --------
    >>> signed(0.42), signed(-0.98), signed(0.02), signed(float("nan"))
    ('+4', '−10', '0', '')
    """
    if math.isnan(difference):
        return ""
    tens = round(10 * difference)
    return f"{tens:+d}".replace("-", "−") if tens else "0"


def span_of_ten(low: float, high: float) -> str:
    """Word a range of differences as tables and figures do; only nought itself is told as 0.

    Examples
    --------
    >>> span_of_ten(0.07, 0.64), span_of_ten(-0.71, 0.05), span_of_ten(-0.3, -0.004)
    ('+0.7 to +7', '−8 to +0.5', '−3 to below 0')
    >>> span_of_ten(0.0, 0.303), span_of_ten(0.001, 0.004)
    ('0 to +4', 'above 0 to +0.1')
    """
    low, high = _settled(low), _settled(high)
    return f"{_end(low, outward=low < 0)} to {_end(high, outward=high > 0)}"


def possible_of_ten(low: float, high: float) -> str:
    """Word the same range as sentences do.

    Examples
    --------
    >>> possible_of_ten(0.07, 0.64), possible_of_ten(-0.71, 0.05), possible_of_ten(-0.3, -0.004)
    ('0.7 to 7 more', '8 fewer to 0.5 more', 'just over 0 to 3 fewer')
    >>> possible_of_ten(0.0, 0.303), possible_of_ten(-0.004, 0.0), possible_of_ten(0.0, 0.0)
    ('none to 4 more', 'none to 0.1 fewer', 'nothing else')
    """
    low, high = _settled(low), _settled(high)
    if low < 0 < high:
        return f"{_outer(-low)} fewer to {_outer(high)} more"
    near, far = sorted([abs(low), abs(high)])
    if far == 0:
        return "nothing else"
    least = "none" if near == 0 else _inner(near) or "just over 0"
    return f"{least} to {_outer(far)} {'fewer' if low < 0 else 'more'}"


def furthest_of_ten(low: float, high: float) -> str:
    """Word the larger of a range's differences, whichever way it goes.

    Examples
    --------
    >>> furthest_of_ten(-0.52, 0.13)
    '6 of every 10 sets'
    """
    return f"{_outer(max(abs(low), abs(high)))} of every 10 sets"


def _settled(end: float) -> float:
    """Take for nought what only arithmetic keeps from it."""
    return 0.0 if abs(end) < _SLACK else end


def _end(end: float, *, outward: bool) -> str:
    """Word one end with its sign, rounded away from nought or towards it."""
    if end == 0:
        return "0"
    size = _outer(abs(end)) if outward else _inner(abs(end))
    if not size:
        return "above 0" if end > 0 else "below 0"
    return f"{'+' if end > 0 else '−'}{size}"


def _outer(size: float) -> str:
    """Round a size up; to one decimal where that stays below one set of ten."""
    tenths = math.ceil(100 * size - _SLACK)
    return f"0.{tenths}" if tenths < 10 else f"{math.ceil(10 * size - _SLACK)}"


def _inner(size: float) -> str:
    """Round a size down, to one decimal below one set of ten; empty where nothing is left."""
    tenths = math.floor(100 * size + _SLACK)
    if tenths >= 10:
        return f"{math.floor(10 * size + _SLACK)}"
    return f"0.{tenths}" if tenths else ""
