"""Puts one button together: all its pieces, from the back forward."""

from buttonstudy.draw.section.anatomy import Anatomy
from buttonstudy.draw.section.back import add_attachment, add_back
from buttonstudy.draw.section.cover import add_cover, add_padding
from buttonstudy.draw.section.facts import Facts
from buttonstudy.draw.section.mould import add_fill, add_mould, patched
from buttonstudy.draw.section.pieces import Pieces
from buttonstudy.draw.section.profiles import half_profile

__all__ = ["assemble"]


def assemble(facts: Facts, body: Anatomy, least_layer: float) -> Pieces:
    """Trace one button in section.

    Parameters
    ----------
    least_layer
        Layers of the cover thinner than this, in mm, are drawn as one band.
    """
    pieces = Pieces()
    half = half_profile(body.shape.profile, body.mould_radius, body.thickness)
    add_attachment(pieces, facts, body, float(half[-1, 1]) + body.padding + body.cover)
    core = add_padding(pieces, facts, body, patched(half, facts, body))
    add_mould(pieces, facts, body, half)
    add_cover(pieces, facts, body, core, least_layer)
    add_fill(pieces, facts, body, half)
    add_back(pieces, facts, body)
    return pieces
