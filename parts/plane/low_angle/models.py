"""Every solid of one low-angle plane, each built once, when it is first asked for, and placed in the plane's frame."""

from __future__ import annotations

from functools import cached_property

import cadquery as cq

from parts.blade import solid as blade
from parts.body.low_angle import casting as body_cast
from parts.body.low_angle import finished as body_cut
from parts.body.low_angle import pattern as body_pattern
from parts.body.low_angle.toe_way import toe_piece
from parts.hardware.turned import rod, rod_nut, screw
from parts.low_angle.cap import cap_casting
from parts.low_angle.setting import NOMINAL, Setting
from parts.low_angle.solid import adjuster_parts, lever_cap_parts, moved_with_blade
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.models import BRASS_DENSITY, STEEL_DENSITY, Piece, PiecesOf, PlaneModels, bought_piece, metal_colour
from parts.plane.pattern_list import CAST_LARGEST
from shared.cad import palette
from shared.cad.solids import one_valid_solid

Named = tuple[str, cq.Solid]
ON_TOE_PIECE = ("knob", "knob rod", "knob rod nut")  # what slides with the toe piece


class Models(PlaneModels):
    """The solids of one low-angle plane."""

    design: LowAngleDesign

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
    def blade(self) -> cq.Solid:
        """Blade, seated."""
        return blade.solid(self.design.blade, self.design.spec.bed.angle)

    @cached_property
    def toe_piece(self) -> cq.Solid | None:
        """Toe piece at the spec's mouth opening; None where the mouth is fixed."""
        return None if self.design.body.toe_way is None else toe_piece(self.design.body)

    @cached_property
    def _cap_as_built(self) -> cq.Solid:
        return cap_casting(self.design.lever_cap)

    @cached_property
    def lever_cap_casting(self) -> cq.Solid:
        """Lever cap as cast, in its own frame."""
        made: cq.Solid = self._settle(self._cap_as_built)
        return made

    @cached_property
    def lever_cap_pattern(self) -> cq.Solid:
        """Working pattern of the lever cap; small enough for one factor, the mean of the three axes."""
        c = self.design.shop.contraction_of(self.design.cap_alloy.id, CAST_LARGEST)
        factor = 1 + (c.x + c.y + c.z) / 3
        return one_valid_solid(self.lever_cap_casting.scale(factor), "lever cap", "pattern")

    @cached_property
    def lever_cap(self) -> list[Named]:
        """Cap, clamp screw, clamp foot and stud, tightened."""
        d = self.design
        made: list[Named] = self._settle(lever_cap_parts(d.lever_cap, d.spec.bed.angle, self._cap_as_built))
        return made

    @cached_property
    def adjuster(self) -> list[Named]:
        """Depth post and wheel."""
        made: list[Named] = self._settle(adjuster_parts(self.design.adjuster, self.design.spec.bed.angle))
        return made

    @cached_property
    def hardware(self) -> list[Named]:
        """Rods, nuts and screw of the handles, seated."""
        rods, found = self.design.rods, []
        for part, axis in rods.rods:
            found += [(part.name, rod(part, axis)), (f"{part.name} nut", rod_nut(part, axis))]
        if rods.toe_screw is not None:
            toe, place = rods.toe_screw
            found.append((toe.name, screw(toe, place.foot, place.direction, place.engaged)))
        made: list[Named] = self._settle(found)
        return made

    @property
    def parts(self) -> PiecesOf:
        """Part of the assembly -> how its solids are made."""
        return {
            "body": self.body_pieces,
            "toe_piece": self._toe_pieces,
            "blade": self.blade_pieces,
            "handle": self.handle_pieces,
            "lever_cap": self._lever_cap_pieces,
            "adjuster": self._adjuster_pieces,
            "hardware": self._hardware_pieces,
        }

    def stages(self) -> dict[str, dict[str, cq.Solid]]:
        """Return casting and pattern of body and lever cap."""
        return {
            "body": {"casting": self.body_casting, "pattern": self.body_pattern},
            "lever_cap": {"casting": self.lever_cap_casting, "pattern": self.lever_cap_pattern},
        }

    def at(self, setting: Setting) -> dict[str, cq.Solid]:
        """Return every solid of the assembly with the adjusters at a setting."""
        found = {p.name: p.solid for p in self.pieces}
        if setting == NOMINAL:
            return found
        d = self.design
        bed = d.spec.bed.angle
        found["blade"] = moved_with_blade(self.blade, bed, d.lateral.pivot_at, setting)
        found |= dict(adjuster_parts(d.adjuster, bed, setting))
        if setting.opening is not None and d.body.toe_way is not None:
            found["toe piece"] = toe_piece(d.body, setting.opening)
            slid = cq.Vector(d.body.mouth_opening - setting.opening, 0, 0)
            found |= {name: found[name].translate(slid) for name in ON_TOE_PIECE}
        return found

    def _toe_pieces(self) -> list[Piece]:
        alloy, solid = self.design.body_alloy, self.toe_piece
        return [] if solid is None else [Piece("toe piece", "toe_piece", solid, alloy.density_kg_m3, palette.MACHINED)]

    def _lever_cap_pieces(self) -> list[Piece]:
        alloy, found = self.design.cap_alloy, []
        for name, solid in self.lever_cap:
            if name == "lever cap":
                found.append(Piece(name, "lever_cap", solid, alloy.density_kg_m3, metal_colour(alloy)))
            elif name == "clamp screw":
                found.append(Piece(name, "lever_cap", solid, BRASS_DENSITY, palette.BRASS))
            else:
                found.append(Piece(name, "lever_cap", solid, STEEL_DENSITY, palette.STEEL))
        return found

    def _adjuster_pieces(self) -> list[Piece]:
        made = [bought_piece(name, solid) for name, solid in self.adjuster]
        return [Piece(p.name, "adjuster", p.solid, p.density, p.colour) for p in made]

    def _hardware_pieces(self) -> list[Piece]:
        return [bought_piece(name, solid) for name, solid in self.hardware]
