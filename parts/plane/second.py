"""A second kernel process: it builds half the models while the first builds the rest, then writes lists and cards.

A build is one plane on one core otherwise; the models take most of its time and half of them depend on nothing that the
other half makes. Solids come back through the kernel's own binary form.
"""

from __future__ import annotations

import multiprocessing as mp
from multiprocessing.connection import Connection
from pathlib import Path
from typing import TYPE_CHECKING, Any

from shared.errors import GeometryError, PlanewrightError

if TYPE_CHECKING:
    from parts.plane.models import PlaneModels
    from parts.plane.worker import Job


def _serve(pipe: Connection) -> None:
    from parts.plane.build import second_half

    try:
        while (task := pipe.recv()) is not None:
            try:
                for name, value in second_half(*task):
                    pipe.send(("made", name, value))
                pipe.send(("end", "", None))
            except PlanewrightError as err:
                pipe.send(("failed", str(err), err))
    except (BrokenPipeError, EOFError):
        return  # the first process has given up
    finally:
        pipe.close()


class Second:
    """The second process; started before the first one loads the kernel, so that both load it at the same time."""

    def __init__(self) -> None:
        self.notes: list[str] = []
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
        self.notes = []
        self._pipe.send((job, work))

    def collect(self, models: PlaneModels, ahead: tuple[str, ...]) -> None:
        """Take over the solids as they come, until all that are built ahead are there.

        Raises:
            GeometryError: a model could not be built, or the kernel crashed.
            PlanewrightError: as the second process met it.
        """
        missing = set(ahead)
        while missing:
            kind, name, value = self._next(f"one of {', '.join(sorted(missing))}")
            if kind == "made" and name in missing:
                models.take(name, value)
                missing.discard(name)

    def finish(self) -> None:
        """Wait until lists and cards are written.

        Raises:
            PlanewrightError: as the second process met it.
        """
        while True:
            kind, name, value = self._next("lists and cards")
            if kind == "end":
                return
            if name == "note":
                self.notes.append(value)

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
