"""Castings in stock, judged by the models: does the finished part of the new plane lie inside the old casting?"""

from __future__ import annotations

import cadquery as cq

from parts.plane.design import Design
from parts.plane.models import models_of
from shared.cad.cover import outside

CAST = ("body", "frog")  # every kind has a body; those with a frog have its models too
NOTHING = 0.01  # mm3 that rounding may leave outside


def outside_old_casting(old: Design, new: Design, parts: list[str]) -> dict[str, float]:
    """Return for each cast part that changed the volume of the new finished part outside the old casting [mm3].

    The bodies are laid edge on edge and, in height, with the inner faces of their plates level: these stay as cast.

    Args:
        old: the plane that the castings were made for.
        new: the plane as it will be, of the same kind.
        parts: the parts that changed; no other is looked at.

    Raises:
        GeometryError: a model could not be built.
    """
    before, after = models_of(old), models_of(new)
    found = {}
    for part in CAST:
        if part not in parts:
            continue
        raised = old.body.sole - new.body.sole if part == "body" else 0.0
        finished: cq.Solid = getattr(after, part).moved(cq.Location((0.0, 0.0, raised)))
        found[part] = outside(finished, getattr(before, f"{part}_casting")).mm3
    return found
