"""Wall thickness of a solid, measured: at points of its skin, the largest ball inside that touches the skin there.

A ball shrinks at each point until no skin lies in it (the shrinking-ball way to the medial axis). Where it touches
two faces that look away from each other, its diameter is the thickness of a wall; in corners and roundings, where the
two faces look elsewhere, there is no wall to speak of. Lengths mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from shared.casting.raycast import Floats, Triangles, cast, normals, other_axes

# product of the normals of two faces that make a wall: at most 40 deg from parallel
OPPOSITE = -math.cos(math.radians(40.0))
TURNED = 0.5  # product of normals below which two points lie on different faces
STEEP = 0.5  # share of a ray's direction along the normal from which its hit is kept; some axis always gives 0.577
PATCH_MM2 = 3.0  # a least or most counts when so much skin has it
ROUNDS = 30  # of shrinking; a handful is needed
Place = tuple[float, float, float]


@dataclass(frozen=True)
class Walls:
    """Points on a skin [mm], the diameter of the ball that touches there [mm], its middle, and whether it is a wall."""

    at: Floats
    diameter: Floats
    centre: Floats
    is_wall: NDArray[np.bool_]
    spacing: float

    @property
    def least(self) -> tuple[float, Place]:
        """Least wall [mm] that `PATCH_MM2` of skin has, and the middle of the wall there [mm]."""
        return self._ranked(least=True)

    @property
    def most(self) -> tuple[float, Place]:
        """Most wall [mm] that `PATCH_MM2` of skin has, and the middle of the wall there [mm]."""
        return self._ranked(least=False)

    @property
    def middle(self) -> float:
        """The wall that half of the walled skin stays below [mm]."""
        return float(np.median(self.diameter[self.is_wall]))

    @property
    def heaviest(self) -> tuple[float, Place]:
        """Diameter of the largest ball inside the solid [mm], and its middle [mm]."""
        best = int(np.argmax(self.diameter))
        return float(self.diameter[best]), _place(self.centre[best])

    @property
    def thickness(self) -> Floats:
        """Wall thickness at every point [mm]; where there is no wall (edges, roundings), that of the nearest one."""
        out = self.diameter.copy()
        bare = ~self.is_wall
        if bare.any() and self.is_wall.any():
            _, nearest = cKDTree(self.at[self.is_wall]).query(self.at[bare])
            out[bare] = self.diameter[self.is_wall][nearest]
        return out

    def _ranked(self, least: bool) -> tuple[float, Place]:
        rows = np.flatnonzero(self.is_wall)
        if not len(rows):
            return self.heaviest
        order = rows[np.argsort(self.diameter[rows], kind="stable")]
        skip = min(math.ceil(PATCH_MM2 / self.spacing**2), len(order)) - 1
        one = order[skip] if least else order[-1 - skip]
        return float(self.diameter[one]), _place(self.centre[one])


def _place(point: Floats) -> Place:
    return float(point[0]), float(point[1]), float(point[2])


def measure_walls(mesh: Triangles, spacing: float) -> Walls:
    """Measure the walls of a solid.

    Flat walls come out to the mesh's own accuracy, whatever the spacing; at a curved face the ball is too large by at
    most spacing²/thickness or so.

    Args:
        mesh: closed mesh of the solid [mm].
        spacing: distance between the points of skin looked at [mm].

    Raises:
        ValueError: the mesh encloses nothing.
    """
    at, out, radius, other, other_out = _skin(mesh, spacing)
    if not len(at):
        raise ValueError("the mesh encloses nothing")
    tree = cKDTree(at)
    live = np.arange(len(at))
    for _ in range(ROUNDS):
        gap, near = tree.query(at[live] - radius[live, None] * out[live])
        inside = gap < radius[live] * (1 - 1e-3) - 1e-6
        live, near = live[inside], near[inside]
        # the ball that touches the skin at the point and runs through the nearer one
        away = at[live] - at[near]
        lean = 2.0 * np.einsum("ij,ij->i", away, out[live])
        new = np.einsum("ij,ij->i", away, away) / np.where(lean > 1e-9, lean, 1e-9)
        shrinks = new < radius[live]
        live, near = live[shrinks], near[shrinks]
        if not len(live):
            break
        radius[live], other[live], other_out[live] = new[shrinks], at[near], out[near]
    facing = np.einsum("ij,ij->i", out, other_out)
    is_wall = facing <= OPPOSITE
    # the other face is met between the points: the ball touches that face's plane, not just the point on it
    turned = facing < TURNED
    exact = np.einsum("ij,ij->i", other - at, other_out) / (1.0 - np.where(turned, facing, 0.0))
    radius = np.where(turned & (exact > 0), exact, radius)
    return Walls(at, 2.0 * radius, at - radius[:, None] * out, is_wall, spacing)


def _skin(mesh: Triangles, spacing: float) -> tuple[Floats, Floats, Floats, Floats, Floats]:
    """Return points of the skin, normals, radii no ball exceeds, and the point and normal that bound it so."""
    face = normals(mesh)
    low, high = mesh.vertices.min(axis=0), mesh.vertices.max(axis=0)
    grid = []
    for k in range(3):
        # an even number of rays about the middle, so that a symmetric solid is looked at symmetrically
        n = 2 * math.ceil((high[k] - low[k]) / spacing / 2)
        grid.append((low[k] + high[k]) / 2 + (np.arange(n) - n / 2 + 0.5) * spacing)
    found: list[tuple[Floats, ...]] = []
    for axis in range(3):
        a, b = other_axes(axis)
        hits = cast(mesh, axis, grid[a], grid[b])
        at, out = hits.points(axis, grid[a], grid[b]), face[hits.triangle]
        # hits come in pairs, in and out of the metal
        partner = np.arange(len(at)) ^ 1
        steep = np.abs(out[:, axis])
        chord = np.abs(hits.depth - hits.depth[partner])
        kept = steep > STEEP
        radius = chord[kept] / (2.0 * steep[kept])
        found.append((at[kept], out[kept], radius, at[partner][kept], out[partner][kept]))
    at, out, radius, other, other_out = (np.concatenate(part) for part in zip(*found, strict=True))
    return at, out, radius, other, other_out
