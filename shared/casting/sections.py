"""Section of a solid along one axis: area, centre, second moments, section modulus, and how it bends. Lengths mm.

A plane cuts the closed mesh in straight pieces with the metal on one side; sums over the pieces (Green's theorem) give
the section's area and moments exactly, without chaining the pieces into outlines.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from shared.casting.raycast import Floats, Triangles, crossings, normals, other_axes

# a plane exactly on a flat face would see half of a step; it is moved by this share of a micron's order
NUDGE = 1e-6


@dataclass(frozen=True)
class Sections:
    """Sections square to an axis, one a row: bending is in the plane of that axis and `up`."""

    at: Floats  # where on the axis [mm]
    area: Floats  # [mm²]
    centre: Floats  # of area, along `up` [mm]
    second_moment: Floats  # about the level axis through the centre [mm⁴]
    modulus: Floats  # second moment over the farther edge's distance [mm³]
    ends: tuple[float, float]  # of the solid on the axis [mm]

    def weakest(self) -> int:
        """Return the row most stressed by a load spread evenly along the solid that is held at both ends."""
        low, high = self.ends
        moment = (self.at - low) * (high - self.at)
        stress = np.divide(moment, self.modulus, out=np.zeros_like(moment), where=self.modulus > 0)
        return int(np.argmax(stress))

    def sag(self, youngs_gpa: float, load_n: float) -> float:
        """Return how far the middle goes down [mm] under an evenly spread load, held at both ends: ∬ M/(E·I).

        Args:
            youngs_gpa: modulus of elasticity [GPa].
            load_n: whole load [N].
        """
        low, high = self.ends
        x, length = self.at - low, high - low
        moment = load_n / length * x * (length - x) / 2.0
        curvature = np.divide(
            moment, youngs_gpa * 1e3 * self.second_moment, out=np.zeros_like(moment), where=self.second_moment > 0
        )
        # unit-load method: bending moment of a unit load at the middle
        unit = np.minimum(x, length - x) / 2.0
        # nothing bends at the ends themselves
        return float(np.trapezoid(np.pad(curvature * unit, 1), np.concatenate([[0.0], x, [length]])))


def stations(mesh: Triangles, axis: int, step: float) -> Floats:
    """Return places along an axis at even steps of about `step` [mm], the first and last half a step from the ends."""
    level = mesh.vertices[:, axis]
    low, high = float(level.min()), float(level.max())
    n = max(3, round((high - low) / step))
    return low + (np.arange(n) + 0.5) * (high - low) / n


def measure_sections(mesh: Triangles, axis: int, up: int, at: Floats) -> Sections:
    """Measure the sections of a solid at some places.

    Args:
        mesh: closed mesh of the solid [mm].
        axis: along which it is cut, 0, 1 or 2.
        up: the direction it bends in, another axis.
        at: places on the axis, ascending [mm].

    Raises:
        ValueError: the two axes are the same.
    """
    if axis == up:
        raise ValueError("a section bends in a direction square to its axis")
    level = mesh.vertices[:, axis]
    tri, plane, p, q = crossings(mesh, axis, at + NUDGE * max(1.0, float(np.ptp(level))) / 1e3)
    aside = next(k for k in other_axes(axis) if k != up)
    u0, v0, u1, v1 = p[:, aside], p[:, up], q[:, aside], q[:, up]
    # run every piece so that the metal lies to its left
    n = normals(mesh)[tri]
    left = (u1 - u0) * n[:, up] - (v1 - v0) * n[:, aside] > 0
    u0, u1, v0, v1 = np.where(left, u1, u0), np.where(left, u0, u1), np.where(left, v1, v0), np.where(left, v0, v1)
    cross = u0 * v1 - u1 * v0

    def total(piece: Floats) -> Floats:
        summed: Floats = np.bincount(plane, weights=piece, minlength=len(at)).astype(np.float64)
        return summed

    area = total(cross) / 2.0
    first = total(cross * (v0 + v1)) / 6.0
    second = total(cross * (v0 * v0 + v0 * v1 + v1 * v1)) / 12.0
    centre = np.divide(first, area, out=np.zeros_like(area), where=area > 0)
    inertia = np.maximum(second - area * centre**2, 0.0)
    top, bottom = np.full(len(at), -np.inf), np.full(len(at), np.inf)
    np.maximum.at(top, plane, np.maximum(v0, v1))
    np.minimum.at(bottom, plane, np.minimum(v0, v1))
    farther = np.maximum(top - centre, centre - bottom)
    modulus = np.divide(inertia, farther, out=np.zeros_like(area), where=(area > 0) & (farther > 0))
    return Sections(at, area, centre, inertia, modulus, (float(level.min()), float(level.max())))
