"""Camber: the curve to grind on the blade for a wanted depth at the work."""

from __future__ import annotations

import math

from shared.errors import Fault, InputError


def camber_on_blade(depth_at_work: float, plane_angle: float) -> float:
    """Return the camber to grind on the blade [mm] for a depth at the work.

    The edge curves in the blade's flat, which lies at `plane_angle` to the sole; only the vertical part of the curve
    reaches the work. At a 12 degree bed that is nearly a fifth.

    Args:
        depth_at_work: how much deeper the middle cuts than the corners [mm].
        plane_angle: angle to the sole of the plane in which the edge curves [deg]; see `angles.edge_plane_angle`.
    """
    return depth_at_work / math.sin(math.radians(plane_angle))


def depth_at_work(camber: float, plane_angle: float) -> float:
    """Return the depth at the work [mm] of a camber on the blade [mm] at `plane_angle` [deg] to the sole."""
    return camber * math.sin(math.radians(plane_angle))


def camber_radius(width: float, sagitta: float) -> float:
    """Return the radius of an edge of chord width [mm] with sagitta [mm]: w^2/(8c) + c/2; infinite when straight.

    Raises:
        InputError: the sagitta is below 0 or more than a half circle allows.
    """
    if not 0 <= sagitta <= width / 2:
        raise InputError(
            Fault("blade", "camber", f"{sagitta:g} mm on the blade", f"0 to half the width, {width / 2:g} mm")
        )
    return math.inf if sagitta == 0 else width * width / (8 * sagitta) + sagitta / 2


def camber_profile(width: float, sagitta: float, count: int = 41) -> list[tuple[float, float]]:
    """Return points (across the width [mm], back from the middle of the edge [mm]) of a cambered edge.

    Args:
        width: chord width [mm].
        sagitta: camber on the blade [mm].
        count: number of points [-].
    """
    radius = camber_radius(width, sagitta)
    ys = [width * (i / (count - 1) - 0.5) for i in range(count)]
    if math.isinf(radius):
        return [(y, 0.0) for y in ys]
    return [(y, y * y / (radius + math.sqrt(max(radius * radius - y * y, 0.0)))) for y in ys]
