# mypy: disable-error-code="valid-type"
"""What a spec says of a bevel-up plane's lever cap and adjuster; all of it has defaults."""

from shared.casting.alloy_field import CastAlloy
from shared.fields import Field, Length, Section

KNOB_LEAST = 14.0  # diameter of the clamp's knob that two fingers still turn [mm]; common practice, no source


class LowCapSpec(Section):
    """The lever cap: a cast plate on a stud, tightened by a screw with a round head."""

    alloy: CastAlloy | None = Field(None, description="default: the bronze of the works")
    knob_diameter: Length(KNOB_LEAST, 22) | None = Field(None, description="of the clamp screw's head; default 18 mm")


class AdjusterSpec(Section):
    """The depth adjuster: a wheel on a post under the blade, whose flange stands in one of the blade's cross slots."""

    slot_pitch: Length(3.5, 6) | None = Field(None, description="from cross slot to cross slot; default 4 mm")
    life: Length(8, 40) | None = Field(
        None, description="steel that can be sharpened away before the last cross slot is reached; default 16 mm"
    )
