"""What each notebook's estimates cost on a large survey, how that grows, and beside plain loops.

Run it by hand, on a machine that does nothing else:

    python tests/benchmark_estimates.py
    python tests/benchmark_estimates.py --records 10000 --repeats 1

It prints, for an invented survey of 100,000 records (40,000 sets, six periods of twenty years,
some forty traits compared), the processor seconds that each notebook spends on estimates and
sentences, and its peak memory; each notebook runs in a process of its own, drawing and saving left
out. `--demo` prints the same of the demo surveys. Then it prints how the time grows with records
and with draws, with the log-log slopes, and estimates on 240 sets beside a straightforward loop
over draws, after checking that both answer alike: medians of so many runs.
"""

import argparse
import json
import math
import re
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace

import numpy as np

NOTEBOOKS = Path(__file__).parents[1] / "notebooks"
COMPARED = ["mould_material", "mould_shape", "hole_fill", "padding", "cover_material",
            "cover_thickness", "back_finish", "attachment"]  # fmt: skip


class Silent:
    """Takes every call and does nothing: in place of figures and of the page."""

    def __getattr__(self, name: str) -> Callable[..., None]:
        return lambda *_, **__: None


def estimates(notebook: Path, records: int) -> tuple[float, float]:
    """Run one notebook's cells; give processor seconds and peak memory in MB.

    On a survey of so many records, or on the demo surveys if there are none.
    """
    from large_survey import SCHEME, survey

    import buttonstudy as bs

    code = "\n".join(notebook_cells(notebook))
    if records:
        buttons = survey(records)
        bs.schemes.period_scheme = lambda _: SCHEME
        code = code.replace('"CA006"', '"B5"')
        code = re.sub(r"^compare: list = .*$", f"compare = {COMPARED}", code, flags=re.M)
    else:
        buttons = bs.load_survey(["demo"]).buttons
    bs.load_survey = lambda *_, **__: SimpleNamespace(buttons=buttons)
    bs.draw = Silent()
    bs.record_photographs = lambda *_, **__: None
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


def of_notebook(name: str, records: int) -> tuple[float, float]:
    """Measure one notebook in a process of its own."""
    command = [sys.executable, __file__, "--one", name, "--records", str(records)]
    run = subprocess.run(command, check=True, capture_output=True, text=True)
    taken, peak = map(float, run.stdout.split())
    return taken, peak


def growth_in_records(names: list[str], sizes: list[int]) -> None:
    """Print each notebook's time and memory on growing surveys, and the log-log slopes."""
    print("estimates, processor seconds and peak memory by records")
    print(f"{'':16}", *(f"{size:>16,}" for size in sizes), "slope, of the last two")
    for name in names:
        found = [of_notebook(name, size) for size in sizes]
        told = (f"{taken:7.1f} s{peak:5.0f} MB" for taken, peak in found)
        print(f"  {name:14}", *told, *slopes(sizes, [taken for taken, _ in found]), flush=True)


def growth_in_draws(repeats: int, draws: list[int]) -> None:
    """Print the time of estimates that draw, on 240 sets, by the number of draws."""
    from large_survey import few, one_trait
    from loops_over_draws import OF_A_TRAIT, PAIRS

    buttons = few()
    trait = one_trait(buttons)
    print("on 240 sets, processor seconds by draws")
    print(f"{'':28}", *(f"{number:>9,}" for number in draws), "slope, of the last two")
    for name, kit, _, _ in PAIRS[:-1]:
        asked = trait if kit in OF_A_TRAIT else buttons
        taken = [
            statistics.median(timed(kit, asked, number)[0] for _ in range(repeats))
            for number in draws
        ]
        print(f"  {name:26}", *(f"{one:7.3f} s" for one in taken), *slopes(draws, taken))


def slopes(sizes: list[int], taken: list[float]) -> list[str]:
    """Give the log-log slope of all, and of the last two."""
    logs = [(math.log(size), math.log(one)) for size, one in zip(sizes, taken)]
    told = (statistics.linear_regression(*zip(*some)).slope for some in (logs, logs[-2:]))
    return [f"{slope:6.2f}" for slope in told]


def compare_with_loops(repeats: int, draws: int = 2000) -> None:
    """Print each estimate beside a loop over draws that gives the same."""
    from large_survey import few, one_trait
    from loops_over_draws import OF_A_TRAIT, PAIRS

    buttons = few()
    trait = one_trait(buttons)
    for name, kit, loop, within in PAIRS:
        asked = trait if kit in OF_A_TRAIT else buttons
        pairs = []
        for _ in range(repeats):
            (quick, mine), (slow, plain) = (timed(way, asked, draws) for way in (kit, loop))
            apart = np.abs(np.array(mine) - np.array(plain)).max()
            assert apart < within, (name, mine, plain)
            pairs.append((quick, slow))
        quick, slow = (statistics.median(one) for one in zip(*pairs))
        ratio = statistics.median(two / max(one, 1e-6) for one, two in pairs)
        print(f"  {name:26}{quick:9.4f} s, loop {slow:8.3f} s, {ratio:6.0f} times")


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
    parser.add_argument("--growth", type=int, default=300_000, help="most records")
    parser.add_argument("--demo", action="store_true", help="only the demo surveys")
    parser.add_argument("--one", help=argparse.SUPPRESS)
    chosen = parser.parse_args()
    notebooks = {path.stem.split("_", 1)[1]: path for path in sorted(NOTEBOOKS.glob("[1-5]_*"))}
    if chosen.one:
        print(*estimates(notebooks[chosen.one], chosen.records))
        return
    records = 0 if chosen.demo else chosen.records
    where = f"{records:,} invented records" if records else "the demo surveys"
    print(f"estimates on {where}, processor seconds and peak memory, medians of {chosen.repeats}")
    for name in notebooks:
        found = [of_notebook(name, records) for _ in range(chosen.repeats)]
        taken, peak = (statistics.median(one) for one in zip(*found))
        print(f"  {name:22}{taken:6.1f} s, {peak:.0f} MB at most", flush=True)
    if chosen.demo:
        return
    growth_in_records(list(notebooks), [10_000, 100_000, chosen.growth])
    growth_in_draws(chosen.repeats, [2_000, 8_000, 32_000])
    print(f"on 240 sets, 2,000 draws, medians of {chosen.repeats}")
    compare_with_loops(chosen.repeats)


if __name__ == "__main__":
    main()
