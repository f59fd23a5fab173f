"""The lever cap, in the bed frame (x = s, y, z = q): the casting by construction, then the machine shop's cuts.

The casting is drawn along q. Its parting plane is q = `underside_q`: the plate lies in the cope, the nose in the drag.
"""

from __future__ import annotations

from math import cos, radians, sin, tan

import cadquery as cq

from parts.low_angle import outline
from parts.low_angle.size import LowCapSize
from shared.cad.edges import fillet_named
from shared.cad.machining import machined
from shared.cad.solids import Frame, extrude, extrude_both, extrude_in, one_valid_solid, taper_extrude
from shared.errors import GeometryError
from shared.profile import Pen, Profile

PART = "lever cap"
RIM = outline.CAP_RIM
ARRIS = 0.4
_FAR = 60.0


def cap_casting(size: LowCapSize) -> cq.Solid:
    """Return the raw casting: stock on nose land and nose front; every hole is cast solid.

    Args:
        size: resolved sizes [mm, deg].

    Raises:
        GeometryError: a step could not be built.
    """
    u = size.underside_q
    strip = extrude_both(outline.cap_section(size, size.stock), "y", 2 * size.width, part=PART)
    plan = outline.cap_plan(size)
    cope = taper_extrude(plan, "z", u, size.outside_draft, up=size.end_plate + 12.0, part=PART)
    cope = one_valid_solid(strip.intersect(cope), PART, "plate in the cope")
    # rounded before the nose is joined, so that the rounding ends on the parting plane
    cope = fillet_named(cope, PART, "round the rim", _rim(cope, size), RIM)
    drag = taper_extrude(plan, "z", u, size.outside_draft, down=u + 1.0, part=PART)
    drag = one_valid_solid(strip.intersect(drag), PART, "nose in the drag")
    return one_valid_solid(cope.fuse(drag), PART, "both halves")


def _rim(cope: cq.Solid, size: LowCapSize) -> list[cq.Edge]:
    """Pick the edges between the drafted walls and the top: all above the parting plane that do not run across."""
    u, out = size.underside_q, []
    for e in cope.Edges():
        a, m, z = e.startPoint(), e.positionAt(0.5), e.endPoint()
        across = abs(a.y + z.y) < 1e-6 < abs(a.y - z.y) and abs(m.y) < 1e-6
        if min(a.z, m.z, z.z) > u + 1e-3 and not (across and e.geomType() == "LINE"):
            out.append(e)
    if not out:
        raise GeometryError(PART, "round the rim", "no edge of the rim was found")
    return out


def cap_finished(size: LowCapSize, casting: cq.Solid) -> cq.Solid:
    """Return the finished cap: the casting less the machining cuts.

    Args:
        size: resolved sizes [mm, deg].
        casting: the solid of `cap_casting`.

    Raises:
        GeometryError: a step could not be built.
    """
    return machined(casting, _cuts(size), PART)


def _cuts(size: LowCapSize) -> list[tuple[str, cq.Solid]]:
    wide, deep, high = 2 * size.width, size.blade_top - _FAR, size.underside_q + _FAR
    land = Pen.at(size.land[0] - _FAR / 2, size.blade_top - _FAR / 2, "nose land").line_by(_FAR, 0)
    under = land.line_by(0, _FAR / 2).line_by(-_FAR, 0).close()
    large, narrow = outline.keyhole(size)
    tapped = Profile.circle((size.clamp.at, 0.0), size.clamp.thread.tap_drill / 2, "clamp's thread")
    return [
        ("mill the nose land", extrude_both(under, "y", wide, part=PART)),
        ("mill the nose front", extrude_both(outline.front_cut(size), "y", wide, part=PART)),
        ("mill the head seat", extrude(outline.head_pocket(size), "z", size.head_q, high, part=PART)),
        ("bore the keyhole", extrude(large, "z", deep, high, part=PART)),
        ("mill the keyhole", extrude(narrow, "z", deep, high, part=PART)),
        ("drill and tap for the clamp", extrude(tapped, "z", deep, high, part=PART)),
        *[("ease the front", cut) for cut in _front_eases(size)],
        ("ease the underside", _under_ease(size)),
    ]


def _front_eases(size: LowCapSize) -> list[cq.Solid]:
    """Return the two cuts that break the side arrises of the milled front, along its slope."""
    a = radians(outline.FRONT)
    out, along = (-sin(a), 0.0, cos(a)), (cos(a), 0.0, sin(a))
    corner = (size.land[0], 0.0, size.blade_top)
    made = []
    for side in (1.0, -1.0):
        frame = Frame(corner, out, (0.0, side, 0.0)).shifted(along, -2.0)
        w = size.width / 2 - ARRIS / 2
        tip = Profile.polygon([(-ARRIS - 2.0, w + 2.0), (2.0, w - ARRIS - 2.0), (2.0, w + 2.0)], name="front arris")
        made.append(extrude_in(tip, frame, along, 14.0, part=PART))
    return made


def _under_ease(size: LowCapSize) -> cq.Solid:
    """Return the cut that breaks the arris of the underside, from behind the nose round the tail."""
    u, c = size.underside_q, ARRIS + 0.1
    rise = (u - size.blade_top) / tan(radians(outline.NOSE_BACK))
    start = size.land[1] + rise + outline.NOSE_ROOT
    slab = cq.Solid.makeBox(size.tail + 10.0 - start, 2 * size.width, c + 0.5, cq.Vector(start, -size.width, u - 0.5))
    kept = taper_extrude(outline.cap_plan(size).offset(0.05), "z", u + c, 44.0, down=c + 0.6, part=PART)
    return one_valid_solid(slab.cut(kept), PART, "ease the underside")
