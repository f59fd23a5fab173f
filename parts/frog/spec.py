# mypy: disable-error-code="valid-type"
"""What a spec says of the frog; all of it has defaults."""

from shared.casting.alloy_field import CastAlloy
from shared.fields import Field, Length, Section


class FrogSpec(Section):
    """The frog."""

    alloy: CastAlloy | None = Field(None, description="default: the body's alloy")
    bed_margin: Length(0.5, 4) | None = Field(None, description="bed face narrower than the blade, each side")
    travel: Length(0.5, 3) | None = Field(None, description="adjustment along the sole, each way")
