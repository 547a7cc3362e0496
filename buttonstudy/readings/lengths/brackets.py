"""Brackets in a size wording: those that hold a size, and those that hold a note.

"(1/2 x 1 in.)" repeats a size in another unit; "(a: saucer)" names the part measured; "(worn)" is
a remark. Which it is shows only from what stands inside and right after it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from buttonstudy.readings.lengths.tokens import Token

__all__ = ["Bracket", "brackets"]

_LABEL_KINDS = frozenset({"dimension", "times", "filler"})


@dataclass(frozen=True, slots=True)
class Bracket:
    """A pair of brackets.

    Parameters
    ----------
    end
        Index of its closing token.
    holds
        ``"size"``, ``"labels"`` (only dimensions), or ``"note"``.
    """

    end: int
    holds: Literal["size", "labels", "note"]


def brackets(tokens: Sequence[Token]) -> dict[int, Bracket]:
    """Find the pairs of brackets, by the index of the opening token, in one pass.

    Examples
    --------
    >>> from buttonstudy.readings.lengths.tokens import tokens
    >>> found = brackets(tokens("H x diam. (a): 1.2 x 2.5 cm (1/2 x 1 in.)"))
    >>> [bracket.holds for bracket in found.values()]
    ['note', 'size']
    """
    found = {}
    opened: list[tuple[int, int, int, int]] = []
    figures = units = others = 0
    for index, token in enumerate(tokens):
        if token.kind == "open":
            opened.append((index, figures, units, others))
        elif token.kind == "close" and opened:
            start, figures_before, units_before, others_before = opened.pop()
            found[start] = Bracket(
                index,
                _holds(
                    tokens,
                    start,
                    index,
                    figures - figures_before,
                    units - units_before,
                    others - others_before,
                ),
            )
        elif token.kind in ("number", "bad"):
            figures += 1
        elif token.kind in ("unit", "l"):
            units += 1
        elif token.kind not in _LABEL_KINDS:
            others += 1
    return found


def _holds(
    tokens: Sequence[Token], start: int, end: int, figures: int, units: int, others: int
) -> Literal["size", "labels", "note"]:
    """Tell what a pair of brackets holds from what was counted inside it."""
    if figures == 0:
        lone_letter = end - start == 2 and len(tokens[start + 1].text) == 1
        return "note" if units or others or lone_letter else "labels"
    following = tokens[end + 1].kind if end + 1 < len(tokens) else ""
    lone_figure = end - start == 2 and tokens[start + 1].text.isdigit()
    names = following in ("colon", "dimension") or (following == "number" and lone_figure)
    return "note" if names and not units else "size"
