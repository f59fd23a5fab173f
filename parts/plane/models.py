"""Every solid of one plane, each built once, when it is first asked for, and placed in the plane's frame."""

from __future__ import annotations

import pickle
from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, TypeVar

import cadquery as cq

from parts.handle.knob import knob_solid
from parts.handle.tote import tote_solid
from parts.plane import kinds
from parts.plane.design import Design
from parts.plane.wood import shop_density
from shared.cad import palette
from shared.cad.scene import Shown, mesh_scene
from shared.cad.solids import mass_properties
from shared.cad.step import NamedSolid
from shared.casting.alloy import Alloy
from shared.tables import table

STEEL_DENSITY = 7850.0  # kg/m3, carbon steel of bought screws and rods; value from memory
BRASS_DENSITY = 8500.0  # kg/m3, depth wheel and rod nuts; value from memory


T = TypeVar("T")


def as_sent(made: T) -> T:
    """Return solids as they come out of another process.

    The kernel's binary form puts them down in another order, which the bytes of a STEP file show. What may be built in
    either process always takes that way, so that the same spec gives the same bytes.
    """
    return pickle.loads(pickle.dumps(made))  # type: ignore[no-any-return]


def settle_models(models: PlaneModels, names: tuple[str, ...]) -> dict[str, bytes]:
    """Replace models that are built by what another process would receive of them, and return that.

    Args:
        models: the solids of a plane.
        names: of models; those not built yet are left out.
    """
    packed = {n: pickle.dumps(models.__dict__[n]) for n in names if n in models.__dict__}
    for name, sent in packed.items():
        models.take(name, pickle.loads(sent))
    return packed


@dataclass(frozen=True)
class Piece:
    """One solid of the assembly with what it is made of."""

    name: str
    part: str
    solid: cq.Solid
    density: float  # kg/m3
    colour: palette.Colour


Measure = tuple[float, float, tuple[float, float, float]]  # volume [mm3], mass [kg], centre [mm]
Look = tuple[Measure, Shown]
PiecesOf = Mapping[str, Callable[[], list[Piece]]]


class PlaneModels(ABC):
    """The solids of one plane; what every kind has. A kind adds its own parts and says them in `parts`."""

    def __init__(self, d: Any, settle: Callable[[Any], Any] = as_sent) -> None:
        self.design = d
        self._settle = settle
        self._measured: dict[str, Measure] = {}
        self._shown: dict[str, Shown] = {}
        self._volumes: dict[str, float] = {}

    @property
    @abstractmethod
    def parts(self) -> PiecesOf:
        """Part of the assembly -> how its solids are made, in the order of the parts list."""

    @abstractmethod
    def stages(self) -> dict[str, dict[str, cq.Solid]]:
        """Return cast part -> stage ("casting", "pattern") -> solid; finished parts are in `pieces`."""

    body_casting: Any  # cq.Solid: body as cast
    body: Any  # cq.Solid: body finished
    body_pattern: Any  # cq.Solid: working pattern of the body
    blade: Any  # cq.Solid: blade, seated

    def settled(self, made: T) -> T:
        """Return what either process of a build may make in the form that it has in both."""
        same: T = self._settle(made)
        return same

    def take(self, name: str, made: object) -> None:
        """Take over what another process has built, under the name it has here."""
        self.__dict__[name] = made

    @cached_property
    def tote_local(self) -> cq.Solid:
        """Tote in its own frame."""
        return tote_solid(self.design.tote)

    @cached_property
    def tote(self) -> cq.Solid:
        """Tote on the body."""
        return self.tote_local.moved(cq.Location((self.design.tote_at.x, 0, self.design.tote.foot_plane_z)))

    @cached_property
    def knob_local(self) -> cq.Solid:
        """Knob in its own frame."""
        return knob_solid(self.design.knob)

    @cached_property
    def knob(self) -> cq.Solid:
        """Knob on the body."""
        return self.knob_local.moved(cq.Location((self.design.knob_x, 0, self.design.knob.foot_plane_z)))

    @cached_property
    def pieces(self) -> list[Piece]:
        """Every solid of the assembly, in its place."""
        return [p for part in self.parts for p in self.pieces_of(part)]

    def pieces_of(self, part: str) -> list[Piece]:
        """Return the solids of one part of the assembly; builds no other part."""
        return self.parts[part]()

    def named(self, parts: tuple[str, ...] = ()) -> list[NamedSolid]:
        """Return the assembly's solids with name and colour; `parts` takes only those parts."""
        return [NamedSolid(p.name, p.solid, p.colour) for part in parts or self.parts for p in self.pieces_of(part)]

    def measured(self, piece: Piece) -> Measure:
        """Return volume [mm3], mass [kg] and centre [mm] of one piece, measured once."""
        if piece.name not in self._measured:
            look: Look | None = self.__dict__.get("looks", {}).get(piece.name)
            self._measured[piece.name] = look[0] if look else mass_properties(piece.solid, piece.density)
        return self._measured[piece.name]

    def shown(self, piece: Piece) -> Shown:
        """Return the mesh of one piece for the picture, made once."""
        if piece.name not in self._shown:
            look: Look | None = self.__dict__.get("looks", {}).get(piece.name)
            self._shown[piece.name] = (
                look[1] if look else mesh_scene([NamedSolid(piece.name, piece.solid, piece.colour)])[0]
            )
        return self._shown[piece.name]

    def look_at(self, parts: tuple[str, ...]) -> dict[str, Look]:
        """Return measures and mesh of every solid of some parts of the assembly, by its name."""
        return {p.name: (self.measured(p), self.shown(p)) for part in parts for p in self.pieces_of(part)}

    def volume(self, name: str, solid: cq.Solid) -> float:
        """Return the volume of a casting or a pattern [mm3], measured once; `name` tells it from all others."""
        if name not in self._volumes:
            self._volumes[name] = float(solid.Volume())
        return self._volumes[name]

    def mass(self, part: str) -> float:
        """Return the mass of one part of the assembly [kg]."""
        return sum(self.measured(p)[1] for p in self.pieces if p.part == part)

    def mass_and_centre(self) -> tuple[float, list[float]]:
        """Return mass [kg] and centre of mass [mm] of the whole plane."""
        total, moment = 0.0, [0.0, 0.0, 0.0]
        for p in self.pieces:
            _, mass, centre = self.measured(p)
            total += mass
            moment = [a + mass * c for a, c in zip(moment, centre, strict=True)]
        return total, [a / total for a in moment]

    # what every kind has

    def body_pieces(self) -> list[Piece]:
        """Return the body."""
        alloy = self.design.body_alloy
        return [Piece("body", "body", self.body, alloy.density_kg_m3, metal_colour(alloy))]

    def blade_pieces(self) -> list[Piece]:
        """Return the blade."""
        return [Piece("blade", "blade", self.blade, steel_density(self.design), palette.STEEL)]

    def handle_pieces(self) -> list[Piece]:
        """Return tote (where there is one) and knob."""
        wood, colour = shop_density(self.design), wood_colour(self.design)
        tote = [] if self.design.tote is None else [Piece("tote", "handle", self.tote, wood, colour)]
        return [*tote, Piece("knob", "handle", self.knob, wood, colour)]


def metal_colour(alloy: Alloy) -> palette.Colour:
    """Return the colour a cast metal is shown in."""
    return palette.IRON if alloy.is_iron else palette.BRONZE


def wood_colour(d: Design) -> palette.Colour:
    """Return the colour the handles' wood is shown in."""
    return palette.WOODS.get(d.spec.handle.species, palette.WOOD)


def steel_density(d: Design) -> float:
    """Return the density of the blade's steel [kg/m3]."""
    return float(table("steel")["physical"][d.spec.blade.steel]["density_kg_m3"])


def bought_piece(name: str, solid: cq.Solid) -> Piece:
    """Return a bought or turned part: brass for wheels and rod nuts, else steel."""
    brass = "wheel" in name or name.endswith(" nut")
    density, colour = (BRASS_DENSITY, palette.BRASS) if brass else (STEEL_DENSITY, palette.GREY)
    return Piece(name, "hardware", solid, density, colour)


def models_of(d: Design, settle: Callable[[Any], Any] = as_sent) -> PlaneModels:
    """Return the solids of a plane, none of them built yet.

    Args:
        d: the plane.
        settle: what to do with solids that either process of a build may make.
    """
    made: PlaneModels = kinds.of(d.spec.plane.kind, "models").Models(d, settle)
    return made
