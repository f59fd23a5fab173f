# mypy: disable-error-code="valid-type"
"""The whole spec of a plane: the sections of its parts, read from one TOML file."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Literal

from pydantic import AfterValidator, Field
from pydantic_core import PydanticCustomError

from parts.blade.spec import BladeSpec
from parts.body.spec import BodySpec
from parts.chipbreaker.spec import ChipbreakerSpec
from parts.frog.spec import FrogSpec
from parts.handle.spec import HandleSpec
from parts.lever_cap.spec import LeverCapSpec
from shared.fields import Angle, Section
from shared.specfile import SourceText, read_text, validate


def _plain_name(name: str) -> str:
    if not slug(name):
        allowed = "1 to 60 characters with at least one letter or digit"
        raise PydanticCustomError("quantity", "{allowed}", {"allowed": allowed})
    return name


def slug(name: str) -> str:
    """Return a plane's name as a folder name: lower case, letters and digits, hyphens between."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")


class PlaneSection(Section):
    """What the plane is called."""

    name: Annotated[str, Field(min_length=1, max_length=60), AfterValidator(_plain_name)]
    kind: Literal["bench"] = Field(description="bench: bevel down on a frog")
    revision: str = Field("A", min_length=1, max_length=8)
    description: str = ""


class BedSection(Section):
    """The bed."""

    angle: Angle(38, 60) = Field(description="bed to sole")


class PlaneSpec(Section):
    """One plane, whole."""

    units: Literal["inch", "mm"] = Field(description="unit of bare lengths")
    plane: PlaneSection
    body: BodySpec
    bed: BedSection
    blade: BladeSpec
    chipbreaker: ChipbreakerSpec
    handle: HandleSpec
    frog: FrogSpec = FrogSpec()
    lever_cap: LeverCapSpec = LeverCapSpec()


@dataclass(frozen=True, eq=False, repr=False)
class LoadedSpec:
    """A spec with the text it came from, so that a fault can name the line."""

    spec: PlaneSpec
    source: SourceText

    @property
    def folder(self) -> str:
        """Name of the plane's output folder."""
        return slug(self.spec.plane.name)


def load_spec(path: str | Path) -> LoadedSpec:
    """Read one plane.

    Raises:
        InputError: with one fault for each thing wrong in the file.
    """
    source = read_text(path)
    return LoadedSpec(validate(source, PlaneSpec), source)
