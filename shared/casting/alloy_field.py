"""The spec field type that names the alloy of a cast part."""

from __future__ import annotations

from typing import Annotated

from pydantic_core import PydanticCustomError

from shared.casting.alloy import alloy, alloy_ids
from shared.section import After


def castable_alloys() -> list[str]:
    """Return the alloys that parts of a plane are cast in; the pattern metals are left out."""
    return [name for name in alloy_ids() if "casting" in alloy(name).uses]


def _castable(name: str) -> str:
    good = castable_alloys()
    if name not in good:
        raise PydanticCustomError("choice", "{allowed}", {"allowed": "one of " + ", ".join(good), "choices": good})
    return name


CastAlloy = Annotated[str, After(_castable, castable_alloys)]
