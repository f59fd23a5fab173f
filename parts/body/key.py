"""The key on the high frog pad: a straight way with round ends, in casting and finished body [mm]."""

from __future__ import annotations

from math import radians, tan

from parts.body.floor import Step, high_pad_raw, slope_angle, steps
from parts.body.size import BodySize
from shared.errors import GeometryError
from shared.profile import Profile
from shared.record import Record

ROOM = 0.3  # between the key's cast root and the rounding of the pad's end [mm]


class Key(Record):
    """Ends and heights of the key [mm]; its plan is a slot outline."""

    x0: float
    x1: float
    half: float
    z: float  # finished top
    root_z: float  # raw top of the pad that the cast key stands on
    raw_z: float
    grown: float  # the casting is wider than the finished key by this at root_z, each side and end

    def plan(self, more: float = 0.0) -> Profile:
        """Return the plan outline (x, y), larger by `more` [mm] all round."""
        r = self.half
        return Profile.slot((self.x0 + r, 0.0), (self.x1 - r, 0.0), 2 * (r + more), "frog key")


def _flat_from(size: BodySize, step: Step, z: float) -> float:
    """Return x where the pad's raw top becomes flat, at the end of the rounding of its edge [mm]."""
    angle = radians(slope_angle(size, step))
    sign = 1.0 if step.z1 > step.z0 else -1.0
    return step.x + sign * ((z - step.at) / tan(angle) + size.cast.edge_radius * tan(angle / 2))


def key(size: BodySize) -> Key:
    """Return the key, as long as the pad's flat top lets it be.

    Raises:
        GeometryError: it would be shorter than twice its width, or wider than the pad.
    """
    pad, cast = size.high_pad, size.cast
    raw = high_pad_raw(size)
    ends = [s for s in steps(size) if s.name == "high pad" and raw in (s.z0, s.z1)]
    grown = cast.pad + max(0.0, size.key_height - cast.pad) * tan(radians(cast.draft_inside))
    off = grown + cast.edge_radius + ROOM
    x0, x1 = _flat_from(size, ends[0], raw) + off, _flat_from(size, ends[1], raw) - off
    x0 = max(x0, pad.x0 + ROOM)
    if x1 - x0 < 4 * size.key_half or size.key_half + off > pad.half_width:
        raise GeometryError("body", "frog key", "the high pad is too small for it", length_mm=round(x1 - x0, 2),
                            pad_mm=round(pad.x1 - pad.x0, 2), least_mm=4 * size.key_half)  # fmt: skip
    top = pad.z + size.key_height
    return Key(x0, x1, size.key_half, top, raw, top + cast.pad, grown)
