"""Which faces of the body are machined, from what to what, and why. Arithmetic only."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan
from typing import Literal

from parts.body.key import key
from parts.body.ribs import bosses_of
from parts.body.size import BodySize

Vector = tuple[float, float, float]


@dataclass(frozen=True)
class MachinedFace:
    """One machined face: a plane through `at` facing `normal`, or a cylinder about the upright axis through `at`."""

    name: str
    kind: Literal["plane", "cylinder"]
    at: Vector  # [mm]
    normal: Vector  # outward; the axis of a cylinder
    stock: float  # asked of the casting [mm]
    how: str
    why: str
    radius: float = 0.0  # of a cylinder [mm]
    own: tuple[float, float] | None = None  # x from, to of the face itself [mm]; None: the whole plane is one face
    clear_x: tuple[float, float] | None = None  # x from, to where the stock is whole: see `edge_loss`
    clear_radius: float | None = None  # the same about an upright axis through `at`


@dataclass(frozen=True)
class FromSolid:
    """A feature that the casting does not have at all."""

    name: str
    how: str
    why: str


def edge_loss(size: BodySize, stock: float) -> float:
    """Return how far in from an as-cast side the stock on a top face is less than whole [mm].

    There the casting's edge is rounded and its side draws in, so that the milled face runs out into the side.
    """
    return size.cast.edge_radius + stock * tan(radians(size.cast.draft_inside))


def machined_faces(size: BodySize) -> tuple[MachinedFace, ...]:
    """Return every face that is machined off a layer of stock."""
    cast, half, low, high, k = size.cast, size.width / 2, size.low_pad, size.high_pad, key(size)
    up, down, ahead, aft = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0), (-1.0, 0.0, 0.0), (1.0, 0.0, 0.0)
    left, right = (0.0, -1.0, 0.0), (0.0, 1.0, 0.0)
    seat = "mill, in one setting with the other pad and the key"
    faces = [
        MachinedFace("sole", "plane", (0.0, 0.0, 0.0), down, cast.sole, "mill, then grind", "the working face; datum A"),
        MachinedFace("right cheek", "plane", (0.0, half, 0.0), right, cast.side, "mill, then grind", "square to the sole for shooting"),
        MachinedFace("left cheek", "plane", (0.0, -half, 0.0), left, cast.side, "mill, then grind", "square to the sole for shooting"),
        MachinedFace("toe", "plane", (size.toe_x, 0.0, 0.0), ahead, cast.end, "mill", "length and looks"),
        MachinedFace("heel", "plane", (size.heel_x, 0.0, 0.0), aft, cast.end, "mill", "length and looks"),
        MachinedFace("low pad", "plane", ((low.x0 + low.x1) / 2, 0.0, low.z), up, cast.pad, seat, "carries the frog's foot", own=(low.x0, low.x1)),
        MachinedFace("high pad", "plane", (high.x1, 0.0, high.z), up, cast.pad, seat, "the frog is screwed down on it", own=(high.x0, high.x1), clear_x=(high.x0, high.x1 - edge_loss(size, cast.pad))),
        MachinedFace("step between the pads", "plane", (high.x0, 0.0, high.z - 1.0), ahead, cast.pad, seat, "clears the frog at its foremost place"),
        MachinedFace("key top", "plane", ((k.x0 + k.x1) / 2, 0.0, k.z), up, cast.pad, seat, "clears the frog's way"),
        MachinedFace("key, right side", "plane", ((k.x0 + k.x1) / 2, k.half, k.z - 1.0), right, cast.pad, seat, "keeps the frog square"),
        MachinedFace("key, left side", "plane", ((k.x0 + k.x1) / 2, -k.half, k.z - 1.0), left, cast.pad, seat, "keeps the frog square"),
        MachinedFace("key, toe end", "cylinder", (k.x0 + k.half, 0.0, k.z), up, cast.pad, seat, "where the cutter turns", k.half),
        MachinedFace("key, heel end", "cylinder", (k.x1 - k.half, 0.0, k.z), up, cast.pad, seat, "where the cutter turns", k.half),
    ]  # fmt: skip
    r = size.corner_radius
    if r > 0:
        for name, x in (("toe", size.toe_x + r), ("heel", size.heel_x - r)):
            for side, y in (("right", half - r), ("left", r - half)):
                faces.append(MachinedFace(f"corner, {name} {side}", "cylinder", (x, y, 0.0), up, min(cast.side, cast.end),
                                          "mill", "no sharp corner in the hand", r))  # fmt: skip
    for boss in bosses_of(size):
        r = boss.diameter / 2
        what = {size.knob_boss.x: "knob boss", size.tote_boss.x: "tote boss"}.get(boss.x, "toe-screw boss")
        faces.append(MachinedFace(what, "plane", (boss.x, 0.0, boss.z_top), up, cast.boss, "spot face",
                                  "a flat, level seat for the wood", own=(boss.x - r, boss.x + r),
                                  clear_radius=r - edge_loss(size, cast.boss)))  # fmt: skip
    return tuple(faces)


def from_solid(size: BodySize) -> tuple[FromSolid, ...]:
    """Return what is cut where the casting is closed."""
    holes = len(size.holddown) + len(bosses_of(size))
    return (
        FromSolid("mouth", "mill through from above and below, file the corners", "too narrow to cast; its place sets the plane"),
        FromSolid("sides of the pads' milling", "left by the cutter", "between the pads and the cheeks' roots"),
        FromSolid(f"{holes} tapped holes", "drill to a flat bottom, tap", "too small to cast"),
        FromSolid("hand edges", "break all round above the sole", "no sharp edge where a hand goes"),
    )  # fmt: skip
