"""What closes the back, and what fastens the button to the garment."""

from collections.abc import Callable

import numpy as np

from buttonstudy.draw.section.anatomy import Anatomy
from buttonstudy.draw.section.facts import Facts, crimped
from buttonstudy.draw.section.pieces import (
    Callout,
    Piece,
    Pieces,
    Stroke,
    ellipse,
    mirrored,
    rectangle,
)
from buttonstudy.draw.section.profiles import Outline
from buttonstudy.draw.section.tables import drawing_size, drawn_as, material_of

__all__ = ["add_attachment", "add_back"]


def add_back(pieces: Pieces, facts: Facts, body: Anatomy) -> None:
    """Add what closes the back."""
    said = facts.said["back_finish"]
    radius, top, assumed = body.mould_radius, -body.cover, "back" in body.dotted
    for term in said.terms:
        kind, material = (
            drawn_as("back_finish", term) or "plate",
            material_of("back_finish", (term,)),
        )
        for outline in _plates(kind, radius, top, body.back):
            pieces.surfaces.append(Piece(outline, material, assumed=assumed))
    if crimped(facts) and body.back:
        if not said.known:
            plate = _plates("plate", radius, top, body.back)[0]
            pieces.surfaces.append(Piece(plate, "metal", assumed=assumed))
        for side in (1, -1):
            pieces.surfaces.append(Piece(_rim(body) * (side, 1), "metal", assumed=assumed))
    if said.known:
        words = "bare" if "bare" in said.terms else said.words
        pieces.callouts.append(Callout(f"back: {words}", 0.34 * radius, top - body.back / 2))


def _plates(kind: str, radius: float, top: float, thick: float) -> list[Outline]:
    reach = 0.86 * radius
    if kind == "plate":
        return [rectangle(-reach, top - thick, reach, top)]
    if kind == "patch":
        return [rectangle(-0.4 * radius, top - thick, 0.4 * radius, top)]
    if kind == "pierced plate":
        side = rectangle(0.22 * radius, top - thick, reach, top)
        return [side, mirrored(side)]
    if kind == "threads":
        thread = thick / 2
        count = int(0.66 * radius / (2 * thread))
        return [
            ellipse(2 * thread * number, top - thread, thread, thread)
            for number in range(-count, count + 1)
        ]
    return []


def _rim(body: Anatomy) -> Outline:
    """Trace the turned-up rim of a metal back, at the right."""
    start, low = 0.84 * body.mould_radius, -body.cover - body.back
    sheet = drawing_size("shell-thickness")
    turn = np.linspace(-np.pi / 2, 0, 14)
    reach = max(body.radius - start, 2 * sheet)
    up = body.cover + body.back + 0.25 * body.thickness
    outer = np.column_stack([start + reach * np.cos(turn), low + up * (1 + np.sin(turn))])
    inner = np.column_stack(
        [start + (reach - sheet) * np.cos(turn), low + sheet + (up - sheet) * (1 + np.sin(turn))]
    )
    return np.concatenate([outer, inner[::-1]])


def add_attachment(pieces: Pieces, facts: Facts, body: Anatomy, face: float) -> None:
    """Add what fastens the button to the garment.

    Parameters
    ----------
    face
        The height of the finished face in the middle.
    """
    said = facts.said["attachment"]
    top = -body.cover - body.back
    longest = drawing_size("shank-longest")
    reach = min(2 * body.radius * drawing_size("shank-share"), longest)
    wide = min(0.34 * body.mould_radius, 0.7 * reach)
    for term in said.terms:
        kind, material = (
            drawn_as("attachment", term) or "unknown",
            material_of("attachment", (term,)),
        )
        if term == "mould shank" and facts.said["mould_material"].known:
            material = material_of("mould_material", facts.said["mould_material"].terms)
        if kind == "nothing":
            continue
        if kind == "through":
            _add_sewn_through(pieces, body, face)
        else:
            _KINDS[kind](pieces, top, wide, reach, material)
    outlines = [one.outline for one in pieces.surfaces] + [one.points for one in pieces.strokes]
    if outlines:
        points = np.concatenate(outlines)
        away = np.hypot(points[:, 0] - wide, points[:, 1] - top + 0.4 * reach)
        x, y = points[np.argmin(away)]
        pieces.callouts.append(Callout(f"attachment: {said.words}", abs(float(x)), float(y)))


def _loop_outline(top: float, wide: float, reach: float, bar: float) -> Outline:
    turn = np.linspace(0, np.pi, 32)

    def half(across: float, down: float) -> Outline:
        return np.column_stack([across * np.cos(turn), top - down * np.sin(turn) ** 0.8])

    return np.concatenate([half(wide, reach), half(wide - bar, reach - bar)[::-1]])


def _loop(pieces: Pieces, top: float, wide: float, reach: float, material: str) -> None:
    bar = min(0.3 * wide, 1.0)
    pieces.surfaces.append(Piece(_loop_outline(top, wide, reach, bar), material))


def _unknown(pieces: Pieces, top: float, wide: float, reach: float, material: str) -> None:
    bar = min(0.3 * wide, 1.0)
    pieces.surfaces.append(Piece(_loop_outline(top, wide, reach, bar), "", certain=False))


def _tuft(pieces: Pieces, top: float, wide: float, reach: float, material: str) -> None:
    turn = np.linspace(0, np.pi, 32)
    round_end = np.column_stack([1.1 * wide * np.cos(turn), top - 0.7 * reach * np.sin(turn)])
    pieces.surfaces.append(Piece(round_end, material))
    for share in (-0.5, 0.0, 0.5):
        line = np.array([(share * 0.5 * wide, top), (share * 1.3 * wide, top - 0.5 * reach)])
        pieces.strokes.append(Stroke(line))


def _stitch(pieces: Pieces, top: float, wide: float, reach: float, material: str) -> None:
    turn = np.linspace(0, np.pi, 20)
    for shift in (-0.5, 0.0, 0.5):
        arc = np.column_stack(
            [shift * wide + 0.6 * wide * np.cos(turn), top - 0.35 * reach * np.sin(turn)]
        )
        pieces.strokes.append(Stroke(arc, drawing_size("thread-width") * 0.7))


def _cone(pieces: Pieces, top: float, wide: float, reach: float, material: str) -> None:
    sides = [(1.3 * wide, top), (0.6 * wide, top - reach), (-0.6 * wide, top - reach)]
    pieces.surfaces.append(Piece(np.array([*sides, (-1.3 * wide, top)]), material))
    pieces.surfaces.append(Piece(ellipse(0, top - 0.65 * reach, 0.25 * wide, 0.25 * wide), "hole"))


def _box(pieces: Pieces, top: float, wide: float, reach: float, material: str) -> None:
    pieces.surfaces.append(Piece(rectangle(-wide, top - reach, wide, top), material))
    pieces.surfaces.append(Piece(ellipse(0, top - 0.6 * reach, 0.35 * wide, 0.35 * wide), "hole"))


def _stud(pieces: Pieces, top: float, wide: float, reach: float, material: str) -> None:
    post, foot = 0.25 * wide, 0.22 * reach
    pieces.surfaces.append(Piece(rectangle(-post, top - reach, post, top), material))
    base = rectangle(-1.3 * wide, top - reach, 1.3 * wide, top - reach + foot)
    pieces.surfaces.append(Piece(base, material))


def _link(pieces: Pieces, top: float, wide: float, reach: float, material: str) -> None:
    _loop(pieces, top, 0.7 * wide, 0.5 * reach, material)
    for across, down, what in ((0.34, 0.36, material), (0.17, 0.25, "hole")):
        ring = ellipse(0, top - 0.72 * reach, across * wide, down * reach)
        pieces.surfaces.append(Piece(ring, what))


def _add_sewn_through(pieces: Pieces, body: Anatomy, face: float) -> None:
    across = max(0.3 * body.hole, 0.12 * body.mould_radius)
    low = -body.cover - body.back
    turn = np.linspace(0, np.pi, 20)
    over = np.column_stack([across * np.cos(turn), face + 0.3 * across * np.sin(turn)])
    line = np.concatenate([[(across, low - 1.0)], over, [(-across, low - 1.0)]])
    pieces.strokes.append(Stroke(line, drawing_size("thread-width")))


_KINDS: dict[str, Callable[[Pieces, float, float, float, str], None]] = {
    "loop": _loop,
    "unknown": _unknown,
    "tuft": _tuft,
    "stitch": _stitch,
    "cone": _cone,
    "box": _box,
    "stud": _stud,
    "link": _link,
}
