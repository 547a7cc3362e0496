"""The mould, its holes, and what is in or over them."""

import numpy as np

from buttonstudy.draw.section.anatomy import Anatomy
from buttonstudy.draw.section.facts import Facts
from buttonstudy.draw.section.pieces import Callout, Piece, Pieces, Stroke, ellipse, mirrored
from buttonstudy.draw.section.profiles import Outline, between, span, swollen
from buttonstudy.draw.section.tables import drawing_size, drawn_as, material_of

__all__ = ["add_fill", "add_mould", "patched"]


def add_mould(pieces: Pieces, facts: Facts, body: Anatomy, half: Outline) -> None:
    """Add the mould, cut by its hole or holes."""
    said = facts.said["mould_material"]
    if facts.absent("mould_material"):
        return
    material = material_of("mould_material", said.terms) if said.known else ""
    certain = facts.said["mould_shape"].known and "mould" not in body.doubtful
    for outline in _cut(facts, body, half):
        pieces.surfaces.append(Piece(outline, material, certain, assumed="mould" in body.dotted))
    if body.shape.profile == "ring":
        at = (body.mould_radius - body.thickness / 2, body.thickness / 2)
    elif body.shape.profile == "shell":
        face = span(half, 0.5 * body.mould_radius, 0.52 * body.mould_radius)
        at = (
            0.51 * body.mould_radius,
            float(face[:, 1].max()) - drawing_size("shell-thickness") / 2,
        )
    else:
        at = (0.62 * body.mould_radius, 0.45 * _walls(half, 0.62 * body.mould_radius)[1])
    pieces.callouts.append(Callout(_mould_words(facts), *at))


def _mould_words(facts: Facts) -> str:
    material, shape = facts.said["mould_material"], facts.said["mould_shape"]
    if not material.known and not shape.known and material.state == shape.state:
        return f"mould: {material.words}"
    if material.known and shape.known:
        return f"mould: {material.words}, {shape.words}"
    return f"mould: {material.words}; shape: {shape.words}"


def _holes(facts: Facts, body: Anatomy) -> list[float]:
    """Give the middles of the holes that are drawn."""
    aside = drawing_size("holes-apart") * body.mould_radius
    kinds = {drawn_as("mould_hole", term) for term in facts.said["mould_hole"].terms}
    if "several" in kinds:
        return [-aside, aside]
    return [aside] if "aside" in kinds else [0.0]


def _cut(facts: Facts, body: Anatomy, half: Outline) -> list[Outline]:
    """Trace the mould's cut surfaces."""
    radius, hole = body.mould_radius, body.hole
    if body.shape.profile == "ring":
        bar = body.thickness / 2
        side = ellipse(radius - bar, bar, bar, bar)
        return [side, mirrored(side)]
    if body.shape.profile == "shell":
        return _shell(half, radius, hole if facts.hole_known else 0.0)
    if not hole or not facts.hole_known:
        return [span(half, -radius, radius)]
    edges = [-radius]
    for middle in _holes(facts, body):
        edges += [middle - hole / 2, middle + hole / 2]
    edges.append(radius)
    solid = [span(half, left, right) for left, right in zip(edges[::2], edges[1::2])]
    if _blind(facts):
        lid = span(half, -hole / 2, hole / 2)
        lid[:, 1] = np.maximum(lid[:, 1], _depth(body))
        solid.append(lid)
    return solid


def _blind(facts: Facts) -> bool:
    """Say whether the hole does not go through."""
    terms = facts.said["mould_hole"].terms
    return any(drawn_as("mould_hole", term) == "blind" for term in terms)


def _depth(body: Anatomy) -> float:
    """Give how deep a hole is that does not go through."""
    return drawing_size("blind-share") * body.thickness


def _shell(half: Outline, radius: float, hole: float) -> list[Outline]:
    """Trace a shell of sheet metal: the face and its turned-in edge, hollow behind."""
    sheet = drawing_size("shell-thickness")
    face = span(half, -radius, radius)
    count = len(face) // 2
    above = face[count:][::-1]
    below = above - (0, sheet)
    below[:, 0] = np.clip(above[:, 0], -radius + sheet, radius - sheet)
    below[:, 1] = np.maximum(below[:, 1], 0)
    sides = [above[:, 0] <= -hole / 2, above[:, 0] >= hole / 2] if hole else [above[:, 0] > -np.inf]
    return [np.concatenate([above[side], below[side][::-1]]) for side in sides]


def patched(half: Outline, facts: Facts, body: Anatomy) -> Outline:
    """Give the face as it is with a patch over the hole, if there is one."""
    if not _patch(facts) or not body.hole:
        return half
    return swollen(half, body.hole * drawing_size("patch-share"), drawing_size("back-thickness"))


def _patch(facts: Facts) -> tuple[str, ...]:
    """Give the terms of what lies over the hole, save padding that lies over the whole face."""
    full = not facts.absent("padding")
    return tuple(
        term
        for term in facts.said["hole_fill"].terms
        if drawn_as("hole_fill", term) == "over" and not (term == "padded over" and full)
    )


def add_fill(pieces: Pieces, facts: Facts, body: Anatomy, half: Outline) -> None:
    """Add what fills, bridges or hides the hole; or what tells that nobody saw it."""
    fill = facts.said["hole_fill"]
    if body.shape.profile == "ring":
        _add_opening(pieces, facts, body)
        return
    if not facts.hole_known:
        _add_unknown_hole(pieces, facts, body, half)
        return
    if not body.hole:
        if facts.absent("mould_hole"):
            pieces.callouts.append(Callout("no hole", 0, body.thickness * 0.5))
        return
    middle = _holes(facts, body)[-1]
    foot, top = _walls(half, middle)
    _add_filling(pieces, facts, body, half)
    if "hole" in body.dotted and body.shape.profile != "shell":
        _dot_walls(pieces, facts, body, half)
    for term in fill.terms:
        _add_term(pieces, facts, body, term, half)
    if not fill.known and not facts.absent("hole_fill"):
        for one in _holes(facts, body):
            across = body.hole / 2
            for way in (1, -1):
                line = np.array([(one - across, foot), (one + across, top)])
                line[:, 0] = one + way * (line[:, 0] - one)
                pieces.strokes.append(Stroke(line, certain=False))
    says = f"hole: {_hole_words(facts)}; fill: {fill.words}"
    pieces.callouts.append(Callout(says, middle, foot + 0.4 * (top - foot), both=middle == 0))


def _dot_walls(pieces: Pieces, facts: Facts, body: Anatomy, half: Outline) -> None:
    """Lay dots over the walls of a hole whose width was assumed."""
    for middle in _holes(facts, body):
        for wall in (middle - body.hole / 2, middle + body.hole / 2):
            foot, top = _walls(half, wall)
            top = min(top, _depth(body)) if _blind(facts) else top
            pieces.strokes.append(Stroke(np.array([(wall, foot), (wall, top)]), assumed=True))


def _add_opening(pieces: Pieces, facts: Facts, body: Anatomy) -> None:
    """Say what the record has on the opening of a ring."""
    fill = facts.said["hole_fill"]
    if facts.hole_known:
        says = f"opening: {_hole_words(facts)}; fill: {fill.words}"
        pieces.callouts.append(Callout(says, 0, body.thickness / 2))


def _hole_words(facts: Facts) -> str:
    said, measured = facts.said["mould_hole"], facts.lengths.get("hole_diameter")
    words = said.words if said.known or not measured else "there"
    return f"{words}, {measured.words}" if measured else words


def _add_unknown_hole(pieces: Pieces, facts: Facts, body: Anatomy, half: Outline) -> None:
    if facts.absent("mould_hole") or facts.absent("hole_fill"):
        pieces.callouts.append(Callout("no hole", 0, body.thickness * 0.5))
        return
    if body.shape.profile == "shell":
        return
    foot, top = _walls(half, 0)
    for side in (-body.hole / 2, body.hole / 2):
        line = np.array([(side, foot), (side, top)])
        pieces.strokes.append(Stroke(line, certain=False))
    hole, fill = facts.said["mould_hole"], facts.said["hole_fill"]
    says = f"hole: {hole.words}; fill: {fill.words}"
    if fill.state == hole.state:
        says = f"hole and its fill: {hole.words}"
    pieces.callouts.append(Callout(says, 0, 0.35 * (foot + top)))


def _walls(half: Outline, middle: float) -> tuple[float, float]:
    """Give the height of back and face at a place."""
    here = span(half, middle - 0.01, middle + 0.01)
    return float(here[:, 1].min()), float(here[:, 1].max())


def _add_filling(pieces: Pieces, facts: Facts, body: Anatomy, half: Outline) -> None:
    """Add what fills the hole from wall to wall; of several materials it is one mixed piece."""
    terms = tuple(
        term
        for term in facts.said["hole_fill"].terms
        if (drawn_as("hole_fill", term) or "in") in ("in", "through")
    )
    across = body.hole / 2
    for middle in _holes(facts, body) if terms else ():
        outline = span(half, middle - across, middle + across)
        if _blind(facts):
            outline[:, 1] = np.minimum(outline[:, 1], _depth(body))
        pieces.surfaces.append(Piece(outline, material_of("hole_fill", terms), turned=True))


def _add_term(pieces: Pieces, facts: Facts, body: Anatomy, term: str, half: Outline) -> None:
    """Add one term of the fill."""
    kind, material = drawn_as("hole_fill", term) or "in", material_of("hole_fill", (term,))
    if kind == "nothing" or (kind == "over" and term not in _patch(facts)):
        return
    across = body.hole / 2
    if kind == "over":
        patch = swollen(
            half, body.hole * drawing_size("patch-share"), drawing_size("back-thickness")
        )
        pieces.surfaces.append(Piece(between(half, patch), material))
        return
    for middle in _holes(facts, body):
        foot, top = _walls(half, middle)
        whole = span(half, middle - across, middle + across)
        if kind == "dust":
            low = np.minimum(whole, [np.inf, foot + 0.35 * (top - foot)])
            pieces.surfaces.append(Piece(low, material))
        elif kind == "tongue":
            pieces.surfaces.append(Piece(_tongue(middle, across, foot - body.cover, top), material))
            line = np.array([(middle, foot - body.cover), (middle, foot + 0.75 * (top - foot))])
            pieces.strokes.append(Stroke(line))
        elif kind == "across":
            thread = drawing_size("thread-width")
            for level in (foot + thread * 0.7, top - thread * 0.9):
                line = np.array([(middle - across, level), (middle + across, level)])
                pieces.strokes.append(Stroke(line, thread))
        elif kind == "knot":
            knot = ellipse(middle, top - across * 0.45, across * 0.9, across * 0.45)
            pieces.surfaces.append(Piece(knot, material))
        elif kind == "ornament":
            _add_ornament(pieces, body, top, material)
        elif kind == "pin":
            _add_pin(pieces, middle, across, foot, top, material)


def _tongue(middle: float, across: float, foot: float, top: float) -> Outline:
    end = foot + 0.85 * (top - foot)
    turn = np.linspace(0, np.pi, 20)
    cap = np.column_stack(
        [middle + across * np.cos(turn), end - across * 0.5 + across * 0.5 * np.sin(turn)]
    )
    return np.concatenate([[(middle + across, foot)], cap, [(middle - across, foot)]])


def _add_ornament(pieces: Pieces, body: Anatomy, top: float, material: str) -> None:
    base = top + body.padding + body.cover
    wide = body.hole * drawing_size("patch-share") / 2
    turn = np.linspace(0, np.pi, 24)
    dome = np.column_stack([wide * np.cos(turn), base + 0.4 * wide * np.sin(turn)])
    pieces.surfaces.append(Piece(dome, material))


def _add_pin(
    pieces: Pieces, middle: float, across: float, foot: float, top: float, material: str
) -> None:
    rod, head = 0.45 * across, 0.25 * across
    outline = [
        (middle - rod, foot),
        (middle + rod, foot),
        (middle + rod, top - head),
        (middle + 0.95 * across, top - head),
        (middle + 0.95 * across, top),
        (middle - 0.95 * across, top),
        (middle - 0.95 * across, top - head),
        (middle - rod, top - head),
    ]
    pieces.surfaces.append(Piece(np.array(outline), material))
