"""Kernels forked from one Python that has imported everything once.

To start a Python and import what notebooks need takes two seconds each. Where the system can fork
safely, one Python does it while the surveys are read, and each notebook gets a fork of it: a
process of its own with a clean namespace, in a few hundredths of a second. Elsewhere, and if the
warm Python fails in any way, notebooks start kernels in the ordinary way.
"""

import json
import os
import signal
import subprocess
import sys
from collections.abc import Mapping
from contextlib import suppress
from threading import Lock
from typing import Any

from jupyter_client.provisioning.local_provisioner import LocalProvisioner

__all__ = ["PROVISIONER", "ForkedProvisioner", "WarmPython"]

PROVISIONER = "buttonstudy-warm"
"""Its name among the kernel provisioners that the package announces."""

_SETTINGS = {
    "JE_ARROW_MALLOC_CONF": "background_thread:false",  # a process with threads is not to be forked
    "MPLBACKEND": "module://matplotlib_inline.backend_inline",
    "OPENBLAS_NUM_THREADS": "1",
    "PYTHONHASHSEED": "0",
}


class WarmPython:
    """The warm process, from this side. One question at a time, whoever asks."""

    def __init__(self) -> None:
        self._lock = Lock()
        self.stopped = False
        self._process = subprocess.Popen(
            # No module is to come from the current folder, where received files may lie (-P).
            [sys.executable, "-P", "-m", "buttonstudy.publish.warm_server"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,  # whatever fails there, ordinary kernels take over
            env={**os.environ, **_SETTINGS},
            process_group=0,  # stopping from the keyboard is for the run, which stops this one
        )

    def start(self, arguments: list[str], cwd: str, env: Mapping[str, str]) -> "Forked":
        """Fork a kernel.

        Parameters
        ----------
        arguments
            What follows ``python -m ipykernel`` on a command line.
        cwd, env
            The kernel's folder and environment.

        Raises
        ------
        OSError
            If the warm process is gone or cannot fork.
        """
        pid = self._ask({"start": arguments, "cwd": cwd, "env": dict(env)})
        if pid is None:
            raise OSError("the warm Python could not fork")
        return Forked(self, pid)

    def poll(self, pid: int) -> int | None:
        """Return a kernel's exit status, or None while it runs."""
        try:
            return self._ask({"poll": pid})
        except OSError:
            return 1

    def stop(self) -> None:
        """End the warm process; its kernels end with it."""
        self.stopped = True
        self._process.kill()
        self._process.wait()
        for pipe in (self._process.stdin, self._process.stdout):
            if pipe is not None:
                with suppress(OSError):
                    pipe.close()

    def _ask(self, question: Mapping[str, object]) -> int | None:
        with self._lock:
            if self._process.stdin is None or self._process.stdout is None:
                raise OSError("the warm Python has no pipes")
            try:
                self._process.stdin.write(json.dumps(question).encode() + b"\n")
                self._process.stdin.flush()
                answer = self._process.stdout.readline()
            except ValueError as error:
                raise OSError("the warm Python was stopped") from error
        if not answer.endswith(b"\n"):  # nothing, or half a number
            raise OSError("the warm Python ended")
        told: int | None = json.loads(answer)
        return told


class Forked:
    """A forked kernel, as `subprocess.Popen` would show it."""

    stdin = stdout = stderr = None

    def __init__(self, warm: WarmPython, pid: int) -> None:
        self._warm = warm
        self.pid = pid

    def poll(self) -> int | None:
        """Return the exit status, or None while it runs."""
        return self._warm.poll(self.pid)

    def wait(self) -> int:
        """Return the exit status of a kernel that has ended."""
        return self.poll() or 0

    def send_signal(self, number: int) -> None:
        """Send a signal, unless the kernel has ended: its number may be another's by now."""
        if self.poll() is None:
            os.kill(self.pid, number)

    def terminate(self) -> None:
        """Ask the kernel to end."""
        self.send_signal(signal.SIGTERM)

    def kill(self) -> None:
        """End the kernel."""
        self.send_signal(signal.SIGKILL)


class ForkedProvisioner(LocalProvisioner):
    """Starts a notebook's kernel as a fork of the run's warm Python."""

    async def launch_kernel(self, cmd: list[str], **kwargs: Any) -> Any:
        """Fork the kernel, or start it in the ordinary way if that fails."""
        warm = getattr(self.parent, "warm", None)
        after = cmd.index("ipykernel") + 1 if "ipykernel" in cmd else 0
        if warm is None or not after:
            return await super().launch_kernel(cmd, **kwargs)
        try:
            forked = warm.start(cmd[after:], kwargs.get("cwd") or "", kwargs["env"])
        except (OSError, KeyError):
            if warm.stopped:
                raise
            return await super().launch_kernel(cmd, **kwargs)
        self.process, self.pid, self.pgid = forked, forked.pid, forked.pid
        self.cwd = kwargs.get("cwd")
        return self.connection_info
