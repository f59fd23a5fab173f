"""Surfaces packed small for a page: sizes in 65535 steps, differences in byte planes, deflate, base64."""

from __future__ import annotations

import base64
import json
import zlib
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from shared.book.content import Shape
from shared.surface import Surface

STEPS = 65535
FINE = 127  # steps of a normal's two shares
INDEX = 3  # bytes of a corner number


def _column(values: NDArray[np.int64], width: int, differences: bool) -> bytes:
    """Return numbers as `width` byte planes, the low bytes first: alike bytes stand together and pack well."""
    v = np.diff(values, prepend=0) if differences else values
    v = v & ((1 << 8 * width) - 1)
    return b"".join(((v >> 8 * i) & 255).astype(np.uint8).tobytes() for i in range(width))


def octahedral(normals: NDArray[np.float64]) -> NDArray[np.int64]:
    """Return unit normals as two shares of -127 to 127 each: a point on an octahedron laid flat."""
    n = normals / np.abs(normals).sum(axis=1, keepdims=True)
    p = n[:, :2].copy()
    below = n[:, 2] < 0
    p[below] = ((1 - np.abs(p[:, ::-1])) * np.where(p >= 0, 1.0, -1.0))[below]
    return np.round(p * FINE).astype(np.int64)


def pack_surface(surface: Surface) -> tuple[dict[str, object], bytes]:
    """Return what a reader must know of one surface, and its bytes.

    Args:
        surface: at most 2**24 corners.
    """
    low, high = surface.box
    span = np.maximum(high - low, 1e-6)
    place = np.round((surface.vertices - low) / span * STEPS).astype(np.int64)
    t, e = surface.triangles, surface.edges
    data = [_column(c, 2, True) for c in place.T]
    data += [_column(c, 1, True) for c in octahedral(surface.normals).T]
    data += [_column(t[:, 0], INDEX, True)]
    data += [_column(t[:, i] - t[:, 0], INDEX, False) for i in (1, 2)]
    data += [_column(e[:, 0], INDEX, True), _column(e[:, 1] - e[:, 0], INDEX, False)]
    head = {
        "low": [round(float(v), 4) for v in low],
        "span": [round(float(v), 4) for v in span],
        "corners": len(place),
        "triangles": len(t),
        "edges": len(e),
    }
    return head, b"".join(data)


def pack_shapes(shapes: Sequence[Shape]) -> tuple[str, str]:
    """Return the shapes of a 3-D view as JSON text and their surfaces as base64 text."""
    heads: list[dict[str, object]] = []
    bodies: list[bytes] = []
    said = []
    for s in shapes:
        places = {}
        for stage, surface in s.stages.items():
            head, body = pack_surface(surface)
            places[stage] = len(heads)
            heads.append(head)
            bodies.append(body)
        said.append(
            {
                "name": f"{s.number} {s.name}".strip(),
                "colours": {stage: [round(c, 3) for c in s.stage_colours.get(stage, s.colour)] for stage in s.stages},
                "away": [round(a, 2) + 0.0 for a in s.away],
                "stages": places,
            }
        )
    packed = zlib.compress(b"".join(bodies), 6)
    return json.dumps({"shapes": said, "surfaces": heads}), base64.b64encode(packed).decode("ascii")
