# mypy: disable-error-code="valid-type"
"""The spec of a low-angle plane: the sections of its parts."""

from typing import Literal

from parts.blade.spec import BevelUpBladeSpec
from parts.body.low_angle.spec import LowBodySpec
from parts.handle.spec import SmallHandleSpec
from parts.low_angle.spec import AdjusterSpec, LowCapSpec
from parts.plane.spec import PlaneSection
from shared.fields import Angle, Field, Section

PARTS = ("body", "toe-piece", "blade", "lever-cap", "tote", "knob", "plane", "lists")


class LowAngleSection(PlaneSection):
    """What the plane is called."""

    kind: Literal["low-angle"] = Field(description="low-angle: bevel up on the body's own bed")


class LowBedSection(Section):
    """The bed."""

    angle: Angle(10, 25) = Field(12.0, description="bed to sole")


class LowAngleSpec(Section):
    """One low-angle plane, whole."""

    units: Literal["inch", "mm"] = Field(description="unit of bare lengths")
    plane: LowAngleSection
    body: LowBodySpec
    blade: BevelUpBladeSpec
    handle: SmallHandleSpec
    bed: LowBedSection = LowBedSection()
    lever_cap: LowCapSpec = LowCapSpec()
    adjuster: AdjusterSpec = AdjusterSpec()


Spec = LowAngleSpec
