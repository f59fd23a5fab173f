"""Building planes in a process of its own, so that a crash of the CAD kernel cannot take the program down.

Always `spawn`: a fork after kernel work hangs for ever.
"""

from __future__ import annotations

import contextlib
import multiprocessing as mp
import signal
from collections.abc import Callable
from dataclasses import dataclass, field
from multiprocessing.connection import Connection, wait
from pathlib import Path
from typing import Any

from parts.plane.second import Second
from shared.errors import EXIT_BAD_INPUT, EXIT_NO_MODEL, PlanewrightError, in_words
from shared.loading import loading


@dataclass(frozen=True)
class Job:
    """One plane to build; everything in it can be sent to another process."""

    name: str
    spec: Path
    shop: Path | None
    target: Path
    only: str | None = None
    rack: Path | None = None
    quick: bool = False


@dataclass
class Outcome:
    """What became of one job."""

    job: Job
    exit_code: int
    message: str = ""
    summary: dict[str, Any] = field(default_factory=dict)


OnStep = Callable[[Job, str, int, int], None]


def _leave_on_signal(*_: object) -> None:
    raise SystemExit(EXIT_NO_MODEL)


def _work(pipe: Connection, whole: bool) -> None:
    signal.signal(signal.SIGTERM, _leave_on_signal)
    # both processes load the kernel at the same time, while the specs are still being read
    second = Second() if whole else None
    try:
        with loading():
            import parts.plane.build  # noqa: F401  loaded ahead of the first job

        jobs: list[Job] = pipe.recv()
        _build_all(jobs, pipe, second)
    except EOFError:
        return  # no job came: a spec was refused
    finally:
        if second is not None:
            second.stop()
    pipe.close()


def _build_all(jobs: list[Job], pipe: Connection, second: Second | None) -> None:
    from parts.plane.build import build_plane

    for job in jobs:

        def say(step: str, done: int, total: int, job: Job = job) -> None:
            pipe.send(("step", job, step, done, total))

        say("starting", 0, 1)
        try:
            summary = build_plane(job, say, second)
            pipe.send(("done", job, 0, "", summary))
            continue
        except PlanewrightError as err:
            pipe.send(("done", job, err.exit_code, str(err), {}))
        except OSError as err:
            pipe.send(("done", job, EXIT_BAD_INPUT, f"{job.target}: cannot be written: {in_words(err)}", {}))
        if second is not None:
            second.restart()


@dataclass
class _Worker:
    process: Any
    pipe: Connection
    left: list[Job] = field(default_factory=list)
    step: str = "starting"

    def give(self, jobs: list[Job]) -> None:
        """Send it its jobs."""
        self.left = list(jobs)
        self.pipe.send(self.left)

    def end(self) -> None:
        """End it; a second process of its own ends by itself when nobody listens any more."""
        self.process.kill()
        self.process.join(5)
        self.pipe.close()


def _start(whole: bool) -> _Worker:
    ctx = mp.get_context("spawn")
    mine, theirs = ctx.Pipe(duplex=True)
    process = ctx.Process(target=_work, args=(theirs, whole), daemon=False)
    process.start()
    theirs.close()
    return _Worker(process, mine)


class Workshop:
    """Processes that build planes, started before it is known what they will build."""

    def __init__(self, workers: int, whole: bool) -> None:
        """Start them.

        Args:
            workers: processes side by side, 1 or more.
            whole: whole planes are built, not single parts: each process gets a second one.
        """
        self._whole = whole
        self._idle = [_start(whole) for _ in range(workers)]
        self._running: list[_Worker] = []

    def run(self, jobs: list[Job], on_step: OnStep) -> list[Outcome]:
        """Build every job; a job that fails does not stop the others.

        Args:
            jobs: what to build.
            on_step: called with job, step name, steps done, steps in all.

        Returns:
            One outcome a job, in the order of the jobs.
        """
        count = min(len(self._idle), len(jobs))
        self._running = self._idle[:count]
        self._idle = self._idle[count:]
        for i, worker in enumerate(self._running):
            worker.give(jobs[i::count])
        outcomes: dict[str, Outcome] = {}
        while self._running:
            ready = wait([w.pipe for w in self._running])
            for worker in [w for w in self._running if w.pipe in ready]:
                self._listen(worker, outcomes, on_step)
        return [outcomes[job.name] for job in jobs]

    def close(self) -> None:
        """End every process that is still there; one that is building cleans up first."""
        for worker in self._running:
            worker.process.terminate()
            worker.process.join(5)
        for worker in self._running + self._idle:
            worker.end()

    def _listen(self, worker: _Worker, outcomes: dict[str, Outcome], on_step: OnStep) -> None:
        try:
            message = worker.pipe.recv()
        except EOFError:
            self._running.remove(worker)
            worker.process.join()
            job = worker.left.pop(0)
            reason = f"the CAD kernel crashed (exit {worker.process.exitcode}) in step '{worker.step}'"
            outcomes[job.name] = Outcome(job, EXIT_NO_MODEL, f"{job.name}: {reason}; nothing was written")
            _clean(job)
            if worker.left:
                fresh = _start(self._whole)
                fresh.give(worker.left)
                self._running.append(fresh)
            return
        if message[0] == "step":
            _, job, step, done, total = message
            worker.step = step
            on_step(job, step, done, total)
            return
        _, job, code, text, summary = message
        worker.left.pop(0)
        outcomes[job.name] = Outcome(job, code, text, summary)
        if not worker.left:
            self._running.remove(worker)
            worker.end()


def _clean(job: Job) -> None:
    from shared.files import sweep_partials

    with contextlib.suppress(OSError):
        sweep_partials(job.target.parent, job.target.name)
