# mypy: disable-error-code="valid-type"
"""What a spec says of the blade."""

from typing import Literal

from shared.fields import Angle, Field, HardnessHRC, Length, Section, Temperature


class BladeSpec(Section):
    """The blade."""

    steel: Literal["A2", "O1", "D2", "M2", "W1", "52100"] = Field(description="a row of the steel table")
    width: Length(44, 80) = Field(description="across the edge")
    length: Length(150, 260) = Field(description="edge to upper end, as new")
    thickness: Length(2, 6) = Field(description="of the steel")
    bevel: Angle(15, 45) = Field(description="ground bevel to the face")
    micro_bevel: Angle(15, 50) | None = Field(None, description="honed bevel where it differs from the ground one")
    back_bevel: Angle(0, 25) = Field(0.0, description="bevel on the face side")
    camber: Length(0, 2) = Field(0.0, description="depth at the work across the width")
    skew: Angle(0, 40) = Field(0.0, description="edge normal to the travel")
    hardness: HardnessHRC(45, 68) = Field("62 HRC", validate_default=True, description="aimed at, after tempering")
    cold_treatment: Temperature(-273, 0) | None = Field(None, description="set point after hardening")
    wheel_diameter: Length(75, 500) | None = Field(None, description="grinding wheel of a hollow grind")
    slot_from_edge: Length(30, 80) | None = Field(None, description="new edge to the lower end of the slot")


class BevelUpBladeSpec(BladeSpec):
    """The blade of a bevel-up plane: shorter, and its bevel alone sets the cutting angle."""

    width: Length(30, 70) = Field(description="across the edge")
    length: Length(85, 220) = Field(description="edge to upper end, as new")
    thickness: Length(2.5, 5) = Field(description="of the steel")
    bevel: Angle(20, 60) = Field(description="ground bevel to the flat")
    micro_bevel: Angle(20, 65) | None = Field(None, description="honed bevel where it differs from the ground one")
    back_bevel: Angle(0, 10) = Field(0.0, description="bevel on the flat, which lies on the bed; it takes clearance")
    slot_from_edge: Length(18, 70) | None = Field(None, description="new edge to the lower end of the slot")
