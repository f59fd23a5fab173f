# mypy: disable-error-code="valid-type"
"""What a spec says of a low-angle body."""

from shared.casting.alloy_field import CastAlloy
from shared.fields import Angle, Field, Length, Section

FEATHER_LEAST = 0.8  # [mm]; a thinner edge behind the mouth chips and burrs; common practice, no source


class ToePieceSpec(Section):
    """The sliding toe piece that sets the mouth; the table may be empty."""

    opening_most: Length(1, 6) = Field(3.0, description="widest mouth, with the toe piece right ahead")
    thickness: Length(2.5, 6) | None = Field(None, description="of its plate; the ledges' height above the sole face")


class LowBodySpec(Section):
    """The cast body of a low-angle plane."""

    alloy: CastAlloy = Field(description="a row of the alloy table that bodies are cast in")
    length: Length(120, 450) = Field(description="toe to heel, finished")
    width: Length(44, 80) = Field(description="over both cheeks, finished")
    sole_thickness: Length(4.5, 10) = Field(description="of the plate, finished")
    cheek_thickness: Length(3, 8) = Field(description="half way up; the draft thins it above")
    cheek_height: Length(22, 60) = Field(description="sole face to the highest point of the cheek")
    mouth_from_toe: Length(30, 160) = Field(description="toe end to the cutting edge")
    mouth_opening: Length(0.05, 3) = Field(description="with a toe piece: the opening that the sheets show")
    mouth_side_clearance: Length(0.3, 2) | None = Field(None, description="slot wider than the blade, each side")
    mouth_front_angle: Angle(60, 90) | None = Field(None, description="front wall to the sole; leans forward")
    feather: Length(FEATHER_LEAST, 3) = Field(
        FEATHER_LEAST, description="metal left at the bed's lower end behind the mouth: height of its upright land"
    )
    toe_piece: ToePieceSpec | None = Field(None, description="sliding toe piece; without it the mouth is fixed")
    grip_hollows: bool | None = Field(None, description="hollows for thumb and finger; default: without a tote")
    rail_height: Length(8, 40) | None = Field(None, description="height of the low rails at toe and heel")
    root_radius: Length(1.5, 6) | None = Field(None, description="inside radius, cheek to sole")
    corner_radius: Length(0, 20) | None = Field(None, description="plan radius of the four corners")
    parting_height: Length(-8, 60) | None = Field(
        None, description="parting plane above the finished sole face; default: the raw sole face (flat back)"
    )
