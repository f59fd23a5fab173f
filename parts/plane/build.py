"""Building one plane: models, papers, numbers, manifest, all into one folder that appears whole."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from functools import partial
from importlib import metadata
from pathlib import Path
from typing import Any

from parts.plane import kinds
from parts.plane.built_folder import MANIFEST, built_names, carry_over, check_target, guests, taken_away
from parts.plane.design import Design, design
from parts.plane.headline import headline
from parts.plane.models import as_sent, models_of, settle_models
from parts.plane.numbers import plane_numbers
from parts.plane.run import Run, Step, stamp_of
from parts.plane.second import Second
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec
from parts.plane.worker import Job
from shared.files import hashes, whole_folder, write_json
from shared.version import VERSION

Say = Callable[[str, int, int], None]


def _wanted(steps: list[Step], job: Job) -> list[Step]:
    """Return the steps of a job, those that list all others' files at the end."""
    chosen = [s for s in steps if job.only in (None, s.part) and not (job.quick and s.paper)]
    if job.only is not None:
        chosen = [s for s in chosen if not s.last]
    return sorted(chosen, key=lambda s: s.last)


def second_half(job: Job, work: Path, given: Callable[[], dict[str, Any]]) -> Iterator[tuple[str, str, object]]:
    """Do the steps that a second process may do; yield each model that is built ahead, and each note.

    Args:
        job: the plane.
        work: the folder that the first process has opened.
        given: waits for the models that the first process has built.
    """
    d = design(load_spec(job.spec), load_shop(job.shop))
    run = Run(d, models_of(d, settle=lambda made: made), work, stamp_of(), job.rack, [], plane_numbers(d))
    sent: set[str] = set()
    plan = kinds.of(d.spec.plane.kind, "steps")
    waits = True
    for step in (s for s in _wanted(plan.STEPS, job) if s.second):
        if step.given and waits:
            waits = False
            for name, made in given().items():
                run.models.take(name, made)
        step.do(run)
        for name in plan.AHEAD:
            if name in run.models.__dict__ and name not in sent:
                made = run.models.__dict__[name]
                sent.add(name)
                yield "made", name, made
                # from here on this process works with what the other one has received
                run.models.take(name, as_sent(made))
    for note in run.notes:
        yield "note", note, None


def build_plane(job: Job, say: Say, second: Second | None = None) -> dict[str, Any]:
    """Build one plane into its folder.

    Args:
        job: which plane, where to.
        say: called with step name, steps done, steps in all.
        second: a process that builds half of it; None builds all of it here.

    Returns:
        A summary for the closing table: name, headline numbers, files, seconds by heading, notes.

    Raises:
        InputError: as `design`, or the folder holds what no build has made.
        RequestError: as `design`.
        GeometryError: a model could not be built; says which part and step.
    """
    begin = time.perf_counter()
    d = design(load_spec(job.spec), load_shop(job.shop))
    plan = kinds.of(d.spec.plane.kind, "steps")
    spent: dict[str, float] = {}
    check_target(job.target)
    with whole_folder(job.target, keep=job.only is not None) as work:
        before = built_names(job.target)
        for name in guests(job.target):
            (work / name).unlink(missing_ok=True)  # no file of this build: not in its manifest
        run = Run(d, models_of(d), work, stamp_of(), job.rack, [], plane_numbers(d))
        if second is not None:
            second.begin(job, work)
        _do(run, _wanted(plan.STEPS, job), plan.GIVEN, second, say, spent)
        if job.only is not None:
            run.notes.append(f"only {job.only}: packets, book, whole plane and other parts' papers were not redrawn")
        made = manifest(d, work)
        write_json(work / MANIFEST, made)
        names = {MANIFEST, *made["files"]}
        run.notes += taken_away(before, names, job.quick)
        carry_over(guests(job.target), job.target, work)  # as they are by now
    spent["all"] = time.perf_counter() - begin
    return {
        "name": d.spec.plane.name,
        "headline": headline(run.numbers, d.spec.units),
        "files": len(names),
        "time": spent,
        "notes": run.notes,
    }


def _do(
    run: Run, wanted: list[Step], gives: tuple[str, ...], second: Second | None, say: Say, spent: dict[str, float]
) -> None:
    steps = [s for s in wanted if second is None or not s.second]

    def timed(label: str, heading: str, done: int, do: Callable[[], object]) -> None:
        say(label, done, len(steps))
        start = time.perf_counter()
        do()
        spent[heading] = spent.get(heading, 0.0) + time.perf_counter() - start

    finished = second is None
    settled = False
    for i, step in enumerate(steps):
        if step.heading != "models" and not settled:
            packed = settle_models(run.models, gives)
            if second is not None and any(s.given for s in wanted):
                second.give(packed, run.work)
            settled = True
        missing = [n for n in step.needs if n not in run.models.__dict__]
        if second is not None and missing:
            timed("models of the second process", "waiting", i, partial(second.collect, run.models, missing))
        if second is not None and step.last and not finished:
            timed("the second process", "waiting", i, second.finish)
            run.notes += second.notes
            finished = True
        timed(step.label, step.heading, i, partial(step.do, run))
    if second is not None and not finished:
        timed("the second process", "waiting", len(steps), second.finish)
        run.notes += second.notes


def manifest(d: Design, work: Path) -> dict[str, Any]:
    """Return the manifest of a built folder: spec, versions, and the sha256 of every file but itself."""
    return {
        "plane": d.spec.plane.name,
        "revision": d.spec.plane.revision,
        "spec_sha256": d.loaded.source.sha256,
        "planewright": VERSION,
        "libraries": {name: metadata.version(name) for name in ("cadquery", "cadquery-ocp", "ezdxf", "numpy")},
        "files": hashes(work, leave_out=(MANIFEST,)),
    }
