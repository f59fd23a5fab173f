"""What the steps of one build share, and what a step is."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from parts.plane.design import Design
from parts.plane.models import PlaneModels
from parts.plane.solid_numbers import add_solid_numbers
from shared.book.content import SheetFile
from shared.cad.step import FIXED_STAMP
from shared.files import write_json
from shared.numbers import Numbers


@dataclass
class Run:
    """What the steps of one build share."""

    design: Design
    models: PlaneModels
    work: Path
    stamp: str
    rack: Path | None
    notes: list[str]
    numbers: dict[str, Numbers]
    drawn: dict[str, Any] = field(default_factory=dict)  # views of solids, projected once
    sheets: list[SheetFile] = field(default_factory=list)  # drawn so far, in the order of the set

    def folder(self, name: str) -> Path:
        """Return a folder of the output, made when first asked for."""
        path = self.work / name
        path.mkdir(exist_ok=True)
        return path


@dataclass(frozen=True)
class Step:
    """One step of a build: what it is called, the part it belongs to, the heading its time is counted under.

    Fields:
        second: a second process does it, where there is one.
        needs: models (names in `PlaneModels`) that come from the second process before this step can begin.
        given: done by the second process, with models that the first has to give it.
        paper: left out of a quick build.
        last: comes when everything else is there.
    """

    label: str
    part: str
    heading: str
    do: Callable[[Run], None]
    second: bool = False
    needs: tuple[str, ...] = ()
    given: bool = False
    paper: bool = False
    last: bool = False


def stamp_of() -> str:
    """Return the time stamp written into files: SOURCE_DATE_EPOCH where set, else a fixed one; never the clock."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if epoch.isdigit():
        return datetime.fromtimestamp(int(epoch), UTC).strftime("%Y-%m-%dT%H:%M:%S")
    return FIXED_STAMP


def all_numbers(run: Run) -> None:
    """Add what the models tell to the numbers, and write them."""
    add_solid_numbers(run.design, run.models, run.numbers)
    write_json(run.work / "numbers.json", {part: n.as_json() for part, n in run.numbers.items()})


def model(name: str) -> Callable[[Run], None]:
    """Return a step that asks for a model, so that it is built under its own name."""

    def build(run: Run) -> None:
        getattr(run.models, name)

    return build
