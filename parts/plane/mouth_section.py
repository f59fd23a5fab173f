"""What stands about the mouth of a plane in its middle plane: corners (x, z) [mm] of each part's section.

The parts are those of the body's and the frog's sheets; they run on past what a picture of the mouth shows.
"""

from __future__ import annotations

from math import radians, tan
from typing import TYPE_CHECKING, cast

from parts.body.low_angle.block import throat
from parts.body.low_angle.size import LowBodySize
from parts.body.outline import mouth_at
from parts.body.size import BodySize
from parts.frog.size import FrogSize
from parts.plane.design import Design

if TYPE_CHECKING:
    from parts.plane.bench.design import BenchDesign

Outline = list[tuple[float, float]]


def mouth_section(d: Design) -> list[Outline]:
    """Return the metal ahead of the mouth and under the blade, one outline a part."""
    body = d.body
    if isinstance(body, LowBodySize):
        return _low_angle(body)
    return _bench(body, cast("BenchDesign", d).mechanism.frog)


def _bench(size: BodySize, frog: FrogSize) -> list[Outline]:
    s, low, high = size.sole, size.low_pad, size.high_pad
    (front, wall), (front_top, _), (_, seat) = mouth_at(size, 0.0), mouth_at(size, s), mouth_at(size, low.z)
    ahead = [(size.toe_x, 0.0), (front, 0.0), (front_top, s), (size.toe_x, s)]
    behind = [(wall, 0.0), (seat, low.z), (high.x0, low.z), (high.x0, high.z), (high.x1, high.z), (high.x1, 0.0)]
    return [ahead, behind, frog.outline()]


def _low_angle(size: LowBodySize) -> list[Outline]:
    s, land, way = size.sole, size.ramp_to, size.toe_way
    behind = [(size.bed_from, 0.0), (size.bed_from, size.feather), (land, size.bed_z(land)), (land, s),
              (size.heel_x, s), (size.heel_x, 0.0)]  # fmt: skip
    low = 0.0 if way is None else way.ledge_z
    ahead = [(size.toe_x, low), (throat(size, low), low), (throat(size, s), s), (size.toe_x, s)]
    if way is None:
        return [ahead, behind]
    lean, edge = low / tan(radians(size.mouth_front_angle)), -size.mouth_opening
    piece = [(way.toe_end, 0.0), (edge, 0.0), (edge - lean, low), (way.toe_end, low)]
    return [ahead, piece, behind]
