"""Where a record contradicts itself: said in words, with both readings, never drawn as nonsense."""

from buttonstudy.draw.section.facts import Facts, crimped

__all__ = ["contradictions"]


def contradictions(facts: Facts) -> tuple[tuple[str, ...], frozenset[str]]:
    """Find what cannot both be true.

    Returns
    -------
    sentences : tuple of str
        One for each contradiction.
    doubtful : frozenset of str
        The parts ("mould", "hole") whose measured size is not drawn.
    """
    sentences = [*_wider_mould(facts), *_wider_hole(facts)]
    doubtful = {part for part, _ in sentences}
    told = [sentence for _, sentence in sentences]
    others = (*_hole_or_none(facts), *_cover_or_none(facts), *_pad_or_none(facts))
    return (*told, *others, *_back_or_none(facts)), frozenset(doubtful)


def _wider_mould(facts: Facts) -> list[tuple[str, str]]:
    button, mould = facts.lengths.get("diameter"), facts.lengths.get("mould_diameter")
    if not button or not mould or mould.low <= button.high:
        return []
    says = (
        f"The mould, {mould.words}, is wider than the button, {button.words}; the mould is drawn "
        f"within it, not at its measure."
    )
    return [("mould", says)]


def _wider_hole(facts: Facts) -> list[tuple[str, str]]:
    hole = facts.lengths.get("hole_diameter")
    mould = facts.lengths.get("mould_diameter")
    outer, name = (mould, "mould") if mould else (facts.lengths.get("diameter"), "button")
    if not hole or not outer or hole.best < outer.best:
        return []
    says = (
        f"The hole, {hole.words}, is as wide as the {name}, {outer.words}, or wider; the hole is "
        f"not drawn at its measure."
    )
    return [("hole", says)]


def _hole_or_none(facts: Facts) -> list[str]:
    hole, fill = facts.said["mould_hole"], facts.said["hole_fill"]
    measured = facts.lengths.get("hole_diameter")
    if facts.absent("mould_hole") and (measured or fill.known):
        told = f"a hole of {measured.words}" if measured else f"a hole fill, {fill.words}"
        return [f"The mould is said to have no hole, and {told} is given; no hole is drawn."]
    if hole.known and facts.absent("hole_fill"):
        return [
            f"The mould's hole is said to be “{hole.words}”, and the hole fill to be none for want "
            f"of a hole; an empty hole is drawn."
        ]
    return []


def _cover_or_none(facts: Facts) -> list[str]:
    layers, material = facts.layers, facts.said["cover_material"]
    if layers.known and layers.high == 0 and material.known:
        return [f"The cover is said to be {material.words} and to have no layer; none is drawn."]
    if facts.absent("cover_material") and layers.known and layers.low > 0:
        return [f"The cover is said to be absent and to have {layers.words}; these are drawn."]
    return []


def _pad_or_none(facts: Facts) -> list[str]:
    if facts.absent("padding") and "padded over" in facts.said["hole_fill"].terms:
        return [
            "Padding is said to lie over the hole, and padding to be absent; it is drawn over the "
            "hole only."
        ]
    return []


def _back_or_none(facts: Facts) -> list[str]:
    back = facts.said["back_finish"]
    if crimped(facts) and (facts.absent("back_finish") or "bare" in back.terms):
        return [
            f"The cover is said to be crimped in a metal back, and the back to be {back.words}; no "
            f"back is drawn."
        ]
    return []
