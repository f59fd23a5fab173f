# mypy: disable-error-code="valid-type"
"""What a spec says of the lever cap; all of it has defaults."""

from shared.casting.alloy_field import CastAlloy
from shared.fields import Field, Length, Section


class LeverCapSpec(Section):
    """The lever cap."""

    alloy: CastAlloy | None = Field(None, description="default: the bronze of the works")
    throw: Length(0.8, 2.0) | None = Field(None, description="rise of the cam from open to shut")
    spring_thickness: Length(0.6, 1.6) | None = Field(None, description="of the leaf that the cam presses")
