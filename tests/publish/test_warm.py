"""Checks kernels forked from a warm Python: each clean, every figure there, no hanging."""

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import ExitStack
from pathlib import Path
from threading import Timer
from types import SimpleNamespace

import pytest

from buttonstudy.publish import running
from buttonstudy.publish import warm as warm_side
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


RECEIVED = ("resource", "click", "seaborn", "pandas", "ipykernel", "buttonstudy", "of_a_test")
WHERE_FROM = """\
import os, click, resource
print(os.environ["OPENBLAS_NUM_THREADS"])
import of_a_test
"""


@pytest.fixture(scope="module")
def received(tmp_path_factory) -> Path:
    """Give a folder with files that would take the place of packages."""
    folder = tmp_path_factory.mktemp("received")
    for name in RECEIVED:
        (folder / f"{name}.py").write_text("raise RuntimeError('a received file was run')")
    return folder


@pytest.fixture(scope="module")
def warm(received):
    with pytest.MonkeyPatch.context() as patch, ExitStack() as stack:
        patch.chdir(received)
        lent = stack.enter_context(warm_python())
        patch.undo()
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


@pytest.fixture
def all_ended(monkeypatch) -> list[bool]:
    """Tell of each run whether all who looked on had ended, and nobody was given up."""
    told = []

    def end(futures, *given):
        whole(futures, *given)
        told.append(all(future.done() for future in futures))

    whole = running._end
    monkeypatch.setattr(running, "_end", end)
    monkeypatch.setattr(running, "_END_SECONDS", 60)
    return told


def test_a_run_that_is_stopped_ends_a_kernel_that_comes_up_too_late(tmp_path, all_ended) -> None:
    started = []
    with warm_python() as lent:
        lent.poll(0)  # answered once it is warm

        def start_late(*given):  # as while it still warms up
            os.kill(os.getpid(), signal.SIGINT)
            time.sleep(1)
            started.append(lent.start(*given))
            return started[-1]

        late = SimpleNamespace(start=start_late, poll=lent.poll, stop=lambda: None)
        with pytest.raises(KeyboardInterrupt):
            run(tmp_path, late, "import time\ntime.sleep(300)")
        assert all_ended == [True]
        until(lambda: not runs(started[0].pid))


def test_a_run_that_is_stopped_does_not_wait_until_it_is_warm(tmp_path, all_ended) -> None:
    quick_papermill()
    with warm_python() as lent:
        Timer(1, os.kill, (os.getpid(), signal.SIGINT)).start()
        with pytest.raises(KeyboardInterrupt):
            run(tmp_path, lent, "1 + 1")
        assert lent.stopped
        assert all_ended == [True]


def test_a_fork_that_dies_is_told_and_nobody_waits_and_what_it_gave_is_kept(tmp_path, warm) -> None:
    died, other = run(tmp_path, warm, "import os\nos._exit(3)", "1 + 1")
    assert died.failure is not None
    kept = json.loads(died.job.executed.read_text(encoding="utf-8"))
    assert "".join(kept["cells"][-1]["source"]) == "import os\nos._exit(3)"
    assert other.failure is None


def test_nothing_is_imported_from_the_current_folder(tmp_path, warm, received, monkeypatch) -> None:
    monkeypatch.chdir(received)
    monkeypatch.setenv("OPENBLAS_NUM_THREADS", "2")
    with warm_python() as gone:
        gone._process.kill()
        gone._process.wait()
        for python in (warm, gone):  # without the warm one, kernels start in the ordinary way
            (ran,) = run(tmp_path, python, WHERE_FROM)
            assert "of_a_test" in ran.failure.why
            assert "".join(outputs(ran)[0]["text"]) == "1\n"  # both compute alike
    assert warm._process.poll() is None


def test_where_no_warm_python_can_be_started_none_is_lent(monkeypatch) -> None:
    def none(*_, **__):
        raise OSError(11, "Resource temporarily unavailable")

    monkeypatch.setattr(warm_side.subprocess, "Popen", none)
    with warm_python() as lent:
        assert lent is None


FAILS = (
    "import buttonstudy.publish.warm_server as server; server.warm_up = lambda: {}; server.main()"
)


@pytest.mark.parametrize("warming", ["1 / 0", "None"])
def test_a_warm_python_that_fails_says_nothing(warming) -> None:
    reading, writing = os.pipe()
    os.close(reading)  # the run has died, or will not hear of it
    call = [sys.executable, "-c", FAILS.format(warming)]
    asked = b'{"poll": 1}\n{"poll": 1}\n'
    ran = subprocess.run(call, input=asked, stdout=writing, stderr=subprocess.PIPE, check=False)
    os.close(writing)
    assert (ran.returncode, ran.stderr) == (0, b"")


@pytest.mark.parametrize("answer", ["", "12", "null\n"])
def test_without_a_whole_answer_no_kernel_was_forked(monkeypatch, answer) -> None:
    code = f"import sys; sys.stdin.readline(); sys.stdout.write({answer!r})"
    start = subprocess.Popen
    monkeypatch.setattr(
        warm_side.subprocess, "Popen", lambda _, **how: start([sys.executable, "-c", code], **how)
    )
    with warm_python() as lent, pytest.raises(OSError, match="the warm Python"):
        lent.start([], "", {})


def test_no_signal_is_sent_to_a_number_that_may_be_anothers_by_now(monkeypatch) -> None:
    sent = []
    monkeypatch.setattr(warm_side.os, "kill", lambda *given: sent.append(given))
    warm_side.Forked(SimpleNamespace(poll=lambda _: 0), 11).kill()
    warm_side.Forked(SimpleNamespace(poll=lambda _: None), 12).kill()
    assert sent == [(12, signal.SIGKILL)]


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
