# mypy: disable-error-code="valid-type"
"""The spec of a bench plane: the sections of its parts."""

from typing import Literal

from parts.blade.spec import BladeSpec
from parts.body.spec import BodySpec
from parts.chipbreaker.spec import ChipbreakerSpec
from parts.frog.spec import FrogSpec
from parts.handle.spec import HandleSpec
from parts.lever_cap.spec import LeverCapSpec
from parts.plane.spec import PlaneSection
from shared.fields import Angle, Field, Section

PARTS = ("body", "frog", "blade", "chipbreaker", "lever-cap", "tote", "knob", "plane", "lists")


class BenchSection(PlaneSection):
    """What the plane is called."""

    kind: Literal["bench"] = Field(description="bench: bevel down on a frog")


class BedSection(Section):
    """The bed."""

    angle: Angle(38, 60) = Field(description="bed to sole")


class BenchSpec(Section):
    """One bench plane, whole."""

    units: Literal["inch", "mm"] = Field(description="unit of bare lengths")
    plane: BenchSection
    body: BodySpec
    bed: BedSection
    blade: BladeSpec
    chipbreaker: ChipbreakerSpec
    handle: HandleSpec
    frog: FrogSpec = FrogSpec()
    lever_cap: LeverCapSpec = LeverCapSpec()


Spec = BenchSpec
