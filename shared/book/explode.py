"""Where the pieces of an assembly go when it is taken apart: from their shapes alone. Lengths mm.

Each piece stands on a host and leaves it in one direction until it is clear of it, or for a piece that sits deep, until
most of it shows. A turned piece (screw, pin, rod, wheel) leaves along its own axis.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shared.surface import Surface

GAP = 9.0  # mm between a piece and its host
DEEP = 0.55  # share of the host's extent that a piece inside it comes out, at most
BESIDE = 3.0  # mm about a piece's shadow in which its host may stop it

Axis = tuple[float, float, float]
Array = NDArray[np.float64]


@dataclass(frozen=True)
class Loose:
    """One piece: its name, the group it belongs to, its surface in its place, and the axis it was turned about."""

    name: str
    group: str
    surface: Surface
    axis: Axis | None = None

    @property
    def middle(self) -> Array:
        """Middle of the box about it [mm]."""
        return np.mean(self.surface.box, axis=0)

    @property
    def bulk(self) -> float:
        """Volume of the box about it [mm3]."""
        low, high = self.surface.box
        return float(np.prod(high - low))


@dataclass(frozen=True)
class Way:
    """How a group comes off: the groups it may stand on, the nearest that exists first, and its direction."""

    on: tuple[str, ...]
    toward: Axis


def frame_along(way: Array) -> Array:
    """Return three directions square to each other, as rows, the first one the way itself."""
    side = np.cross(way, (1.0, 0.0, 0.0) if abs(way[1]) > 0.9 else (0.0, 1.0, 0.0))
    side /= np.linalg.norm(side)
    return np.array([way, side, np.cross(way, side)])


def _extent(surface: Surface, frame: Array) -> tuple[Array, Array]:
    v = surface.vertices @ frame.T
    return v.min(axis=0), v.max(axis=0)


class _Stack:
    """Pieces placed so far, each with its shift; the first one is the base, which stays."""

    def __init__(self, base: Loose, toward: Array) -> None:
        self.frames = [np.eye(3), frame_along(toward)]
        self.placed: list[tuple[Loose, Array]] = []
        self.boxes: dict[str, list[tuple[Array, Array]]] = {}
        self._add(base, np.zeros(3))

    def _add(self, piece: Loose, shift: Array) -> None:
        self.placed.append((piece, shift))
        self.boxes[piece.name] = [_extent(piece.surface, frame) for frame in self.frames]

    def host_of(self, piece: Loose, groups: Sequence[str]) -> tuple[Loose, Array]:
        """Return the placed piece that this one is in or nearest to, by boxes along two frames; the smallest first."""
        best, rank = self.placed[0], (float("inf"), float("inf"))
        for other, shift in self.placed:
            if other.group not in groups:
                continue
            far = 0.0
            for frame, (low, high) in zip(self.frames, self.boxes[other.name], strict=True):
                at = frame @ piece.middle
                far = max(far, float(np.linalg.norm(np.maximum(0.0, np.maximum(low - at, at - high)))))
            if (round(far, 1), other.bulk) < rank:
                best, rank = (other, shift), (round(far, 1), other.bulk)
        return best

    def put(self, piece: Loose, host: tuple[Loose, Array], way: Array, deep: float) -> None:
        """Place a piece off its host.

        Args:
            piece: what comes off.
            host: what it comes off, with its shift.
            way: direction, of length 1.
            deep: share of the host's extent that it comes out at most [-].
        """
        other, shift = host
        frame = frame_along(way)
        low, high = _extent(piece.surface, frame)
        v = other.surface.vertices @ frame.T
        near = ((v[:, 1:] > low[1:] - BESIDE) & (v[:, 1:] < high[1:] + BESIDE)).all(axis=1)
        along = v[near, 0] if near.any() else v[:, 0]
        far = min(float(along.max() - low[0]), deep * float(np.ptp(v[:, 0]))) + GAP
        if other is self.placed[0][0]:
            # off the base: clear of its top, or, along it, as far as the piece is long
            clear = float(other.surface.box[1][2] - piece.surface.box[0][2]) + GAP
            far = clear / float(way[2]) if way[2] > 0.3 else min(far, float(high[0] - low[0]) + GAP)
        reach = shift + way * max(far, GAP)
        # what leaves by the same path stands one behind the other
        for sibling, gone in self.placed[1:]:
            if sibling.group != piece.group:
                continue
            seen = (sibling.surface.vertices + gone) @ frame.T
            here = frame @ reach
            mine = seen[((seen[:, 1:] > low[1:] + here[1:]) & (seen[:, 1:] < high[1:] + here[1:])).all(axis=1), 0]
            if len(mine) and mine.min() < high[0] + here[0] and low[0] + here[0] < mine.max():
                reach = reach + way * float(mine.max() - low[0] - here[0] + GAP)
        self._add(piece, reach)


def explode(pieces: Sequence[Loose], ways: Mapping[str, Way], toward: Axis) -> dict[str, Axis]:
    """Return where each piece goes: name -> shift [mm].

    Args:
        pieces: of the assembly, in their places.
        ways: group -> how it comes off, the base first with nothing to stand on; groups without one are small parts
            that find their own host and axis.
        toward: direction in which what lies on the base comes off, such as square to a blade.
    """
    if not pieces:
        return {}
    out = np.array(toward) / np.linalg.norm(toward)
    grouped = {group: [p for p in pieces if p.group == group] for group in ways}
    base = next((found[0] for found in grouped.values() if found), pieces[0])
    stack = _Stack(base, out)
    small = [p for p in pieces if p.group not in ways and p is not base]
    for group, way in ways.items():
        direction = np.array(way.toward) / np.linalg.norm(way.toward)
        there = [g for g in way.on if grouped.get(g)][:1]
        members = [p for p in grouped[group] if p is not base]
        lead = max(members, key=lambda p: p.bulk, default=None)
        # rivets and the like of a group come out of it along their own axes
        small += [p for p in members if p is not lead and p.axis is not None and p.bulk < 0.1 * _bulk(lead)]
        body = [p for p in members if p not in small]
        for piece in sorted(body, key=lambda p: float(p.middle @ direction)):
            stack.put(piece, stack.host_of(piece, [*there, group]), direction, 1.0)
    for piece in sorted(small, key=lambda p: (float(p.surface.box[0][2]), p.name)):
        host = stack.host_of(piece, [piece.group] if piece.group in ways else list(ways))
        stack.put(piece, host, _leaves(piece, host[0], out), DEEP)
    return {p.name: (float(s[0]), float(s[1]), float(s[2])) for p, s in stack.placed}


def _bulk(piece: Loose | None) -> float:
    return 0.0 if piece is None else piece.bulk


def _leaves(piece: Loose, host: Loose, out: Array) -> Array:
    """Return the direction in which a small part leaves its host: its own axis, outward."""
    if piece.axis is None:
        return out if piece.middle @ out > 0 else -out
    axis = np.array(piece.axis)
    if abs(axis @ out) > 0.9:
        return axis * np.sign(axis @ out) * (1.0 if piece.middle @ out > 0 else -1.0)
    if abs(axis[2]) > 0.2:
        return axis * np.sign(axis[2])
    outward = float(axis @ (piece.middle - host.middle))
    return axis * (1.0 if outward >= -1e-6 else -1.0)
