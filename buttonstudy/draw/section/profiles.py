"""The outlines of moulds: half a profile each, from the middle of the back to that of the face.

A profile is traced outward along the back, up the edge and inward along the face, in units of the
mould: the radius is 1 and the thickness 1. Corners are eased, so that a cover laid over them
follows smoothly.
"""

from collections.abc import Callable
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

__all__ = ["PROFILES", "Outline", "half_profile", "laid_over", "raised", "span"]

Outline = NDArray[np.float64]
"""Points, n by 2, in mm: across from the middle, and up from the mould's back."""

_STEPS = 40
_EASE = 0.3


def half_profile(profile: str, radius: float, thickness: float) -> Outline:
    """Trace half a mould.

    Parameters
    ----------
    profile
        A name in :data:`PROFILES`.
    radius, thickness
        In mm.

    Examples
    --------
    >>> half_profile("disc", 8, 3)[[0, -1]].tolist()
    [[0.0, 0.0], [0.0, 3.0]]
    """
    return PROFILES[profile](radius, thickness)


def raised(half: Outline, by: float) -> Outline:
    """Raise the face in the middle and less towards the edge, as padding does."""
    radius, edge = half[:, 0].max(), _face_from(half)
    lifted = half.copy()
    share = 1 - (lifted[edge:, 0] / radius) ** 4
    lifted[edge:, 1] += by * share
    return lifted


def swollen(half: Outline, across: float, by: float) -> Outline:
    """Raise the face over a patch in the middle, ``across`` mm wide, with sloping sides."""
    edge = _face_from(half)
    lifted = half.copy()
    lifted[edge:, 1] += by * np.clip((across * 0.6 - lifted[edge:, 0]) / (across * 0.2), 0, 1)
    return lifted


def between(lower: Outline, upper: Outline) -> Outline:
    """Trace what lies between the faces of two half profiles that have the same points."""
    edge = _face_from(lower)
    apart = np.flatnonzero(upper[:, 1] - lower[:, 1] > 1e-6)
    start = max(edge, int(apart[0]) - 1) if len(apart) else edge
    right = np.concatenate([lower[start:][::-1], upper[start:]])
    return np.concatenate([right, (right * (-1, 1))[::-1]])


def strip(inner: Outline, outer: Outline, back_end: float) -> Outline:
    """Trace a layer that wraps a profile from ``back_end`` mm off the middle of the back."""
    edge = _face_from(inner)
    cut = int(np.argmax(inner[:edge, 0] >= back_end)) if back_end > 0 else 0
    lines = [np.concatenate([line[cut:], (line[cut:] * (-1, 1))[::-1]]) for line in (inner, outer)]
    return np.concatenate([lines[0], lines[1][::-1]])


def laid_over(half: Outline, by: float) -> Outline:
    """Trace what lies everywhere ``by`` mm outside a profile."""
    along = np.gradient(half, axis=0)
    along[0], along[-1] = (1, 0), (-1, 0)
    length = np.hypot(along[:, 0], along[:, 1])
    along /= np.where(length > 0, length, 1)[:, None]
    outward = np.column_stack([along[:, 1], -along[:, 0]])
    moved = half + by * outward
    moved[[0, -1], 0] = 0
    return moved


def span(half: Outline, left: float, right: float) -> Outline:
    """Trace the closed outline of the part of a whole mould between two places across."""
    edge = _face_from(half)
    back, face = half[:edge], half[edge:][::-1]
    across = np.unique(
        np.clip(np.concatenate([[left, right], half[:, 0], -half[:, 0]]), left, right)
    )
    below = np.interp(np.abs(across), back[:, 0], back[:, 1])
    above = np.interp(np.abs(across), face[:, 0], face[:, 1])
    return np.concatenate(
        [np.column_stack([across, below]), np.column_stack([across, above])[::-1]]
    )


def _face_from(half: Outline) -> int:
    """Give the place where the face begins: the upper end of the widest part."""
    widest = np.flatnonzero(half[:, 0] >= half[:, 0].max() - 1e-9)
    return int(widest[len(widest) // 2]) or 1


def _eased(corners: list[tuple[float, float]], radius: float, thickness: float) -> Outline:
    """Draw straight lines between corners, given as shares, and round each corner off."""
    points = np.array(corners, dtype=float) * (radius, thickness)
    ease = _EASE * min(radius, thickness)
    told = [points[:1]]
    for before, at, after in zip(points, points[1:], points[2:]):
        into, out = before - at, after - at
        lengths = [float(np.linalg.norm(way)) for way in (into, out)]
        reach = [min(ease / length, 1 / 2.2) for length in lengths]
        start, end = at + into * reach[0], at + out * reach[1]
        t = np.linspace(0, 1, 12)[:, None]
        told.append((1 - t) ** 2 * start + 2 * t * (1 - t) * at + t**2 * end)
    return _closer(np.concatenate([*told, points[-1:]]), radius)


def _closer(points: Outline, radius: float) -> Outline:
    """Put points on long straight lines, so that what is laid over them can bend."""
    told = [points[:1]]
    for start, end in pairwise(points):
        steps = max(1, round(float(np.linalg.norm(end - start)) / radius * _STEPS))
        told.append(start + (end - start) * np.linspace(0, 1, steps + 1)[1:, None])
    return np.concatenate(told)


def _of_corners(*corners: tuple[float, float]) -> Callable[[float, float], Outline]:
    return lambda radius, thickness: _eased(list(corners), radius, thickness)


def _arc(low: float, power: float = 2.0, back: float = 0.0) -> Callable[[float, float], Outline]:
    """Make a profile whose face is part of an oval that begins at a height ``low``.

    ``back`` is how deep the back bulges; the greater the power, the blunter the oval.
    """

    def trace(radius: float, thickness: float) -> Outline:
        turn = np.linspace(0, np.pi / 2, 2 * _STEPS)
        across, up = np.cos(turn) ** (2 / power), np.sin(turn) ** (2 / power)
        face = np.column_stack([across, low + (1 - low) * up])
        if back:
            under = np.column_stack([across, low - back * up])[::-1]
            whole = np.concatenate([under[:-1], face]) * (radius, thickness)
        else:
            foot = _eased([(0, 0), (1, 0), (1, low)], radius, thickness)
            whole = np.concatenate([foot[:-1], face * (radius, thickness)])
        whole[[0, -1], 0] = 0
        return whole

    return trace


def _dish(radius: float, thickness: float) -> Outline:
    foot = _eased([(0, 0), (1, 0), (1, 0.85), (0.93, 1)], radius, thickness)
    across = np.linspace(0.93, 0, _STEPS)
    hollow = 1 - 0.5 * np.cos(across / 0.93 * np.pi / 2) ** 1.5
    return np.concatenate([foot[:-1], np.column_stack([across, hollow]) * (radius, thickness)])


def _ring(radius: float, thickness: float) -> Outline:
    """Trace round a ring whose bar is as wide as it is thick, straight across its opening."""
    half = thickness / 2
    turn = np.linspace(-np.pi / 2, np.pi / 2, _STEPS + 1)  # the widest point among them
    bar = np.column_stack([radius - half + half * np.cos(turn), half + half * np.sin(turn)])
    return _closer(np.concatenate([[(0.0, 0.0)], bar, [(0.0, thickness)]]), radius)


PROFILES: dict[str, Callable[[float, float], Outline]] = {
    "disc": _of_corners((0, 0), (1, 0), (1, 1), (0, 1)),
    "bevel": _of_corners((0, 0), (1, 0), (1, 0.35), (0.68, 1), (0, 1)),
    "rim": _of_corners((0, 0), (1, 0), (1, 1), (0.82, 1), (0.76, 0.68), (0, 0.68)),
    "cone": _of_corners((0, 0), (1, 0), (1, 0.15), (0.12, 0.96), (0, 1)),
    "dish": _dish,
    "dome": _arc(0.22),
    "shell": _arc(0.3),
    "half ball": _arc(0.08),
    "ball": _arc(0.5, back=0.5),
    "lens": _arc(0.38, back=0.38),
    "knob": _arc(0.5, power=3.2, back=0.5),
    "acorn": _arc(0.35, power=1.7, back=0.35),
    "ring": _ring,
}
