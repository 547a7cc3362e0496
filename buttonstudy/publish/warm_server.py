"""A Python that has imported all that notebooks need, and forks a kernel from itself when asked.

Run as ``python -m buttonstudy.publish.warm_server`` by `buttonstudy.publish.warm`, which sends one
question a line as JSON and gets one answer a line. It imports and does nothing else: no thread is
started, nothing is read, no notebook machinery is set up, so that each fork is a clean Python
with a clean namespace. What matplotlib shows inside notebooks is not imported beforehand: it ties
itself to the notebook that is there when it is imported, and would drop figures in a fork.
"""

import ctypes
import gc
import json
import os
import pkgutil
import signal
import sys
from importlib import import_module
from typing import BinaryIO

_PR_SET_PDEATHSIG = 1
_PACKAGES = ("buttonstudy.study", "buttonstudy.draw")
_MODULES = (
    "buttonstudy.publish.page",
    "buttonstudy.publish.pictures",
    "buttonstudy.survey.load",
    "buttonstudy.survey.saved",
    "ipykernel.debugger",
    "ipykernel.ipkernel",
    "ipykernel.kernelapp",
    "matplotlib.backends.backend_agg",
    "matplotlib.backends.backend_pdf",
    "matplotlib.backends.backend_svg",
    "matplotlib.pyplot",
    "pandas",
    "pyarrow.dataset",
    "pyarrow.parquet",
    "pypdfium2",
    "sqlite3",
    "statsmodels.stats.multitest",
    "statsmodels.stats.proportion",
    "tornado.platform.asyncio",
)


def warm_up() -> None:
    """Import what notebooks import, and find the typefaces that they write with."""
    for package in _PACKAGES:
        found = import_module(package)
        for module in pkgutil.walk_packages(found.__path__, f"{package}."):
            import_module(module.name)
    for name in _MODULES:
        import_module(name)
    _save_a_picture()
    gc.collect()
    gc.freeze()  # what is there now stays, and forks need not look through it


def _save_a_picture() -> None:
    from matplotlib.figure import Figure

    from buttonstudy.draw.drawn import Drawn
    from buttonstudy.draw.style import house_style
    from buttonstudy.publish.pictures import picture_files

    with house_style():
        figure = Figure(figsize=(1, 1))
        for place, weight in enumerate(("normal", "bold")):
            figure.text(0, place / 2, "1", weight=weight)
    picture_files(Drawn(figure, "-", "-", "-"))


def serve(questions: BinaryIO, answers: BinaryIO) -> None:
    """Fork kernels and tell what became of them, until no more questions can come."""
    ended: dict[int, int] = {}
    for line in questions:
        try:
            asked = json.loads(line)
            answer = _fork(asked) if "start" in asked else _poll(asked["poll"], ended)
            answers.write(json.dumps(answer).encode() + b"\n")
        except (OSError, ValueError):  # who asked died: half a question, or nobody to answer
            return


def _poll(pid: int, ended: dict[int, int]) -> int | None:
    """Return a kernel's exit status as `subprocess` counts it, or None while it runs."""
    if pid not in ended:
        try:
            done, status = os.waitpid(pid, os.WNOHANG)
        except ChildProcessError:
            return 1
        if not done:
            return None
        ended[pid] = os.waitstatus_to_exitcode(status)
    return ended[pid]


def _fork(asked: dict[str, object]) -> int | None:
    """Fork a kernel; return its number, or None where the system allows no more processes."""
    server = os.getpid()
    try:
        pid = os.fork()
    except OSError:
        return None
    if pid:
        return pid
    try:
        _become_kernel(asked, server)
    except BaseException:  # a fork must never come back into the server's loop
        os._exit(1)
    os._exit(0)


def _die_with(server: int) -> None:
    """Have the system end this fork when the server ends, however it ends (prctl(2), Linux)."""
    ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
    if os.getppid() != server:
        os._exit(1)


def _become_kernel(asked: dict[str, object], server: int) -> None:
    _die_with(server)
    os.setsid()
    signal.signal(signal.SIGINT, signal.default_int_handler)
    nothing = os.open(os.devnull, os.O_RDWR)
    os.dup2(nothing, 0)
    os.dup2(nothing, 1)
    environment, command = asked["env"], asked["start"]
    if isinstance(environment, dict):
        os.environ.clear()
        os.environ.update(environment)
    os.environ["JPY_PARENT_PID"] = str(server)
    if asked["cwd"]:
        os.chdir(str(asked["cwd"]))
    arguments = [str(word) for word in command] if isinstance(command, list) else []
    sys.argv = ["ipykernel", *arguments]
    from ipykernel.kernelapp import IPKernelApp

    IPKernelApp.launch_instance(argv=arguments)


def main() -> None:
    """Keep the pipe for answers to ourselves, warm up, and serve.

    If something cannot be imported, end without a word: notebooks then start in the ordinary way,
    and the one that needs it tells.
    """
    answers = os.fdopen(os.dup(1), "wb", buffering=0)
    os.dup2(2, 1)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        warm_up()
    except Exception:
        return
    serve(sys.stdin.buffer, answers)


if __name__ == "__main__":
    main()
