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

    species: Species
    grip: Length(75, 105) | None = None  # type: ignore[valid-type]
    hand: Group = "men"
    hand_percentile: Share(0.05, 0.99) = 0.95  # type: ignore[valid-type]
    grip_depth: Length(32, 40) | None = None  # type: ignore[valid-type]
    grip_width: Length(24, 28) | None = None  # type: ignore[valid-type]
    lean: Angle(6, 20) | None = None  # type: ignore[valid-type]
    horn_length: Length(8, 20) | None = None  # type: ignore[valid-type]
    foot_length: Length(85, 100) | None = None  # type: ignore[valid-type]
    foot_width: Length(22, 25) | None = None  # type: ignore[valid-type]
    toe_reach: Length(15, 30) | None = None  # type: ignore[valid-type]
    knob_height: Length(38, 45) | None = None  # type: ignore[valid-type]
    knob_diameter: Length(34, 42) | None = None  # type: ignore[valid-type]
    knob_waist: Length(20, 32) | None = None  # type: ignore[valid-type]


class SmallHandleSpec(HandleSpec):
    """Handles of a plane that may be held in one hand: the tote is asked for or not, the knob may be a finger rest."""

    tote: bool | None = Field(None, description="default: a tote on bodies of 230 mm (9 in) and more")
    knob_height: Length(14, 45) | None = None  # type: ignore[valid-type]
    knob_diameter: Length(24, 42) | None = None  # type: ignore[valid-type]
    knob_waist: Length(17, 32) | None = None  # type: ignore[valid-type]
