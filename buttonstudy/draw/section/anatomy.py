"""Every size that the drawing needs: measured, worked out, or assumed and said to be.

Where two sizes cannot both be true, the record's own words are told and the button's outer size
is kept; what cannot lie within it is drawn at an assumed size, dashed.
"""

from dataclasses import dataclass

from buttonstudy.draw.section.contradictions import contradictions
from buttonstudy.draw.section.facts import Facts, crimped
from buttonstudy.draw.section.tables import MouldShape, drawing_size, drawn_as, shape

__all__ = ["Anatomy", "anatomy_of"]

_LEAST = 0.05
_DERIVED = ""
_Assumed = tuple[str, str]  # the part that is drawn dotted for it, and the words


@dataclass(frozen=True, slots=True)
class Anatomy:
    """The sizes of one drawing, in mm.

    Attributes
    ----------
    radius, mould_radius, thickness
        Half the finished button, half the mould, and the mould's thickness.
    layer, layers, more_layers
        One layer's thickness; how many are drawn; and how many more, dashed, may be there.
    padding
        Its thickness in the middle; 0 for none.
    hole
        The hole's width; 0 for none.
    back
        The thickness of what closes the back; 0 for nothing.
    shape
        How the mould is drawn.
    doubtful
        The names of parts drawn dashed although the record tells of them.
    assumptions
        What was assumed for drawing: the part that is drawn dotted for it, none where the size
        follows from others, and the words.
    against
        Where the record contradicts itself: full sentences.
    """

    radius: float
    mould_radius: float
    thickness: float
    layer: float
    layers: int
    more_layers: int
    padding: float
    hole: float
    back: float
    shape: MouldShape
    doubtful: frozenset[str]
    assumptions: tuple[tuple[str, str], ...]
    against: tuple[str, ...]

    @property
    def cover(self) -> float:
        """The thickness of the whole cover."""
        return self.layer * (self.layers + self.more_layers)

    @property
    def dotted(self) -> frozenset[str]:
        """The names of parts drawn dotted, since a size of theirs was assumed."""
        return frozenset(part for part, _ in self.assumptions if part != _DERIVED)

    @property
    def assumed(self) -> tuple[str, ...]:
        """All that was assumed, in words."""
        return tuple(says for _, says in self.assumptions)


def anatomy_of(facts: Facts) -> Anatomy | None:
    """Decide all sizes, or None if no size of the button or its mould is known."""
    against, doubtful = contradictions(facts)
    assumed: list[_Assumed] = []
    layers, more = _layers(facts)
    layer = _layer_thickness(facts, assumed) if layers + more else 0.0
    radii = _radii(facts, layers + more, layer, doubtful, assumed)
    if radii is None:
        return None
    radius, mould_radius, layer = radii
    padding = _padding(facts, radius, assumed)
    back = 0.0
    if _closes(facts):
        back = drawing_size("back-thickness")
        assumed.append(("back", f"what closes the back is {back:.2g} mm thick"))
    elif "thread-worked" in facts.said["back_finish"].terms:
        back = drawing_size("thread-width")
    drawn = shape(facts.first("mould_shape"))
    taken = 2 * layer * (layers + more) + padding + back
    thickness, clash = _thickness(facts, drawn, mould_radius, taken, assumed)
    hole = _hole(facts, drawn, mould_radius, thickness, doubtful, assumed)
    return Anatomy(
        radius,
        mould_radius,
        thickness,
        layer,
        layers,
        more,
        padding,
        hole,
        back,
        drawn,
        doubtful,
        tuple(assumed),
        (*against, *clash),
    )


def _layers(facts: Facts) -> tuple[int, int]:
    """Tell how many layers are drawn, and how many more may be there."""
    layers = facts.layers
    if facts.first("cover_condition") == "lost":
        return 0, 1
    if not layers.known:
        bare = facts.absent("cover_material")
        known = facts.said["cover_material"].known
        return (0, 0) if bare else (1, 0) if known else (0, 1)
    if layers.high is None:
        return layers.low, 1
    return layers.low, layers.high - layers.low


def _layer_thickness(facts: Facts, assumed: list[_Assumed]) -> float:
    told = facts.first("cover_thickness")
    known = told in ("thin", "medium", "thick")
    layer = drawing_size(f"cover-{told}" if known else "cover-medium")
    assumed.append(("cover", f"each layer of the cover is {layer:.2g} mm thick"))
    return layer


def _radii(
    facts: Facts, layers: int, layer: float, doubtful: frozenset[str], assumed: list[_Assumed]
) -> tuple[float, float, float] | None:
    """Give the radii of button and mould, and one layer's thickness."""
    button, mould = facts.lengths.get("diameter"), facts.lengths.get("mould_diameter")
    if button is None and mould is None:
        return None
    if button is None and mould is not None:
        assumed.append(("cover", "the button is as wide as the mould and its cover"))
        return mould.best / 2 + layers * layer, mould.best / 2, layer
    assert button is not None
    radius = button.best / 2
    room = radius - mould.best / 2 if mould and "mould" not in doubtful else 0.0
    if room > _LEAST and layers:
        assumed[:] = [one for one in assumed if one[0] != "cover"]
        assumed.append(
            (_DERIVED, "the cover fills the room between the widths of mould and button")
        )
        return radius, radius - room, room / layers
    layer = min(layer, 0.3 * radius / max(layers, 1))
    if mould is None:
        assumed.append(("mould", "the mould is as wide as the button without its cover"))
    elif layers and "mould" not in doubtful:
        says = "the mould, measured as wide as the button, leaves room for the cover"
        assumed.append(("mould", says))
    return radius, radius - layers * layer, layer


def _padding(facts: Facts, radius: float, assumed: list[_Assumed]) -> float:
    over = "padded over" in facts.said["hole_fill"].terms and not facts.absent("padding")
    if not facts.said["padding"].known and not over:
        return 0.0
    padding = 2 * radius * drawing_size("padding-share")
    assumed.append(("padding", f"the padding is {padding:.2g} mm thick"))
    return padding


def _closes(facts: Facts) -> bool:
    terms = facts.said["back_finish"].terms
    if crimped(facts) and not terms and not facts.absent("back_finish"):
        return True
    return any(drawn_as("back_finish", term) not in ("nothing", "threads") for term in terms)


def _thickness(
    facts: Facts, drawn: MouldShape, mould_radius: float, taken: float, assumed: list[_Assumed]
) -> tuple[float, tuple[str, ...]]:
    """Give the mould's thickness, and a sentence if the height leaves it no room."""
    usual = 2 * mould_radius * drawn.thickness_share
    hole = facts.lengths.get("hole_diameter")
    if drawn.profile == "ring" and hole and 0.2 * mould_radius < hole.best < 1.9 * mould_radius:
        return mould_radius - hole.best / 2, ()
    height = facts.lengths.get("height")
    if height and height.high - taken > 0.25 * usual:
        assumed.append((_DERIVED, "the mould fills what the height leaves"))
        return max(height.best - taken, 0.25 * usual), ()
    like = f"as a mould of the shape “{drawn.name}” is usually drawn"
    assumed.append(("mould", f"the mould is {usual:.2g} mm thick, {like}"))
    if height is None:
        return usual, ()
    clash = (
        f"The height, {height.words}, leaves no room for a mould within cover and padding; the "
        f"drawing is higher."
    )
    return usual, (clash,)


def _hole(
    facts: Facts,
    drawn: MouldShape,
    mould_radius: float,
    thickness: float,
    doubtful: frozenset[str],
    assumed: list[_Assumed],
) -> float:
    measured = facts.lengths.get("hole_diameter")
    if drawn.profile == "ring":
        return 2 * (mould_radius - thickness)
    if facts.absent("mould_hole"):
        return 0.0
    if measured and "hole" not in doubtful:
        return measured.best
    there = facts.said["mould_hole"].known or "hole" in doubtful
    hole = drawing_size("hole-share") * 2 * mould_radius
    if there:
        assumed.append(("hole", f"the hole is {hole:.2g} mm wide"))
    return hole
