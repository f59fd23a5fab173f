"""What a DXF drawing looks like on paper: paths, filled shapes and words, read from its entities. Paper mm, degrees.

PDF, SVG and the check for overlaps all read this, so all of them see the same drawing as a CAD program does: dimensions
and blocks are taken apart by ezdxf, hatches are clipped exactly.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from ezdxf.disassemble import recursive_decompose

from shared.drawing.hatching import hatch_lines
from shared.drawing.sheet import LAYERS, Sheet
from shared.segments import Point

FINE = 0.01  # mm: how near the chords of free curves lie
INK = "#1b1d21"
# our own: ink for the part and the words, a dark slate for what measures it, greys for the rest
COLOURS = {"DIM": "#27445f", "GDT": "#27445f", "SECTION": "#27445f", "HATCH": "#6f757c", "HIDDEN": "#4b5057",
           "SMOOTH": "#8a9097", "CENTRE": "#5c6f80", "PHANTOM": "#6f757c", "CUT": "#9a3324"}  # fmt: skip
DASHES = {"HIDDEN": (3.0, 0.75), "CENTRE": (6.0, 0.75, 0.5, 0.75), "PHANTOM": (6.0, 0.75, 0.5, 0.75, 0.5, 0.75)}

Bezier = tuple[Point, Point, Point]


@dataclass(frozen=True)
class Path:
    """A stroke: where it starts [mm], then points (straight) or control, control, end (curved)."""

    layer: str
    start: Point
    pieces: tuple[Point | Bezier, ...]

    def points(self) -> list[Point]:
        """Return points along it [mm], curved pieces in eight chords."""
        out = [self.start]
        for p in self.pieces:
            if isinstance(p[0], tuple):
                a, (b, c, d) = out[-1], p  # type: ignore[misc]
                for i in range(1, 9):
                    t = i / 8
                    w = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
                    out.append(tuple(sum(k * q[n] for k, q in zip(w, (a, b, c, d), strict=True)) for n in (0, 1)))  # type: ignore[arg-type]
            else:
                out.append(p)  # type: ignore[arg-type]
        return out


@dataclass(frozen=True)
class Area:
    """A filled shape: its corners [mm]."""

    layer: str
    corners: tuple[Point, ...]


@dataclass(frozen=True)
class Words:
    """A line of text: foot point [mm], capital height [mm], angle [deg], `share` of its width left of the foot [-]."""

    layer: str
    text: str
    at: Point
    height: float
    angle: float
    share: float


Ink = Path | Area | Words


def pen(layer: str) -> tuple[str, float, tuple[float, ...]]:
    """Return colour, width [mm] and dashes [mm] of a layer."""
    known = LAYERS[layer]
    return COLOURS.get(layer, INK), known.weight / 100.0, DASHES.get(known.linetype, ())


def ink(sheet: Sheet) -> list[Ink]:
    """Return everything a drawing shows, by layer, words last."""
    if sheet.seen is not None and sheet.seen[0] == len(sheet.space):
        return sheet.seen[1]
    out: list[Ink] = []
    for e in recursive_decompose(sheet.space):
        read = _READ.get(e.dxftype())
        if read is not None:
            out += read(e)
    out.sort(key=lambda x: (isinstance(x, Words), x.layer))
    sheet.seen = len(sheet.space), out
    return out


def _line(e: Any) -> Iterator[Ink]:
    yield Path(e.dxf.layer, (e.dxf.start.x, e.dxf.start.y), ((e.dxf.end.x, e.dxf.end.y),))


def _arc(e: Any) -> Iterator[Ink]:
    c = (e.dxf.center.x, e.dxf.center.y)
    first, last = (0.0, 360.0) if e.dxftype() == "CIRCLE" else (e.dxf.start_angle, e.dxf.end_angle)
    start, pieces = arc_pieces(c, e.dxf.radius, first, last)
    yield Path(e.dxf.layer, start, pieces)


def arc_pieces(centre: Point, radius: float, first: float, last: float) -> tuple[Point, tuple[Bezier, ...]]:
    """Return an arc [mm] from `first` to `last` [deg], counter-clockwise, as curves of 45 deg at most.

    Such a curve strays from the arc by less than 1e-6 of its radius.
    """
    sweep = (last - first) % 360.0 or 360.0
    n = math.ceil(sweep / 45.0 - 1e-9)
    step = math.radians(sweep / n)
    h = 4 / 3 * math.tan(step / 4) * radius

    def at(i: int) -> tuple[Point, Point]:
        a = math.radians(first) + i * step
        c, s = math.cos(a), math.sin(a)
        return (centre[0] + radius * c, centre[1] + radius * s), (-s * h, c * h)

    pieces = []
    for i in range(n):
        (p, t), (q, u) = at(i), at(i + 1)
        pieces.append(((p[0] + t[0], p[1] + t[1]), (q[0] - u[0], q[1] - u[1]), q))
    return at(0)[0], tuple(pieces)


def _curve(e: Any) -> Iterator[Ink]:
    points = [(p.x, p.y) for p in e.flattening(FINE)]
    yield Path(e.dxf.layer, points[0], tuple(points[1:]))


def _solid(e: Any) -> Iterator[Ink]:
    yield Area(e.dxf.layer, tuple((v.x, v.y) for v in e.vertices()))


def _hatch(e: Any) -> Iterator[Ink]:
    for a, b in hatch_lines(e):
        yield Path(e.dxf.layer, a, (b,))


def _text(e: Any) -> Iterator[Ink]:
    align, at, _ = e.get_placement()
    share = {"LEFT": 0.0, "CENTER": 0.5, "RIGHT": 1.0}[align.name]
    yield Words(e.dxf.layer, e.plain_text(), (at.x, at.y), e.dxf.height, e.dxf.rotation, share)


_READ: dict[str, Callable[[Any], Iterator[Ink]]] = {
    "LINE": _line, "ARC": _arc, "CIRCLE": _arc, "ELLIPSE": _curve, "SPLINE": _curve, "SOLID": _solid, "HATCH": _hatch,
    "TEXT": _text,
}  # fmt: skip
