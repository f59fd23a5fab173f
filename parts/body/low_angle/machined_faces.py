"""Which faces of the low-angle body are machined, from what to what, and why. Arithmetic only."""

from __future__ import annotations

from math import cos, radians, sin

from parts.body.low_angle.block import ends, pocket
from parts.body.low_angle.floor import clear_from_side, sides
from parts.body.low_angle.limits import holes
from parts.body.low_angle.size import LowBodySize
from parts.body.machined_faces import UP, FromSolid, MachinedFace, boss_faces, edge_loss, outside_faces


def machined_faces(size: LowBodySize) -> tuple[MachinedFace, ...]:
    """Return every face that is machined off a layer of stock."""
    return (*outside_faces(size), *_bed(size), *boss_faces(size, boss_names(size)), *_block(size))


def boss_names(size: LowBodySize) -> dict[float, str]:
    """Return what each boss is called, by its x [mm]."""
    named = (
        ("knob boss", size.knob_boss),
        ("stud boss", size.stud_boss),
        ("toe-screw boss", size.toe_boss),
        ("tote boss", size.tote_boss),
    )
    return {boss.x: name for name, boss in named if boss is not None}


def _bed(size: LowBodySize) -> list[MachinedFace]:
    b = radians(size.bed_angle)
    land, front, aft = sides(size)
    how = "end mill square to the bed, body held at the bed angle; both lands in one setting"
    foremost = clear_from_side(size, front)
    # beside the cheeks a land runs out into the cast roots
    out = size.root_radius + 0.5
    rows = (
        ("bed, front land", size.bed_from, size.ramp_to, size.bed_from, size.ramp_to - clear_from_side(size, land),
         "carries the blade behind its edge"),
        ("bed, aft land", size.bridge.x0, size.bridge.x1, size.bridge.x0 + foremost,
         size.bridge.x1 - clear_from_side(size, aft), "carries the blade's upper part"),
    )  # fmt: skip
    return [
        MachinedFace(name, "plane", (0.0, 0.0, 0.0), (-sin(b), 0.0, cos(b)), size.cast.pad, how, why,
                     own=(x0 - out, x1 + out), clear_x=(from_, to))
        for name, x0, x1, from_, to, why in rows
    ]  # fmt: skip


def _block(size: LowBodySize) -> list[MachinedFace]:
    way = size.toe_way
    if way is None:
        return []
    (x0, _), (x1, _) = ends(size, way, way.end_clearance)
    wide = way.boss_radius + way.block_wall
    return [
        MachinedFace("bridge block", "plane", (way.boss_x, 0.0, way.block_z), UP, size.cast.boss, "face mill",
                     "the knob slides and is locked on it", own=(x0 - wide, x1 + wide),
                     clear_plan=pocket(size, way, way.block_wall - edge_loss(size, size.cast.boss))),
    ]  # fmt: skip


def from_solid(size: LowBodySize) -> tuple[FromSolid, ...]:
    """Return what is cut where the casting is closed."""
    count = len(holes(size))
    found = [
        FromSolid("mouth", "mill with the bed, file the aft corners square", "too narrow to cast"),
        FromSolid("upright land behind the mouth", "left by the mouth's cutter", "keeps the feather from a knife edge"),
        FromSolid(
            "lands' ends beside the cheeks",
            "left standing where the milling stops short of the cheeks' roots",
            "land and bridge are cast from cheek to cheek",
        ),
        FromSolid(f"{count} tapped hole{'s' if count > 1 else ''}", "drill to a flat bottom, tap", "too small to cast"),
        FromSolid("rounded hand edges", "file or mill all round above the sole", "the casting's are raw"),
    ]
    if size.bores:
        found.append(FromSolid("tapped bore for the depth post", "drill and tap along the bed, from aft; flat bottom",
                               "depth adjuster"))  # fmt: skip
    if size.grooves:
        found.append(FromSolid("groove in the bed", "end mill, in the bed's setting", "depth adjuster"))
    if size.wheel_well is not None:
        found.append(FromSolid("wheel well", "end mill", "room for the adjuster's wheel and the finger on it"))
    if size.grip is not None:
        found.append(FromSolid("hollows for thumb and finger", "ball mill along arcs, polish", "a sure grip"))
    if size.toe_way is not None:
        found.append(FromSolid("way for the toe piece", "mill from below: pocket, boss's pocket, slot",
                               "ledges and pocket in one setting, square to the mouth"))  # fmt: skip
    return tuple(found)
