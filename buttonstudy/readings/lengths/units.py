"""Which unit each size of a wording is in: its own, its neighbour's, or the heading's.

A unit written once is meant for a whole list (1.2 x 2.5 cm, 15-16 mm, 15 and 16 mm). It is not
carried to what may be in another unit: a figure in brackets, or after a bare comma.
"""

from collections.abc import Sequence
from itertools import pairwise

from buttonstudy.readings.lengths.doubts import lines_or_length, no_unit, unclear
from buttonstudy.readings.lengths.lists import Gathered, Member, SizeList
from buttonstudy.readings.lengths.tokens import LINES_OR_LENGTH

__all__ = ["settle_units"]

_PARIS = "Paris lines"


def settle_units(found: Gathered, heading: str) -> None:
    """Give every member its unit, or its list the reason why it has none.

    Parameters
    ----------
    found
        What was gathered; its lists are completed in place.
    heading
        The unit that the column's heading states, or ``""``.
    """
    for one in found.lists:
        _spread(one)
    _carry_back(found.lists)
    _mark_tight(found.lists)
    bare = [one for one in found.lists if not one.members[0].unit and one.fault is None]
    mains = [one for one in bare if one.beside is None]
    for one in bare:
        _from_heading(one, heading, alone=len(mains) == 1)
    paris = heading == _PARIS and found.line_kind == ""
    for one in found.lists:
        for member in one.members:
            if paris and member.unit == "lines":
                member.unit = _PARIS


def _spread(one: SizeList) -> None:
    """Spread the units in a list to its members without one: from the right, else the left."""
    own = {member.unit for member in one.members} - {"", LINES_OR_LENGTH}
    for member in one.members:
        if member.unit == LINES_OR_LENGTH and own and _labelled_member(one):
            member.unit, member.dimension = "", "length"
        elif member.unit == LINES_OR_LENGTH:
            member.unit = "lines"
    unit = ""
    for member in (*reversed(one.members), *one.members):
        member.unit = member.unit or unit
        unit = member.unit
    if not unit and one.unit_before:
        _give(one.members, one.unit_before)


def _labelled_member(one: SizeList) -> bool:
    return any(member.dimension in ("width", "height", "d") for member in one.members)


def _give(members: Sequence[Member], unit: str) -> None:
    for member in members:
        member.unit = unit


def _carry_back(lists: Sequence[SizeList]) -> None:
    """Carry a unit back over "and", and over commas between labelled sizes."""
    after: SizeList | None = None
    for one in reversed([one for one in lists if one.beside is None]):
        if after is not None and not one.members[0].unit and after.segment == one.segment:
            labelled = after.link == "," and _is_labelled(one) and _is_labelled(after)
            if after.members[0].unit and (labelled or after.link == "and"):
                _give(one.members, after.members[0].unit)
        after = one


def _is_labelled(one: SizeList) -> bool:
    return bool(one.labels) or all(member.dimension for member in one.members)


def _mark_tight(lists: Sequence[SizeList]) -> None:
    """Refuse both sizes where a figure follows without a unit: "1 in 1/4" may be 1 1/4 in."""
    for before, one in pairwise(lists):
        if one.tight and not one.members[0].unit and not one.members[0].counted:
            doubt = unclear(f"{before.written()} {one.written()}")
            before.fault, one.fault = before.fault or doubt, one.fault or doubt


def _from_heading(one: SizeList, heading: str, alone: bool) -> None:
    """Give a list the heading's unit, unless it is beside another or counts something else."""
    l_first = one.labels == [LINES_OR_LENGTH] and len(one.members) == 1
    if l_first and "lines" in heading:
        one.labels = []
    if heading and one.beside is None and (alone or not one.members[0].counted):
        _give(one.members, heading)
    elif l_first and not heading:
        one.fault = lines_or_length(f"L {one.written()}")
    else:
        one.fault = no_unit(one.written())
