"""An invented trade in covered buttons: what was made when, and what went with what.

Every share, trend and size is made up. They are clear enough that a study of some two hundred
sets can find their direction.
"""

import math
from random import Random

LINE_MM = 0.635

Weights = dict[str, float]

YEARS = {1780: 0.11, 1800: 0.15, 1820: 0.2, 1840: 0.22, 1860: 0.19, 1880: 0.13}
"""Start of a span of twenty years to the share of sets made in it."""

TRADE_SIZES: dict[str, tuple[int, ...]] = {
    "dress": (14, 16, 18, 20),
    "waistcoat": (18, 20, 22, 24),
    "coat": (24, 26, 28, 30, 32),
    "cloak": (36, 40, 45, 50, 60),
}

# What is made when: a term's weight is exp(level + slope * t + curve * t * t), t in twenty years
# from 1840. The terms of one field compete for each set.
TRENDS: dict[str, dict[str, tuple[float, float, float]]] = {
    "garment": {
        "dress": (0.0, 0.35, 0.0),
        "waistcoat": (0.4, 0.0, 0.0),
        "coat": (0.4, -0.3, 0.0),
        "cloak": (-1.0, -0.25, 0.0),
    },
    "mould_material": {
        "wood": (0.5, -0.75, 0.0),
        "bone": (0.6, -0.15, -0.05),
        "horn": (-1.6, 0.0, 0.0),
        "pasteboard": (0.0, 0.6, 0.0),
        "metal": (-0.2, 0.7, 0.0),
    },
    "cover_material": {
        "silk": (0.8, 0.25, 0.0),
        "wool": (0.3, -0.3, 0.0),
        "linen": (0.0, -0.1, 0.0),
        "cotton": (-0.4, 0.2, 0.0),
        "velvet": (-0.6, 0.1, 0.0),
    },
    "cover_colour": {
        "black": (0.8, 0.25, 0.0),
        "brown": (0.4, -0.1, 0.0),
        "blue": (0.0, -0.1, 0.0),
        "cream": (0.0, 0.0, 0.0),
        "green": (-0.6, 0.0, 0.0),
        "red": (-0.9, 0.0, 0.0),
    },
    "cover_cut": {
        "circle": (0.8, 0.2, 0.0),
        "square with trimmed corners": (0.0, -0.3, 0.0),
        "octagon": (-0.4, -0.1, 0.0),
    },
    "cover_drawn_up": {
        "gathered on a running thread": (0.7, -0.2, 0.0),
        "laced across": (0.2, -0.3, 0.0),
        "crimped in metal back": (0.3, 0.6, 0.0),
    },
    "hole_fill": {
        "thread-filled": (0.6, -0.4, 0.0),
        "fibre plug": (0.2, 0.0, 0.0),
        "cloth plug": (0.2, 0.1, 0.0),
        "paper disc": (-0.3, 0.5, 0.0),
    },
    "thread": {"linen": (0.6, -0.3, 0.0), "silk": (0.2, 0.0, 0.0), "cotton": (0.0, 0.4, 0.0)},
}

# What goes with what, whatever the date.
SHAPES: dict[str, Weights] = {
    "wood": {"domed": 0.6, "flat disc": 0.3, "conical": 0.1},
    "bone": {"flat disc": 0.75, "domed": 0.25},
    "horn": {"flat disc": 0.6, "domed": 0.4},
    "pasteboard": {"flat disc": 0.8, "domed": 0.2},
    "metal": {"shell": 0.8, "flat disc": 0.2},
}
PIERCED = {"wood": 0.95, "bone": 0.97, "horn": 0.9, "pasteboard": 0.45, "metal": 0.3}
BONE_ON_WOOD = 0.08
"""The share of bone moulds that are a disc of bone on one of wood."""
HOLE_MM = {"wood": 2.8, "bone": 2.0, "horn": 2.2, "pasteboard": 2.4, "metal": 3.0}
THICKNESS: dict[str, Weights] = {
    "silk": {"thin": 0.65, "medium": 0.3, "thick": 0.05},
    "linen": {"thin": 0.25, "medium": 0.6, "thick": 0.15},
    "cotton": {"thin": 0.3, "medium": 0.55, "thick": 0.15},
    "wool": {"medium": 0.35, "thick": 0.65},
    "velvet": {"medium": 0.3, "thick": 0.7},
}
COVER_MM = {"thin": 0.12, "medium": 0.35, "thick": 0.75}
HEIGHT_SHARE = {"flat disc": 0.2, "shell": 0.3, "domed": 0.38, "conical": 0.5}
BACKS: dict[str, Weights] = {
    "gathered on a running thread": {"cloth back": 0.5, "bare": 0.5},
    "laced across": {"thread-worked": 0.7, "cloth back": 0.3},
    "crimped in metal back": {"metal back": 0.7, "japanned metal": 0.3},
}
ATTACHMENTS: dict[str, Weights] = {
    "gathered on a running thread": {"thread shank": 0.7, "sewn to back": 0.3},
    "laced across": {"thread shank": 1.0},
    "crimped in metal back": {"cloth tuft": 0.6, "metal loop shank": 0.4},
}
PADDING = {"absent": 0.7, "wadding": 0.2, "cloth": 0.1}
DECORATIONS = {"absent": 0.78, "embroidery": 0.12, "beads": 0.04, "painting": 0.06}
CONDITIONS: dict[str, Weights] = {
    "silk": {"shattered": 0.5, "worn": 0.2, "sound": 0.3},
    "wool": {"moth-eaten": 0.15, "worn": 0.3, "sound": 0.55},
    "velvet": {"moth-eaten": 0.05, "worn": 0.45, "sound": 0.5},
    "linen": {"worn": 0.4, "sound": 0.6},
    "cotton": {"worn": 0.4, "sound": 0.6},
}
OPENED = {"shattered": 0.85, "worn": 0.5, "moth-eaten": 0.4, "sound": 0.12}
"""The chance that a button is opened: the ruined ones are, the sound ones hardly ever."""


def trend_time(year: int) -> float:
    """Years from 1840 in steps of twenty, the time that every trend runs in."""
    return (year - 1840) / 20


def odds(log_odds: float) -> float:
    """The chance that goes with a log-odds."""
    return 1 / (1 + math.exp(-log_odds))


def trend(field: str, year: int) -> Weights:
    """The share of every term of `field` among sets made in `year`."""
    t = trend_time(year)
    weights = {
        term: math.exp(level + slope * t + curve * t * t)
        for term, (level, slope, curve) in TRENDS[field].items()
    }
    whole = math.fsum(weights.values())
    return {term: weight / whole for term, weight in weights.items()}


def pick(rng: Random, weights: Weights) -> str:
    """Draw one term by its weight."""
    return rng.choices(list(weights), weights=list(weights.values()))[0]


def near(rng: Random, middle: float, spread: float) -> float:
    """Draw from a bell curve cut off at two and a half spreads, by adding up even draws."""
    bell = math.fsum(rng.random() for _ in range(12)) - 6
    return middle + spread * max(-2.5, min(2.5, bell))


def layers_chance(thickness: str, year: int) -> float:
    """The chance of two layers of cover or more: thin covers need them, and ever more so."""
    thin = {"thin": 2.2, "medium": 0.0, "thick": -1.5}[thickness]
    return odds(-0.9 + thin + 0.4 * trend_time(year))


def fill_chance(thickness: str, hole_mm: float) -> float:
    """The chance that a hole is filled: under a thin cover a wide hole would show."""
    thin = {"thin": 1.5, "medium": 0.0, "thick": -1.5}[thickness]
    return odds(-0.3 + thin + 2.5 * (hole_mm - 2.4))
