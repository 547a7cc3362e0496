"""Which of the sizes in a cell is the button's face, and which its height.

A button's size is its widest measure across the face: the diameter of a round one, the longer
side of an oval or a square. A cell may give it among heights, depths and parts, in any order, with
or without labels. What cannot be the size of one button is told, never used.
"""

from collections.abc import Iterable, Sequence
from functools import cache
from typing import NamedTuple

from buttonstudy.readings.doubt import Doubt
from buttonstudy.readings.lengths.precision import Length
from buttonstudy.schemes.limits import limit
from buttonstudy.schemes.tables import rows

__all__ = ["FaceReading", "face_diameter", "heights"]


class FaceReading(NamedTuple):
    """The readings of one button's face; see `face_diameter`.

    Parameters
    ----------
    lengths
        One for each time the cell gives the face, in one unit or another.
    doubts
        What was doubtful; a fatal doubt means that no face size was found.
    """

    lengths: tuple[Length, ...]
    doubts: tuple[Doubt, ...]


def face_diameter(lengths: Sequence[Length], part: str = "") -> FaceReading:
    """Pick out the widest measure across the face, once for each list of sizes.

    Parameters
    ----------
    lengths
        Everything read from one cell.
    part
        The part whose face is wanted: ``""`` for the finished button, ``"mould"`` for its mould.
        Sizes of no named part count for it too where the cell names no such part.

    Returns
    -------
    FaceReading

    Examples
    --------
    >>> from buttonstudy.readings.lengths.reading import read_lengths
    >>> faces, doubts = face_diameter(read_lengths("H x W x D: 5 x 18 x 18 mm").lengths)
    >>> faces[0].best
    18.0
    >>> faces, doubts = face_diameter(read_lengths("Overall: 23 cm").lengths)
    >>> doubts[0].says
    '230 mm is too large for one button.'
    """
    if not lengths:
        return FaceReading((), ())
    own, doubts = _of_part(lengths, part)
    faces = _faces(own)
    if not faces:
        return FaceReading((), (*doubts, _no_face()))
    fitting = [face for face in faces if _fits(face)]
    doubts += [_unfit(face, fatal=not fitting) for face in faces if not _fits(face)]
    doubts += _shape_doubts(own, fitting)
    return FaceReading(tuple(fitting), tuple(dict.fromkeys(doubts)))


def heights(lengths: Sequence[Length]) -> tuple[Length, ...]:
    """Pick out the height of the finished button: a height or depth beside a wider face.

    Of three sizes without labels the smallest is the height if it is clearly so.

    Examples
    --------
    >>> from buttonstudy.readings.lengths.reading import read_lengths
    >>> [one.best for one in heights(read_lengths("15mm x 15mm x 4mm").lengths)]
    [4.0]
    """
    found = []
    for group in _groups(_of_part(lengths, "")[0]):
        depth = _labelled(group, "depth")
        height = _labelled(group, "height")
        bare = sorted(_labelled(group, ""), key=lambda one: one.best)
        if depth:
            found += depth
        elif height and all(_clearly_less(height[0], one) for one in group if one not in height):
            found += height
        elif len(bare) == len(group) >= 3 and _clearly_less(bare[0], bare[1]):
            found.append(bare[0])
    return tuple(found)


def _of_part(lengths: Sequence[Length], part: str) -> tuple[list[Length], list[Doubt]]:
    """Keep the sizes of the part that is wanted."""
    inner = _inner_parts()
    if part:
        own = [one for one in lengths if one.part == part]
        return own or [one for one in lengths if one.part not in inner], []
    outer = [one for one in lengths if one.part not in inner]
    parts = list(dict.fromkeys(one.part for one in outer))
    if "" in parts or len(parts) < 2:
        return [one for one in outer if one.part == "" or len(parts) == 1], []
    widest = max(_faces(outer) or outer, key=lambda one: one.best).part
    return [one for one in outer if one.part == widest], [_parts(parts, widest)]


@cache
def _inner_parts() -> frozenset[str]:
    return frozenset(row["meaning"] for row in rows("size_words") if row["role"] == "part") - {""}


def _groups(lengths: Iterable[Length]) -> list[list[Length]]:
    groups: dict[int, list[Length]] = {}
    for one in lengths:
        groups.setdefault(one.group, []).append(one)
    return list(groups.values())


def _labelled(group: Iterable[Length], dimension: str) -> list[Length]:
    return [one for one in group if one.dimension == dimension]


def _faces(lengths: Sequence[Length]) -> list[Length]:
    """Give each list's widest measure across the face."""
    if any(one.dimension == "diameter" for one in lengths):
        kept = [_labelled(group, "diameter") for group in _groups(lengths)]
    else:
        kept = [_across(group) for group in _groups(lengths)]
    return [max(group, key=lambda one: one.best) for group in kept if group]


def _across(group: Sequence[Length]) -> list[Length]:
    """Drop the measures that do not lie in the face.

    With only a height and a width either may be the wider one of a flat button.
    """
    flat = [one for one in group if one.dimension != "depth"]
    without_height = [one for one in flat if one.dimension != "height"]
    if len(without_height) >= 2 or not without_height:
        return without_height
    return flat


def _clearly_less(one: Length, other: Length) -> bool:
    return one.high < other.low


def _fits(face: Length) -> bool:
    return limit("size-smallest-plausible") <= face.best <= limit("size-largest-plausible")


def _unfit(face: Length, *, fatal: bool) -> Doubt:
    small = face.best < limit("size-smallest-plausible")
    return Doubt(
        "size-too-small" if small else "size-too-large",
        f"{face.best:.4g} mm is too {'small' if small else 'large'} for one button.",
        "Check the figure and its unit. Move the size of a card or a set to the notes.",
        fatal,
    )


def _no_face() -> Doubt:
    return Doubt(
        "size-no-face",
        "The cell gives no measure across the face of the button.",
        "Write the diameter, or the widest measure across.",
        fatal=True,
    )


def _parts(parts: Sequence[str], used: str) -> Doubt:
    return Doubt(
        "size-parts",
        f"The cell gives the sizes of {len(parts)} parts; that of the widest, {used}, was used.",
        "If these are several buttons, give each its own row.",
    )


def _shape_doubts(lengths: Sequence[Length], faces: Sequence[Length]) -> list[Doubt]:
    """Tell where the face is longer than wide, or two bare figures leave that open."""
    for group in _groups(lengths):
        widest = next((one for one in group if one in faces), None)
        if widest is None or widest.dimension == "diameter" or len(group) < 2:
            continue
        across = sorted(_across(group), key=lambda one: one.best)
        second = across[-2] if len(across) > 1 else None
        if second is None or not _clearly_less(second, widest):
            continue
        if len(group) == 2 and second.dimension == "":
            return [_two_figures(second, widest)]
        return [_not_round(second, widest)]
    return []


def _two_figures(small: Length, large: Length) -> Doubt:
    return Doubt(
        "size-two-figures",
        f"The cell gives {large.best:.4g} and {small.best:.4g} mm without saying which is which; "
        f"the larger was taken for the face.",
        "Name the dimensions, such as diam. 16 x height 5 mm.",
    )


def _not_round(short: Length, long: Length) -> Doubt:
    return Doubt(
        "size-not-round",
        f"The face is {long.best:.4g} by {short.best:.4g} mm; its widest measure was used.",
        "Nothing, if the button is not round.",
        note=True,
    )
