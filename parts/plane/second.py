"""A second kernel process: it builds half the models while the first builds the rest, then writes lists and cards.

A build is one plane on one core otherwise; the models take most of its time and half of them depend on nothing that the
other half makes. Solids come back through the kernel's own binary form.
"""

from __future__ import annotations

import contextlib
import multiprocessing as mp
import pickle
import queue
import threading
from multiprocessing.connection import Connection
from pathlib import Path
from typing import TYPE_CHECKING, Any

from shared.errors import GeometryError, PlanewrightError
from shared.loading import loading

if TYPE_CHECKING:
    from parts.plane.models import PlaneModels
    from parts.plane.worker import Job


class _Sender:
    """Sends what is told to it from a thread: a pipe takes little until the other side reads, and that may be late."""

    def __init__(self, pipe: Connection) -> None:
        self._pipe = pipe
        self._told: queue.SimpleQueue[bytes] = queue.SimpleQueue()
        threading.Thread(target=self._run, daemon=True).start()

    def tell(self, said: tuple[str, str, object]) -> None:
        """Send a message; what is in it may change afterwards."""
        self._told.put(pickle.dumps(said))

    def _run(self) -> None:
        with contextlib.suppress(OSError):  # the first process has given up
            while True:
                self._pipe.send_bytes(self._told.get())


def _serve(pipe: Connection) -> None:
    with loading():
        from parts.plane.build import second_half

    sender = _Sender(pipe)
    try:
        while (task := pipe.recv()) is not None:
            if isinstance(task, Path):
                continue  # models for a plane that has failed here
            try:
                job, work = task
                for said in second_half(job, work, lambda: _given(pipe)):
                    sender.tell(said)
                sender.tell(("end", "", None))
            except (PlanewrightError, OSError) as err:
                sender.tell(("failed", str(err), err))
    except (OSError, EOFError):
        return  # the first process has given up
    finally:
        pipe.close()


def _given(pipe: Connection) -> dict[str, Any]:
    """Return the models that the first process has put into a file; the pipe carries only its name."""
    path: Path = pipe.recv()
    with path.open("rb") as file:
        packed: dict[str, bytes] = pickle.load(file)
    path.unlink()
    return {name: pickle.loads(sent) for name, sent in packed.items()}


class Second:
    """The second process; started before the first one loads the kernel, so that both load it at the same time."""

    def __init__(self) -> None:
        self.notes: list[str] = []
        self._ended = False
        self._start()

    def _start(self) -> None:
        ctx = mp.get_context("spawn")
        self._pipe, theirs = ctx.Pipe(duplex=True)
        self._process = ctx.Process(target=_serve, args=(theirs,), daemon=True)
        self._process.start()
        theirs.close()

    def restart(self) -> None:
        """Begin afresh after a plane that failed: what the old process still sends belongs to no one."""
        self.stop()
        self._start()

    def begin(self, job: Job, work: Path) -> None:
        """Let it build its half of one plane into the folder that the first process has opened."""
        self.notes, self._ended = [], False
        self._pipe.send((job, work))

    def give(self, packed: dict[str, bytes], work: Path) -> None:
        """Give it models that this process has built.

        They go through a file: two processes that each wait for the other to read from a pipe would wait for ever.
        """
        path = work / ".given"
        with path.open("wb") as file:
            pickle.dump(packed, file)
        self._pipe.send(path)

    def collect(self, models: PlaneModels, names: list[str]) -> None:
        """Take over what it makes as it comes, until all that is asked for is there, or nothing more comes.

        Raises:
            GeometryError: a model could not be built, or the kernel crashed.
            PlanewrightError: as the second process met it.
        """
        missing = set(names)
        while missing and not self._ended:
            kind, name, value = self._next(f"one of {', '.join(sorted(missing))}")
            self._keep(kind, name, value, models)
            missing.discard(name)

    def _keep(self, kind: str, name: str, value: Any, models: PlaneModels | None) -> None:
        if kind == "made" and models is not None:
            models.take(name, value)
        elif kind == "note":
            self.notes.append(name)
        self._ended = kind == "end"

    def finish(self) -> None:
        """Wait until everything is written.

        Raises:
            PlanewrightError: as the second process met it.
        """
        while not self._ended:
            self._keep(*self._next("its papers"), None)

    def _next(self, what: str) -> tuple[str, str, Any]:
        try:
            kind, name, value = self._pipe.recv()
        except EOFError:
            self._process.join()
            code = self._process.exitcode
            raise GeometryError("second process", what, f"the CAD kernel crashed (exit {code})") from None
        if kind == "failed":
            raise value
        return kind, name, value

    def stop(self) -> None:
        """End the process, whatever it does."""
        self._process.kill()
        self._process.join(5)
        self._pipe.close()
