"""Where the time of a report goes, and what it is beside the same work done in other ways.

Run it by hand, on a machine that does nothing else:

    python tests/benchmark_report.py --profile
    python tests/benchmark_report.py --repeats 5

The first prints one table: the parts of `buttonstudy report` on the demo surveys, each measured by
itself in one process. The second prints the report's wall time beside (a) as many notebooks that
only import pandas, matplotlib and seaborn, each run by the papermill command, one after another,
and (b) one plain script that holds the cells of the same notebooks and saves the same figures, with
no notebook at all.
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
from buttonstudy.publish.running import Job, run_notebooks

IMPORTS = "import pandas\nimport matplotlib.pyplot\nimport seaborn\n"


def seconds(work: Callable[[], object]) -> float:
    """Time one piece of work."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


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
        for _ in range(repeats):
            times["report"].append(seconds(lambda: python(*report)))
            times["imports"].append(
                seconds(
                    lambda: [
                        python("-m", "papermill", str(only_imports), str(folder / "done.ipynb"))
                        for _ in notebooks
                    ]
                )
            )
            times["script"].append(seconds(lambda: python(str(script))))
        figures = len(list((folder / "report" / "figures").glob("*.png")))
        assert figures == len(list((folder / "plain" / "figures").glob("*.png")))
    median = {name: statistics.median(taken) for name, taken in times.items()}
    print(f"{len(notebooks)} notebooks, {figures} figures in 3 formats, medians of {repeats}")
    print(f"report                         {median['report']:6.1f} s")
    for name, told in (("imports", "(a) import-only notebooks"), ("script", "(b) plain script")):
        ratio = median["report"] / median[name]
        print(f"{told:<30} {median[name]:6.1f} s   report is {ratio:.2f} of it")


class Timed:
    """A part of the package whose functions are timed under one name."""

    def __init__(self, part: object, name: str, taken: dict[str, float]) -> None:
        self._part, self._name, self._taken = part, name, taken

    def __getattr__(self, name: str) -> object:
        found = getattr(self._part, name)
        if not callable(found):
            return found

        def timed(*args: object, **kwargs: object) -> object:
            start = time.perf_counter()
            try:
                return found(*args, **kwargs)
            finally:
                self._taken[self._name] += time.perf_counter() - start

        return timed


def profile() -> None:
    """Print where the time goes, each part by itself in one process."""
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
    taken["start a kernel, run an empty notebook"] = seconds(
        lambda: run_notebooks([job], folder, folder)
    )
    with warm_python() as warm:
        if warm is None:
            return
        run_notebooks([job], folder, folder, warm=warm)  # waits until it is warm
        taken["the same from the warm Python"] = seconds(
            lambda: run_notebooks([job], folder, folder, warm=warm)
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
        start = time.perf_counter()
        with redirect_stdout(None):
            exec("\n".join(code_of(notebook, folder / "out")), {"__name__": "__main__"})
        whole += time.perf_counter() - start
    known = sum(taken[name] for _, name in parts)
    known += taken["reading, once for each notebook"] + taken["saving figures, 3 formats"]
    taken["tables, captions and the rest of the cells"] = whole - known
    start = time.perf_counter()
    python("-m", "buttonstudy", "report", "--to", str(folder / "report"))
    taken[f"the whole report, {os.cpu_count()} notebooks at a time"] = time.perf_counter() - start


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--profile", action="store_true")
    parser.add_argument("--repeats", type=int, default=5)
    chosen = parser.parse_args()
    if chosen.profile:
        profile()
    else:
        compare(chosen.repeats)
