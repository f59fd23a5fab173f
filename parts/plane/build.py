"""Building one plane: models, papers, numbers, manifest, all into one folder that appears whole."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import partial
from importlib import metadata
from pathlib import Path
from typing import Any

from parts.plane import papers
from parts.plane.design import Design, design
from parts.plane.headline import headline
from parts.plane.models import Models, as_sent
from parts.plane.numbers import plane_numbers
from parts.plane.second import AHEAD, Second
from parts.plane.shop import load_shop
from parts.plane.solid_numbers import add_solid_numbers
from parts.plane.spec import load_spec
from parts.plane.worker import Job
from shared.cad.step import FIXED_STAMP
from shared.files import hashes, whole_folder, write_json
from shared.numbers import Numbers
from shared.version import VERSION

Say = Callable[[str, int, int], None]


@dataclass
class Run:
    """What the steps of one build share."""

    design: Design
    models: Models
    work: Path
    stamp: str
    rack: Path | None
    notes: list[str]
    numbers: dict[str, Numbers]

    def folder(self, name: str) -> Path:
        """Return a folder of the output, made when first asked for."""
        path = self.work / name
        path.mkdir(exist_ok=True)
        return path


@dataclass(frozen=True)
class Step:
    """One step of a build: what it is called, the part it belongs to, the heading its time is counted under.

    `second` steps depend on nothing else: a second process may do them.
    """

    label: str
    part: str
    heading: str
    do: Callable[[Run], None]
    second: bool = False


def stamp_of() -> str:
    """Return the time stamp written into files: SOURCE_DATE_EPOCH where set, else a fixed one; never the clock."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if epoch.isdigit():
        return datetime.fromtimestamp(int(epoch), UTC).strftime("%Y-%m-%dT%H:%M:%S")
    return FIXED_STAMP


def _all_numbers(run: Run) -> None:
    add_solid_numbers(run.design, run.models, run.numbers)
    write_json(run.work / "numbers.json", {part: n.as_json() for part, n in run.numbers.items()})


def _model(name: str) -> Callable[[Run], None]:
    """Return a step that asks for a model, so that it is built under its own name."""

    def build(run: Run) -> None:
        getattr(run.models, name)

    return build


STEPS = [
    Step("body casting", "body", "models", _model("body_casting")),
    Step("body", "body", "models", _model("body")),
    Step("body pattern", "body", "models", _model("body_pattern")),
    Step("frog casting", "frog", "models", _model("frog_casting")),
    Step("frog", "frog", "models", _model("frog")),
    Step("frog pattern", "frog", "models", _model("frog_pattern")),
    Step("blade", "blade", "models", _model("blade")),
    Step("chipbreaker", "chipbreaker", "models", _model("chipbreaker")),
    Step("tote", "tote", "models", _model("tote")),
    Step("knob", "knob", "models", _model("knob")),
    Step("lever cap", "lever-cap", "models", _model("lever_cap"), second=True),
    Step("small parts", "plane", "models", _model("hardware"), second=True),
    Step("STEP of the body", "body", "STEP", papers.body_step),
    Step("STEP of the blade", "blade", "STEP", papers.blade_step),
    Step("STEP of the chipbreaker", "chipbreaker", "STEP", papers.chipbreaker_step),
    Step("STEP of the tote", "tote", "STEP", papers.tote_step),
    Step("STEP of the knob", "knob", "STEP", papers.knob_step),
    Step("DXF of the body", "body", "DXF", papers.body_dxf),
    Step("DXF of the blade", "blade", "DXF", papers.blade_dxf),
    Step("DXF of the tote", "tote", "DXF", papers.tote_dxf),
    Step("DXF of the knob", "knob", "DXF", papers.knob_dxf),
    Step("STEP of the frog", "frog", "STEP", papers.frog_step),
    Step("STEP of the lever cap", "lever-cap", "STEP", papers.lever_cap_step, second=True),
    Step("lists and cards", "lists", "lists", papers.lists, second=True),
    Step("cut plan", "lists", "lists", papers.cut_plan, second=True),
    Step("STEP of the plane", "plane", "STEP", papers.plane_step),
    Step("numbers", "plane", "numbers", _all_numbers),
    Step("pictures", "plane", "pictures", papers.picture),
]


def second_half(job: Job, work: Path) -> Iterator[tuple[str, object]]:
    """Do the steps that a second process may do; yield each model that is built ahead, and each note.

    Args:
        job: the plane.
        work: the folder that the first process has opened.
    """
    d = design(load_spec(job.spec), load_shop(job.shop))
    run = Run(d, Models(d, settle=lambda made: made), work, stamp_of(), job.rack, [], {})
    sent: set[str] = set()
    for step in (s for s in STEPS if s.second):
        step.do(run)
        for name in AHEAD:
            if name in run.models.__dict__ and name not in sent:
                made = run.models.__dict__[name]
                sent.add(name)
                yield name, made
                # from here on this process works with what the other one has received
                run.models.take(name, as_sent(made))
    for note in run.notes:
        yield "note", note


def build_plane(job: Job, say: Say, second: Second | None = None) -> dict[str, Any]:
    """Build one plane into its folder.

    Args:
        job: which plane, where to.
        say: called with step name, steps done, steps in all.
        second: a process that builds half of it; None builds all of it here.

    Returns:
        A summary for the closing table: name, headline numbers, files, seconds by heading, notes.

    Raises:
        InputError, RequestError: as `design`.
        GeometryError: a model could not be built; says which part and step.
    """
    begin = time.perf_counter()
    d = design(load_spec(job.spec), load_shop(job.shop))
    steps = [s for s in STEPS if job.only is None or s.part == job.only]
    spent: dict[str, float] = {}
    with whole_folder(job.target, keep=job.only is not None) as work:
        run = Run(d, Models(d), work, stamp_of(), job.rack, [], plane_numbers(d))
        if second is not None:
            second.begin(job, work)
        _do(run, [s for s in steps if second is None or not s.second], second, say, spent)
        write_json(work / "manifest.json", manifest(d, work))
        files = sum(1 for p in work.rglob("*") if p.is_file())
    spent["all"] = time.perf_counter() - begin
    return {
        "name": d.spec.plane.name,
        "headline": headline(run.numbers, d.spec.units),
        "files": files,
        "time": spent,
        "notes": run.notes,
    }


def _do(run: Run, steps: list[Step], second: Second | None, say: Say, spent: dict[str, float]) -> None:
    def timed(label: str, heading: str, done: int, do: Callable[[], None]) -> None:
        say(label, done, len(steps))
        start = time.perf_counter()
        do()
        spent[heading] = spent.get(heading, 0.0) + time.perf_counter() - start

    collected = second is None
    for i, step in enumerate(steps):
        if not collected and second is not None and step.part == "plane":
            timed("models of the second process", "waiting", i, partial(second.collect, run.models))
            collected = True
        timed(step.label, step.heading, i, partial(step.do, run))
    if second is not None:
        timed("lists and cards", "waiting", len(steps), second.finish)
        run.notes += second.notes


def manifest(d: Design, work: Path) -> dict[str, Any]:
    """Return the manifest of a built folder: spec, versions, and the sha256 of every file but itself."""
    return {
        "plane": d.spec.plane.name,
        "revision": d.spec.plane.revision,
        "spec_sha256": d.loaded.source.sha256,
        "planewright": VERSION,
        "libraries": {name: metadata.version(name) for name in ("cadquery", "cadquery-ocp", "ezdxf", "numpy")},
        "files": hashes(work, leave_out=("manifest.json",)),
    }
