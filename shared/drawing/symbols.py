"""Symbols drawn with lines and arcs, so that no special font is needed: ISO 1101 / ASME Y14.5, ISO 21920, ISO 5456.

Each is drawn in a square 1 mm high with its corner at the origin; a sheet keeps them as blocks and scales them.
"""

from __future__ import annotations

import itertools
import math

from shared.drawing.marks import Fill
from shared.drawing.primitives import Arc, Line, Primitive
from shared.segments import Point

Shape = Primitive | Fill


def _lines(*points: Point) -> list[Shape]:
    return [Line(a, b) for a, b in itertools.pairwise(points)]


def _circle(u: float, v: float, r: float) -> list[Shape]:
    return [Arc((u, v), r, 0.0, 360.0)]


def _arrow(tip: Point, tail: Point) -> list[Shape]:
    d = math.dist(tip, tail)
    e = ((tip[0] - tail[0]) / d, (tip[1] - tail[1]) / d)
    back = (tip[0] - 0.34 * e[0], tip[1] - 0.34 * e[1])
    wing = 0.11
    head = Fill((tip, (back[0] - wing * e[1], back[1] + wing * e[0]), (back[0] + wing * e[1], back[1] - wing * e[0])))
    return [Line(tail, back), head]


SYMBOLS: dict[str, list[Shape]] = {
    "straightness": _lines((0.0, 0.5), (1.0, 0.5)),
    "flatness": _lines((0.0, 0.15), (0.65, 0.15), (1.0, 0.85), (0.35, 0.85), (0.0, 0.15)),
    "roundness": _circle(0.5, 0.5, 0.42),
    "cylindricity": [*_circle(0.5, 0.5, 0.28), *_lines((0.05, 0.1), (0.42, 0.95)), *_lines((0.58, 0.05), (0.95, 0.9))],
    "line profile": [Arc((0.5, 0.2), 0.45, 0.0, 180.0)],
    "profile": [Arc((0.5, 0.2), 0.45, 0.0, 180.0), *_lines((0.05, 0.2), (0.95, 0.2))],
    "perpendicularity": [*_lines((0.05, 0.1), (0.95, 0.1)), *_lines((0.5, 0.1), (0.5, 0.95))],
    "parallelism": [*_lines((0.1, 0.05), (0.5, 0.95)), *_lines((0.5, 0.05), (0.9, 0.95))],
    "angularity": _lines((0.9, 0.8), (0.05, 0.1), (0.95, 0.1)),
    "position": [*_circle(0.5, 0.5, 0.3), *_lines((0.0, 0.5), (1.0, 0.5)), *_lines((0.5, 0.0), (0.5, 1.0))],
    "coaxiality": [*_circle(0.5, 0.5, 0.22), *_circle(0.5, 0.5, 0.45)],
    "symmetry": [*_lines((0.2, 0.8), (0.8, 0.8)), *_lines((0.0, 0.5), (1.0, 0.5)), *_lines((0.2, 0.2), (0.8, 0.2))],
    "runout": _arrow((0.9, 0.95), (0.1, 0.05)),
    "total runout": [
        *_arrow((0.65, 0.95), (0.0, 0.05)),
        *_arrow((1.0, 0.95), (0.35, 0.05)),
        *_lines((0.0, 0.05), (0.35, 0.05)),
    ],
    # not toleranced form, but signs in front of a number
    "diameter": [*_circle(0.5, 0.5, 0.36), *_lines((0.12, 0.0), (0.88, 1.0))],
    "depth": [*_lines((0.1, 0.95), (0.9, 0.95)), *_arrow((0.5, 0.0), (0.5, 0.95))],
    "counterbore": _lines((0.05, 0.9), (0.05, 0.1), (0.95, 0.1), (0.95, 0.9)),
    "countersink": _lines((0.0, 0.85), (0.5, 0.1), (1.0, 0.85)),
    # surface texture: the tick of 60 deg with its tip at the middle of the foot
    "texture": _lines((0.21, 0.5), (0.5, 0.0), (1.08, 1.0)),
    "texture machined": [*_lines((0.21, 0.5), (0.5, 0.0), (1.08, 1.0)), *_lines((0.21, 0.5), (0.79, 0.5))],
    "texture as cast": [*_lines((0.21, 0.5), (0.5, 0.0), (1.08, 1.0)), *_circle(0.5, 0.335, 0.165)],
    # third-angle projection: the small end of the cone faces its own view
    "third angle": [
        *_circle(0.45, 0.5, 0.4),
        *_circle(0.45, 0.5, 0.2),
        *_lines((1.25, 0.3), (2.15, 0.1), (2.15, 0.9), (1.25, 0.7), (1.25, 0.3)),
        *_lines((-0.1, 0.5), (1.0, 0.5)),
        *_lines((1.1, 0.5), (2.3, 0.5)),
        *_lines((0.45, -0.05), (0.45, 1.05)),
    ],
}
TOLERANCED = (
    "straightness", "flatness", "roundness", "cylindricity", "line profile", "profile", "perpendicularity",
    "parallelism", "angularity", "position", "coaxiality", "symmetry", "runout", "total runout",
)  # fmt: skip
