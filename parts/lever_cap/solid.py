"""The lever cap's five parts as solids, shut, and their place on the bed."""

from __future__ import annotations

import cadquery as cq

from parts.lever_cap import leaf
from parts.lever_cap.cap import SINK, cap_casting, cap_finished, ear_face, spring_rivet_top
from parts.lever_cap.lever import lever_casting, lever_finished
from parts.lever_cap.size import RIVET_HEAD, RIVET_PLAY, LeverCapSize
from shared.cad.solids import extrude, extrude_both, one_valid_solid, revolve
from shared.profile import Profile

SPRING_HOLE_PLAY = 0.6  # on the diameter: the leaf shifts as it flattens
RIVET_HEAD_DIAMETER = 7.0


def on_bed(solid: cq.Solid, bed_angle: float) -> cq.Solid:
    """Return a solid of the blade frame turned into the plane's frame by the bed angle [deg]."""
    return cq.Solid(solid.moved(cq.Location((0, 0, 0), (0, 1, 0), -bed_angle)).wrapped)


Castings = tuple[cq.Solid, cq.Solid]  # cap and cam lever


def lever_cap_parts(
    size: LeverCapSize, bed_angle: float, castings: Castings | None = None
) -> list[tuple[str, cq.Solid]]:
    """Return the five parts, shut, in the plane's frame: cap, cam lever, pivot rivet, spring rivet, leaf spring.

    Args:
        size: resolved sizes [mm, deg].
        bed_angle: bed to sole [deg].
        castings: the raw castings in the blade frame where they are at hand.

    Raises:
        GeometryError: a step could not be built.
    """
    return [(name, on_bed(solid, bed_angle)) for name, solid in lever_cap_flat(size, castings)]


def castings_flat(size: LeverCapSize) -> Castings:
    """Return the raw castings of cap and cam lever in the blade frame; raises GeometryError as they do."""
    return cap_casting(size), lever_casting(size)


def lever_cap_flat(size: LeverCapSize, castings: Castings | None = None) -> list[tuple[str, cq.Solid]]:
    """Return the five parts, shut, in the blade frame (x = s, y, z = q) [mm]; `castings` where they are at hand."""
    cap, lever = castings or castings_flat(size)
    return [
        ("lever cap cap", cap_finished(size, cap)),
        ("lever cap lever", lever_finished(size, lever)),
        ("lever cap pivot rivet", pivot_rivet(size)),
        ("lever cap spring rivet", spring_rivet(size)),
        ("lever cap leaf spring", leaf_spring(size)),
    ]


def pivot_rivet(size: LeverCapSize) -> cq.Solid:
    """Return the pivot, peened into both ears' countersinks and dressed flush, in the blade frame."""
    r, y = size.pivot_diameter / 2, ear_face(size)
    neck = y - (SINK - r)
    half = Profile.polygon([(0, -y), (SINK, -y), (r, -neck), (r, neck), (SINK, y), (0, y)], name="pivot rivet")
    return revolve(half, (size.pivot_at, 0.0, size.pivot_q), (0.0, 1.0, 0.0), part="pivot rivet")


def spring_rivet(size: LeverCapSize) -> cq.Solid:
    """Return the spring's rivet: low head under the leaf with play, countersunk end in the cap's top, blade frame."""
    foot = size.strap_q - RIVET_PLAY - RIVET_HEAD
    half = leaf.rivet_section(size.rivet_diameter, spring_rivet_top(size) - foot, RIVET_HEAD_DIAMETER, SINK)
    return revolve(half, (size.spring_rivet_at, 0.0, foot), part="spring rivet")


def leaf_spring(size: LeverCapSize) -> cq.Solid:
    """Return the leaf as the shut lever holds it, pressed flat on the chipbreaker, in the blade frame."""
    name = "leaf spring"
    strip = extrude_both(leaf.leaf_section(size), "y", size.spring_width, part=name)
    plan = extrude(leaf.leaf_plan(size), "z", size.press_q - 5.0, size.underside_q + 5.0, part=name)
    strip = one_valid_solid(strip.intersect(plan), name, "round the corners")
    hole = Profile.circle((size.spring_rivet_at, 0.0), (size.rivet_diameter + SPRING_HOLE_PLAY) / 2, "leaf hole")
    punch = extrude(hole, "z", size.press_q - 5.0, size.underside_q + 5.0, part=name)
    return one_valid_solid(strip.cut(punch), name, "punch the hole")


def lever_turned(size: LeverCapSize, lever: cq.Solid, opened: float) -> cq.Solid:
    """Return the lever turned about its pivot from shut by an angle [deg], in the blade frame.

    Args:
        size: resolved sizes.
        lever: the finished lever, shut.
        opened: 0 is shut, `SWING` is open.
    """
    foot = cq.Vector(size.pivot_at, 0.0, size.pivot_q)
    # the tip rises, which is a left-handed turn about +y
    return cq.Solid(lever.rotate(foot, foot + cq.Vector(0, 1, 0), -opened).wrapped)
