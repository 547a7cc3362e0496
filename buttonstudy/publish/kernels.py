"""Kernels for notebooks: always this very Python, and all gone when a run ends.

Jupyter starts the kernel that a notebook names, and a researcher's machine may hold a ``python3``
that is another Python without the kit. So the kernels of a run are told to be the Python that
runs the kit. They keep no history and read no start-up files of the user's, write nothing into
the user's home, and import nothing from the current folder, where received files may lie.
"""

import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from jupyter_client.kernelspec import KernelSpec
    from jupyter_client.manager import AsyncKernelManager

    from buttonstudy.publish.warm import WarmPython

__all__ = ["Kernels", "NotStartedError", "warm_python"]


@contextmanager
def warm_python() -> "Iterator[WarmPython | None]":
    """Lend a warm Python to fork kernels from, on Linux, which can do so safely.

    It warms up meanwhile. None is lent where none can be started.
    """
    if sys.platform != "linux":
        yield None
        return
    from buttonstudy.publish.warm import WarmPython

    try:
        warm = WarmPython()
    except OSError:  # as when the system allows no more processes
        yield None
        return
    try:
        yield warm
    finally:
        warm.stop()


class NotStartedError(RuntimeError):
    """The run was stopped before this kernel came up."""


class Kernels:
    """All kernels of one run.

    Parameters
    ----------
    scratch
        A folder for what IPython writes; it goes when the run's folder goes.
    warm
        The Python to fork kernels from; without it each is started afresh.
    """

    def __init__(self, scratch: Path, warm: "WarmPython | None" = None) -> None:
        self._scratch = scratch
        self._warm = warm
        self._managers: list[AsyncKernelManager] = []
        self.stopped = False

    def manager_class(self) -> "type[AsyncKernelManager]":
        """Return the class of kernel manager that papermill is to use."""
        from jupyter_client.manager import AsyncKernelManager

        run = self

        class ThisPython(AsyncKernelManager):
            """Starts this Python whatever the name asked for."""

            warm = self._warm

            @property
            def kernel_spec(self) -> "KernelSpec":
                """Asked for whenever the kernel is about to start."""
                if run.stopped:
                    raise NotStartedError("the run was stopped")
                if self not in run._managers:
                    run._managers.append(self)
                return run._this_python()

        return ThisPython

    def stop(self) -> None:
        """End every kernel at once and let no other start.

        A kernel that was about to start may come up even so: call it until nobody waits for one.
        """
        self.stopped = True
        for manager in tuple(self._managers):
            process = getattr(manager.provisioner, "process", None)
            if process is not None:
                with suppress(OSError):
                    process.kill()

    def _this_python(self) -> "KernelSpec":
        from ipykernel.kernelspec import get_kernel_dict
        from jupyter_client.kernelspec import KernelSpec

        from buttonstudy.publish.warm import PROVISIONER

        environment = {
            "IPYTHONDIR": str(self._scratch),
            "MPLBACKEND": "module://matplotlib_inline.backend_inline",
            "OPENBLAS_NUM_THREADS": "1",  # as in forked ones: the last digits may hang on it
            "PYTHONHASHSEED": "0",
        }
        command = [sys.executable, "-P", "-m", "ipykernel", "-f", "{connection_file}"]
        command.append("--InteractiveShellApp.ignore_cwd=True")  # older ones do not heed -P
        spec = get_kernel_dict() | {"argv": command, "env": environment}
        if self._warm is not None:
            forked = {"kernel_provisioner": {"provisioner_name": PROVISIONER}}
            spec["metadata"] = spec.get("metadata", {}) | forked
        return KernelSpec(**spec)
