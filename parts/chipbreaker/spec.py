# mypy: disable-error-code="valid-type"
"""What a spec says of the chipbreaker."""

from shared.fields import Angle, Field, Length, Section


class ChipbreakerSpec(Section):
    """The chipbreaker."""

    thickness: Length(1.5, 5) = Field(description="of its steel")
    setback: Length(0.05, 3) = Field(description="cutting edge to the chipbreaker's leading edge, along the face")
    edge_angle: Angle(25, 80) = Field(description="leading edge to the blade's face")
    gap: Length(0.2, 1.5) | None = Field(None, description="free gap under the spring bend")
