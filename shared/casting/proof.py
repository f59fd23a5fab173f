"""One casting proved by computation on its mesh: walls, freezing, sections, draw, stock. Lengths mm.

All numpy and scipy; the mesh may come from anywhere. What is reckoned per casting and how fine:

- walls by balls inside the skin (`walls`), exact on flat faces;
- freezing on cells of `FINEST` to `COARSEST` (`freezing`): plates of 6 and 20 mm come out up to 7 % slow at
  2.5 mm, within 1.5 % from 1 mm down;
- sections from the mesh itself, every `STATION`.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Protocol

import numpy as np

from shared.both_units import length
from shared.casting.alloy import Alloy
from shared.casting.draw_check import DrawCheck, check_draw
from shared.casting.freezing import Freezing, Melt, expected_time, freeze, sand_band
from shared.casting.hot_spots import HotSpot, hot_spots
from shared.casting.raycast import Floats, Triangles, areas, enclosed
from shared.casting.sections import Sections, measure_sections, stations
from shared.casting.solidification import Feeding, feeding, mould_constant
from shared.casting.stefan import Sand
from shared.casting.stock import FaceStock, Machined, measure_stock, outside
from shared.casting.voxels import Voxels, spacing_for, voxelise
from shared.casting.walls import Walls, measure_walls

CELLS = 45_000  # of metal and sand that take part
FINEST, COARSEST = 1.5, 2.5  # mm edge of a cell
SKIN_POINTS = 18_000  # about so many points of skin have their wall measured
SKIN_FINEST = 0.8  # mm between them at least
STATION = 5.0  # mm between sections
RAYS = 0.7  # mm between rays that look for trapped sand and bare metal
TRAPPED_GRAIN = 2.0  # mm³ of trapped sand that a mesh's facets may feign
SLENDER = 2.5  # length over depth from which a part bends like a beam
BARE_SHARE = 1e-4  # of the finished volume that may stand out of the casting by the meshes' tolerance
DRAFT_GRAIN = 0.02  # deg by which a measured draft may miss
STOCK_GRAIN = 0.02  # mm by which a measured stock may miss

Place = tuple[float, float, float]


class Skin(Triangles, Protocol):
    """A closed mesh with points of its faces and their true normals."""

    @property
    def points(self) -> Floats:
        """Points of the faces [mm]."""

    @property
    def outward(self) -> Floats:
        """Unit normals of the faces there."""


@dataclass(frozen=True, eq=False, repr=False)
class Case:
    """What is to be proved: a casting of an alloy, how it is drawn, and the part that is cut from it."""

    name: str
    alloy: Alloy
    casting: Skin
    axis: int  # of the draw
    parting: float  # where the parting plane stands on that axis [mm]
    draft_asked: float  # least over its walls [deg]
    poured_c: float  # metal temperature [°C]
    finished: Skin | None = None
    machined: tuple[Machined, ...] = ()
    landmarks: tuple[tuple[str, Place], ...] = field(default=())  # names of places [mm]


@dataclass(frozen=True, eq=False, repr=False)
class Proof:
    """What was found."""

    case: Case
    volume_mm3: float
    area_mm2: float
    walls: Walls
    cells: Voxels
    freezing: Freezing
    spots: tuple[HotSpot, ...]
    feed: Feeding
    length_axis: int
    bends_axis: int
    raw: Sections
    cut: Sections | None
    draw: DrawCheck
    stock: tuple[FaceStock, ...]
    bare_mm3: float | None  # of the finished part outside the casting

    @property
    def hot_modulus_mm(self) -> float:
        """Modulus of the spot that freezes last [mm]."""
        return self.spots[0].modulus_mm

    @property
    def draws(self) -> bool:
        """Whether every face has the asked draft and no sand is held by metal."""
        return self.draw.least_deg >= self.case.draft_asked - DRAFT_GRAIN and self.draw.trapped_mm3 <= TRAPPED_GRAIN

    @property
    def lacking(self) -> tuple[FaceStock, ...]:
        """Machined faces with less stock than asked."""
        return tuple(s for s in self.stock if s.least < s.asked - STOCK_GRAIN)

    @property
    def unmeasured(self) -> tuple[str, ...]:
        """Machined planes that were not found on the finished part."""
        found = {s.name for s in self.stock}
        return tuple(f.name for f in self.case.machined if f.name not in found)

    @property
    def bare_limit_mm3(self) -> float:
        """Volume out of the casting that the meshes' facets may feign [mm3]."""
        return BARE_SHARE * self.volume_mm3

    @property
    def covered(self) -> bool:
        """Whether the finished part lies inside its casting, as far as the meshes tell."""
        return self.bare_mm3 is None or self.bare_mm3 <= self.bare_limit_mm3

    @property
    def is_slender(self) -> bool:
        """Whether it is long enough to be looked at as a beam."""
        spans = np.ptp(self.case.casting.vertices, axis=0)
        return bool(spans[self.length_axis] >= SLENDER * spans[self.bends_axis])

    def near(self, at: Place, first: str = "") -> str:
        """Return what a place [mm] is called: the nearest landmark, and how far it is, in both units where `first` is
        "inch" or "mm".
        """
        if not self.case.landmarks:
            return ""
        away = [(float(np.linalg.norm(np.subtract(at, p))), name) for name, p in self.case.landmarks]
        distance, name = min(away)
        if distance < 12.0:
            return f"at the {name}"
        return f"{length(distance, first, (1, 0)) if first else f'{distance:.0f} mm'} from the {name}"


def prove(case: Case) -> Proof:
    """Prove one casting. Takes about a second of processor time.

    Args:
        case: the casting.

    Raises:
        ValueError: its mesh encloses nothing.
    """
    mesh, metal = case.casting, case.alloy
    volume, area = enclosed(mesh), float(areas(mesh).sum())
    if not volume > 0.0:
        raise ValueError(f"{case.name}: the mesh encloses nothing")
    sand = Sand.silica()
    expected = expected_time(metal, case.poured_c, volume / area)
    band = sand_band(sand, expected)
    cells = voxelise(mesh, spacing_for(volume, area, band, CELLS, FINEST, COARSEST), band)
    frozen = freeze(cells, Melt.of(metal, case.poured_c), sand, expected, band)
    constant = mould_constant(metal, case.poured_c - (metal.solidus_c + metal.liquidus_c) / 2.0, sand.start_c)
    spots = tuple(hot_spots(cells, frozen, constant))
    spans = np.ptp(mesh.vertices, axis=0)
    along, up = int(np.argmax(spans)), int(np.argmin(spans))
    stock = (measure_stock(case.finished, mesh, face) for face in case.machined) if case.finished is not None else ()
    return Proof(
        case=case,
        volume_mm3=volume,
        area_mm2=area,
        # three rays a point of skin or so: each axis meets what is steep to it
        walls=measure_walls(mesh, max(SKIN_FINEST, float(np.sqrt(1.5 * area / SKIN_POINTS)))),
        cells=cells,
        freezing=frozen,
        spots=spots,
        feed=feeding(metal, volume, spots[0].modulus_mm),
        length_axis=along,
        bends_axis=up,
        raw=measure_sections(mesh, along, up, stations(mesh, along, STATION)),
        cut=_cut_sections(case.finished, along, up),
        draw=check_draw(mesh, mesh.points, mesh.outward, case.axis, case.parting, RAYS),
        stock=tuple(s for s in stock if s is not None),
        bare_mm3=None if case.finished is None else outside(case.finished, mesh, RAYS),
    )


def _cut_sections(finished: Skin | None, along: int, up: int) -> Sections | None:
    if finished is None:
        return None
    return measure_sections(finished, along, up, stations(finished, along, STATION))
