"""Speed and memory of reading, as ratios to the bare read, on the machine at hand.

Run it by hand: ``python tests/benchmark_reading.py [--rows 100000] [--repeats 5]``. It times the
start of the command line; makes an invented workbook of 25 columns in a temporary folder, reads it
bare with calamine and with `load_survey` in turn in one process, and by pandas with openpyxl, and
prints medians; then the peak
memory of each in a process of its own; then how the time grows with the records of a CSV file;
then the time to read a million size wordings in mixed notation.
"""

import argparse
import csv
import math
import os
import random
import re
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

HEADINGS = [
    "Button no.", "Set no.", "Recorder", "Diameter (mm)", "Diam (in)", "Mould diam (mm)",
    "Height (mm)", "Hole diam (mm)", "Date", "Mould material", "Mould shape", "Mould hole",
    "Hole fill", "Padding", "Cover material", "Cover colour", "Cover thickness", "Cover layers",
    "Cover cut", "Cover drawn up", "Thread", "Back finish", "Attachment", "Opened", "Notes",
]  # fmt: skip
CHOICES = {
    "Recorder": ["Ada Penn", "B. Quill", "C. Rook"],
    "Date": ["c. 1840", "1840s", "early 19th century", "1820-60", "1851", "late 19th century"],
    "Mould material": ["wood", "bone", "horn", "pasteboard", "not examined"],
    "Mould shape": ["flat", "domed", "unclear"],
    "Mould hole": ["yes", "no", ""],
    "Hole fill": ["padded over", "none", "plugged", ""],
    "Padding": ["wadding", "none", "paper"],
    "Cover material": ["silk", "linen", "wool", "velvet", "silk and linen"],
    "Cover colour": ["black", "green", "brown"],
    "Cover thickness": ["fine", "medium", "heavy"],
    "Cover layers": ["1", "2", "at least 2", "2+", ""],
    "Cover cut": ["circle", "square", ""],
    "Cover drawn up": ["gathered", "laced", "pleated"],
    "Thread": ["silk", "linen", "cotton"],
    "Back finish": ["cloth", "bare"],
    "Attachment": ["thread shank", "sewn through"],
    "Opened": ["yes", "no", "partly"],
    "Notes": ["", "", "", "faded", "from a bag"],
}

CALL = ["-m", "buttonstudy"]
NO_TRANSLATIONS = "PYTHONDONTWRITEBYTECODE"
INSIDE = (
    "Mould material", "Mould shape", "Mould diam (mm)", "Mould hole", "Padding", "Cover layers",
    "Cover cut",
)  # fmt: skip


def workbook(path: Path, rows: int) -> None:
    """Write an invented survey of `rows` buttons."""
    import xlsxwriter

    book = xlsxwriter.Workbook(path, {"constant_memory": True})
    sheet = book.add_worksheet("Survey")
    sheet.write_row(0, 0, HEADINGS)
    for n, values in enumerate(records(rows)):
        sheet.write_row(n + 1, 0, [values[heading] for heading in HEADINGS])
    book.close()


def text_table(path: Path, rows: int) -> None:
    """Write the same invented survey as CSV."""
    with path.open("w", encoding="utf-8", newline="") as file:
        table = csv.DictWriter(file, HEADINGS)
        table.writeheader()
        table.writerows(records(rows))


def records(rows: int) -> Iterator[dict[str, str | float]]:
    """Invent buttons, three to a set, whose records do not contradict themselves or their set."""
    rng = random.Random(1840)
    for n in range(rows):
        if n % 3 == 0:
            of_set = {heading: rng.choice(some) for heading, some in CHOICES.items()}
            mm = rng.uniform(9, 35)
        here = mm + rng.uniform(-0.1, 0.1)
        values: dict[str, str | float] = {
            **of_set,
            "Button no.": f"B{n:06d}",
            "Set no.": f"S{n // 3:05d}",
            "Recorder": rng.choice(CHOICES["Recorder"]),
            "Notes": rng.choice(CHOICES["Notes"]),
            "Diameter (mm)": round(here, 1),
            "Diam (in)": f"{round(here / 25.4 * 16)}/16",
            "Mould diam (mm)": round(here - 1, 1),
            "Height (mm)": round(here / 4, 1),
        }
        opened = rng.choice(CHOICES["Opened"])
        holed = opened != "no" and values["Mould hole"] == "yes"
        values["Opened"] = opened
        values["Hole diam (mm)"] = round(rng.uniform(1, 4), 1) if holed else ""
        values["Hole fill"] = rng.choice(["padded over", "plugged"]) if holed else ""
        if opened == "no":
            values |= dict.fromkeys(INSIDE, "")
        yield values


def bare(path: Path) -> int:
    """Read the workbook bare."""
    from python_calamine import CalamineWorkbook

    return len(CalamineWorkbook.from_path(path).get_sheet_by_index(0).to_python())


def by_pandas(path: Path) -> int:
    """Read the workbook by pandas with openpyxl."""
    import pandas as pd

    return len(pd.read_excel(path, engine="openpyxl", dtype=object, keep_default_na=False))


def bare_text(path: Path) -> int:
    """Read the text table bare, with Python's own reader."""
    with path.open(encoding="utf-8", newline="") as file:
        return len(list(csv.reader(file)))


def whole(path: Path) -> int:
    """Read, understand and check the workbook."""
    import buttonstudy as bs

    return len(bs.load_survey(path).buttons)


def seconds(read, path: Path) -> float:
    """Time one read, in seconds of the processor, since other programs may share it."""
    start = time.process_time()
    read(path)
    return time.process_time() - start


def peak_mb(name: str, path: Path) -> float:
    """Peak memory of one read in a process of its own, above a process that only imports."""
    command = [sys.executable, __file__, "--peak"]
    options = {"check": True, "capture_output": True, "text": True}
    answers = [
        float(subprocess.run([*command, one, str(path)], **options).stdout)
        for one in (name, "nothing")
    ]
    return answers[0] - answers[1]


def peak_so_far() -> float:
    """Peak memory of this process in MB; ru_maxrss would count the parent's before the start."""
    status = Path("/proc/self/status").read_text(encoding="utf-8")
    return int(re.search(r"VmHWM:\s+(\d+)", status)[1]) / 1024


def wordings(count: int) -> list[str]:
    """Write sizes in mixed notation, about 59,000 distinct ones among `count`."""
    rng = random.Random(1840)
    distinct = {
        text
        for step in range(300, 20_000)
        for text in (f"{step / 100:.2f} mm", f"{step / 1000:.3f} cm", f"c. {step / 100:.2f}mm")
    }
    distinct |= {f"{n}/64 in" for n in range(8, 500)} | {f"{n / 4:g} L" for n in range(20, 1200)}
    return rng.choices(rng.sample(sorted(distinct), 59_000), k=count)


def parse_million() -> tuple[float, float]:
    """Time a million wordings, each distinct one read once; and pandas' `str.extract` on them."""
    import pandas as pd

    from buttonstudy.readings.lengths.reading import read_lengths
    from buttonstudy.survey.coded import coded

    cells = wordings(1_000_000)
    start = time.process_time()
    coded(cells).understood(read_lengths, None)
    read = time.process_time()
    found = pd.Series(cells).str.extract(r"(?:c\. )?(\d+(?:\.\d+)?)(?:/(\d+))? ?(mm|cm|in|L)")
    pd.to_numeric(found[0])
    return read - start, time.process_time() - read


def growth(folder: Path, sizes: list[int], repeats: int) -> None:
    """Print time and peak memory of `load_survey` on growing CSV files, and log-log slopes."""
    times = []
    for rows in sizes:
        path = folder / f"{rows}.csv"
        text_table(path, rows)
        times.append(statistics.median(seconds(whole, path) for _ in range(repeats)))
        first, second = peak_mb("text", path), peak_mb("whole", path)
        print(f"  load_survey, {rows:>9,} CSV records  {times[-1]:8.2f}  peak {second:,.0f} MB, "
              f"Python's own reader {first:,.0f}")  # fmt: skip
    if len(sizes) < 2:
        return
    logs = [(math.log(rows), math.log(taken)) for rows, taken in zip(sizes, times)]
    for some, told in ((logs, "log-log slope"), (logs[-2:], "of the last two")):
        slope = statistics.linear_regression(*zip(*some)).slope
        print(f"  {told:34}{slope:8.2f}")


def command(*words: str) -> float:
    """Time the processor spends on one command, its start and imports with it.

    Python keeps its translated modules in a folder of ours, as an installed kit has them.
    """
    environment = {name: value for name, value in os.environ.items() if name != NO_TRANSLATIONS}
    environment["PYTHONPYCACHEPREFIX"] = str(Path(tempfile.gettempdir()) / "buttonstudy-benchmark")
    before = os.times()
    subprocess.run([sys.executable, *words], capture_output=True, check=False, env=environment)
    after = os.times()
    return sum(after[2:4]) - sum(before[2:4])


def main() -> None:
    """Print the comparison."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rows", type=int, default=100_000)
    parser.add_argument("--repeats", type=int, default=5)
    parser.add_argument("--growth", type=int, default=1_000_000, help="most CSV records")
    parser.add_argument("--peak", nargs=2, help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.peak:
        import pandas  # noqa: F401  imported in every case, so that only the read is compared

        name, path = options.peak
        import buttonstudy.survey.load  # noqa: F401

        {"bare": bare, "text": bare_text, "whole": whole, "nothing": lambda _: 0}[name](Path(path))
        print(peak_so_far())
        return
    times = range(options.repeats)
    print(f"processor seconds, medians of {options.repeats}")
    for words in (["-c", "import pandas"], [*CALL, "--help"], [*CALL, "check", "demo"]):
        told = " ".join(words[1:])
        command(*words)  # translates the modules
        print(f"{told:36}{statistics.median(command(*words) for _ in times):8.2f}")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "survey.xlsx"
        workbook(path, options.rows)
        seconds(whole, path)
        pairs = [(seconds(bare, path), seconds(whole, path)) for _ in times]
        read, load = (statistics.median(one) for one in zip(*pairs))
        ratio = statistics.median(two / one for one, two in pairs)
        print(f"{options.rows:,} rows x {len(HEADINGS)} columns, .xlsx")
        print(f"{'  bare calamine read':36}{read:8.2f}")
        print(f"{'  load_survey':36}{load:8.2f}  ratio {ratio:.2f}")
        first, second = peak_mb("bare", path), peak_mb("whole", path)
        print(f"{'  peak memory above imports, MB':36}{first:8,.0f} bare, {second:,.0f} load_survey, "
              f"ratio {second / first:.2f}")  # fmt: skip
        print(f"{'  pandas with openpyxl, once':36}{seconds(by_pandas, path):8.2f}")
        sizes = [10**power for power in range(3, 1 + round(math.log10(options.growth)))]
        growth(Path(folder), sizes, options.repeats)
    ours, theirs = parse_million()
    print(f"{'1,000,000 size wordings':36}{ours:8.2f}  pandas str.extract {theirs:.2f}")


if __name__ == "__main__":
    main()
