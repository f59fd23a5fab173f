"""The knob's solid: its half section, in lines and true arcs, turned about the rod's axis."""

from __future__ import annotations

import cadquery as cq

from parts.handle.outline import knob_section
from parts.handle.size import KnobSize
from shared.cad.solids import revolve


def knob_solid(size: KnobSize) -> cq.Solid:
    """Return the finished knob in its own frame (axis at the origin, foot plane at z = 0) [mm].

    Bore and both counterbores are part of the turned section, so nothing is cut afterwards.

    Raises:
        GeometryError: the section does not close, or the kernel gave no valid solid.
    """
    return revolve(knob_section(size), part="knob")
