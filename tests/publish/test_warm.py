"""Checks kernels forked from a warm Python: each clean, every figure there, no hanging."""

import json
import os
import signal
import sys
import time
from collections.abc import Callable
from pathlib import Path
from threading import Timer
from types import SimpleNamespace

import pytest

from buttonstudy.publish.kernels import warm_python
from buttonstudy.publish.notebooks import read_notebook
from buttonstudy.publish.running import Job, Ran, quick_papermill, run_notebooks

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="kernels are forked on Linux only")

LEAVE_A_MARK = """\
import os, pandas
assert not hasattr(pandas, "mark_of_a_test"), "the other notebook's work is still here"
pandas.mark_of_a_test = True
print("parent", os.getppid())
"""
DRAW = "import matplotlib.pyplot as plt\nplt.plot([1, 2])\nplt.show()"


@pytest.fixture(scope="module")
def warm():
    with warm_python() as lent:
        yield lent


def run(folder: Path, warm, *sources: str) -> tuple[Ran, ...]:
    jobs = []
    for place, source in enumerate(sources):
        cell = {"cell_type": "code", "metadata": {}, "id": "only", "outputs": []}
        cells = [cell | {"source": source, "execution_count": None}]
        metadata = {"kernelspec": {"name": "python3", "display_name": "", "language": "python"}}
        path = folder / f"made{place}.ipynb"
        path.write_text(
            json.dumps({"cells": cells, "metadata": metadata, "nbformat": 4, "nbformat_minor": 5})
        )
        jobs.append(Job(read_notebook(path), {}, folder / "done" / path.name))
    return run_notebooks(jobs, folder, folder, at_once=2, warm=warm)


def outputs(ran: Ran) -> list[dict]:
    return json.loads(ran.job.executed.read_text(encoding="utf-8"))["cells"][-1]["outputs"]


def test_kernels_are_forks_of_the_warm_python_and_share_nothing(tmp_path, warm) -> None:
    ran = run(tmp_path, warm, LEAVE_A_MARK, LEAVE_A_MARK)
    assert [one.failure for one in ran] == [None, None]
    parents = {"".join(outputs(one)[0]["text"]) for one in ran}
    assert parents == {f"parent {warm._process.pid}\n"}


def test_a_figure_drawn_in_a_fork_arrives(tmp_path, warm) -> None:
    (ran,) = run(tmp_path, warm, DRAW)
    assert ran.failure is None
    assert any("image/png" in one.get("data", {}) for one in outputs(ran))


def test_what_shows_figures_in_notebooks_is_not_imported_before_the_fork(tmp_path, warm) -> None:
    source = "import sys\nprint([name for name in sys.modules if 'backend_inline' in name])"
    (ran,) = run(tmp_path, warm, source)
    assert "".join(outputs(ran)[0]["text"]) == "[]\n"


def test_the_warm_python_has_no_threads_that_a_fork_would_lack(tmp_path, warm) -> None:
    run(tmp_path, warm, "1")  # waits until it is warm
    assert len(os.listdir(f"/proc/{warm._process.pid}/task")) == 1  # noqa: PTH208


def test_a_run_that_is_stopped_ends_a_kernel_that_comes_up_too_late(tmp_path) -> None:
    begun, started = [], []
    with warm_python() as lent:
        lent.poll(0)  # answered once it is warm

        def start_late(*given):  # as while it still warms up
            begun.append(time.monotonic())
            os.kill(os.getpid(), signal.SIGINT)
            time.sleep(1)
            started.append(lent.start(*given))
            return started[-1]

        late = SimpleNamespace(start=start_late, poll=lent.poll, stop=lambda: None)
        with pytest.raises(KeyboardInterrupt):
            run(tmp_path, late, "import time\ntime.sleep(120)")
        assert time.monotonic() - begun[0] < 9  # nobody had to be given up
        until(lambda: not runs(started[0].pid))


def test_a_run_that_is_stopped_does_not_wait_until_it_is_warm(tmp_path) -> None:
    quick_papermill()
    with warm_python() as lent:
        Timer(1, os.kill, (os.getpid(), signal.SIGINT)).start()
        begun = time.monotonic()
        with pytest.raises(KeyboardInterrupt):
            run(tmp_path, lent, "1 + 1")
        assert lent.stopped
        assert time.monotonic() - begun < 9


def test_a_fork_that_dies_is_told_and_nobody_waits(tmp_path, warm) -> None:
    died, other = run(tmp_path, warm, "import os\nos._exit(3)", "1 + 1")
    assert died.failure is not None
    assert other.failure is None


def test_without_the_warm_python_kernels_start_in_the_ordinary_way(tmp_path) -> None:
    with warm_python() as gone:
        gone._process.kill()
        gone._process.wait()
        (ran,) = run(tmp_path, gone, "print(6 * 7)")
    assert ran.failure is None
    assert "".join(outputs(ran)[0]["text"]) == "42\n"


def test_kernels_end_with_the_warm_python(tmp_path) -> None:
    with warm_python() as lent:
        forked = lent.start(["-f", str(tmp_path / "kernel.json")], str(tmp_path), dict(os.environ))
        until(lambda: (tmp_path / "kernel.json").exists())
        assert forked.poll() is None
    until(lambda: not runs(forked.pid))


def runs(pid: int) -> bool:
    try:
        return Path(f"/proc/{pid}/stat").read_text().rsplit(") ", 1)[1][0] != "Z"
    except OSError:
        return False


def until(true: Callable[[], bool]) -> None:
    """Wait until something is so; fail after a minute."""
    for _ in range(600):
        if true():
            return
        time.sleep(0.1)
    pytest.fail("it did not come about within a minute")
