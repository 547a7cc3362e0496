"""Which dimension each size of a wording is: diameter, height, width, length or depth.

Labels stand before a list ("H x diam.: 1.2 x 2.5 cm"), or with one size ("16 mm diam."). A list
that repeats another in a second unit takes its labels over.
"""

from collections.abc import Iterator, Sequence

from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.lengths.doubts import few_figures
from buttonstudy.readings.lengths.lists import SizeList
from buttonstudy.readings.lengths.tokens import LINES_OR_LENGTH

__all__ = ["label_members"]

_D = "d"


def label_members(lists: Sequence[SizeList]) -> list[Doubt]:
    """Give every member its dimension, ``""`` where the text does not say.

    Parameters
    ----------
    lists
        Completed in place, the part included where a list repeats another.

    Returns
    -------
    list of Doubt
        Lists that name more dimensions than they give figures.
    """
    doubts: list[Doubt] = []
    if len(lists) == 1 and _is_bare(lists[0]):
        return doubts
    _settle_letters(lists)
    before: SizeList | None = None
    for one in lists:
        base = one.beside or before
        if one.labels:
            doubts += _by_position(one)
        elif base is not None and _repeats(one, base):
            for member, model in zip(one.members, base.members):
                member.dimension = model.dimension
            one.part = base.part
        before = one
    return doubts


def _is_bare(one: SizeList) -> bool:
    return not one.labels and not any(member.dimension for member in one.members)


def _settle_letters(lists: Sequence[SizeList]) -> None:
    """Settle what L and D mean: length; depth beside a width or a diameter, else diameter."""
    wide = {one.segment for one in lists if not {"width", "diameter"}.isdisjoint(_dimensions(one))}
    for one in lists:
        means = {LINES_OR_LENGTH: "length", _D: "depth" if one.segment in wide else "diameter"}
        one.labels = [means.get(label, label) for label in one.labels]
        for member in one.members:
            member.dimension = means.get(member.dimension, member.dimension)


def _dimensions(one: SizeList) -> Iterator[str]:
    yield from one.labels
    for member in one.members:
        yield member.dimension


def _by_position(one: SizeList) -> Iterator[Doubt]:
    """Give the labels before a list to its members in order."""
    bare = [member for member in one.members if not member.dimension]
    labels = one.labels
    if len(bare) == 1 and len(labels) > 1 and "diameter" in labels:
        labels = ["diameter"]
    for member, label in zip(bare, labels):
        member.dimension = label
    if len(one.labels) > len(bare):
        yield few_figures(one.labels, [member.dimension for member in one.members])


def _repeats(one: SizeList, base: SizeList) -> bool:
    """Tell whether a list without labels repeats the other one in another unit."""
    return (
        len(one.members) == len(base.members)
        and not any(member.dimension for member in one.members)
        and one.part in ("", base.part)
        and (one.beside is not None or one.members[0].unit != base.members[0].unit)
        and one.segment == base.segment
    )
