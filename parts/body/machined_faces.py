"""Which faces of the body are machined, from what to what, and why. Arithmetic only."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan
from typing import Literal

from parts.body.floor import high_pad_raw
from parts.body.key import key
from parts.body.ribs import bosses_of
from parts.body.size import BodySize, Trough
from shared.profile import Profile

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
    half: float | None = None  # and how far it reaches to either side [mm], where raw metal may stand at its height
    clear_x: tuple[float, float] | None = None  # x from, to where the stock is whole: see `edge_loss`
    clear_radius: float | None = None  # the same about an upright axis through `at`
    clear_plan: Profile | None = None  # the same inside an outline (x, y)


@dataclass(frozen=True)
class FromSolid:
    """A feature that the casting does not have at all."""

    name: str
    how: str
    why: str


def edge_loss(size: Trough, stock: float) -> float:
    """Return how far in from an as-cast side the stock on a top face is less than whole [mm].

    There the casting's edge is rounded and its side draws in, so that the milled face runs out into the side.
    """
    return size.cast.edge_radius + stock * tan(radians(size.cast.draft_inside))


KEY_SIDE = 1.5  # less of the key than this over the raw pad has no sides of its own to hold stock on [mm]
UP, DOWN = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)
AHEAD, AFT = (-1.0, 0.0, 0.0), (1.0, 0.0, 0.0)
LEFT, RIGHT = (0.0, -1.0, 0.0), (0.0, 1.0, 0.0)


def machined_faces(size: BodySize) -> tuple[MachinedFace, ...]:
    """Return every face that is machined off a layer of stock."""
    return (*outside_faces(size), *_frog_seat(size), *boss_faces(size, boss_names(size)))


def outside_faces(size: Trough) -> list[MachinedFace]:
    """Return sole, cheeks, ends and corners of any body."""
    cast, half, r = size.cast, size.width / 2, size.corner_radius
    ground, square = "mill, then grind", "square to the sole, so that the plane shoots true"
    faces = [
        MachinedFace("sole", "plane", (0.0, 0.0, 0.0), DOWN, cast.sole, ground, "the working face; datum A"),
        MachinedFace("right cheek", "plane", (0.0, half, 0.0), RIGHT, cast.side, ground, square),
        MachinedFace("left cheek", "plane", (0.0, -half, 0.0), LEFT, cast.side, ground, square),
        MachinedFace("toe", "plane", (size.toe_x, 0.0, 0.0), AHEAD, cast.end, "mill", "length and looks"),
        MachinedFace("heel", "plane", (size.heel_x, 0.0, 0.0), AFT, cast.end, "mill", "length and looks"),
    ]
    if r > 0:
        for name, x in (("toe", size.toe_x + r), ("heel", size.heel_x - r)):
            for side, y in (("right", half - r), ("left", r - half)):
                label = f"corner, {name} {side}"
                least, why = min(cast.side, cast.end), "no sharp corner in the hand"
                faces.append(MachinedFace(label, "cylinder", (x, y, 0.0), UP, least, "mill", why, r))
    return faces


def _frog_seat(size: BodySize) -> list[MachinedFace]:
    stock, low, high, k = size.cast.pad, size.low_pad, size.high_pad, key(size)
    how = "mill, in one setting with both pads and the key"
    middle, side_z = (k.x0 + k.x1) / 2, k.z - 1.0
    whole = (high.x0, high.x1 - edge_loss(size, stock))
    ends, sides = "where the cutter turns", "keeps the frog square"
    faces = [
        MachinedFace("low pad", "plane", (low.x0, 0.0, low.z), UP, stock, how, "carries the frog's foot",
                     own=(low.x0, low.x1)),
        MachinedFace("high pad", "plane", (high.x0, 0.0, high.z), UP, stock, how, "the frog is screwed down on it",
                     own=(high.x0, high.x1 + stock * tan(radians(size.cast.draft_inside))), clear_x=whole),
        MachinedFace("step between the pads", "plane", (high.x0, 0.0, high.z), AHEAD, stock, how,
                     "clears the frog at its foremost place"),
        MachinedFace("key top", "plane", (middle, 0.0, k.z), UP, stock, how, "clears the frog's way", own=(k.x0, k.x1),
                     half=k.half),
    ]  # fmt: skip
    if key_from_solid(size):
        return faces
    return [
        *faces,
        MachinedFace("key, right side", "plane", (middle, k.half, side_z), RIGHT, stock, how, sides),
        MachinedFace("key, left side", "plane", (middle, -k.half, side_z), LEFT, stock, how, sides),
        MachinedFace("key, toe end", "cylinder", (k.x0 + k.half, 0.0, k.z), UP, stock, how, ends, k.half),
        MachinedFace("key, heel end", "cylinder", (k.x1 - k.half, 0.0, k.z), UP, stock, how, ends, k.half),
    ]  # fmt: skip


def key_from_solid(size: BodySize) -> bool:
    """Return whether the key is milled out of the raw pad, which stands about as high as its finished top."""
    return key(size).z - high_pad_raw(size) < KEY_SIDE


def boss_names(size: BodySize) -> dict[float, str]:
    """Return what each boss is called, by its x [mm]."""
    toe = {} if size.toe_boss is None else {size.toe_boss.x: "toe-screw boss"}
    return {size.knob_boss.x: "knob boss", size.tote_boss.x: "tote boss", **toe}


def boss_faces(size: Trough, names: dict[float, str]) -> list[MachinedFace]:
    """Return the tops of all bosses, and the sides of those that are turned.

    Args:
        size: any body.
        names: what each boss is called, by its x [mm].
    """
    cast, faces = size.cast, []
    for boss in bosses_of(size):
        r, at = boss.diameter / 2, (boss.x, 0.0, boss.z_top)
        what = names[boss.x]
        # the face of a boss that is not turned runs out into its cast side, and on a low one into its root
        out = r if boss.turned else r + size.root_radius
        faces.append(
            MachinedFace(
                what,
                "plane",
                at,
                UP,
                cast.boss,
                "spot face",
                "a flat, level seat for the wood" if boss.turned else "a level face for the screw",
                own=(boss.x - out, boss.x + out),
                clear_radius=r - edge_loss(size, cast.boss),
            )
        )
        if boss.turned:
            faces.append(MachinedFace(f"{what}, side", "cylinder", at, UP, cast.boss_side, "hollow mill",
                                      "the handle's counterbore registers on it", r))  # fmt: skip
    return faces


def from_solid(size: BodySize) -> tuple[FromSolid, ...]:
    """Return what is cut where the casting is closed."""
    drilled = len(size.holddown) + len(bosses_of(size))
    return (
        FromSolid("mouth", "mill through, file the corners", "too narrow to cast; its place sets the plane"),
        *([FromSolid("key's sides and ends", "mill, in one setting with the pads",
                     "the raw pad stands about as high as the key")] if key_from_solid(size) else []),
        FromSolid("pads' ends beside the cheeks", "left standing where the milling stops short of the cheeks' roots",
                  "the pads are cast from cheek to cheek"),
        FromSolid("rings sunk round the bosses", "hollow mill",
                  "the flat foot of a handle must not ride on a cast root"),
        FromSolid(f"{drilled} tapped holes", "drill to a flat bottom, tap", "too small to cast"),
        FromSolid("rounded hand edges", "file or mill all round above the sole", "the casting's are raw"),
    )  # fmt: skip
