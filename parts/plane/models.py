"""Every solid of one plane, each built once, when it is first asked for, and placed in the plane's frame."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

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
from shared.cad import palette
from shared.cad.solids import mass_properties, one_valid_solid
from shared.cad.step import NamedSolid
from shared.tables import table

STEEL_DENSITY = 7850.0  # kg/m3, carbon steel of bought screws and rods; value from memory
BRASS_DENSITY = 8500.0  # kg/m3, depth wheel and rod nuts; value from memory


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

    def __init__(self, d: Design) -> None:
        self.design = d

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
        return lever_cap_parts(self.design.mechanism.lever_cap, self.design.spec.bed.angle)

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
        return hardware_solids(self.design.hardware, seating(self.design))

    @cached_property
    def pieces(self) -> list[Piece]:
        """Every solid of the assembly, in its place."""
        d = self.design
        steel = float(table("steel")["physical"][d.spec.blade.steel]["density_kg_m3"])
        wood = wood_density(d)
        metal = {True: palette.IRON, False: palette.BRONZE}
        found = [
            Piece("body", "body", self.body, d.body_alloy.density_kg_m3, metal[d.body_alloy.is_iron]),
            Piece("frog", "frog", self.frog, d.frog_alloy.density_kg_m3, metal[d.frog_alloy.is_iron]),
            Piece("blade", "blade", self.blade, steel, palette.STEEL),
            Piece("chipbreaker", "chipbreaker", self.chipbreaker, steel, palette.MACHINED),
            Piece("tote", "handle", self.tote, wood, palette.WOOD),
            Piece("knob", "handle", self.knob, wood, palette.WOOD),
        ]
        cast = ("cap", "lever")
        for name, solid in self.lever_cap:
            is_cast = name.removeprefix("lever cap ") in cast
            density = d.cap_alloy.density_kg_m3 if is_cast else STEEL_DENSITY
            colour = metal[d.cap_alloy.is_iron] if is_cast else palette.STEEL
            found.append(Piece(name, "lever_cap", solid, density, colour))
        for name, solid in self.hardware:
            brass = "wheel" in name or name.endswith(" nut")
            found.append(
                Piece(
                    name,
                    "hardware",
                    solid,
                    BRASS_DENSITY if brass else STEEL_DENSITY,
                    palette.BRASS if brass else palette.GREY,
                )
            )
        return found

    def named(self, parts: tuple[str, ...] | None = None) -> list[NamedSolid]:
        """Return the assembly's solids with name and colour; `parts` keeps only those parts."""
        return [NamedSolid(p.name, p.solid, p.colour) for p in self.pieces if parts is None or p.part in parts]

    def mass(self, part: str) -> float:
        """Return the mass of one part of the assembly [kg]."""
        return sum(mass_properties(p.solid, p.density)[1] for p in self.pieces if p.part == part)

    def mass_and_centre(self) -> tuple[float, list[float]]:
        """Return mass [kg] and centre of mass [mm] of the whole plane."""
        total, moment = 0.0, [0.0, 0.0, 0.0]
        for p in self.pieces:
            _, mass, centre = mass_properties(p.solid, p.density)
            total += mass
            moment = [a + mass * c for a, c in zip(moment, centre, strict=True)]
        return total, [a / total for a in moment]


def wood_density(d: Design) -> float:
    """Return the density of the handles' wood at the shop's moisture [kg/m3]."""
    from parts.plane.wood import shop_density

    return shop_density(d)
