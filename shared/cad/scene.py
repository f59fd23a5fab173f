"""What a picture shows: coloured meshes and where the viewer stands. Lengths mm, angles deg."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shared.cad.mesh import Mesh, tessellate
from shared.cad.palette import Colour
from shared.cad.solids import Vector
from shared.cad.step import NamedSolid


@dataclass(frozen=True)
class Shown:
    """One mesh of a picture in its colour."""

    name: str
    mesh: Mesh
    colour: Colour


@dataclass(frozen=True)
class Camera:
    """Where the viewer stands (direction from the model, any length), what is upright, and the angle of view [deg].

    An angle of 0 is a view without perspective.
    """

    stands: Vector
    up: Vector = (0.0, 0.0, 1.0)
    angle: float = 16.0


CAMERAS = {
    "three-quarter": Camera((-1.0, 1.25, 0.80)),  # from ahead and the user's right
    "three-quarter-rear": Camera((1.0, 1.30, 0.95)),  # from behind and the user's right
    "side": Camera((0.0, -1.0, 0.0), angle=0.0),  # as the front view of a sheet: toe left
    "top": Camera((0.0, 0.0, 1.0), up=(0.0, 1.0, 0.0), angle=0.0),
    "sole": Camera((-0.9, 1.0, -1.1)),
}


def mesh_scene(solids: Sequence[NamedSolid], deflection: float = 0.08, turn: float = 0.25) -> list[Shown]:
    """Return the meshes of solids in all their places, to be drawn by `render` from any number of cameras.

    Args:
        solids: what to show.
        deflection: farthest distance of a triangle from the surface [mm].
        turn: largest angle between neighbouring triangles on a curved face [rad].
    """
    out = []
    for s in solids:
        mesh = tessellate(s.solid, deflection, turn)
        out += [Shown(s.name, mesh.moved(place), s.colour) for place in s.placements]
    return out


@dataclass(frozen=True)
class Aim:
    """A camera set up for one scene: its place, what it looks at [mm], its up, and half the picture's height [mm]."""

    position: NDArray[np.float64]
    focus: NDArray[np.float64]
    up: NDArray[np.float64]
    half_height: float
    distance: float


def aim(scene: Sequence[Shown], camera: Camera, aspect: float, margin: float = 0.06) -> Aim:
    """Return the camera that just holds the scene.

    Args:
        scene: what is shown.
        camera: where the viewer stands.
        aspect: width over height of the picture [-].
        margin: share of the picture left free at each edge [-].
    """
    points = np.concatenate([s.mesh.vertices for s in scene])
    back = np.array(camera.stands) / np.linalg.norm(camera.stands)
    right = np.cross(camera.up, back)
    right /= np.linalg.norm(right)
    up = np.cross(back, right)
    u, v, w = points @ right, points @ up, points @ back
    room = 1.0 - 2.0 * margin
    mid_u, mid_v, mid_w = ((a.max() + a.min()) / 2 for a in (u, v, w))
    if camera.angle == 0:
        half = max(np.ptp(v) / 2, np.ptp(u) / 2 / aspect) / room
        distance = float(4 * np.ptp(points, axis=0).max() + half)
    else:
        slope = math.tan(math.radians(camera.angle) / 2) * room
        half = distance = 0.0
        # the farther side looks smaller, so the middle of the picture is found by a few rounds of correction
        for _ in range(8):
            du, dv, dw = u - mid_u, v - mid_v, w - mid_w
            distance = float(max((dw + np.abs(dv) / slope).max(), (dw + np.abs(du) / slope / aspect).max()))
            depth = distance - dw
            mid_u += ((du / depth).max() + (du / depth).min()) / 2 * distance
            mid_v += ((dv / depth).max() + (dv / depth).min()) / 2 * distance
        half = distance * math.tan(math.radians(camera.angle) / 2)
    focus = mid_u * right + mid_v * up + mid_w * back
    return Aim(focus + distance * back, focus, up, float(half), distance)
