"""An invented world of covered buttons, with its truth known.

Nothing here happened: the island, its trade and every share below are made up so that a study of
the demo surveys can be compared with what is known to be true. Sets are drawn one after another:
first when and for what garment, then how they were made, then what time did to each button.

Only `random.Random` and exact sums are used, which Python keeps the same from version to version:
the same seed gives the same world everywhere.
"""

from dataclasses import dataclass
from random import Random

from demo_trade import (
    ATTACHMENTS,
    BACKS,
    BONE_ON_WOOD,
    CONDITIONS,
    COVER_MM,
    DECORATIONS,
    HEIGHT_SHARE,
    HOLE_MM,
    LINE_MM,
    OPENED,
    PADDING,
    PIERCED,
    SHAPES,
    THICKNESS,
    TRADE_SIZES,
    YEARS,
    Weights,
    fill_chance,
    layers_chance,
    near,
    pick,
    trend,
)


@dataclass(frozen=True, slots=True)
class Make:
    """How one set was made, and how probable the traits that a study is to recover were."""

    year: int
    trade_lines: int
    hole_mm: float | None
    layers: int
    terms: dict[str, str]
    chances: dict[str, float]

    def has(self, trait: str) -> bool:
        """Whether the set has a trait that `chances` names."""
        if trait == "cover_layers>=2":
            return self.layers >= 2
        field, term = trait.split("=")
        return term in self.terms[field].split("; ")


@dataclass(frozen=True, slots=True)
class Button:
    """One button of a set as it truly is; lengths in mm."""

    make: Make
    set_key: str
    mould_mm: float
    diameter_mm: float
    height_mm: float
    condition: str
    opened: str


def make_set(rng: Random) -> Make:
    """Draw how one set was made."""
    year = int(pick(rng, {str(start): share for start, share in YEARS.items()}))
    year += int(rng.random() * 20)
    sizes = TRADE_SIZES[pick(rng, trend("garment", year))]
    lines = sizes[int(rng.random() * len(sizes))]
    chances: Weights = {}
    terms = _mould(rng, year, chances)
    terms |= _cover(rng, year, terms["mould_material"])
    terms["padding"] = pick(rng, PADDING)
    hole = _hole(rng, terms["mould_material"], lines)
    terms["mould_hole"] = "absent" if hole is None else "pierced"
    terms["hole_fill"] = _fill(rng, year, hole, terms, chances)
    chances["cover_layers>=2"] = layers_chance(terms["cover_thickness"], year)
    return Make(year, lines, hole, _layers(rng, chances["cover_layers>=2"]), terms, chances)


def _mould(rng: Random, year: int, chances: Weights) -> dict[str, str]:
    """Material and shape; a disc of bone may sit on one of wood."""
    materials = trend("mould_material", year)
    chances |= {f"mould_material={term}": share for term, share in materials.items()}
    chances["mould_material=wood"] += BONE_ON_WOOD * materials["bone"]
    material = pick(rng, materials)
    shape = pick(rng, SHAPES[material])
    both = material == "bone" and rng.random() < BONE_ON_WOOD
    return {"mould_material": "bone; wood" if both else material, "mould_shape": shape}


def _cover(rng: Random, year: int, mould: str) -> dict[str, str]:
    """Everything from the cover outwards; only metal and pasteboard are crimped."""
    fields = ("cover_material", "cover_colour", "cover_cut", "cover_drawn_up", "thread")
    terms = {field: pick(rng, trend(field, year)) for field in fields}
    if terms["cover_drawn_up"] == "crimped in metal back":
        if mould in ("metal", "pasteboard"):
            terms["thread"] = "absent"
        else:
            terms["cover_drawn_up"] = "gathered on a running thread"
    terms["cover_thickness"] = pick(rng, THICKNESS[terms["cover_material"]])
    terms["back_finish"] = pick(rng, BACKS[terms["cover_drawn_up"]])
    terms["attachment"] = pick(rng, ATTACHMENTS[terms["cover_drawn_up"]])
    terms["decoration"] = pick(rng, DECORATIONS)
    return terms


def _hole(rng: Random, mould: str, lines: int) -> float | None:
    main = mould.split("; ")[0]
    if rng.random() >= PIERCED[main]:
        return None
    return round(max(1.0, near(rng, HOLE_MM[main], 0.5) + 0.02 * (lines - 24)), 2)


def _fill(
    rng: Random, year: int, hole: float | None, terms: dict[str, str], chances: Weights
) -> str:
    """What fills or bridges the hole; if nothing does, padding may still lie over it."""
    if hole is None:
        return "absent"
    filled = fill_chance(terms["cover_thickness"], hole)
    kinds = trend("hole_fill", year)
    chances |= {f"hole_fill={kind}": filled * share for kind, share in kinds.items()}
    chances["hole_fill=open"] = (1 - filled) * PADDING["absent"]
    if rng.random() < filled:
        return pick(rng, kinds)
    return "open" if terms["padding"] == "absent" else "padded over"


def _layers(rng: Random, two_or_more: float) -> int:
    if rng.random() >= two_or_more:
        return 1
    return 2 + (rng.random() < 0.35) + (rng.random() < 0.15)


def make_buttons(
    rng: Random, make: Make, set_key: str, count: int, eagerness: float
) -> list[Button]:
    """Draw the buttons of one set; `eagerness` scales how often its owner opens a button."""
    buttons: list[Button] = []
    spread = 0.2 if "wood" in make.terms["mould_material"] else 0.08
    side = COVER_MM[make.terms["cover_thickness"]] * make.layers
    side += 0.25 if make.terms["padding"] != "absent" else 0
    conditions = CONDITIONS[make.terms["cover_material"]]
    usual = pick(rng, conditions)
    for _ in range(count):
        mould = near(rng, make.trade_lines * LINE_MM, spread)
        height = HEIGHT_SHARE[make.terms["mould_shape"]] * mould + 1.2 * side + 0.6
        condition = usual if rng.random() < 0.8 else pick(rng, conditions)
        done = sum(button.opened != "not opened" for button in buttons)
        chance = min(0.95, OPENED[condition] * eagerness) * (0.25 if done > 1 else 1)
        buttons.append(
            Button(
                make,
                set_key,
                mould_mm=round(mould, 2),
                diameter_mm=round(near(rng, mould + 2 * side, 0.12), 2),
                height_mm=round(near(rng, height, 0.15), 2),
                condition=condition,
                opened=_opened(rng, chance),
            )
        )
    return buttons


def _opened(rng: Random, chance: float) -> str:
    if rng.random() >= chance:
        return "not opened"
    return "partly opened" if rng.random() < 0.15 else "opened"
