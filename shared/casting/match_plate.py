"""Lay-out of a match plate: impressions, runner, ingates, risers, sprue, flask and pins, as rectangles and circles.

Plate frame: x along the runner, y across, origin at the flask's centre, z up into the cope. All sizes are those of the
pattern (contraction is in them). No CAD here: the drawing and the solid read these figures.

The impressions stand in two rows beside a runner along y = 0; the row at y < 0 is turned by 180 degrees, so that every
casting shows the same side to the runner. A single impression has the runner beside it. Where a row has several
ingates the sprue stands in the middle and feeds two arms, which halves the runner's section; else it stands at the end.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from shared.casting.alloy import Alloy
from shared.casting.gating import (
    GatingAreas,
    choke_area,
    effective_head,
    gating_areas,
    pouring_time,
    sprue_top_area,
    velocity,
)
from shared.casting.plate_shapes import Circle, Flask, Impression, Practice, Rect, choose_flask, sand_margins
from shared.casting.solidification import Feeding, feeding
from shared.errors import Fault, InputError, RequestError

__all__ = ["Circle", "Flask", "Impression", "MatchPlate", "Practice", "Rect", "lay_out"]

SPRUE_SAND_MM = 30.0  # sprue to pattern: sand-cover table (memory)
INGATE_LENGTH_MM = 20.0  # common practice, no source
NECK_LENGTH_MM = 8.0  # riser to casting, short so that it stays hot; common practice, no source
RUNNER_PAST_LAST_INGATE_MM = 40.0  # catches the first, cold and dirty metal; common practice, no source
LONG_CASTING_MM = 200.0  # longer castings get two ingates each; common practice, no source
WELL_OVER_SPRUE = 1.6  # well diameter over sprue base diameter; common practice, no source


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
    well: Circle
    pins: tuple[Circle, ...]
    plate: Rect
    flask: Flask
    areas: GatingAreas
    feeding: Feeding
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
        return self.count * plan + rects + sum(math.pi / 4 * r.diameter**2 for r in self.risers)


@dataclass(frozen=True)
class _Sizes:
    """Sections of the gating [mm]."""

    arms: int
    runner_w: float
    runner_h: float
    ingate_w: float
    ingate_h: float
    neck_w: float
    neck_h: float
    sprue_base: float
    sprue_top: float
    sprue_h: float
    well: float
    well_h: float


@dataclass(frozen=True)
class _Row:
    """Where the castings of one row and their ingates stand along the runner [mm], sprue at 0."""

    castings: tuple[float, ...]
    ingate_offsets: tuple[float, ...]
    arms: int

    @property
    def ingates(self) -> list[float]:
        return [c + o for c in self.castings for o in self.ingate_offsets]


def _ingate_offsets(item: Impression) -> tuple[float, ...]:
    """Return where along a casting its ingates stand, from its middle [mm]."""
    quarter = item.length_mm / 4.0
    return (-quarter, quarter) if item.length_mm > LONG_CASTING_MM else (0.0,)


def _sections(
    areas: GatingAreas, item: Impression, feed: Feeding, ingates: int, arms: int, cope_mm: float, basin_mm: float
) -> _Sizes:
    # a pressurised runner is tall so that slag floats clear of the ingates; an unpressurised one wide and calm
    one_runner, one_ingate = areas.runner_mm2 / arms, areas.ingate_mm2 / ingates
    runner_h = math.sqrt(one_runner * 1.5) if areas.pressurised else math.sqrt(one_runner / 2.0)
    # an ingate thinner than the wall freezes first and breaks off clean; one into a riser may be no wider than that
    ingate_h = min(max(0.7 * item.section_mm, 2.5), 8.0)
    if feed.method == "riser":
        ingate_h = max(ingate_h, one_ingate / (0.8 * feed.riser_diameter_mm))
    top_area = sprue_top_area(areas.sprue_base_mm2, cope_mm + basin_mm, max(basin_mm, 10.0))
    base = math.sqrt(4.0 * areas.sprue_base_mm2 / math.pi)
    # a neck of 2 : 1 has modulus h/3
    neck_h = 3.0 * feed.neck_modulus_mm if feed.method == "riser" else 0.0
    return _Sizes(
        arms=arms,
        runner_w=one_runner / runner_h,
        runner_h=runner_h,
        ingate_w=one_ingate / ingate_h,
        ingate_h=ingate_h,
        neck_w=2.0 * neck_h,
        neck_h=neck_h,
        sprue_base=base,
        sprue_top=math.sqrt(4.0 * top_area / math.pi),
        sprue_h=cope_mm,
        well=WELL_OVER_SPRUE * base,
        well_h=runner_h,
    )


def _row(item: Impression, n: int, sprue_mm: float, margins: dict[str, float]) -> _Row:
    columns, offsets = math.ceil(n / 2), _ingate_offsets(item)
    pitch = item.length_mm + margins["between"]
    if columns * len(offsets) > 1:
        return _Row(tuple((i - (columns - 1) / 2) * pitch for i in range(columns)), offsets, 2)
    first = sprue_mm / 2 + max(margins["sprue"], SPRUE_SAND_MM)
    return _Row((first + item.length_mm / 2,), offsets, 1)


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
    each = len(_ingate_offsets(item))
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
        row = _row(item, n, sprue_mm, margins)
        sizes = _sections(areas, item, feed, n * each, row.arms, cope, practice.basin_above_cope_mm)
        layout = _place(item, n, row, sizes, feed, margins)
        need = (*layout.need, cope_need, drag_need)
        flask = choose_flask(need, shelf, practice.flask, item.name)
        # never back to a smaller flask, so that the round ends
        shelf = [f for f in shelf if f.length * f.width >= flask.length * flask.width]
        mass = _gating_volume(layout, sizes) * metal.density_kg_m3 / 1e9
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
        well=placed.well,
        pins=(Circle("pin 1", -pin_x, 0.0, pin, 0.0, "plate"), Circle("pin 2", pin_x, 0.0, pin, 0.0, "plate")),
        plate=Rect("plate", 0.0, 0.0, flask.length + 4 * practice.pin_beyond_flask_mm, flask.width),
        flask=flask,
        areas=areas,
        feeding=feed,
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


@dataclass(frozen=True)
class _Layout:
    impressions: tuple[Rect, ...]
    runners: tuple[Rect, ...]
    ingates: tuple[Rect, ...]
    necks: tuple[Rect, ...]
    risers: tuple[Circle, ...]
    sprue: Circle
    well: Circle
    need: tuple[float, float]
    centre: tuple[float, float]

    def moved(self, dx: float, dy: float) -> _Layout:
        def r(rects: tuple[Rect, ...]) -> tuple[Rect, ...]:
            return tuple(replace(a, x=a.x + dx, y=a.y + dy) for a in rects)

        def c(a: Circle) -> Circle:
            return replace(a, x=a.x + dx, y=a.y + dy)

        return _Layout(
            impressions=r(self.impressions),
            runners=r(self.runners),
            ingates=r(self.ingates),
            necks=r(self.necks),
            risers=tuple(c(a) for a in self.risers),
            sprue=c(self.sprue),
            well=c(self.well),
            need=self.need,
            centre=(self.centre[0] + dx, self.centre[1] + dy),
        )


def _place(item: Impression, n: int, row: _Row, s: _Sizes, feed: Feeding, margins: dict[str, float]) -> _Layout:
    """Place everything with the runner along y = 0 and the sprue's middle at x = 0."""
    has_riser, d = feed.method == "riser", feed.riser_diameter_mm
    widest = max(s.sprue_top, s.well)
    half_runner = s.runner_w / 2
    # from runner to casting: an ingate, or ingate, riser and neck; never less sand than the sprue needs beside it
    gap = INGATE_LENGTH_MM + (d + NECK_LENGTH_MM if has_riser else 0.0)
    if row.arms == 2:
        gap = max(gap, widest / 2 + max(margins["sprue"], SPRUE_SAND_MM) - half_runner)
    gate = gap - (d + NECK_LENGTH_MM if has_riser else 0.0)
    in_cope = item.cope_mm >= max(s.ingate_h, s.neck_h)
    impressions, ingates, necks, risers = [], [], [], []
    for i in range(n):
        column, other = divmod(i, 2)
        side, x = (-1.0 if other else 1.0), row.castings[column]
        y = side * (half_runner + gap + item.width_mm / 2)
        name = f"{item.name} {i + 1}"
        turned = 180.0 if other else 0.0
        impressions.append(Rect(name, x, y, item.length_mm, item.width_mm, item.cope_mm, item.drag_mm, turned))
        for j, offset in enumerate(row.ingate_offsets):
            gx, label = x + offset, f"{i + 1}{'abc'[j]}"
            heights = (s.ingate_h, 0.0) if in_cope else (0.0, s.ingate_h)
            ingates.append(Rect(f"ingate {label}", gx, side * (half_runner + gate / 2), s.ingate_w, gate, *heights))
            if has_riser:
                centre = half_runner + gate + d / 2
                risers.append(Circle(f"riser {label}", gx, side * centre, d, feed.riser_height_mm, "cope", d))
                heights = (s.neck_h, 0.0) if in_cope else (0.0, s.neck_h)
                at = side * (centre + d / 2 + NECK_LENGTH_MM / 2)
                necks.append(Rect(f"neck {label}", gx, at, s.neck_w, NECK_LENGTH_MM, *heights))
    last = max(row.ingates) + s.ingate_w / 2 + RUNNER_PAST_LAST_INGATE_MM
    names = ("runner", "runner aft") if row.arms == 2 else ("runner",)
    runners = tuple(
        Rect(name, sign * last / 2, 0.0, last, s.runner_w, s.runner_h)
        for name, sign in zip(names, (1.0, -1.0), strict=False)
    )
    casting_end = max(row.castings) + item.length_mm / 2
    x_high = max(casting_end + margins["flask_wall"], last + margins["runner_to_wall"])
    x_low = -x_high if row.arms == 2 else -widest / 2 - margins["runner_to_wall"]
    y_high = half_runner + gap + item.width_mm + margins["flask_wall"]
    y_low = -y_high if n > 1 else -max(half_runner, widest / 2) - margins["runner_to_wall"]
    return _Layout(
        impressions=tuple(impressions),
        runners=runners,
        ingates=tuple(ingates),
        necks=tuple(necks),
        risers=tuple(risers),
        sprue=Circle("sprue", 0.0, 0.0, s.sprue_base, s.sprue_h, "cope", s.sprue_top),
        well=Circle("well", 0.0, 0.0, s.well, s.well_h, "drag", s.well),
        need=(x_high - x_low, y_high - y_low),
        centre=((x_high + x_low) / 2, (y_high + y_low) / 2),
    )


def _gating_volume(layout: _Layout, s: _Sizes) -> float:
    """Return the volume of sprue, well, runners, ingates and necks [mm³]."""
    a, b = s.sprue_base / 2, s.sprue_top / 2
    sprue = math.pi * s.sprue_h / 3 * (a * a + a * b + b * b)
    well = math.pi / 4 * s.well**2 * s.well_h
    flat = (*layout.runners, *layout.ingates, *layout.necks)
    return sprue + well + sum(r.dx * r.dy * (r.cope_mm + r.drag_mm) for r in flat)
