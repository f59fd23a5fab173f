"""Every solid of one plane, each built once, when it is first asked for, and placed in the plane's frame."""

from __future__ import annotations

import pickle
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any, TypeVar

import cadquery as cq

from parts.blade import solid as blade
from parts.body import casting as body_cast
from parts.body import finished as body_cut
from parts.body import pattern as body_pattern
from parts.chipbreaker.solid import chipbreaker_solid
from parts.frog import casting as frog_cast
from parts.frog import finished as frog_cut
from parts.handle.knob import knob_solid
from parts.handle.tote import tote_solid
from parts.hardware.solid import hardware_solids
from parts.lever_cap.solid import lever_cap_parts
from parts.plane.design import Design
from parts.plane.seats import seating
from parts.plane.wood import shop_density
from shared.cad import palette
from shared.cad.solids import mass_properties, one_valid_solid
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


@dataclass(frozen=True)
class Piece:
    """One solid of the assembly with what it is made of."""

    name: str
    part: str
    solid: cq.Solid
    density: float  # kg/m3
    colour: palette.Colour


class Models:
    """The solids of one plane."""

    def __init__(self, d: Design, settle: Callable[[Any], Any] = as_sent) -> None:
        self.design = d
        self._settle = settle
        self._measured: dict[str, tuple[float, float, tuple[float, float, float]]] = {}

    def take(self, name: str, made: object) -> None:
        """Take over what another process has built, under the name it has here."""
        self.__dict__[name] = made

    @cached_property
    def body_casting(self) -> cq.Solid:
        """Body as cast."""
        return body_cast.casting(self.design.body)

    @cached_property
    def body(self) -> cq.Solid:
        """Body finished."""
        return body_cut.finished(self.design.body, self.body_casting)

    @cached_property
    def body_pattern(self) -> cq.Solid:
        """Working pattern of the body, contraction in it."""
        c = self.design.contraction
        return body_pattern.pattern(self.design.body, self.body_casting, (1 + c.x, 1 + c.y, 1 + c.z))

    @cached_property
    def frog_casting(self) -> cq.Solid:
        """Frog as cast."""
        return frog_cast.casting(self.design.mechanism.frog)

    @cached_property
    def frog(self) -> cq.Solid:
        """Frog finished."""
        return frog_cut.finished(self.design.mechanism.frog, self.frog_casting)

    @cached_property
    def frog_pattern(self) -> cq.Solid:
        """Working pattern of the frog; small enough for one factor, the mean of the three axes."""
        c = self.design.shop.contraction_of(self.design.frog_alloy.id, 100.0)
        factor = 1 + (c.x + c.y + c.z) / 3
        return one_valid_solid(self.frog_casting.scale(factor), "frog", "pattern")

    @cached_property
    def blade(self) -> cq.Solid:
        """Blade, seated."""
        return blade.solid(self.design.mechanism.blade, self.design.spec.bed.angle)

    @cached_property
    def chipbreaker(self) -> cq.Solid:
        """Chipbreaker, seated on the blade."""
        return chipbreaker_solid(self.design.mechanism.chipbreaker, self.design.spec.bed.angle)

    @cached_property
    def lever_cap(self) -> list[tuple[str, cq.Solid]]:
        """The five parts of the lever cap, shut."""
        return self._settle(lever_cap_parts(self.design.mechanism.lever_cap, self.design.spec.bed.angle))

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
    def hardware(self) -> list[tuple[str, cq.Solid]]:
        """Bought and turned parts, seated."""
        return self._settle(hardware_solids(self.design.hardware, seating(self.design)))

    @cached_property
    def pieces(self) -> list[Piece]:
        """Every solid of the assembly, in its place."""
        return [p for part in PIECES for p in self.pieces_of(part)]

    def pieces_of(self, part: str) -> list[Piece]:
        """Return the solids of one part of the assembly; builds no other part."""
        return PIECES[part](self)

    def named(self, parts: tuple[str, ...] = ()) -> list[NamedSolid]:
        """Return the assembly's solids with name and colour; `parts` takes only those parts."""
        return [NamedSolid(p.name, p.solid, p.colour) for part in parts or PIECES for p in self.pieces_of(part)]

    def measured(self, piece: Piece) -> tuple[float, float, tuple[float, float, float]]:
        """Return volume [mm3], mass [kg] and centre [mm] of one piece, measured once."""
        if piece.name not in self._measured:
            self._measured[piece.name] = mass_properties(piece.solid, piece.density)
        return self._measured[piece.name]

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


def _metal(alloy: Alloy) -> palette.Colour:
    return palette.IRON if alloy.is_iron else palette.BRONZE


def _body(m: Models) -> list[Piece]:
    alloy = m.design.body_alloy
    return [Piece("body", "body", m.body, alloy.density_kg_m3, _metal(alloy))]


def _frog(m: Models) -> list[Piece]:
    alloy = m.design.frog_alloy
    return [Piece("frog", "frog", m.frog, alloy.density_kg_m3, _metal(alloy))]


def _steel(m: Models) -> float:
    return float(table("steel")["physical"][m.design.spec.blade.steel]["density_kg_m3"])


def _blade(m: Models) -> list[Piece]:
    return [Piece("blade", "blade", m.blade, _steel(m), palette.STEEL)]


def _chipbreaker(m: Models) -> list[Piece]:
    return [Piece("chipbreaker", "chipbreaker", m.chipbreaker, _steel(m), palette.MACHINED)]


def _handle(m: Models) -> list[Piece]:
    wood = shop_density(m.design)
    return [Piece("tote", "handle", m.tote, wood, palette.WOOD), Piece("knob", "handle", m.knob, wood, palette.WOOD)]


def _lever_cap(m: Models) -> list[Piece]:
    alloy, found = m.design.cap_alloy, []
    for name, solid in m.lever_cap:
        cast = name in ("lever cap cap", "lever cap lever")
        density, colour = (alloy.density_kg_m3, _metal(alloy)) if cast else (STEEL_DENSITY, palette.STEEL)
        found.append(Piece(name, "lever_cap", solid, density, colour))
    return found


def _hardware(m: Models) -> list[Piece]:
    found = []
    for name, solid in m.hardware:
        brass = "wheel" in name or name.endswith(" nut")
        density, colour = (BRASS_DENSITY, palette.BRASS) if brass else (STEEL_DENSITY, palette.GREY)
        found.append(Piece(name, "hardware", solid, density, colour))
    return found


PIECES: dict[str, Callable[[Models], list[Piece]]] = {
    "body": _body,
    "frog": _frog,
    "blade": _blade,
    "chipbreaker": _chipbreaker,
    "handle": _handle,
    "lever_cap": _lever_cap,
    "hardware": _hardware,
}
