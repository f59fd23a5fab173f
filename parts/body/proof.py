"""What must hold of every body, measured on its solids: inside the casting, stock everywhere, draft everywhere."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import asin, degrees, hypot

import cadquery as cq

from parts.body.machined_faces import MachinedFace, machined_faces
from parts.body.size import BodySize, Trough
from parts.body.walls import envelope
from shared.cad.cover import outside
from shared.cad.sampling import Rays, Sample, Vector, sampled_faces
from shared.errors import GeometryError

NEAR = 2e-3  # mm, a point belongs to a surface when it lies this near
ANGLE = 1e-3  # deg, that a measured draft may miss by arithmetic


@dataclass(frozen=True)
class FaceStock:
    """Stock measured square to one machined face, from the finished face to the casting's skin [mm]."""

    name: str
    asked: float
    least: float
    most: float
    points: int


@dataclass(frozen=True)
class WallDraft:
    """Least draft of one face of the casting [deg], and where."""

    surface: str  # kind of surface
    where: str  # "outside" or "inside"
    asked: float
    least: float
    at: Vector

    @property
    def enough(self) -> bool:
        """Whether the face has the asked draft."""
        return self.least >= self.asked - ANGLE


@dataclass(frozen=True)
class Undercut:
    """A place of the casting that the sand would hold: where, and its draft to the side it should draw to [deg]."""

    at: Vector
    draft: float
    why: str


@dataclass(frozen=True)
class BodyProof:
    """Measured on the solids. Volumes [mm3]."""

    uncovered_mm3: float  # of the finished body outside the casting
    finished_mm3: float
    casting_mm3: float
    stock: tuple[FaceStock, ...]
    drafts: tuple[WallDraft, ...]
    undercuts: tuple[Undercut, ...]
    uncovered_by_rays: bool = False  # the kernel's cut of the two solids was false

    @property
    def least_stock(self) -> FaceStock:
        """The machined face with the least stock."""
        return min(self.stock, key=lambda s: s.least)

    @property
    def least_draft_outside(self) -> float:
        """Least draft of the outside walls [deg]."""
        return min(d.least for d in self.drafts if d.where == "outside")

    @property
    def least_draft_inside(self) -> float:
        """Least draft of everything inside [deg]."""
        return min(d.least for d in self.drafts if d.where == "inside")

    def holds(self, required: float) -> bool:
        """Return whether all invariants hold, with a required machining allowance [mm]."""
        covered = self.uncovered_mm3 <= 1e-6 * self.finished_mm3 and self.finished_mm3 < self.casting_mm3
        stock = all(s.least >= required - NEAR for s in self.stock)
        return covered and stock and not self.undercuts and all(d.enough for d in self.drafts)


def prove(size: BodySize, casting: cq.Solid, finished: cq.Solid) -> BodyProof:
    """Measure one bench body. See `prove_with`."""
    return prove_with(machined_faces(size), size, casting, finished)


def prove_with(rows: tuple[MachinedFace, ...], size: Trough, casting: cq.Solid, finished: cq.Solid) -> BodyProof:
    """Measure one body.

    Args:
        rows: its machined faces.
        size: its sizes.
        casting: the raw casting.
        finished: the finished body.

    Raises:
        GeometryError: a machined face is missing on the finished body.
    """
    drafts, undercuts = measure_drafts(size, casting)
    bare = outside(finished, casting)
    return BodyProof(
        uncovered_mm3=bare.mm3,
        finished_mm3=finished.Volume(),
        casting_mm3=casting.Volume(),
        stock=stock_on(rows, casting, finished),
        drafts=drafts,
        undercuts=undercuts,
        uncovered_by_rays=bare.by_rays,
    )


def volume_ratio_error(casting: cq.Solid, pattern: cq.Solid, factors: tuple[float, float, float]) -> float:
    """Return how far the pattern's volume over the casting's is from the product of the axes' factors [-]."""
    x, y, z = factors
    return pattern.Volume() / casting.Volume() / (x * y * z) - 1.0


def measure_stock(size: BodySize, casting: cq.Solid, finished: cq.Solid) -> tuple[FaceStock, ...]:
    """Measure the stock on every machined face of a bench body. See `stock_on`."""
    return stock_on(machined_faces(size), casting, finished)


def stock_on(rows: tuple[MachinedFace, ...], casting: cq.Solid, finished: cq.Solid) -> tuple[FaceStock, ...]:
    """Measure the stock on machined faces, by rays square to them from the finished face to the casting's skin.

    Raises:
        GeometryError: a machined face is missing on the finished body.
    """
    rays = Rays(casting)
    found: dict[str, list[float]] = {row.name: [] for row in rows}
    for face, samples in sampled_faces(finished):
        row = _row_of(face.geomType(), samples, rows)
        if row is not None:
            reaches = (rays.reach(s.at, s.normal) for s in samples if _is_clear(row, s))
            found[row.name] += [0.0 if r is None else r for r in reaches]
    for name, values in found.items():
        if not values:
            raise GeometryError("body", "proof", f"no machined face '{name}' on the finished solid")
    return tuple(FaceStock(r.name, r.stock, min(found[r.name]), max(found[r.name]), len(found[r.name])) for r in rows)


def _row_of(kind: str, samples: list[Sample], rows: Iterable[MachinedFace]) -> MachinedFace | None:
    if not samples:
        return None
    return next((row for row in rows if row.kind.upper() == kind and all(_lies_on(row, s) for s in samples)), None)


def _lies_on(row: MachinedFace, s: Sample) -> bool:
    away = (s.at[0] - row.at[0], s.at[1] - row.at[1], s.at[2] - row.at[2])
    if row.kind == "cylinder":
        outward = away[0] * s.normal[0] + away[1] * s.normal[1] > 0
        return outward and abs(s.normal[2]) < 1e-6 and abs(hypot(away[0], away[1]) - row.radius) < NEAR
    level = sum(a * n for a, n in zip(away, row.normal, strict=True))
    faces = sum(a * n for a, n in zip(s.normal, row.normal, strict=True))
    near = row.own is None or row.own[0] - NEAR <= s.at[0] <= row.own[1] + NEAR
    beside = row.half is not None and abs(s.at[1]) > row.half + NEAR
    return abs(level) < NEAR and faces > 1 - 1e-9 and near and not beside


def _is_clear(row: MachinedFace, s: Sample) -> bool:
    if row.clear_radius is not None:
        return hypot(s.at[0] - row.at[0], s.at[1] - row.at[1]) <= row.clear_radius
    if row.clear_plan is not None:
        return row.clear_plan.contains((s.at[0], s.at[1]))
    return row.clear_x is None or row.clear_x[0] <= s.at[0] <= row.clear_x[1]


def measure_drafts(size: Trough, casting: cq.Solid) -> tuple[tuple[WallDraft, ...], tuple[Undercut, ...]]:
    """Measure the draft of every face of the casting against the draw, away from the parting plane both ways.

    What faces up draws with the cope, also below the parting plane where the cope's sand hangs in between the cheeks;
    what faces down draws with the drag and must lie below the parting plane.
    """
    env, cast = envelope(size), size.cast
    rays = Rays(casting)
    drafts, undercuts = [], []
    for face, samples in sampled_faces(casting):
        least: WallDraft | None = None
        for s in samples:
            x, y, z = s.at
            # a face in the parting plane itself has no side to draw to
            if abs(z - cast.parting_z) < NEAR and s.normal[2] < -1 + 1e-9:
                continue
            up = s.normal[2] >= 0 or z > cast.parting_z + NEAR
            draft = degrees(asin(max(-1.0, min(1.0, s.normal[2] if up else -s.normal[2]))))
            outer = abs(env.outside(x, y, z)) < NEAR
            if draft < 0:
                undercuts.append(Undercut(s.at, draft, "faces away from its side of the mould"))
            elif up and z < cast.parting_z - NEAR and rays.reach(s.at, (0.0, 0.0, 1.0), skip=0.01) is not None:
                undercuts.append(Undercut(s.at, draft, "metal stands over it"))
            asked = cast.draft_outside if outer else cast.draft_inside
            if least is None or draft - asked < least.least - least.asked:
                least = WallDraft(face.geomType(), "outside" if outer else "inside", asked, draft, s.at)
        if least is not None:
            drafts.append(least)
    return tuple(drafts), tuple(undercuts)
