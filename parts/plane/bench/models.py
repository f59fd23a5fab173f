"""Every solid of one bench plane, each built once, when it is first asked for, and placed in the plane's frame."""

from __future__ import annotations

from functools import cached_property

import cadquery as cq

from parts.blade import solid as blade
from parts.body import casting as body_cast
from parts.body import finished as body_cut
from parts.body import pattern as body_pattern
from parts.chipbreaker.solid import chipbreaker_solid
from parts.frog import casting as frog_cast
from parts.frog import finished as frog_cut
from parts.hardware.solid import hardware_solids
from parts.lever_cap.solid import Castings, castings_flat, lever_cap_parts
from parts.plane.bench.design import BenchDesign
from parts.plane.bench.seats import seating
from parts.plane.models import STEEL_DENSITY, Piece, PiecesOf, PlaneModels, bought_piece, metal_colour, steel_density
from shared.cad import palette
from shared.cad.solids import one_valid_solid


class Models(PlaneModels):
    """The solids of one bench plane."""

    design: BenchDesign

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
    def cap_castings(self) -> Castings:
        """Lever cap and cam lever as cast, in the blade frame."""
        return castings_flat(self.design.mechanism.lever_cap)

    @cached_property
    def lever_cap(self) -> list[tuple[str, cq.Solid]]:
        """The five parts of the lever cap, shut."""
        d = self.design
        return self._settle(lever_cap_parts(d.mechanism.lever_cap, d.spec.bed.angle, self.cap_castings))

    @cached_property
    def hardware(self) -> list[tuple[str, cq.Solid]]:
        """Bought and turned parts, seated."""
        return self._settle(hardware_solids(self.design.hardware, seating(self.design)))

    @property
    def parts(self) -> PiecesOf:
        """Part of the assembly -> how its solids are made."""
        return {
            "body": self.body_pieces,
            "frog": self._frog_pieces,
            "blade": self.blade_pieces,
            "chipbreaker": self._chipbreaker_pieces,
            "handle": self.handle_pieces,
            "lever_cap": self._lever_cap_pieces,
            "hardware": self._hardware_pieces,
        }

    def stages(self) -> dict[str, dict[str, cq.Solid]]:
        """Return casting and pattern of body and frog."""
        return {
            "body": {"casting": self.body_casting, "pattern": self.body_pattern},
            "frog": {"casting": self.frog_casting, "pattern": self.frog_pattern},
        }

    def _frog_pieces(self) -> list[Piece]:
        alloy = self.design.frog_alloy
        return [Piece("frog", "frog", self.frog, alloy.density_kg_m3, metal_colour(alloy))]

    def _chipbreaker_pieces(self) -> list[Piece]:
        return [Piece("chipbreaker", "chipbreaker", self.chipbreaker, steel_density(self.design), palette.MACHINED)]

    def _lever_cap_pieces(self) -> list[Piece]:
        alloy, found = self.design.cap_alloy, []
        for name, solid in self.lever_cap:
            cast = name in ("lever cap cap", "lever cap lever")
            density, colour = (alloy.density_kg_m3, metal_colour(alloy)) if cast else (STEEL_DENSITY, palette.STEEL)
            found.append(Piece(name, "lever_cap", solid, density, colour))
        return found

    def _hardware_pieces(self) -> list[Piece]:
        return [bought_piece(name, solid) for name, solid in self.hardware]
