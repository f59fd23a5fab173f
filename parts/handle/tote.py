"""The tote's solid: a loft of oval sections along the spine, then bores and counterbores.

The skin is three smooth surfaces that join without an edge: the eased arris round the foot, the loft itself, and the
rounding that runs over the crest into the nut's counterbore. No fillet is asked of the kernel.
"""

from __future__ import annotations

import math
from itertools import pairwise

import cadquery as cq
import numpy as np
from numpy.typing import NDArray
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakeWire,
    BRepBuilderAPI_Sewing,
)
from OCP.Geom import Geom_BSplineSurface
from OCP.gp import gp_Dir, gp_Pln, gp_Pnt
from OCP.TColgp import TColgp_Array2OfPnt
from OCP.TColStd import TColStd_Array1OfInteger, TColStd_Array1OfReal, TColStd_Array2OfReal
from OCP.TopAbs import TopAbs_SHELL
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Face
from scipy.interpolate import make_interp_spline

from parts.handle.form import Station, ToteForm, point_on_rod
from parts.handle.size import ToteSize
from shared.cad.solids import one_valid_solid
from shared.errors import GeometryError

ROUND = 48  # points round a section, a multiple of 8
PER_SPAN = 3  # sections a span of the form's curves
Grid = NDArray[np.float64]


def section_points(s: Station) -> Grid:
    """Return points round a section [mm], (ROUND, 3), starting at the side and running over the front.

    They are spaced half by length and half by turning, so that the tight ends get their share.
    """
    half = ROUND // 2
    depth = math.dist(s.front, s.back)
    f, b, w = s.front_end, s.back_end, s.half_width
    t = np.linspace(0.0, math.pi / 2, 641)
    flat = f + max(depth - f - b, 0.0) * np.linspace(0.0, 1.0, 41)[1:-1]
    along = np.concatenate([f * (1 - np.cos(t)), flat, depth - b * (1 - np.sin(t))])
    across = w * np.concatenate([np.sin(t), np.ones_like(flat), np.cos(t)])
    heading = np.concatenate(
        [np.arctan2(w * np.cos(t), f * np.sin(t)), 0 * flat, -np.arctan2(w * np.sin(t), b * np.cos(t))]
    )
    length = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(along), np.diff(across)))])
    pace = length / length[-1] + (heading[0] - heading) / math.pi
    at = np.linspace(0.0, pace[-1], half + 1)
    u, y = np.interp(at, pace, along), np.interp(at, pace, across)
    u, y = np.concatenate([u, u[-2:0:-1]]), np.concatenate([y, -y[-2:0:-1]])
    direction = (np.array(s.back) - np.array(s.front)) / depth
    xz = np.array(s.front) + u[:, None] * direction
    points = np.column_stack([xz[:, 0], y, xz[:, 1]])
    # the seams of the four quarters run beside the front and back, where no bore crosses them
    return np.asarray(np.roll(points, ROUND // 8, axis=0), dtype=np.float64)


def _round_poles(points: Grid) -> Grid:
    """Return the poles of the closed uniform cubic through points; the first axis runs round."""
    n = len(points)
    matrix = (4 * np.eye(n) + np.roll(np.eye(n), 1, axis=0) + np.roll(np.eye(n), -1, axis=0)) / 6
    return np.asarray(np.linalg.solve(matrix, points.reshape(n, -1)), dtype=np.float64).reshape(points.shape)


def _surface(poles: Grid, knots: Grid, degree: int, weights: Grid | None = None) -> Geom_BSplineSurface:
    """Return a surface closed round its first direction (cubic, uniform), with the given knots in the second."""
    n, m = poles.shape[:2]
    pole = TColgp_Array2OfPnt(1, n, 1, m)
    weight = TColStd_Array2OfReal(1, n, 1, m)
    for i in range(n):
        for j in range(m):
            pole.SetValue(i + 1, j + 1, gp_Pnt(*map(float, poles[i, j])))
            weight.SetValue(i + 1, j + 1, 1.0 if weights is None else float(weights[j]))
    values, counts = np.unique(knots, return_counts=True)
    u_knots, u_mults = TColStd_Array1OfReal(1, n + 1), TColStd_Array1OfInteger(1, n + 1)
    for i in range(n + 1):
        u_knots.SetValue(i + 1, float(i))
        u_mults.SetValue(i + 1, 1)
    v_knots, v_mults = TColStd_Array1OfReal(1, len(values)), TColStd_Array1OfInteger(1, len(values))
    for i, (value, count) in enumerate(zip(values, counts, strict=True)):
        v_knots.SetValue(i + 1, float(value))
        v_mults.SetValue(i + 1, int(count))
    made = Geom_BSplineSurface(pole, weight, u_knots, v_knots, u_mults, v_mults, 3, degree, True, False)
    made.SetUNotPeriodic()
    return made


def _quarter_round(start: Grid, corner: Grid, end: Grid) -> Geom_BSplineSurface:
    """Return the surface of quarter circles from start to end, tangent to the legs through corner (point by point)."""
    poles = np.stack([_round_poles(p) for p in (start, corner, end)], axis=1)
    return _surface(poles, np.array([0.0, 0.0, 0.0, 1.0, 1.0, 1.0]), 2, np.array([1.0, math.sqrt(0.5), 1.0]))


def _loft(form: ToteForm) -> Geom_BSplineSurface:
    """Return the main surface, through every section, with the form's own tangents at both ends."""
    v = np.linspace(0.0, form.spans, form.spans * PER_SPAN + 1)
    rows = np.stack([section_points(form.station(x)) for x in v])
    step = 1e-4
    first = (section_points(form.station(step)) - rows[0]) / step
    last = (rows[-1] - section_points(form.station(form.spans - step))) / step
    fit = make_interp_spline(v, rows, k=3, bc_type=([(1, first)], [(1, last)]))
    return _surface(_round_poles(np.swapaxes(fit.c, 0, 1)), fit.t, 3)


def _inset(points: Grid, by: float) -> Grid:
    """Return a level section moved inward [mm], along its own normal."""
    ahead, behind = np.roll(points, -1, axis=0), np.roll(points, 1, axis=0)
    tangent = (ahead - behind)[:, :2]
    normal = np.column_stack([-tangent[:, 1], tangent[:, 0]]) / np.linalg.norm(tangent, axis=1)[:, None]
    inward = -np.sign((normal * (points[:, :2] - points[:, :2].mean(axis=0))).sum(axis=1))[:, None] * normal
    out = points.copy()
    out[:, :2] += by * inward
    return out


def _crest_rings(size: ToteSize, crest: Grid) -> tuple[Grid, Grid, Grid]:
    """Return the legs' corner and the end of the rounding from the crest into the counterbore, and its seat's ring."""
    x, z = point_on_rod(size.lean_deg, size.rod_height, 0.0)
    centre, down = np.array([x, 0.0, z]), np.array([-1.0, 0.0, -1.0]) * np.array(_up(size))
    corner = centre + (crest - centre) * (1 - size.rim_radius / size.crest_radius)
    return corner, corner + size.rim_radius * down, corner + size.nut_counterbore_depth * down


def _up(size: ToteSize) -> tuple[float, float, float]:
    x, z = point_on_rod(size.lean_deg, 1.0, 0.0)
    return x, 0.0, z


def _quarters(surface: Geom_BSplineSurface) -> list[TopoDS_Face]:
    """Return a surface as four faces (front, sides and back).

    The kernel reads volume along whole edges; with one edge of 48 spans it is half a percent out, with four edges
    4e-4 and less.
    """
    u0, u1, v0, v1 = surface.Bounds()
    cuts = [u0 + (u1 - u0) * i / 4 for i in range(5)]
    return [BRepBuilderAPI_MakeFace(surface, a, b, v0, v1, 1e-7).Face() for a, b in pairwise(cuts)]


def _lid(surface: Geom_BSplineSurface, v: float, at: gp_Pnt, normal: gp_Dir) -> TopoDS_Face:
    u0, u1, _, _ = surface.Bounds()
    wire, ring = BRepBuilderAPI_MakeWire(), surface.VIso(v)
    for a, b in pairwise(u0 + (u1 - u0) * i / 4 for i in range(5)):
        wire.Add(BRepBuilderAPI_MakeEdge(ring, a, b).Edge())
    return BRepBuilderAPI_MakeFace(gp_Pln(at, normal), wire.Wire()).Face()


def skin(size: ToteSize) -> cq.Solid:
    """Return the tote before boring, its counterbore for the nut already there [mm].

    The counterbore's wall and rounding are built with the skin, since cutting them would trace a cylinder along a
    surface that is tangent to it, which the kernel does not survive. The wall is within 2e-5 mm of a true cylinder.

    Raises:
        GeometryError: the surfaces do not close into one valid solid.
    """
    form = size.form
    foot, crest = section_points(form.station(0.0)), section_points(form.station(float(form.spans)))
    level = foot * np.array([1.0, 1.0, 0.0])
    corner, rim_end, seat_ring = _crest_rings(size, crest)
    arris = _quarter_round(_inset(level, size.arris_radius), level, foot)
    rim = _quarter_round(crest, corner, rim_end)
    wall = _surface(np.stack([_round_poles(rim_end), _round_poles(seat_ring)], axis=1), np.array([0.0, 0, 1, 1]), 1)
    x, z = point_on_rod(size.lean_deg, size.rod_height - size.nut_counterbore_depth, 0.0)
    lids = (
        _lid(arris, 0.0, gp_Pnt(0, 0, 0), gp_Dir(0, 0, -1)),
        _lid(wall, 1.0, gp_Pnt(x, 0, z), gp_Dir(*_up(size))),
    )
    sewing = BRepBuilderAPI_Sewing(1e-4)
    for face in (*(f for s in (arris, _loft(form), rim, wall) for f in _quarters(s)), *lids):
        sewing.Add(face)
    sewing.Perform()
    found = TopExp_Explorer(sewing.SewedShape(), TopAbs_SHELL)
    if not found.More() or sewing.NbFreeEdges():
        raise GeometryError("tote", "sew the skin", "the surfaces do not close", free_edges=sewing.NbFreeEdges())
    solid = cq.Solid.makeSolid(cq.Shell(TopoDS.Shell_s(found.Current())))
    if solid.Volume() < 0:
        solid = cq.Solid(TopoDS.Solid_s(solid.wrapped.Reversed()))
    return one_valid_solid(solid, "tote", "close the skin")


def _cylinder(diameter: float, at: tuple[float, float], direction: tuple[float, float], length: float) -> cq.Solid:
    return cq.Solid.makeCylinder(
        diameter / 2, length, cq.Vector(at[0], 0, at[1]), cq.Vector(direction[0], 0, direction[1])
    )


def cutters(size: ToteSize) -> dict[str, cq.Solid]:
    """Return what is bored out of the skin, by name [mm]; each runs past the wood where it comes out."""
    lean, up = size.lean_deg, point_on_rod(size.lean_deg, 1.0, 0.0)
    out = {
        "rod bore": _cylinder(size.bore_diameter, point_on_rod(lean, -20.0, 0.0), up, size.rod_height + 40.0),
        "boss counterbore": _cylinder(
            size.boss_counterbore_diameter, (0.0, -20.0), (0.0, 1.0), 20.0 + size.boss_counterbore_depth
        ),
    }
    if size.toe:
        t = size.toe
        out["toe bore"] = _cylinder(t.bore_diameter, (t.x, -20.0), (0.0, 1.0), 20.0 + size.foot_height + 10.0)
        out["toe head"] = _cylinder(t.head_diameter, (t.x, t.head_seat_z), (0.0, 1.0), size.foot_height)
        out["toe boss"] = _cylinder(t.boss_diameter, (t.x, -20.0), (0.0, 1.0), 20.0 + t.boss_depth)
    return out


def tote_solid(size: ToteSize) -> cq.Solid:
    """Return the finished tote in its own frame (rod axis at the origin of the foot plane, x aft, z up) [mm].

    Raises:
        GeometryError: the skin does not close, or a cut does not leave one valid solid.
    """
    # one cut with all tools: several times quicker than one after the other
    return one_valid_solid(skin(size).cut(*cutters(size).values()), "tote", "bores and counterbores")
