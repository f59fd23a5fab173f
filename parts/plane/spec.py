# mypy: disable-error-code="valid-type"
"""A plane's spec as read from its TOML file: which kind it is decides which sections it has."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Any, Generic, TypeVar

from pydantic_core import PydanticCustomError

from parts.plane import kinds
from shared.errors import InputError
from shared.fields import Field, Section
from shared.section import After
from shared.specfile import SourceText, read_text, validate

S = TypeVar("S", bound=Section)


def _plain_name(name: str) -> str:
    if not slug(name):
        allowed = "1 to 60 characters with at least one letter or digit"
        raise PydanticCustomError("quantity", "{allowed}", {"allowed": allowed})
    return name


def slug(name: str) -> str:
    """Return a plane's name as a folder name: lower case, letters and digits, hyphens between."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")


class PlaneSection(Section):
    """What the plane is called; each kind adds its `kind`."""

    name: Annotated[str, After(_plain_name)] = Field(
        min_length=1, max_length=60, description="what the plane is called"
    )
    revision: str = Field("A", min_length=1, max_length=8, description="of the papers")
    description: str = Field("", description="a line for title blocks and the book")


@dataclass(frozen=True, eq=False, repr=False)
class LoadedSpec(Generic[S]):
    """A spec with the text it came from, so that a fault can name the line."""

    spec: S
    source: SourceText

    @property
    def folder(self) -> str:
        """Name of the plane's output folder."""
        return slug(self.spec.plane.name)  # type: ignore[attr-defined]


def _kind(source: SourceText) -> str:
    """Return the kind asked for; the first kind where none is said, so that its sections tell what is missing."""
    table = source.data.get("plane")
    kind = table.get("kind") if isinstance(table, dict) else None
    if kind is None:
        return next(iter(kinds.KINDS))
    if kind not in kinds.KINDS:
        near = difflib.get_close_matches(str(kind), kinds.KINDS, 1, 0.4)
        allowed = "one of " + ", ".join(kinds.KINDS)
        raise InputError(source.fault("plane.kind", allowed, f"did you mean {near[0]}?" if near else ""))
    return str(kind)


def load_spec(path: str | Path) -> LoadedSpec[Any]:
    """Read one plane.

    Raises:
        InputError: with one fault for each thing wrong in the file.
    """
    return spec_of(read_text(path))


def spec_of(source: SourceText) -> LoadedSpec[Any]:
    """Turn a plane's TOML, as read, into its spec.

    Raises:
        InputError: with one fault for each thing wrong in it.
    """
    model = kinds.of(_kind(source), "spec").Spec
    return LoadedSpec(validate(source, model), source)
