"""A large invented survey: some forty traits, six periods of twenty years, 2.5 buttons to a set.

`benchmark_estimates.py` measures on it what estimates cost.
"""

import numpy as np
import pandas as pd

from buttonstudy.schemes import Period, PeriodScheme, vocabulary
from buttonstudy.study.shares.traits import Trait, estimate_traits

FIRST, YEARS, PERIODS = 1780, 20, 6
LABELS = [f"{FIRST + YEARS * place}–{FIRST + YEARS * (place + 1) - 1}" for place in range(PERIODS)]
SCHEME = PeriodScheme(
    "six",
    "Six periods of twenty years",
    "made for this benchmark",
    tuple(
        Period(label, FIRST + YEARS * place, FIRST + YEARS * (place + 1) - 1)
        for place, label in enumerate(LABELS)
    ),
)
INSIDE = ("mould_material", "mould_shape", "mould_hole", "hole_fill", "padding", "cover_cut")
OUTSIDE = ("cover_material", "cover_colour", "cover_thickness", "back_finish", "attachment")
TERMS = 5
STEPS = np.array([0.1, 1.0, 0.5, 1.5875, 3.175, 1.27])
UNITS = np.array(["mm", "mm", "mm", "in", "in", "lines"], dtype=object)


def survey(records: int, seed: int = 1840) -> pd.DataFrame:
    """Invent a survey of about so many buttons, 2.5 to a set."""
    rng = np.random.default_rng(seed)
    sets = round(records / 2.5)
    year = FIRST + rng.integers(0, YEARS * PERIODS, sets)
    span = rng.choice([1, 10, 20, 41, 100], sets, p=[0.1, 0.45, 0.2, 0.15, 0.1])
    start = year - rng.integers(0, span)
    opened = rng.random(sets) < 0.4
    table = pd.DataFrame(
        {
            "set_id": [f"S{place}" for place in range(sets)],
            "file": rng.choice(["a.xlsx", "b.xlsx", "c.ods", "d.csv"], sets),
            "recorder": rng.choice(["A. Teal", "B. Wren", "C. Finch", "D. Rook"], sets),
            "opened": np.where(opened, "opened", "not opened"),
            "year_from": pd.array(start, dtype="Int64"),
            "year_to": pd.array(start + span - 1, dtype="Int64"),
            **layers(rng, sets, opened),
        }
    )
    for field in (*INSIDE, *OUTSIDE):
        table[field] = answers(rng, field, year, opened | (field in OUTSIDE))
    number = rng.choice([1, 1, 2, 3, 4, 4], sets)
    buttons = table.loc[np.repeat(table.index, number)].reset_index(drop=True)
    for field in (*INSIDE, *OUTSIDE):
        buttons[field] = buttons[field].astype("category")
    true = np.repeat(np.exp(rng.normal(np.log(17), 0.3, sets)), number)
    buttons["button_id"] = [f"B{place}" for place in range(len(buttons))]
    return buttons.assign(**sizes(rng, true, "diameter"), **sizes(rng, true / 4, "height"))


def answers(rng: np.random.Generator, field: str, year: np.ndarray, seen: np.ndarray) -> np.ndarray:
    """Invent a field's terms, whose shares drift over the years; one set in thirty has two."""
    words = np.array([term.term for term in vocabulary().terms(field)][:TERMS], dtype=object)
    early, late = rng.dirichlet(np.full(len(words), 3.0), 2)
    part = ((year - FIRST) / (YEARS * PERIODS))[:, None]
    reached = ((1 - part) * early + part * late).cumsum(axis=1)
    code = (rng.random((len(year), 1)) > reached[:, :-1]).sum(axis=1)
    said = words[code]
    both = np.flatnonzero((rng.random(len(year)) < 0.03) & (code > 0))
    said[both] = words[0] + "; " + said[both]
    said[~seen] = "not examined"
    said[rng.random(len(year)) < 0.1] = None
    return said


def layers(rng: np.random.Generator, sets: int, opened: np.ndarray) -> dict[str, object]:
    """Invent layers of cover, counted where opened, else a bound or nothing."""
    true, depth = rng.integers(1, 5, sets), rng.integers(1, 4, sets)
    counted, known = opened | (true < depth), opened | (rng.random(sets) < 0.3)
    low = pd.array(np.where(counted, true, depth), dtype="Int64")
    high = pd.array(true, dtype="Int64")
    low[~known] = pd.NA
    high[~(known & counted)] = pd.NA
    state = np.where(counted, "counted", "bounded")
    state[~known] = "not examined"
    return {"cover_layers_low": low, "cover_layers_high": high, "cover_layers_state": state}


def sizes(rng: np.random.Generator, true: np.ndarray, field: str) -> dict[str, object]:
    """Read a length with one of six rulers; one in twenty has none."""
    ruler = rng.integers(0, len(STEPS), len(true))
    read = np.round((true + rng.normal(0, 0.1, len(true))) / STEPS[ruler]) * STEPS[ruler]
    read[rng.random(len(true)) < 0.05] = np.nan
    found = {
        f"{field}_mm": read,
        f"{field}_mm_low": read - STEPS[ruler] / 2,
        f"{field}_mm_high": read + STEPS[ruler] / 2,
    }
    if field == "diameter":
        classes = pd.cut(read, [0, 9.525, 19.05, 31.75, np.inf], labels=["a", "b", "c", "d"])
        found |= {"diameter_unit": UNITS[ruler], "diameter_step_mm": STEPS[ruler]}
        found |= {"size_class": classes}
    return found


def few(sets: int = 240) -> pd.DataFrame:
    """Invent a survey of single buttons, for the loops, whose padding changes about 1840."""
    buttons = survey(round(2.5 * sets)).drop_duplicates("set_id").reset_index(drop=True)
    share = np.where(buttons["year_from"] >= 1840, 0.8, 0.2)
    padded = np.random.default_rng(2).random(sets) < share
    return buttons.assign(padding=np.where(padded, "wool", "absent"))


def one_trait(buttons: pd.DataFrame) -> Trait:
    """Give the padding with wool."""
    return estimate_traits(buttons, ["padding"], SCHEME, {"padding": ["wool"]}, draws=200)[0]
