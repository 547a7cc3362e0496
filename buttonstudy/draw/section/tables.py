"""The tables behind the cross-section: how each term is drawn, hatched and sized.

They are the kit's own choices. A term that a user's vocabulary adds is drawn plain, as a material
that is not told.
"""

from dataclasses import dataclass
from functools import cache

from buttonstudy.schemes import rows

__all__ = ["HatchLine", "Material", "drawing_size", "drawn_as", "material_of", "materials", "shape"]

NOT_TOLD = "not told"
SEVERAL = "several"


@dataclass(frozen=True, slots=True)
class HatchLine:
    """One family of parallel lines, in millimetres and degrees on paper; no dash is a full line."""

    angle: float
    spacing_mm: float
    dash_mm: float
    gap_mm: float
    offset_mm: float


@dataclass(frozen=True, slots=True)
class Material:
    """A group of materials that share a hatch."""

    name: str
    says: str
    tint: str
    lines: tuple[HatchLine, ...]


@dataclass(frozen=True, slots=True)
class MouldShape:
    """How a mould's shape is drawn.

    Attributes
    ----------
    name
        The shape as which it is drawn.
    profile
        The name of an outline in :mod:`buttonstudy.draw.section.profiles`.
    thickness_share
        The thickness as a share of the diameter, where none was measured.
    round
        Whether the button is round as seen from the front.
    """

    name: str
    profile: str
    thickness_share: float
    round: bool


@cache
def drawing_size(name: str) -> float:
    """Give a size that drawings assume, from ``section_sizes.csv``.

    Examples
    --------
    >>> drawing_size("cover-thin")
    0.2
    """
    return {row["name"]: float(row["value"]) for row in rows("section_sizes")}[name]


@cache
def _parts() -> dict[tuple[str, str], tuple[str, str]]:
    return {
        (row["field"], row["term"]): (row["drawn"], row["material"])
        for row in rows("section_parts")
    }


def drawn_as(field: str, term: str) -> str:
    """Tell how a term is drawn; an unknown one gives the empty text.

    Examples
    --------
    >>> drawn_as("hole_fill", "wax"), drawn_as("hole_fill", "chewing gum")
    ('in', '')
    """
    return _parts().get((field, term), ("", ""))[0]


def material_of(field: str, terms: tuple[str, ...]) -> str:
    """Name the material that the terms of a field share a hatch by.

    Examples
    --------
    >>> material_of("mould_material", ("brass",)), material_of("mould_material", ("bone", "wood"))
    ('metal', 'several')
    """
    found = {_parts().get((field, term), ("", NOT_TOLD))[1] or NOT_TOLD for term in terms}
    return SEVERAL if len(found) > 1 else found.pop() if found else NOT_TOLD


@cache
def materials() -> dict[str, Material]:
    """Give the groups of materials by name, in the key's order."""
    found: dict[str, Material] = {}
    for row in rows("section_hatches"):
        name = row["material"]
        numbers = ("angle", "spacing_mm", "dash_mm", "gap_mm", "offset_mm")
        line = HatchLine(*(float(row[number]) for number in numbers))
        before = found[name].lines if name in found else ()
        lines = (*before, line) if line.spacing_mm else before
        found[name] = Material(name, row["says"], row["tint"], lines)
    return found


@cache
def shape(term: str) -> MouldShape:
    """Tell how a mould's shape is drawn; one that is not told is drawn as a flat disc.

    Examples
    --------
    >>> shape("domed").profile, shape("").profile, shape("oval").round
    ('dome', 'disc', False)
    """
    table = {row["shape"]: row for row in rows("section_shapes")}
    row = table.get(term, table["flat disc"])
    return MouldShape(
        row["shape"], row["profile"], float(row["thickness_share"]), row["outline"] == "round"
    )
