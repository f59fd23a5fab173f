"""Lay-out of a match plate: impressions, runner, ingates, risers, sprue, flask and pins, as rectangles and circles.

Plate frame: x along the runner, y across, origin at the flask's centre, z up into the cope. All sizes are those of the
pattern (contraction is in them). No CAD here: the drawing and the solid read these figures.

The impressions stand in two rows beside a runner along y = 0; the row at y < 0 is turned by 180 degrees, so that every
casting shows the same side to the runner. A single impression has the runner beside it. Where a row has several
ingates the sprue stands in the middle and feeds two arms, which halves the runner's section; else it stands at the end.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from shared.casting.alloy import Alloy
from shared.casting.gating import GatingAreas, choke_area, effective_head, gating_areas, pouring_time, velocity
from shared.casting.plate_gating import Sections, casting_row, ingate_offsets, place, sections
from shared.casting.plate_shapes import Circle, Flask, Impression, Practice, Rect, choose_flask, sand_margins
from shared.casting.solidification import Feeding, feeding
from shared.errors import Fault, InputError, RequestError

__all__ = ["Circle", "Flask", "Impression", "MatchPlate", "Practice", "Rect", "lay_out"]

FLASK_WALL_MM = 19.0  # of a flask, which stands on the plate's rim; common practice, no source


@dataclass(frozen=True)
class MatchPlate:
    """A laid-out match plate with its gating."""

    impression: Impression
    count: int
    impressions: tuple[Rect, ...]
    runners: tuple[Rect, ...]
    ingates: tuple[Rect, ...]
    necks: tuple[Rect, ...]  # riser to casting; none without risers
    risers: tuple[Circle, ...]
    sprue: Circle
    base: Circle  # block under the sprue, in the cope
    well: Circle  # and below it, in the drag
    pins: tuple[Circle, ...]
    plate: Rect
    flask: Flask
    areas: GatingAreas
    feeding: Feeding
    sections: Sections
    margins: dict[str, float]  # sand asked for [mm]
    need_mm: tuple[float, float, float, float]  # length, width, cope, drag that the flask must have
    castings_mass_kg: float
    gating_mass_kg: float
    riser_mass_kg: float
    pouring_time_s: float
    effective_head_mm: float
    metal_height_mm: float  # metal level above the parting plane
    ingate_velocity_m_s: float

    @property
    def poured_mass_kg(self) -> float:
        """Metal of one mould [kg]."""
        return self.castings_mass_kg + self.gating_mass_kg + self.riser_mass_kg

    @property
    def yield_share(self) -> float:
        """Castings over poured metal [-]."""
        return self.castings_mass_kg / self.poured_mass_kg

    @property
    def cavity_area_mm2(self) -> float:
        """Plan area on which the metal lifts the cope [mm²]."""
        plan = self.impression.plan_area_mm2 or self.impression.length_mm * self.impression.width_mm
        rects = sum(r.dx * r.dy for r in (*self.runners, *self.ingates, *self.necks))
        return self.count * plan + rects + sum(math.pi / 4 * r.diameter**2 for r in (*self.risers, self.base))

    @property
    def neck_modulus_mm(self) -> float:
        """Modulus that the necks have [mm]; 0 without risers."""
        b, h = self.sections.neck_w, self.sections.neck_h
        return b * h / (2.0 * (b + h)) if self.necks else 0.0


def lay_out(item: Impression, metal: Alloy, practice: Practice) -> MatchPlate:
    """Lay out the match plate of one casting.

    The poured mass, the choke that passes it and the size of the gating depend on each other, as do cope height and
    head; both are settled by going round until the mass stands still.

    Args:
        item: the casting, at pattern size.
        metal: its alloy.
        practice: the shop's flasks and margins.

    Raises:
        RequestError: no flask fits, or the cope is too low to fill the casting.
        InputError: a value that no plate has.
    """
    n = practice.impressions
    if n < 1:
        raise InputError(Fault("shop.toml", "mould.impressions", str(n), "1 or more"))
    margins = sand_margins(item.mass_kg)
    if practice.between_mm is not None:
        margins["between"] = practice.between_mm
    if practice.to_flask_mm is not None:
        margins["flask_wall"] = margins["runner_to_wall"] = practice.to_flask_mm
    each = len(ingate_offsets(item))
    feed = feeding(metal, item.mass_kg / metal.density_kg_m3 * 1e9, item.hot_modulus_mm, each)
    castings = n * item.mass_kg
    one_riser = math.pi / 4 * feed.riser_diameter_mm**2 * feed.riser_height_mm
    risers = n * each * one_riser * metal.density_kg_m3 / 1e9
    cope_need = max(item.cope_mm, feed.riser_height_mm) + margins["cope_top"]
    drag_need = item.drag_mm + margins["drag_bottom"]
    shelf, cope, gating, sprue_mm = list(practice.flasks), cope_need, 0.3 * castings, 30.0  # first guesses
    for _ in range(200):
        poured = castings + gating + risers
        time = pouring_time(metal, poured, item.section_mm)
        head = effective_head(cope + practice.basin_above_cope_mm, item.cope_mm, item.cope_mm + item.drag_mm)
        choke = choke_area(poured, metal.liquid_density_kg_m3, head, time, practice.discharge)
        areas = gating_areas(choke, metal.gating_ratio, metal.choke_at)
        row = casting_row(item, n, sprue_mm, margins)
        sizes = sections(areas, item, feed, n * each, row.arms, cope, practice.basin_above_cope_mm)
        layout = place(item, n, row, sizes, feed, margins)
        need = (*layout.need, cope_need, drag_need)
        flask = choose_flask(need, shelf, practice.flask, item.name)
        # never back to a smaller flask, so that the round ends
        shelf = [f for f in shelf if f.length * f.width >= flask.length * flask.width]
        mass = layout.gating_mm3 * metal.density_kg_m3 / 1e9
        widest = max(sizes.sprue_top, sizes.well)
        settled = abs(mass - gating) < 1e-9 and flask.cope == cope and abs(widest - sprue_mm) < 1e-9
        gating, cope, sprue_mm = mass, flask.cope, widest
        if settled:
            break
    else:
        raise RequestError(f"the gating of {item.name} does not settle: name a flask in mould.flask")
    pin_x = flask.length / 2 + practice.pin_beyond_flask_mm
    pin = practice.pin_diameter_mm
    placed = layout.moved(-layout.centre[0], -layout.centre[1])
    return MatchPlate(
        impression=item,
        count=n,
        impressions=placed.impressions,
        runners=placed.runners,
        ingates=placed.ingates,
        necks=placed.necks,
        risers=placed.risers,
        sprue=placed.sprue,
        base=placed.base,
        well=placed.well,
        pins=(Circle("pin 1", -pin_x, 0.0, pin, 0.0, "plate"), Circle("pin 2", pin_x, 0.0, pin, 0.0, "plate")),
        plate=Rect("plate", 0.0, 0.0, flask.length + 4 * practice.pin_beyond_flask_mm, flask.width + 2 * FLASK_WALL_MM),
        flask=flask,
        areas=areas,
        feeding=feed,
        sections=sizes,
        margins=margins,
        need_mm=need,
        castings_mass_kg=castings,
        gating_mass_kg=gating,
        riser_mass_kg=risers,
        pouring_time_s=time,
        effective_head_mm=head,
        metal_height_mm=cope + practice.basin_above_cope_mm,
        ingate_velocity_m_s=areas.choke_mm2 / areas.ingate_mm2 * practice.discharge * velocity(head),
    )
