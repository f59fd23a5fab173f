"""Lever cap, stud, clamp and depth adjuster as solids, seated in the plane's frame, at any setting."""

from __future__ import annotations

import cadquery as cq

from parts.low_angle import outline
from parts.low_angle.cap import cap_finished
from parts.low_angle.setting import NOMINAL, Setting
from parts.low_angle.size import AdjusterSize, LowCapSize
from shared.cad.slope import Slope, cylinder, on_bed
from shared.cad.solids import one_valid_solid, revolve
from shared.cad.turned import RUNNING, headed_screw, shank_outline
from shared.profile import Pen, Profile

Named = tuple[str, cq.Solid]
UP = (0.0, 0.0, 1.0)
EDGES = (0.3, 0.3, 0.6, 1.2)  # radii on the depth wheel: both edges of the flange, front and back of the rim
RECESS = (2.6, 3.6, 1.0)  # hollow of the wheel's end: under the rim's radius at the face and at the floor, depth
FLUTES = (10, 1.6, 0.6)  # round the depth wheel's rim: count, radius, depth


def moved_with_blade(solid: cq.Solid, bed_angle: float, pivot_at: float, setting: Setting) -> cq.Solid:
    """Return the blade as the adjusters leave it: turned on the bed about s = `pivot_at` [mm], then moved along it."""
    at = Slope(bed_angle, 0.0)
    pivot = at.point(pivot_at)
    end = (cq.Vector(*pivot) + cq.Vector(*at.outward)).toTuple()
    return solid.rotate(pivot, end, setting.lateral).translate(cq.Vector(*at.up) * setting.blade_travel)


def lever_cap_parts(size: LowCapSize, bed_angle: float, casting: cq.Solid) -> list[Named]:
    """Return cap, clamp screw, clamp foot and stud, tightened, in the plane's frame.

    Args:
        size: resolved sizes [mm, deg].
        bed_angle: bed to sole [deg].
        casting: the cap's casting, in the bed frame.

    Raises:
        GeometryError: a step could not be built.
    """
    flat = [
        ("lever cap", cap_finished(size, casting)),
        ("clamp screw", clamp_screw(size)),
        ("clamp foot", clamp_foot(size)),
        ("lever-cap stud", stud(size)),
    ]
    return [(name, on_bed(solid, bed_angle)) for name, solid in flat]


def clamp_screw(size: LowCapSize) -> cq.Solid:
    """Return the clamp screw with its fluted, domed knob, in the bed frame."""
    foot = (size.clamp.at, 0.0, size.underside_q)
    turned = revolve(outline.knob_section(size), foot, UP, part="clamp screw")
    low = size.underside_q + size.end_plate + size.clamp.knob_gap
    flutes = []
    for angle, distance, radius in outline.knob_flutes(size):
        x, y = outline.at_angle(distance, angle)
        start = (size.clamp.at + x, y, low - 1.0)
        flutes.append(cylinder(start, UP, 2 * radius, size.clamp.knob_height + 2.0, "clamp screw"))
    return one_valid_solid(turned.cut(*flutes), "clamp screw", "flutes")


def clamp_foot(size: LowCapSize) -> cq.Solid:
    """Return the clamp's foot on the blade, in the bed frame."""
    return revolve(outline.foot_section(size), (size.clamp.at, 0.0, size.blade_top), UP, part="clamp foot")


def stud(size: LowCapSize) -> cq.Solid:
    """Return the stud in the bed, in the bed frame."""
    s = size.stud
    seat = (s.at, 0.0, size.head_q)
    head = (s.head_diameter, s.head_height)
    return headed_screw("lever-cap stud", s.thread, s.length, head, seat, (0.0, 0.0, -1.0), s.engaged)


def adjuster_parts(size: AdjusterSize, bed_angle: float, setting: Setting = NOMINAL) -> list[Named]:
    """Return depth post and depth wheel in the plane's frame; the wheel goes where the blade goes.

    Raises:
        GeometryError: a step could not be built.
    """
    at = Slope(bed_angle, 0.0)
    post = revolve(shank_outline(size.thread, size.post_to - size.post_from, size.post_engaged),
                   at.point(size.post_from, size.axis_h), at.up, part="depth post")  # fmt: skip
    return [("depth post", post), ("depth wheel", _wheel(size, at, setting.blade_travel))]


def sleeve_fillet(size: AdjusterSize) -> float:
    """Return the radius between the wheel's sleeve and its rim [mm]."""
    return min(1.0, 0.4 * (size.rim_radius - size.sleeve_radius))


def wheel_section(size: AdjusterSize) -> Profile:
    """Return half the wheel's section (radius, length along the bed from the flange's face) [mm]."""
    start = size.at - size.flange_thickness / 2
    bore = size.thread.major / 2 + RUNNING / 2
    t, sleeve, flange, rim = size.flange_thickness, size.sleeve_radius, size.flange_radius, size.rim_radius
    deep, r0, r1 = size.bore_to - start, size.rim_from - start, size.rim_to - start
    path = Pen.at(bore, 0.0, "depth wheel").line_to(flange, 0.0, corner=EDGES[0])
    path = path.line_to(flange, t, corner=EDGES[1])
    path = path.line_to(sleeve, t).line_to(sleeve, r0 - 0.2, corner=sleeve_fillet(size))
    path = path.line_to(rim, r0, corner=EDGES[2]).line_to(rim, r1, corner=EDGES[3])
    lip, floor, hollow = RECESS
    path = path.line_to(rim - lip, r1, corner=0.5).line_to(rim - floor, r1 - hollow).line_to(0.0, r1 - hollow)
    return path.line_to(0.0, deep).line_to(bore, deep).close()


def _wheel(size: AdjusterSize, at: Slope, travel: float) -> cq.Solid:
    start = size.at - size.flange_thickness / 2 + travel
    turned = revolve(wheel_section(size), at.point(start, size.axis_h), at.up, part="depth wheel")
    count, radius, deep = FLUTES
    foot, length = size.rim_from + travel + 0.9, size.rim_to - size.rim_from + 1.0
    flutes = []
    for i in range(count):
        h, y = outline.at_angle(size.rim_radius + radius - deep, 360.0 * i / count)
        flutes.append(cylinder(at.point(foot, size.axis_h + h, y), at.up, 2 * radius, length, "depth wheel"))
    return one_valid_solid(turned.cut(*flutes), "depth wheel", "flutes")
