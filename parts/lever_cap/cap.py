"""The cap itself, in the blade frame (x = s, y, z = q): the casting by construction, then the cuts of the machine shop.

The casting is drawn along q. Its parting plane is q = `underside_q`: the body lies in the cope, the nose in the drag.
"""

from __future__ import annotations

from math import cos, radians, sin, tan

import cadquery as cq

from parts.lever_cap import outline
from parts.lever_cap.size import LeverCapSize
from shared.cad.edges import chamfer_named, fillet_named
from shared.cad.machining import machined
from shared.cad.solids import (
    Frame,
    extrude,
    extrude_both,
    extrude_in,
    one_valid_solid,
    revolve,
    taper_extrude,
)
from shared.errors import GeometryError
from shared.profile import Pen, Profile

PART = "lever cap"
RIM = outline.CAP_RIM
ARRIS = 0.4
_FAR = 60.0


def cap_casting(size: LeverCapSize) -> cq.Solid:
    """Return the cap's raw casting: stock on nose land, nose front, head seat, lever slot, window and stop.

    Holes are cast solid; the cam's window is cast unless it would be smaller than the least cast opening.

    Args:
        size: resolved sizes [mm, deg].

    Raises:
        GeometryError: a step could not be built.
    """
    u = size.underside_q
    top = size.pivot_q + size.ear_radius + 1.0 - u
    strip = extrude_both(outline.cap_section(size, size.nose_stock), "y", 2 * size.width, part=PART)
    plan = outline.cap_plan(size)
    cope = taper_extrude(plan, "z", u, size.outside_draft, up=top, part=PART)
    cope = one_valid_solid(strip.intersect(cope), PART, "body in the cope")
    # rounded before the nose is joined, so that the rounding ends on the parting plane
    cope = fillet_named(cope, PART, "round the rim", _rim(cope, size), RIM)
    drag = taper_extrude(plan, "z", u, size.outside_draft, down=u + 1.0, part=PART)
    drag = one_valid_solid(strip.intersect(drag), PART, "nose in the drag")
    body = one_valid_solid(cope.fuse(drag), PART, "both halves")
    if outline.window_cast_open(size):
        body = one_valid_solid(body.cut(_cast_window(size)), PART, "cast window")
    return one_valid_solid(body.cut(_cast_slot(size)), PART, "cast slot")


def _rim(body: cq.Solid, size: LeverCapSize) -> list[cq.Edge]:
    """Pick the edges between the drafted walls and the top: all above the parting plane that do not run across."""
    u, out = size.underside_q, []
    for e in body.Edges():
        a, m, z = e.startPoint(), e.positionAt(0.5), e.endPoint()
        if min(a.z, m.z, z.z) < u + 1e-3 or (abs(a.y + z.y) < 1e-6 < abs(a.y - z.y) and abs(m.y) < 1e-6):
            continue
        out.append(e)
    if not out:
        raise GeometryError(PART, "round the rim", "no edge of the rim was found")
    return out


def _cast_window(size: LeverCapSize) -> cq.Solid:
    """Return the sand that leaves the window open: narrowest at the parting plane, wider upward by the draft."""
    u, tall = size.underside_q, size.pivot_q + size.ear_radius + 2.0 - size.underside_q
    grow = tall * tan(radians(size.inside_draft))
    upper = outline.window(size, outline.window_inset(size) - grow)
    sand = taper_extrude(upper, "z", u + tall, size.inside_draft, down=tall, part=PART)
    below = extrude(outline.window(size, outline.window_inset(size)), "z", u - 1.0, u + 0.5, part=PART)
    return one_valid_solid(sand.fuse(below), PART, "cast window")


def _slot_section(size: LeverCapSize, floor: float, half: float, top: float) -> Profile:
    wide = half + (top - floor) * tan(radians(size.inside_draft))
    return Profile.polygon([(-half, floor), (half, floor), (wide, top), (-wide, top)], (1.5, 1.5, 0, 0), "cast slot")


def _cast_slot(size: LeverCapSize) -> cq.Solid:
    """Return the sand between the ears, down to the stop's stock, with drafted sides and a drafted fore end."""
    floor, top = size.stop_q + size.nose_stock, size.pivot_q + size.ear_radius + 2.0
    draft = tan(radians(size.inside_draft))
    inset = outline.window_inset(size)
    half = size.slot_half - inset + (floor - size.underside_q) * draft
    fore = size.window[0] + inset - (floor - size.underside_q) * draft
    strip = extrude(_slot_section(size, floor, half, top), "x", fore - 5.0, size.tail + 10.0, part=PART)
    lean = (top - floor) * draft
    end = size.tail + 12.0
    side = Profile.polygon([(fore, floor), (end, floor), (end, top), (fore - lean, top)], name="cast slot end")
    return one_valid_solid(strip.intersect(extrude_both(side, "y", 2 * size.width, part=PART)), PART, "cast slot")


def cap_finished(size: LeverCapSize, casting: cq.Solid) -> cq.Solid:
    """Return the finished cap: the casting less the machining cuts.

    Args:
        size: resolved sizes [mm, deg].
        casting: the solid of `cap_casting`.

    Raises:
        GeometryError: a step could not be built.
    """
    return _ease_ears(machined(casting, _cuts(size), PART), size)


def _cuts(size: LeverCapSize) -> list[tuple[str, cq.Solid]]:
    wide, deep, high = 2 * size.width, size.nose_q - _FAR, size.pivot_q + _FAR
    land = Pen.at(size.land[0] - _FAR / 2, size.nose_q - _FAR / 2, "nose land").line_by(_FAR, 0)
    under = land.line_by(0, _FAR / 2).line_by(-_FAR, 0).close()
    large, narrow = outline.keyhole(size)
    rivet = Profile.circle((size.spring_rivet_at, 0.0), size.rivet_diameter / 2, "rivet hole")
    return [
        ("mill the nose land", extrude_both(under, "y", wide, part=PART)),
        ("mill the nose front", extrude_both(outline.front_cut(size), "y", wide, part=PART)),
        ("mill the head seat", extrude(outline.head_pocket(size), "z", size.head_q, high, part=PART)),
        ("bore the keyhole", extrude(large, "z", deep, high, part=PART)),
        ("mill the keyhole", extrude(narrow, "z", deep, high, part=PART)),
        ("mill the cam window", extrude(outline.window(size), "z", deep, high, part=PART)),
        ("mill the lever slot", extrude(outline.slot(size), "z", size.stop_q, high, part=PART)),
        ("drill the pivot", _across(size)),
        ("drill the spring rivet", extrude(rivet, "z", deep, high, part=PART)),
        ("countersink the spring rivet", _sink(size)),
        *[("ease the front", cut) for cut in _front_eases(size)],
        ("ease the underside", _under_ease(size)),
    ]  # fmt: skip


def spring_rivet_top(size: LeverCapSize) -> float:
    """Return q at which the spring rivet's countersunk end is dressed: just under the sloping top [mm]."""
    return outline.top_at(size, size.spring_rivet_at - SINK) - 0.02


SINK = 3.2  # radius of the countersinks for both rivets' ends


def _sink(size: LeverCapSize) -> cq.Solid:
    """Return a 90 deg countersink about the spring rivet, running out above the top."""
    foot = (size.spring_rivet_at, 0.0, spring_rivet_top(size) - SINK)
    cone = Profile.polygon([(0.0, 0.0), (SINK, SINK), (SINK, SINK + 6.0), (0.0, SINK + 6.0)], name="countersink")
    return revolve(cone, foot, part=PART)


def ear_face(size: LeverCapSize) -> float:
    """Return the half width over the ears at the upper side of the pivot's countersink [mm], where it is least."""
    rise = size.pivot_q + SINK - size.underside_q
    return size.tail_width / 2 - rise * tan(radians(size.outside_draft)) - 0.02


def _across(size: LeverCapSize) -> cq.Solid:
    """Return the pivot's hole through both ears, countersunk at both ends."""
    s, q, r, y = size.pivot_at, size.pivot_q, size.pivot_diameter / 2, ear_face(size)
    half = Profile.polygon([(0.0, 0.0), (r, 0.0), (r, y - (SINK - r)), (SINK, y), (SINK, y + 4.0), (0.0, y + 4.0)],
                           name="pivot hole")  # fmt: skip
    hole = _turned(half, s, q, 1.0).fuse(_turned(half, s, q, -1.0))
    return one_valid_solid(hole, PART, "pivot hole")


def _turned(half: Profile, s: float, q: float, side: float) -> cq.Solid:
    """Return a half section (radius, distance from the middle plane) turned about the pivot to one side."""
    return revolve(half, (s, 0.0, q), (0.0, side, 0.0), part=PART)


def _front_eases(size: LeverCapSize) -> list[cq.Solid]:
    """Return the two cuts that break the side arrises of the milled front, along its slope."""
    a = radians(outline.FRONT)
    out, along = (-sin(a), 0.0, cos(a)), (cos(a), 0.0, sin(a))
    corner = (size.land[0], 0.0, size.nose_q)
    made = []
    for side in (1.0, -1.0):
        frame = Frame(corner, out, (0.0, side, 0.0)).shifted(along, -2.0)
        w = size.width / 2 - ARRIS / 2
        tip = Profile.polygon([(-ARRIS - 2.0, w + 2.0), (2.0, w - ARRIS - 2.0), (2.0, w + 2.0)], name="front arris")
        made.append(extrude_in(tip, frame, along, 14.0, part=PART))
    return made


def _under_ease(size: LeverCapSize) -> cq.Solid:
    """Return the cut that breaks the arris of the underside, from behind the nose round the tail."""
    u, c = size.underside_q, ARRIS + 0.1
    rise = (u - size.nose_q) / tan(radians(outline.NOSE_BACK))
    start = size.land[1] + rise + outline.NOSE_ROOT
    slab = cq.Solid.makeBox(size.tail + 10.0 - start, 2 * size.width, c + 0.5, cq.Vector(start, -size.width, u - 0.5))
    kept = taper_extrude(outline.cap_plan(size).offset(0.05), "z", u + c, 44.0, down=c + 0.6, part=PART)
    return one_valid_solid(slab.cut(kept), PART, "ease the underside")


def _ease_ears(body: cq.Solid, size: LeverCapSize) -> cq.Solid:
    """Break the arrises that the mill leaves along the top of both ears, where a thumb comes."""
    h = size.slot_half

    def on_ear(e: cq.Edge) -> bool:
        b = e.BoundingBox()
        on_side = abs(b.ymax - b.ymin) < 1e-4 and abs(abs(b.ymin) - h) < 1e-4
        above = b.zmin > size.stop_q + 1e-3 and b.xmin > size.window[0] + outline.CUTTER - 1e-3
        return on_side and above and e.Length() > 1e-3 and not _is_upright(e) and not _is_hole(e, size)

    edges = [e for e in body.Edges() if on_ear(e)]
    if len(edges) < 4:
        raise GeometryError(PART, "ease the ears", "no edge of the slot was found", found=len(edges))
    return chamfer_named(body, PART, "ease the ears", edges, ARRIS)


def _is_upright(e: cq.Edge) -> bool:
    return abs(e.startPoint().x - e.endPoint().x) < 1e-6 and e.geomType() == "LINE"


def _is_hole(e: cq.Edge, size: LeverCapSize) -> bool:
    b = e.BoundingBox()
    return e.geomType() == "CIRCLE" and b.zmax < size.pivot_q + size.pivot_diameter
