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
from shared.errors import EXIT_BAD_INPUT, EXIT_NO_MODEL, PlanewrightError


@dataclass(frozen=True)
class Job:
    """One plane to build; everything in it can be sent to another process."""

    name: str
    spec: Path
    shop: Path | None
    target: Path
    only: str | None = None
    rack: Path | None = None


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


def _work(jobs: list[Job], pipe: Connection) -> None:
    signal.signal(signal.SIGTERM, _leave_on_signal)
    second = Second() if jobs[0].only is None else None
    try:
        _build_all(jobs, pipe, second)
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
            pipe.send(("done", job, EXIT_BAD_INPUT, f"{job.target}: cannot be written: {err}", {}))
        if second is not None:
            second.restart()


@dataclass
class _Worker:
    process: Any
    pipe: Connection
    left: list[Job]
    step: str = "starting"


def _start(jobs: list[Job]) -> _Worker:
    ctx = mp.get_context("spawn")
    mine, theirs = ctx.Pipe(duplex=False)
    process = ctx.Process(target=_work, args=(jobs, theirs), daemon=False)
    process.start()
    theirs.close()
    return _Worker(process, mine, list(jobs))


def run_jobs(jobs: list[Job], workers: int, on_step: OnStep) -> list[Outcome]:
    """Build every job; a job that fails does not stop the others.

    Args:
        jobs: what to build.
        workers: processes side by side, 1 or more.
        on_step: called with job, step name, steps done, steps in all.

    Returns:
        One outcome a job, in the order of the jobs.
    """
    shares = [jobs[i::workers] for i in range(min(workers, len(jobs)))]
    running = [_start(share) for share in shares]
    outcomes: dict[str, Outcome] = {}
    try:
        while running:
            ready = wait([w.pipe for w in running])
            for worker in [w for w in running if w.pipe in ready]:
                _listen(worker, running, outcomes, on_step)
    finally:
        for worker in running:
            worker.process.terminate()
            worker.process.join(5)
    return [outcomes[job.name] for job in jobs]


def _listen(worker: _Worker, running: list[_Worker], outcomes: dict[str, Outcome], on_step: OnStep) -> None:
    try:
        message = worker.pipe.recv()
    except EOFError:
        running.remove(worker)
        worker.process.join()
        if worker.left:
            job = worker.left.pop(0)
            reason = f"the CAD kernel crashed (exit {worker.process.exitcode}) in step '{worker.step}'"
            outcomes[job.name] = Outcome(job, EXIT_NO_MODEL, f"{job.name}: {reason}; nothing was written")
            _clean(job)
            if worker.left:
                running.append(_start(worker.left))
        return
    if message[0] == "step":
        _, job, step, done, total = message
        worker.step = step
        on_step(job, step, done, total)
        return
    _, job, code, text, summary = message
    worker.left.pop(0)
    outcomes[job.name] = Outcome(job, code, text, summary)


def _clean(job: Job) -> None:
    from shared.files import sweep_partials

    with contextlib.suppress(OSError):
        sweep_partials(job.target.parent, job.target.name)
