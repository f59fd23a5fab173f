# mypy: disable-error-code="valid-type"
"""What a spec says of the body."""

from shared.casting.alloy_field import CastAlloy
from shared.fields import Angle, Field, Length, Section


class BodySpec(Section):
    """The cast body."""

    alloy: CastAlloy = Field(description="a row of the alloy table that bodies are cast in")
    length: Length(150, 750) = Field(description="toe to heel, finished")
    width: Length(50, 100) = Field(description="over both cheeks, finished")
    sole_thickness: Length(5, 12) = Field(description="of the plate, finished")
    cheek_thickness: Length(3, 8) = Field(description="half way up; the draft thins it above")
    cheek_height: Length(30, 75) = Field(description="sole face to the highest point of the cheek")
    mouth_from_toe: Length(50, 300) = Field(description="toe end to the cutting edge")
    mouth_opening: Length(0.05, 3) = Field(description="the mouth's front to the edge, along the sole")
    mouth_side_clearance: Length(0.3, 2) | None = Field(None, description="slot wider than the blade, each side")
    mouth_front_angle: Angle(60, 90) | None = Field(None, description="front wall to the sole; leans forward")
    rail_height: Length(8, 30) | None = Field(None, description="height of the low rails at toe and heel")
    root_radius: Length(1.5, 6) | None = Field(None, description="inside radius, cheek to sole")
    corner_radius: Length(0, 20) | None = Field(None, description="plan radius of the four corners")
    parting_height: Length(-8, 60) | None = Field(
        None, description="parting plane above the finished sole face; default: the raw sole face (flat back)"
    )
