"""Padding, the cover's layers, and how the cover is drawn up at the back."""

import numpy as np

from buttonstudy.draw.section.anatomy import Anatomy
from buttonstudy.draw.section.facts import Facts
from buttonstudy.draw.section.pieces import Callout, Piece, Pieces, Stroke, ellipse, mirrored
from buttonstudy.draw.section.profiles import Outline, between, laid_over, raised, strip
from buttonstudy.draw.section.tables import drawing_size, drawn_as, material_of

__all__ = ["add_cover", "add_padding"]

_BACK_ENDS = {
    "gathered": 0.24,
    "laced": 0.6,
    "folded": 0.52,
    "stitched": 0.42,
    "plain": 0.5,
    "crimped": 0.8,
    "wound": 0.0,
    "nailed": 0.5,
    "loose": 0.85,
}
_UNSEEN_END = 0.72


def add_padding(pieces: Pieces, facts: Facts, body: Anatomy, half: Outline) -> Outline:
    """Add padding over the face, and give the profile with it."""
    if not body.padding:
        return half
    said = facts.said["padding"]
    padded = raised(half, body.padding)
    material = material_of("padding", said.terms) if said.known else "fibre"
    pieces.surfaces.append(Piece(between(half, padded), material, assumed="padding" in body.dotted))
    words = said.words if said.known else "over the hole, its kind not recorded"
    at = int(np.argmin(np.abs(padded[:, 0] - 0.3 * body.mould_radius)[len(padded) // 2 :]))
    x, y = padded[len(padded) // 2 + at]
    pieces.callouts.append(Callout(f"padding: {words}", float(x), float(y) - body.padding / 2))
    return padded


def add_cover(
    pieces: Pieces, facts: Facts, body: Anatomy, core: Outline, least_layer: float
) -> None:
    """Add the layers of the cover.

    Parameters
    ----------
    core
        The half profile of all that the cover lies over.
    least_layer
        Layers thinner than this, in mm of the button, are drawn as one band.
    """
    if not body.layers and not body.more_layers:
        if facts.layers.known or facts.absent("cover_material"):
            x, y = _on_face(core, 0.8)
            pieces.callouts.append(Callout("cover: none", x, y))
        return
    said = facts.said["cover_material"]
    material = material_of("cover_material", said.terms) if said.known else ""
    lost = facts.first("cover_condition") == "lost"
    kind = _kind(facts)
    seen = facts.layers.known and not lost
    bands = _bands(body, least_layer)
    sure = max((above for _, above, certain in bands if certain), default=0.0)
    for below, above, certain in bands:
        inner, outer = laid_over(core, below), laid_over(core, above)
        end = _BACK_ENDS.get(kind, _UNSEEN_END) * body.mould_radius
        here = material if certain else ""
        layer = Piece(
            strip(inner, outer, end),
            here,
            certain and not lost,
            edged=seen and certain,
            assumed="cover" in body.dotted,
        )
        pieces.surfaces.append(layer)
        if layer.style == "dotted" and "diameter" in facts.lengths and above >= sure:
            pieces.strokes.append(Stroke(_wrapped(outer, end)))
        if not certain or lost:  # two dashed edges that meet would look like one solid line
            pieces.strokes.append(Stroke(_wrapped(outer, end), certain=False))
        elif not layer.edged:
            pieces.strokes.append(Stroke(_wrapped(outer, end)))
            if facts.said["mould_shape"].known or body.padding:
                pieces.strokes.append(Stroke(_wrapped(inner, end), certain=False))
        if not kind:
            _add_unseen_end(pieces, inner, outer, end)
    x, y = _on_face(laid_over(core, body.cover * 0.5), 0.86)
    pieces.callouts.append(Callout(_cover_words(facts, lost, len(bands) < body.layers), x, y))
    if kind:
        _add_closure(pieces, facts, body, kind)


def _wrapped(line: Outline, end: float) -> Outline:
    """Give one side of a layer as an open line, from end to end at the back."""
    cut = int(np.argmax(line[:, 0] >= end)) if end else 0
    return np.concatenate([line[cut:], mirrored(line[cut:])[::-1]])


def _kind(facts: Facts) -> str:
    """Tell how the back is drawn; the empty text where it is not known."""
    if "same cloth" in facts.said["back_finish"].terms:
        return "wound"
    told = facts.first("cover_drawn_up")
    return (drawn_as("cover_drawn_up", told) or "plain") if told else ""


def _bands(body: Anatomy, least_layer: float) -> list[tuple[float, float, bool]]:
    """Give each drawn layer's lower and upper side, and whether it is sure to be there."""
    if body.layer < least_layer and body.layers > 1:
        whole = body.layers * body.layer
        more = [(whole, body.cover, False)] if body.more_layers else []
        return [(0.0, whole, True), *more]
    return [
        (place * body.layer, (place + 1) * body.layer, place < body.layers)
        for place in range(body.layers + body.more_layers)
    ]


def _on_face(line: Outline, share: float) -> tuple[float, float]:
    """Give a point of a half profile's face."""
    face = line[np.argmax(line[:, 0]) :]
    place = int(np.argmin(np.abs(face[:, 0] - share * line[:, 0].max())))
    return float(face[place, 0]), float(face[place, 1])


def _cover_words(facts: Facts, lost: bool, as_one: bool) -> str:
    material, thickness = facts.said["cover_material"], facts.said["cover_thickness"]
    words = [material.words]
    if thickness.known:
        words.append(thickness.words)
    told = facts.layers.words
    if facts.layers.known and facts.layers.high is None:
        told += " (dashed: there may be more)"
    elif facts.layers.known and facts.layers.high != facts.layers.low:
        told += " (dashed: not sure)"
    if as_one:
        told += " (drawn as one)"
    return f"cover: {', '.join([*words, told])}{'; lost today' if lost else ''}"


def _add_unseen_end(pieces: Pieces, inner: Outline, outer: Outline, end: float) -> None:
    """Draw dashed where the cover goes on at the back, seen by nobody."""
    for line in (inner, outer):
        back = line[: int(np.argmax(line[:, 0]))]
        hidden = back[back[:, 0] <= end]
        pieces.strokes.append(Stroke(hidden, certain=False))
        pieces.strokes.append(Stroke(mirrored(hidden), certain=False))


def _add_closure(pieces: Pieces, facts: Facts, body: Anatomy, kind: str) -> None:
    """Add threads, folds and nails at the back."""
    end, thread = _BACK_ENDS[kind] * body.mould_radius, drawing_size("thread-width")
    low = -body.cover
    if kind == "gathered":
        for side in (1, -1):
            bunch = ellipse(
                side * end, low / 2 - 0.15, 0.08 * body.mould_radius, body.cover * 0.55 + 0.15
            )
            pieces.surfaces.append(
                Piece(bunch, material_of("cover_material", facts.said["cover_material"].terms))
            )
            _dot(pieces, side * end, low / 2 - 0.15, thread / 2)
    elif kind == "laced":
        line = np.array([(-end * 1.06, low * 0.5), (end * 1.06, low * 0.5)])
        pieces.strokes.append(Stroke(line, thread * 0.5))
    elif kind in ("folded", "stitched", "nailed"):
        for side in (1, -1):
            line = np.array(
                [(side * end * 1.15, low - 0.25), (side * end * 1.15, 0.15 * body.thickness)]
            )
            pieces.strokes.append(Stroke(line, thread * (1.0 if kind == "nailed" else 0.6)))
        if kind == "folded":
            _add_hem(pieces, facts, body, end)
    words = facts.said["cover_drawn_up"].words
    if facts.said["cover_drawn_up"].known:
        threads = facts.said["thread"]
        more = f", {threads.words} thread" if threads.known and kind != "crimped" else ""
        says = f"drawn up: {words}{more}"
        at = max(end, 0.15 * body.mould_radius) * 1.08
        pieces.callouts.append(Callout(says, at, low * 0.5))


def _dot(pieces: Pieces, x: float, y: float, radius: float) -> None:
    pieces.surfaces.append(Piece(ellipse(x, y, radius, radius), "thread"))


def _add_hem(pieces: Pieces, facts: Facts, body: Anatomy, end: float) -> None:
    """Add the cover's edge folded under."""
    material = material_of("cover_material", facts.said["cover_material"].terms)
    deep = max(body.layer, 0.15)
    for side in (1, -1):
        turn = np.linspace(np.pi / 2, 3 * np.pi / 2, 16)
        fold = np.column_stack([end + deep * np.cos(turn), -body.cover + deep * np.sin(turn)])
        far = end * 1.35
        hem = np.concatenate([fold, [(far, -body.cover - deep), (far, -body.cover)]])
        pieces.surfaces.append(Piece(hem * (side, 1), material))
