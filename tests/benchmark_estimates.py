"""What each notebook's estimates cost on a large survey, and beside plain loops over draws.

Run it by hand, on a machine that does nothing else:

    python tests/benchmark_estimates.py
    python tests/benchmark_estimates.py --records 10000 --repeats 1

It prints, for an invented survey of 100,000 records (40,000 sets, six periods of twenty years,
some forty traits compared), the processor seconds that each notebook spends on estimates and
sentences, and its peak memory; each notebook runs in a process of its own, drawing and saving left
out. Then it prints estimates on 240 sets beside a straightforward loop over draws, after checking
that both answer alike: medians of so many runs.
"""

import argparse
import json
import re
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pandas as pd

from buttonstudy.schemes import Period, PeriodScheme, vocabulary
from buttonstudy.study.comparison.shuffling import shuffle_answers
from buttonstudy.study.evidence.patterns import Patterns
from buttonstudy.study.shares.latent_model import draw_cells, most_likely_cells
from buttonstudy.study.shares.traits import Trait, answer_patterns, estimate_traits
from buttonstudy.study.sizes.intervals import QUANTILES, size_quantiles

NOTEBOOKS = Path(__file__).parents[1] / "notebooks"

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
COMPARED = ["mould_material", "mould_shape", "hole_fill", "padding", "cover_material",
            "cover_thickness", "back_finish", "attachment"]  # fmt: skip
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


class Silent:
    """Takes every call and does nothing: in place of figures and of the page."""

    def __getattr__(self, name: str) -> Callable[..., None]:
        return lambda *_, **__: None


def estimates(notebook: Path, records: int) -> tuple[float, float]:
    """Run one notebook's cells on the survey; give processor seconds and peak memory in MB."""
    import buttonstudy as bs

    buttons = survey(records)
    bs.load_survey = lambda *_, **__: SimpleNamespace(buttons=buttons)
    bs.schemes.period_scheme = lambda _: SCHEME
    bs.draw = Silent()
    bs.record_photographs = lambda *_, **__: None
    code = "\n".join(notebook_cells(notebook)).replace('"CA006"', '"B5"')
    code = re.sub(r"^compare: list = .*$", f"compare = {COMPARED}", code, flags=re.M)
    code = re.sub(r"^page = .*$", "page = PAGE", code, flags=re.M)
    start = time.process_time()
    exec(code, {"__name__": "__main__", "PAGE": Silent()})
    return time.process_time() - start, peak_mb()


def notebook_cells(notebook: Path) -> list[str]:
    """Return a notebook's code cells."""
    cells = json.loads(notebook.read_text(encoding="utf-8"))["cells"]
    return ["".join(cell["source"]) for cell in cells if cell["cell_type"] == "code"]


def peak_mb() -> float:
    """Peak memory of this process."""
    status = Path("/proc/self/status").read_text(encoding="utf-8")
    return int(re.search(r"VmHWM:\s+(\d+)", status)[1]) / 1024


def few(sets: int = 240) -> pd.DataFrame:
    """Invent a survey of single buttons, for the loops, whose padding changes about 1840."""
    buttons = survey(round(2.5 * sets)).drop_duplicates("set_id").reset_index(drop=True)
    share = np.where(buttons["year_from"] >= 1840, 0.8, 0.2)
    padded = np.random.default_rng(2).random(sets) < share
    return buttons.assign(padding=np.where(padded, "wool", "absent"))


def one_trait(buttons: pd.DataFrame) -> Trait:
    """Give the padding with wool."""
    return estimate_traits(buttons, ["padding"], SCHEME, {"padding": ["wool"]}, draws=200)[0]


def shuffled(trait: Trait, shuffles: int) -> list[float]:
    """Ask by the kit how often shuffled answers differ as much between periods."""
    means = trait.dated.means[:, :PERIODS]
    group, answer = trait.dated.group[trait.heard], trait.answer[trait.heard]
    dealt = shuffle_answers(means, group, answer, shuffles=shuffles)
    return [dealt.observed, dealt.chance]


def shuffled_in_a_loop(trait: Trait, shuffles: int) -> list[float]:
    """Shuffle the answers one survey after another, by plain least squares."""
    weights, answer = trait.dated.inside[trait.heard], trait.answer[trait.heard]
    design, about = weights - weights.mean(axis=0), answer - answer.mean()
    rng = np.random.default_rng(1)
    reached = []
    for turn in range(shuffles + 1):
        dealt = rng.permutation(about) if turn else about
        slopes = np.linalg.lstsq(design, dealt, rcond=None)[0]
        reached.append(((design @ slopes) ** 2).sum() / (about**2).sum())
    return [reached[0], float(np.mean(np.array(reached) >= reached[0] - 1e-9))]


def drawn(trait: Trait, draws: int) -> list[float]:
    """Ask the kit for the ends of the middle periods' shares."""
    patterns = answer_patterns(trait.dated, np.where(trait.heard, trait.answer, np.nan))
    given = np.flatnonzero(patterns.parts[patterns.kind][:, 2] == 0)
    heard = Patterns(
        patterns.overlap[given], patterns.kind[given], patterns.sets[given], patterns.parts[:, :2]
    )
    prior = np.full((2, heard.overlap.shape[1]), 0.5)
    cells = draw_cells(heard, prior, most_likely_cells(heard), draws).cells
    return _ends(cells[:, 1] / cells.sum(axis=1))


def drawn_in_a_loop(trait: Trait, draws: int) -> list[float]:
    """Draw every set's period, then the shares, one survey after another."""
    overlap = trait.dated.weights[trait.heard] / trait.dated.years
    yes = trait.answer[trait.heard] > 0.5
    rng = np.random.default_rng(1)
    cells = np.ones((2, overlap.shape[1]))
    kept = []
    for turn in range(draws + 200):
        counts = np.full(cells.shape, 0.5)
        for places, has in zip(overlap, yes):
            chance = np.cumsum(places * cells[int(has)])
            counts[int(has), np.searchsorted(chance, rng.random() * chance[-1])] += 1
        cells = rng.standard_gamma(counts)
        if turn >= 200:
            kept.append(cells[1] / cells.sum(axis=0))
    return _ends(np.array(kept))


def _ends(shares: np.ndarray) -> list[float]:
    ends = np.quantile(shares[:, 1 : PERIODS - 1], [0.025, 0.5, 0.975], axis=0)
    return [float(end) for end in ends.ravel()]


def middle_sizes(buttons: pd.DataFrame, _: int) -> list[float]:
    """Ask the kit for quantiles of the diameter."""
    return size_quantiles(buttons)["size_mm"].tolist()


def middle_sizes_in_a_loop(buttons: pd.DataFrame, draws: int) -> list[float]:
    """Draw each size from within its reading, one survey after another."""
    rng = np.random.default_rng(1)
    read = buttons.dropna(subset=["diameter_mm"])
    low, high = read["diameter_mm_low"].to_numpy(), read["diameter_mm_high"].to_numpy()
    every = np.concatenate([rng.uniform(low, high) for _ in range(draws)])
    return np.quantile(every, QUANTILES).tolist()


def compare_with_loops(repeats: int, draws: int = 2000) -> None:
    """Print each estimate beside a loop over draws that gives the same."""
    buttons = few()
    trait = one_trait(buttons)
    for name, kit, loop, asked, within in (
        ("shuffling answers", shuffled, shuffled_in_a_loop, trait, 0.03),
        ("shares by period", drawn, drawn_in_a_loop, trait, 0.05),
        ("quantiles of sizes", middle_sizes, middle_sizes_in_a_loop, buttons, 0.05),
    ):
        pairs = []
        for _ in range(repeats):
            (quick, mine), (slow, plain) = (timed(way, asked, draws) for way in (kit, loop))
            apart = np.abs(np.array(mine) - np.array(plain)).max()
            assert apart < within, (name, mine, plain)
            pairs.append((quick, slow))
        quick, slow = (statistics.median(one) for one in zip(*pairs))
        ratio = statistics.median(one / max(two, 1e-6) for two, one in pairs)
        print(f"{name:24}{quick:9.3f} s, loop {slow:8.3f} s, {ratio:6.0f} times")


def timed(way: Callable[..., list[float]], *asked: object) -> tuple[float, list[float]]:
    """Give the processor seconds of one call, and its answer."""
    start = time.process_time()
    found = way(*asked)
    return time.process_time() - start, found


def main() -> None:
    """Print what the estimates cost."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--records", type=int, default=100_000)
    parser.add_argument("--repeats", type=int, default=5)
    parser.add_argument("--one", help=argparse.SUPPRESS)
    chosen = parser.parse_args()
    notebooks = {path.stem.split("_", 1)[1]: path for path in sorted(NOTEBOOKS.glob("[1-5]_*"))}
    if chosen.one:
        print(
            "{:.1f} s, {:.0f} MB at most".format(*estimates(notebooks[chosen.one], chosen.records))
        )
        return
    print(f"estimates on {chosen.records:,} invented records, processor seconds and peak memory")
    for name in notebooks:
        command = [sys.executable, __file__, "--one", name, "--records", str(chosen.records)]
        run = subprocess.run(command, check=True, capture_output=True, text=True)
        print(f"  {name:22}{run.stdout.strip()}", flush=True)
    print(f"on 240 sets, 2,000 draws, medians of {chosen.repeats}")
    compare_with_loops(chosen.repeats)


if __name__ == "__main__":
    main()
