"""Real runs of the commands, stopped at every step that they take in the folder of their output.

    python tests/stopped_runs.py [COMMAND ...] [--delays 20]

Every command is run again and again. A run is killed (SIGKILL) before each step it takes: making a
file, giving it its name, taking one away; it is killed in the midst of writing; it is asked to end
(SIGTERM, SIGINT) at each step; its disk is full; and with ``--delays`` runs of their own process
are killed after so many moments spread over their time. After each, what stands under the name of
the output must be byte for byte the earlier output or the new one, nothing else may be in sight,
and the next run must leave nothing behind. `tests/publish/test_stopped_runs.py` asks a part of
this in every test run.
"""

import argparse
import json
import os
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import traceback
from collections.abc import Callable
from contextlib import redirect_stdout, suppress
from io import StringIO
from pathlib import Path

SURVEY = """Button no.,Diameter (mm),Mould material,Cover material,Date,Opened
K1,16,wood,linen,c. 1840,yes
K2,big,bone,silk,1850,no
"""
EARLIER = b"an earlier output, which must stay"
STEPS = ("os.rename", "os.remove", "os.mkdir", "os.rmdir", "os.link", "shutil.rmtree")
STOPPED, SECONDS_TO_START = 130, 2.5


def commands(survey: str) -> dict[str, tuple[list[str], str]]:
    """Give each command's words, and the name of what it writes."""
    return {
        "template": (["template", "out.xlsx", "--field", "diameter"], "out.xlsx"),
        "card": (["card", "out.pdf", "--field", "diameter"], "out.pdf"),
        "problems": (["check", survey, "--problems", "out.csv"], "out.csv"),
        "marked": (["check", survey, "--marked", "out.xlsx"], "out.xlsx"),
        "map": (["map", survey, "--to", "out.csv"], "out.csv"),
        "export": (["export", survey, "--to", "out"], "out"),
        "plate": (["plate", survey, "--to", "out.pdf"], "out.pdf"),
        "gauge": (["gauge", "out.pdf"], "out.pdf"),
        "section": (["section", "K1", survey, "--to", "out.svg"], "out.svg"),
    }


def main() -> None:
    """Stop every command, or those named, in every way."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("commands", nargs="*", metavar="COMMAND")
    parser.add_argument("--few", action="store_true", help="only what the tests ask; JSON")
    parser.add_argument("--delays", type=int, default=0, help="kills spread over a run's time")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        survey = Path(folder) / "survey.csv"
        survey.write_text(SURVEY, encoding="utf-8")
        known = commands(str(survey))
        import_all(known, Path(folder) / "first")
        for name in asked.commands or known:
            told = stopped(*known[name], Path(folder) / name, asked.few, asked.delays)
            print(json.dumps({"command": name, **told}), flush=True)


def import_all(known: dict[str, tuple[list[str], str]], place: Path) -> None:
    """Run each command once in this process, which then has all that their forks need."""
    from buttonstudy.cli import main as run

    place.mkdir()
    here = Path.cwd()
    os.chdir(place)
    for number, (words, out) in enumerate(known.values()):
        words = [word.replace("out", f"{number}-out") if word == out else word for word in words]
        with redirect_stdout(StringIO()), suppress(SystemExit):
            run(words)
    os.chdir(here)


def stopped(words: list[str], out: str, place: Path, few: bool, delays: int) -> dict[str, object]:
    """Stop one command in every way; give how often, and what was amiss."""
    place.mkdir()
    run = Runs(words, out, place)
    steps = run.reference()
    ways = run.few_ways(len(steps)) if few else run.ways(len(steps))
    amiss = [f"{how}: {fault}" for how, prepare in ways for fault in run.tried(how, prepare)]
    if not few or run.stands_for_others:
        amiss += [f"two at once: {fault}" for fault in run.collided(steps)]
    for number in range(1, delays + 1):
        amiss += [f"delay {number}: {fault}" for fault in run.delayed(number / (delays + 1))]
    return {"steps": len(steps), "stopped": len(ways) + 1 + delays, "amiss": amiss}


Ways = list[tuple[str, Callable[[], None]]]


class Runs:
    """Runs of one command, each in a fork of this process, which has imported all there is."""

    def __init__(self, words: list[str], out: str, place: Path) -> None:
        self.words, self.out, self.place = words, out, place
        self.replaces = "--problems" in words
        self.stands_for_others = words[0] in ("template", "export") or self.replaces
        self.whole: dict[str, bytes] = {}
        self.seconds = 0.0

    def reference(self) -> list[str]:
        """Run once undisturbed; keep what was written, and give the steps that it took."""
        self._clear()
        log = self.place.with_suffix(".steps")
        begun = time.monotonic()
        status, said = self._run(lambda: _log(self.place, log))
        self.seconds = time.monotonic() - begun
        self.whole = self._seen()
        if not self.whole:
            raise RuntimeError(f"{self.words} ended with {status}: {said}")
        return log.read_text().splitlines()

    def ways(self, steps: int) -> Ways:
        """Give every way of stopping a run."""
        at = range(1, steps + 1)
        signals = ("SIGKILL", "SIGTERM", "SIGINT")
        return [self._signal(name, step) for name in signals for step in at] + self._limits()

    def few_ways(self, steps: int) -> Ways:
        """Give the ways for every day: all kinds for one of each kind of output."""
        if not self.stands_for_others:
            return self._limits()[1:]
        middle = (steps + 1) // 2
        return [
            self._signal(name, middle) for name in ("SIGKILL", "SIGTERM", "SIGINT")
        ] + self._limits()

    def _signal(self, name: str, step: int) -> tuple[str, Callable[[], None]]:
        number = getattr(signal, name)
        return f"{name} before step {step}", lambda: _stop(self.place, step, number)

    def _limits(self) -> Ways:
        return [
            ("disk full", lambda: _limit(signal.SIG_IGN)),
            ("killed while writing", lambda: _limit(signal.SIG_DFL)),
        ]

    def tried(self, how: str, prepare: Callable[[], None]) -> list[str]:
        """Run once and stop it; tell what is amiss then and, after a kill, after a second run."""
        self._clear()
        before = self._earlier()
        status, said = self._run(prepare)
        faults = self._faults(before)
        if how == "disk full":
            return faults + _told_badly(status, said) + self._left_over()
        if how.startswith(("SIGTERM", "SIGINT")):
            if self._seen() == self.whole:  # it was tidying up, which the next run does too
                return faults + self._again()
            return faults + _ended_badly(status, said) + self._left_over()
        return faults + self._again()

    def collided(self, steps: list[str]) -> list[str]:
        """Hold a run just before its output gets its name, let another end, and let it go on."""
        self._clear()
        before = self._earlier()
        step = next(
            n for n, name in enumerate(steps, 1) if name in ("os.link", "os.rmdir", "os.rename")
        )
        held, told = self._fork(lambda: _stop(self.place, step, signal.SIGSTOP))
        os.waitpid(held, os.WUNTRACED)
        status, said = self._run(lambda: None)
        faults = [f"the other: status {status}: {said}"] if self._seen() != self.whole else []
        os.kill(held, signal.SIGCONT)
        status, said = self._ended(held, told)
        if not self.replaces and not (status == 2 and "left alone" in said):
            faults.append(f"status {status}: {said}")
        return faults + self._faults(before) + self._left_over()

    def delayed(self, share: float) -> list[str]:
        """Kill a run of a process of its own after a share of the usual time."""
        self._clear()
        before = self._earlier()
        call = [sys.executable, "-m", "buttonstudy", *self.words]
        with subprocess.Popen(call, cwd=self.place, stdout=-3, stderr=-3) as process:
            time.sleep(share * (self.seconds + SECONDS_TO_START))
            process.kill()
        return self._faults(before) + self._again()

    def _earlier(self) -> dict[str, bytes]:
        """Put an earlier output where the command would replace it."""
        if self.replaces:
            first = self.whole[self.out].splitlines(keepends=True)[0]
            (self.place / self.out).write_bytes(first + EARLIER)
        return self._seen()

    def _faults(self, before: dict[str, bytes]) -> list[str]:
        now = self._seen()
        if now in (before, self.whole):
            return []
        return [f"neither the earlier output nor the new one, but {sorted(now)}"]

    def _again(self) -> list[str]:
        """Run once more, undisturbed: all must end well, and nothing may be left over."""
        if self._seen() == self.whole and not self.replaces:  # it was done before it was stopped
            return []
        _, said = self._run(lambda: None)
        done = self._seen() == self.whole
        return self._left_over() + ([] if done else [f"not done again: {said}"])

    def _left_over(self) -> list[str]:
        hidden = [one.name for one in self.place.iterdir() if one.name != self.out]
        return [f"left over: {hidden}"] if hidden else []

    def _seen(self) -> dict[str, bytes]:
        """Give all files in sight by name; hidden ones are no results."""
        return {
            path.relative_to(self.place).as_posix(): path.read_bytes()
            for path in sorted(self.place.rglob("*"))
            if path.is_file()
            and not any(n.startswith(".") for n in path.relative_to(self.place).parts)
        }

    def _clear(self) -> None:
        shutil.rmtree(self.place)
        self.place.mkdir()

    def _run(self, prepare: Callable[[], None]) -> tuple[int, str]:
        """Run in a fork; give its exit status (negative: the signal) and what it said."""
        return self._ended(*self._fork(prepare))

    def _fork(self, prepare: Callable[[], None]) -> tuple[int, int]:
        from buttonstudy.cli import main as run

        told, into = os.pipe()  # it holds more than any command says
        child = os.fork()
        if child:
            os.close(into)
            return child, told
        os.chdir(self.place)
        sys.stdout = sys.stderr = os.fdopen(into, "w", encoding="utf-8")
        status = 99
        try:
            prepare()
            run(self.words)
        except SystemExit as ended:
            status = int(ended.code or 0)
        except BaseException:
            traceback.print_exc()
        finally:
            sys.stdout.flush()
            os._exit(status)

    def _ended(self, child: int, told: int) -> tuple[int, str]:
        _, status = os.waitpid(child, 0)
        with os.fdopen(told, "rb") as said:
            return os.waitstatus_to_exitcode(status), said.read().decode("utf-8", "replace")


def _on_each_step(place: Path, then: Callable[[str], None]) -> None:
    """Call before each step that changes something in a folder."""

    def seen(event: str, args: tuple[object, ...]) -> None:
        writes = (
            event == "open" and isinstance(args[2], int) and args[2] & (os.O_CREAT | os.O_TRUNC)
        )
        changes = (writes or event in STEPS) and not isinstance(args[0], int)
        if changes and str(place) + os.sep in os.path.abspath(os.fsdecode(args[0])):  # noqa: PTH100
            then(event)

    sys.addaudithook(seen)


def _log(place: Path, log: Path) -> None:
    def then(event: str) -> None:
        with log.open("a") as file:
            file.write(f"{event}\n")

    _on_each_step(place, then)


def _stop(place: Path, step: int, number: int) -> None:
    left = [step]

    def then(_: str) -> None:
        left[0] -= 1
        if left[0] == 0:
            os.kill(os.getpid(), number)

    _on_each_step(place, then)


def _limit(handler: signal.Handlers) -> None:
    """Let no file grow beyond a few bytes: the run is killed, or told, in the midst of writing."""
    signal.signal(signal.SIGXFSZ, handler)
    resource.setrlimit(resource.RLIMIT_FSIZE, (200, 200))


def _told_badly(status: int, said: str) -> list[str]:
    fine = status == 2 and "could not be written" in said and "Traceback" not in said
    return [] if fine else [f"status {status}: {said}"]


def _ended_badly(status: int, said: str) -> list[str]:
    fine = status == STOPPED and "Nothing was left half-made." in said
    return [] if fine else [f"status {status}: {said}"]


if __name__ == "__main__":
    main()
