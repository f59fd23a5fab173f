# mypy: disable-error-code="valid-type"
"""The `[handle]` section of a spec. The hand decides these sizes, never the plane's length."""

from typing import Literal

from parts.handle.hand import Group
from shared.fields import Angle, Field, Length, Section, Share

Species = Literal["black-cherry", "sugar-maple", "black-walnut", "american-beech", "white-oak", "yellow-birch"]


class HandleSpec(Section):
    """Tote and knob: species, and any dimension a designer wants other than the proportion rules give.

    A dimension that is left out (None) follows from the grip by the rules in `parts.handle.size`; the grip
    itself, when left out, follows from the hand.
    """

    species: Species = Field(description="a row of the wood table")
    grip: Length(75, 105) | None = Field(
        None, description="clear height for the hand, along the rod; default: by the hand"
    )  # type: ignore[valid-type]
    hand: Group = Field("men", description="whose hands the grip is made for, of the survey")
    hand_percentile: Share(0.05, 0.99) = Field(0.95, description="share of those hands that fit")  # type: ignore[valid-type]
    grip_depth: Length(32, 40) | None = Field(None, description="fore and aft at mid-grip, square to the rod")  # type: ignore[valid-type]
    grip_width: Length(24, 28) | None = Field(None, description="across, at mid-grip")  # type: ignore[valid-type]
    lean: Angle(6, 20) | None = Field(None, description="of rod and spine, forward as they rise")  # type: ignore[valid-type]
    horn_length: Length(8, 20) | None = Field(None, description="reach of the horn aft of the waist below it")  # type: ignore[valid-type]
    foot_length: Length(85, 100) | None = Field(None, description="length of the tote's foot")  # type: ignore[valid-type]
    foot_width: Length(22, 25) | None = Field(None, description="thickness of the tote's foot")  # type: ignore[valid-type]
    toe_reach: Length(15, 30) | None = Field(None, description="foot ahead of the grip's front")  # type: ignore[valid-type]
    knob_height: Length(38, 45) | None = Field(None, description="knob over its foot plane")  # type: ignore[valid-type]
    knob_diameter: Length(34, 42) | None = Field(None, description="its greatest diameter")  # type: ignore[valid-type]
    knob_waist: Length(20, 32) | None = Field(None, description="its least diameter")  # type: ignore[valid-type]


class SmallHandleSpec(HandleSpec):
    """Handles of a plane that may be held in one hand: the tote is asked for or not, the knob may be a finger rest."""

    tote: bool | None = Field(None, description="default: a tote on bodies of 230 mm (9 in) and more")
    knob_height: Length(14, 45) | None = Field(None, description="knob over its foot plane")  # type: ignore[valid-type]
    knob_diameter: Length(24, 42) | None = Field(None, description="its greatest diameter")  # type: ignore[valid-type]
    knob_waist: Length(17, 32) | None = Field(None, description="its least diameter")  # type: ignore[valid-type]
