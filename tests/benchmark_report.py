"""Where the time of a report goes, and what it is beside the same work done in other ways.

    python tests/benchmark_report.py --profile
    python tests/benchmark_report.py --repeats 5

The first prints one table: the parts of `buttonstudy report` on the demo surveys, each measured by
itself in one process. The second prints the report beside (a) as many notebooks that only import
pandas, matplotlib and seaborn, each run by the papermill command, one after another, and (b) one
plain script that holds the cells of the same notebooks and saves the same figures, with no
notebook at all. Processor seconds hold on a busy machine too; wall seconds mean something only
where nothing else runs.
"""

import argparse
import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Callable
from contextlib import redirect_stdout
from pathlib import Path

from buttonstudy.publish.kernels import warm_python
from buttonstudy.publish.notebooks import Notebook, choose_notebooks, read_notebook
from buttonstudy.publish.running import Job, quick_papermill, run_notebooks

IMPORTS = "import pandas\nimport matplotlib.pyplot\nimport seaborn\n"


def processor() -> float:
    """Return the processor seconds of this process and of all that it waited for."""
    return sum(os.times()[:4])


def seconds(work: Callable[[], object], clock: Callable[[], float] = processor) -> float:
    """Time one piece of work."""
    start = clock()
    work()
    return clock() - start


def both(work: Callable[[], object]) -> tuple[float, float]:
    """Return processor and wall seconds of one piece of work."""
    taken: list[float] = []
    wall = seconds(lambda: taken.append(seconds(work)), time.perf_counter)
    return taken[0], wall


def python(*arguments: str) -> None:
    """Run this Python."""
    subprocess.run([sys.executable, *arguments], check=True, capture_output=True)


def notebook_of(source: str, path: Path) -> Path:
    """Write a notebook of one cell."""
    cell = {"cell_type": "code", "metadata": {}, "id": "only", "outputs": [], "source": source}
    kernel = {"name": "python3", "display_name": "Python 3", "language": "python"}
    content = {"cells": [cell | {"execution_count": None}], "metadata": {"kernelspec": kernel}}
    path.write_text(json.dumps(content | {"nbformat": 4, "nbformat_minor": 5}), encoding="utf-8")
    return path


def code_of(notebook: Notebook, outputs: Path) -> list[str]:
    """Return a notebook's code cells, with the folder for its outputs set after the parameters."""
    cells = json.loads(notebook.path.read_text(encoding="utf-8"))["cells"]
    code = ["".join(cell["source"]) for cell in cells if cell["cell_type"] == "code"]
    return [code[0], f"outputs = {str(outputs)!r}", *code[1:]]


def compare(repeats: int) -> None:
    """Print the report beside import-only notebooks and beside one plain script."""
    notebooks = choose_notebooks()
    times = defaultdict(list)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        only_imports = notebook_of(IMPORTS, folder / "imports.ipynb")
        script = folder / "script.py"
        cells = [code for one in notebooks for code in code_of(one, folder / "plain")]
        script.write_text("\n".join(cells), encoding="utf-8")
        report = ["-m", "buttonstudy", "report", "--to", str(folder / "report")]
        ways = {
            "report": lambda: python(*report),
            "(a) import-only notebooks": lambda: [
                python("-m", "papermill", str(only_imports), str(folder / "done.ipynb"))
                for _ in notebooks
            ],
            "(b) plain script": lambda: python(str(script)),
            "report --reuse": lambda: python(*report, "--reuse"),
        }
        for _ in range(repeats):
            for name, work in ways.items():
                times[name].append(both(work))
        figures = len(list((folder / "report" / "figures").glob("*.png")))
        assert figures == len(list((folder / "plain" / "figures").glob("*.png")))
    print(f"{len(notebooks)} notebooks, {figures} figures in 3 formats, medians of {repeats}")
    print(f"{'':26} processor  ratio    wall  ratio")
    median = {
        name: [statistics.median(column) for column in zip(*taken)] for name, taken in times.items()
    }
    for name, taken in median.items():
        parts = zip(taken, median["report"])
        print(f"{name:26}", *(f"{took:6.1f} s {whole / took:6.2f}" for took, whole in parts))


class Timed:
    """A part of the package whose functions are timed under one name."""

    def __init__(self, part: object, name: str, taken: dict[str, float]) -> None:
        self._part, self._name, self._taken = part, name, taken

    def __getattr__(self, name: str) -> object:
        found = getattr(self._part, name)
        if not callable(found):
            return found

        def timed(*args: object, **kwargs: object) -> object:
            start = processor()
            try:
                return found(*args, **kwargs)
            finally:
                self._taken[self._name] += processor() - start

        return timed


def profile() -> None:
    """Print where processor time goes, each part by itself in one process."""
    taken: dict[str, float] = defaultdict(float)
    taken["start a Python"] = min(seconds(lambda: python("-c", "pass")) for _ in range(3))
    imports = min(seconds(lambda: python("-c", IMPORTS)) for _ in range(3))
    taken["import pandas, matplotlib and seaborn"] = imports - taken["start a Python"]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        _kernels(folder, taken)
        _work(folder, taken)
    for part, took in taken.items():
        print(f"| {part} | {took:.2f} s |")


def _kernels(folder: Path, taken: dict[str, float]) -> None:
    job = Job(
        read_notebook(notebook_of("1 + 1", folder / "empty.ipynb")), {}, folder / "done.ipynb"
    )
    taken["import papermill"] = seconds(quick_papermill)
    taken["start a kernel, run an empty notebook (wall)"] = seconds(
        lambda: run_notebooks([job], folder, folder), time.perf_counter
    )
    start = processor()
    with warm_python() as warm:
        if warm is None:
            return
        warm.poll(0)  # answered once it is warm
    taken["warm up the Python that kernels are forked from"] = processor() - start
    with warm_python() as warm:
        warm.poll(0)
        taken["fork a kernel, run an empty notebook (wall)"] = seconds(
            lambda: run_notebooks([job], folder, folder, warm=warm), time.perf_counter
        )


def _work(folder: Path, taken: dict[str, float]) -> None:
    import buttonstudy as bs
    from buttonstudy.publish import page, pictures

    parts = (("study", "estimates and sentences"), ("draw", "drawing"))
    for part, name in parts:
        setattr(bs, part, Timed(getattr(bs, part), name, taken))
    bs.load_survey = Timed(bs, "reading, once for each notebook", taken).load_survey
    page.picture_files = Timed(pictures, "saving figures, 3 formats", taken).picture_files
    whole = 0.0
    for notebook in choose_notebooks():
        start = processor()
        with redirect_stdout(None):
            exec("\n".join(code_of(notebook, folder / "out")), {"__name__": "__main__"})
        whole += processor() - start
    known = sum(taken[name] for _, name in parts)
    known += taken["reading, once for each notebook"] + taken["saving figures, 3 formats"]
    taken["tables, captions and the rest of the cells"] = whole - known
    taken[f"the whole report, {os.cpu_count()} notebooks at a time"], wall = both(
        lambda: python("-m", "buttonstudy", "report", "--to", str(folder / "report"))
    )
    taken["its wall time"] = wall


def main() -> None:
    """Print the profile or the comparison."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--profile", action="store_true")
    parser.add_argument("--repeats", type=int, default=5)
    chosen = parser.parse_args()
    if chosen.profile:
        profile()
    else:
        compare(chosen.repeats)


if __name__ == "__main__":
    main()
