"""Running notebooks side by side, each in a clean Python of its own.

All are run through papermill from one driving process: its imports are paid for once. Threads are
enough, since the work is done in the kernels. Paths are absolute and nobody changes the current
folder, which all threads share. One notebook's failure stops no other.
"""

import asyncio
import logging
import sys
from collections import deque
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import Future, wait
from contextlib import contextmanager, nullcontext, suppress
from dataclasses import dataclass, field, replace
from pathlib import Path
from threading import Lock, Thread
from time import monotonic, perf_counter
from typing import TYPE_CHECKING

from buttonstudy.publish.aside import write_aside
from buttonstudy.publish.errors import PublishError
from buttonstudy.publish.executed import lost_figures
from buttonstudy.publish.failures import Cell, Failure, cell_place, plain_reason
from buttonstudy.publish.kernels import Kernels
from buttonstudy.publish.notebooks import Notebook, Value
from buttonstudy.publish.progress import Progress
from buttonstudy.publish.stopping import go_on

if TYPE_CHECKING:
    from nbformat import NotebookNode

    from buttonstudy.publish.warm import WarmPython

__all__ = ["Job", "Ran", "quick_papermill", "run_notebooks"]

_START_SECONDS = 120
_END_SECONDS = 10
_AGAIN_SECONDS = 0.1


@dataclass(frozen=True, slots=True)
class Job:
    """A notebook to run, with its parameters, and where its executed copy goes.

    What its results hang on is told by hashes.
    """

    notebook: Notebook
    parameters: Mapping[str, Value]
    executed: Path
    made_from: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Ran:
    """What became of a job, and how long it took; it may be taken over from the last report."""

    job: Job
    seconds: float
    failure: Failure | None
    taken_over: bool = False


@dataclass(slots=True)
class _Course:
    """How far one notebook has come."""

    notebook: "NotebookNode"
    cells: list[Cell]  # as it was begun: papermill puts words about an error before them
    index: int = -1

    @property
    def place(self) -> str:
        return cell_place(self.cells, self.index) if self.index >= 0 else "before its first cell"


@dataclass(slots=True)
class _Watch:
    """How far all of them have come, told on one passing line."""

    progress: Progress
    courses: dict[str, _Course] = field(default_factory=dict)
    lock: Lock = field(default_factory=Lock)

    def begin(self, name: str, notebook: "NotebookNode") -> None:
        with self.lock:
            self.courses[name] = _Course(notebook, list(notebook.cells))

    def step(self, name: str, index: int) -> None:
        with self.lock:
            self.courses[name].index = index
            running = [
                f"{name} {course.index + 1} of {len(course.cells)}"
                for name, course in self.courses.items()
            ]
        self.progress.now(f"  at cell: {', '.join(running)}")

    def end(self, ran: Ran) -> None:
        with self.lock:
            self.courses.pop(ran.job.notebook.name, None)
        told = "could not finish" if ran.failure else f"done in {ran.seconds:.1f} s"
        self.progress.line(f"  {ran.job.notebook.name}: {told}")


def run_notebooks(
    jobs: Sequence[Job],
    outputs: Path,
    scratch: Path,
    *,
    at_once: int = 2,
    progress: Progress | None = None,
    warm: "WarmPython | None" = None,
) -> tuple[Ran, ...]:
    """Run notebooks and return what became of each, in their order.

    Parameters
    ----------
    jobs
        What to run.
    outputs
        The folder into which their pages save figures; every figure announced there must be in
        an executed notebook, or its notebook counts as failed.
    scratch
        A folder for passing files.
    at_once
        How many run side by side; one per processor core is best.
    progress
        Told at each cell, and when a notebook ends.
    warm
        The Python to fork kernels from, if there is one.
    """
    quick_papermill()
    go_on()
    watch = _Watch(progress or Progress())
    kernels = Kernels(scratch, warm)
    futures = _begin(jobs, max(1, at_once), lambda job: _run(job, kernels, watch))
    try:
        ran = [future.result() for future in futures]
    finally:
        _end(futures, kernels, warm)
    return _with_losses(ran, lost_figures(outputs, [job.executed for job in jobs]))


def _begin(
    jobs: Sequence[Job], at_once: int, work: Callable[[Job], Ran]
) -> tuple["Future[Ran]", ...]:
    """Let several threads work jobs off, and return what will become of each.

    Whatever holds such a thread up, the process can end without it.
    """
    futures: tuple[Future[Ran], ...] = tuple(Future() for _ in jobs)
    waiting = deque(zip(jobs, futures))

    def work_off() -> None:
        while True:
            try:
                job, future = waiting.popleft()
            except IndexError:
                return
            if not future.set_running_or_notify_cancel():
                continue
            try:
                future.set_result(work(job))
            except BaseException as error:
                future.set_exception(error)

    for _ in range(min(at_once, len(jobs))):
        Thread(target=work_off, daemon=True).start()
    return futures


def _end(futures: Sequence["Future[Ran]"], kernels: Kernels, warm: "WarmPython | None") -> None:
    """End all kernels, those still coming up included, and wait a while for who looked on."""
    latest = monotonic() + _END_SECONDS
    for future in futures:
        future.cancel()
    kernels.stop()
    if warm is not None and not all(future.done() for future in futures):
        warm.stop()
    while wait(futures, timeout=_AGAIN_SECONDS).not_done and monotonic() < latest:
        kernels.stop()


def quick_papermill() -> None:
    """Import papermill without what its imports need a second or more for and the kit never uses.

    Papermill brings in a checker of international web addresses that builds a grammar each time
    it is imported. It does without where it cannot be imported, so for a moment it cannot.
    """
    unwanted = "rfc3987_syntax"
    kept = sys.modules.get(unwanted)
    with _missing(unwanted) if kept is None else nullcontext():
        import papermill  # noqa: F401
    logging.getLogger("papermill").setLevel(logging.CRITICAL)


@contextmanager
def _missing(module: str) -> Iterator[None]:
    sys.modules[module] = None  # type: ignore[assignment]
    try:
        yield
    finally:
        del sys.modules[module]


def _run(job: Job, kernels: Kernels, watch: _Watch) -> Ran:
    """Run one notebook; try once more if its Python did not even start, as ports may collide."""
    begun = perf_counter()
    job.executed.parent.mkdir(parents=True, exist_ok=True)
    failure = _attempt(job, kernels, watch)
    if failure and job.notebook.name not in watch.courses and not kernels.stopped:
        failure = _attempt(job, kernels, watch)
    _close_event_loop()
    ran = Ran(job, perf_counter() - begun, failure)
    watch.end(ran)
    return ran


def _close_event_loop() -> None:
    """Close what the notebook client left open in this thread; it opens another when needed."""
    with suppress(RuntimeError):
        asyncio.get_event_loop().close()


def _attempt(job: Job, kernels: Kernels, watch: _Watch) -> Failure | None:
    from papermill.exceptions import PapermillExecutionError

    name = job.notebook.name
    try:
        _execute(job, kernels, watch)
    except PapermillExecutionError as error:
        folders = {"beside it": job.notebook.path.parent, "in the current folder": Path()}
        why = plain_reason(error.ename, error.evalue, folders)
        return Failure(name, _place(watch, name), why)
    except Exception as error:  # whatever stops one notebook must not stop the others
        if name in watch.courses:
            _keep(watch.courses[name].notebook, job.executed)
        return Failure(name, _place(watch, name), plain_reason(type(error).__name__, str(error)))
    return None


def _keep(notebook: "NotebookNode", executed: Path) -> None:
    """Write what a notebook gave before its Python died; papermill has written nothing of it."""
    import nbformat

    with suppress(PublishError):  # a full disk is told by the failure that is at hand
        write_aside(executed, nbformat.writes(notebook).encode())


def _execute(job: Job, kernels: Kernels, watch: _Watch) -> None:
    import papermill
    from traitlets.config import Config

    name = job.notebook.name
    papermill.execute_notebook(
        job.notebook.path,
        job.executed,
        parameters=dict(job.parameters),
        kernel_name="python3",
        language="python",
        progress_bar=False,
        request_save_on_cell_execute=False,  # all that is in it, again with each cell
        start_timeout=_START_SECONDS,
        kernel_manager_class=kernels.manager_class(),
        shutdown_kernel="immediate",
        config=Config({"KernelManager": {"transport_encryption": "auto"}}),
        on_notebook_start=lambda notebook: watch.begin(name, notebook),
        on_cell_start=lambda cell, cell_index: watch.step(name, cell_index),
    )


def _place(watch: _Watch, name: str) -> str:
    course = watch.courses.get(name)
    return course.place if course else "because its Python did not start"


def _with_losses(ran: Sequence[Ran], lost: Mapping[str, Sequence[str]]) -> tuple[Ran, ...]:
    """Count a notebook whose figures got lost as failed."""
    told = []
    for one in ran:
        names = lost.get(one.job.notebook.name, ())
        if names and one.failure is None:
            why = f"these figures were made and then lost: {', '.join(names)}"
            one = replace(one, failure=Failure(one.job.notebook.name, "with all its figures", why))
        told.append(one)
    return tuple(told)
