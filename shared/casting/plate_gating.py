"""Where everything stands on a match plate: rows of castings, runner, ingates, risers with necks, sprue and well.

The runner lies along y = 0 and the sprue stands at x = 0. Each piece knows how much of it lies in another one, so that
the metal is counted once.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from shared.casting.gating import GatingAreas, sprue_top_area
from shared.casting.plate_shapes import Circle, Impression, Rect, disc_strip
from shared.casting.solidification import Feeding
from shared.record import replace

SPRUE_SAND_MM = 30.0  # sprue to pattern: sand-cover table (memory)
INGATE_LENGTH_MM = 20.0  # common practice, no source
NECK_LENGTH_MM = 8.0  # riser to casting, short so that it stays hot; common practice, no source
RUNNER_PAST_LAST_INGATE_MM = 40.0  # catches the first, cold and dirty metal; common practice, no source
LONG_CASTING_MM = 200.0  # longer castings get two ingates each; common practice, no source
WELL_OVER_SPRUE = 1.6  # well diameter over sprue base diameter; common practice, no source
NECK_OVER_RISER = 0.8  # widest neck over its riser's diameter; common practice, no source
NECK_OVER_SIDE = 0.9  # tallest neck over the casting's height on its side of the parting; common practice, no source
HIGH_WALL = 0.75  # of the casting's height is wall enough for a neck: choice of this project
NECK_SPAN_MM = 40.0  # of a wall that is looked at for a neck: choice of this project
OFFSET_STEPS = 8  # places looked at between a quarter and an eighth of the length


@dataclass(frozen=True)
class Sections:
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
    sprue_h: float  # from the runner's top to the cope's
    well: float
    well_h: float


@dataclass(frozen=True)
class CastingRow:
    """Where the castings of one row and their ingates stand along the runner [mm], sprue at 0."""

    castings: tuple[float, ...]
    ingate_offsets: tuple[float, ...]
    arms: int

    @property
    def ingates(self) -> list[float]:
        """Every ingate's place along the runner [mm]."""
        return [c + o for c in self.castings for o in self.ingate_offsets]


@dataclass(frozen=True)
class Layout:
    """Everything on the plate but its own outline [mm]."""

    impressions: tuple[Rect, ...]
    runners: tuple[Rect, ...]
    ingates: tuple[Rect, ...]
    necks: tuple[Rect, ...]
    risers: tuple[Circle, ...]
    sprue: Circle
    base: Circle  # the block under the sprue, in the cope
    well: Circle  # and below it, in the drag
    need: tuple[float, float]
    centre: tuple[float, float]

    @property
    def gating_mm3(self) -> float:
        """Metal in sprue, base, well, runners, ingates and necks [mm³]."""
        round_ = sum(c.volume_mm3 for c in (self.sprue, self.base, self.well))
        return round_ + sum(r.volume_mm3 for r in (*self.runners, *self.ingates, *self.necks))

    def moved(self, dx: float, dy: float) -> Layout:
        """Return everything moved by (dx, dy) [mm]."""

        def r(rects: tuple[Rect, ...]) -> tuple[Rect, ...]:
            return tuple(replace(a, x=a.x + dx, y=a.y + dy) for a in rects)

        def c(a: Circle) -> Circle:
            return replace(a, x=a.x + dx, y=a.y + dy)

        return replace(
            self,
            impressions=r(self.impressions),
            runners=r(self.runners),
            ingates=r(self.ingates),
            necks=r(self.necks),
            risers=tuple(c(a) for a in self.risers),
            sprue=c(self.sprue),
            base=c(self.base),
            well=c(self.well),
            centre=(self.centre[0] + dx, self.centre[1] + dy),
        )


def ingate_offsets(item: Impression) -> tuple[float, ...]:
    """Return where along a casting its ingates stand, from its middle [mm].

    A long casting is gated at its quarters; where its side is low there, nearer its middle, since a neck needs a wall.
    """
    if item.length_mm <= LONG_CASTING_MM:
        return (0.0,)
    return _offset(item, -1.0), _offset(item, 1.0)


def _offset(item: Impression, end: float) -> float:
    eighth = item.length_mm / 8.0
    places = [end * eighth * (2.0 - k / OFFSET_STEPS) for k in range(OFFSET_STEPS + 1)]
    enough = HIGH_WALL * max(item.cope_mm, item.drag_mm)
    high = [x for x in places if item.wall_at(x, NECK_SPAN_MM) >= enough]
    return high[0] if high else max(places, key=lambda x: item.wall_at(x, NECK_SPAN_MM))


def in_cope(item: Impression) -> bool:
    """Return whether ingates and necks stand in the cope: on the side where more of the casting stands."""
    return item.cope_mm >= item.drag_mm


def sections(
    areas: GatingAreas, item: Impression, feed: Feeding, ingates: int, arms: int, cope_mm: float, basin_mm: float
) -> Sections:
    """Return the sections of the gating.

    Args:
        areas: of sprue base, runners and ingates.
        item: the casting at pattern size.
        feed: how it is fed.
        ingates: all ingates of the plate [-].
        arms: 1 or 2 runners from the sprue.
        cope_mm: depth of the cope [mm].
        basin_mm: metal level above the cope's top [mm].
    """
    # a pressurised runner is tall so that slag floats clear of the ingates; an unpressurised one wide and calm
    one_runner, one_ingate = areas.runner_mm2 / arms, areas.ingate_mm2 / ingates
    runner_h = math.sqrt(one_runner * 1.5) if areas.pressurised else math.sqrt(one_runner / 2.0)
    # an ingate thinner than the wall freezes first and breaks off clean; one into a riser may be no wider than that
    ingate_h = min(max(0.7 * item.section_mm, 2.5), 8.0)
    neck_w = neck_h = 0.0
    if feed.method == "riser":
        ingate_h = max(ingate_h, one_ingate / (0.8 * feed.riser_diameter_mm))
        neck_w, neck_h = _neck(item, feed, ingate_offsets(item))
    above = cope_mm + basin_mm - runner_h
    top_area = sprue_top_area(areas.sprue_base_mm2, above, max(basin_mm, 10.0))
    base = math.sqrt(4.0 * areas.sprue_base_mm2 / math.pi)
    return Sections(
        arms=arms,
        runner_w=one_runner / runner_h,
        runner_h=runner_h,
        ingate_w=one_ingate / ingate_h,
        ingate_h=ingate_h,
        neck_w=neck_w,
        neck_h=neck_h,
        sprue_base=base,
        sprue_top=math.sqrt(4.0 * top_area / math.pi),
        sprue_h=cope_mm - runner_h,
        well=WELL_OVER_SPRUE * base,
        well_h=runner_h,
    )


def _neck(item: Impression, feed: Feeding, offsets: tuple[float, ...]) -> tuple[float, float]:
    """Return width and height of a neck [mm]: of the modulus asked where casting and riser have room for it.

    A bar of b × h has the modulus b·h/(2(b + h)); a neck of 2 : 1 has h/3. No neck is wider than most of its riser
    or taller than the casting beside it; where that holds it below the modulus, the plate says so.
    """
    m = feed.neck_modulus_mm
    wide = NECK_OVER_RISER * feed.riser_diameter_mm
    tall = min(NECK_OVER_SIDE * max(item.cope_mm, item.drag_mm), *(item.wall_at(x, wide) for x in offsets))
    height = 3.0 * m
    if 2.0 * height > wide:
        height = 2.0 * m * wide / (wide - 2.0 * m) if wide > 2.0 * m else tall
    height = min(height, tall)
    width = min(wide, 2.0 * m * height / (height - 2.0 * m)) if height > 2.0 * m else wide
    return width, height


def casting_row(item: Impression, n: int, sprue_mm: float, margins: dict[str, float]) -> CastingRow:
    """Return where the castings of a row stand along the runner.

    Args:
        item: the casting at pattern size.
        n: castings on the plate [-].
        sprue_mm: largest diameter of sprue and well [mm].
        margins: sand asked for [mm].
    """
    columns, offsets = math.ceil(n / 2), ingate_offsets(item)
    pitch = item.length_mm + margins["between"]
    if columns * len(offsets) > 1:
        return CastingRow(tuple((i - (columns - 1) / 2) * pitch for i in range(columns)), offsets, 2)
    first = sprue_mm / 2 + max(margins["sprue"], SPRUE_SAND_MM)
    return CastingRow((first + item.length_mm / 2,), offsets, 1)


def place(item: Impression, n: int, row: CastingRow, s: Sections, feed: Feeding, margins: dict[str, float]) -> Layout:
    """Place everything.

    Args:
        item: the casting at pattern size.
        n: castings on the plate [-].
        row: where castings stand along the runner.
        s: sections of the gating.
        feed: how the casting is fed.
        margins: sand asked for [mm].
    """
    has_riser, d = feed.method == "riser", feed.riser_diameter_mm
    widest, half_runner = max(s.sprue_top, s.well), s.runner_w / 2
    # from runner to casting: an ingate, or ingate, riser and neck; never less sand than the sprue needs beside it
    gap = INGATE_LENGTH_MM + (d + NECK_LENGTH_MM if has_riser else 0.0)
    if row.arms == 2:
        gap = max(gap, widest / 2 + max(margins["sprue"], SPRUE_SAND_MM) - half_runner)
    gate = _Gate(item, s, feed, half_runner, gap)
    impressions, ingates, necks, risers = [], [], [], []
    for i in range(n):
        column, other = divmod(i, 2)
        side, x = (-1.0 if other else 1.0), row.castings[column]
        y = side * (half_runner + gap + item.width_mm / 2)
        turned = 180.0 if other else 0.0
        name = f"{item.name} {i + 1}"
        impressions.append(Rect(name, x, y, item.length_mm, item.width_mm, item.cope_mm, item.drag_mm, turned))
        for j, offset in enumerate(row.ingate_offsets):
            # the other row is turned, and its ingates with it
            gx, label = x + side * offset, f"{i + 1}{'abc'[j]}"
            ingates.append(gate.ingate(label, gx, side, offset))
            if has_riser:
                riser_y = side * (half_runner + gate.length + d / 2)
                risers.append(Circle(f"riser {label}", gx, riser_y, d, feed.riser_height_mm, "cope", d))
                necks.append(gate.neck(label, gx, side, offset))
    last = max(abs(x) for x in row.ingates) + s.ingate_w / 2 + RUNNER_PAST_LAST_INGATE_MM
    names = ("runner, right", "runner, left") if row.arms == 2 else ("runner",)
    in_base = disc_strip(s.well / 2, half_runner) / 2 * s.runner_h
    runners = tuple(
        Rect(name, sign * last / 2, 0.0, last, s.runner_w, s.runner_h, overlap_mm3=in_base)
        for name, sign in zip(names, (1.0, -1.0), strict=False)
    )
    casting_end = max(row.castings) + item.length_mm / 2
    x_high = max(casting_end + margins["flask_wall"], last + margins["runner_to_wall"])
    x_low = -x_high if row.arms == 2 else -widest / 2 - margins["runner_to_wall"]
    y_high = half_runner + gap + item.width_mm + margins["flask_wall"]
    y_low = -y_high if n > 1 else -max(half_runner, widest / 2) - margins["runner_to_wall"]
    return Layout(
        impressions=tuple(impressions),
        runners=runners,
        ingates=_each_its_half(ingates),
        necks=tuple(necks),
        risers=tuple(risers),
        sprue=Circle("sprue", 0.0, 0.0, s.sprue_base, s.sprue_h, "cope", s.sprue_top, s.runner_h),
        base=Circle("sprue base", 0.0, 0.0, s.well, s.runner_h, "cope", s.well),
        well=Circle("sprue well", 0.0, 0.0, s.well, s.well_h, "drag", s.well),
        need=(x_high - x_low, y_high - y_low),
        centre=((x_high + x_low) / 2, (y_high + y_low) / 2),
    )


def _each_its_half(ingates: Sequence[Rect]) -> tuple[Rect, ...]:
    """Return ingates of which two that lap into each other under the runner share the metal there."""
    found = []
    for one in ingates:
        shared = 0.0
        for other in ingates:
            if other is not one and other.x == one.x and one.y * other.y < 0.0:
                past = min(one.bounds[3], other.bounds[3]) - max(one.bounds[1], other.bounds[1])
                shared += max(past, 0.0) * one.dx * (one.cope_mm + one.drag_mm) / 2
        found.append(replace(one, overlap_mm3=one.overlap_mm3 + shared))
    return tuple(found)


@dataclass(frozen=True)
class _Gate:
    """The way of the metal from the runner into one casting, side +1 or -1 of the runner."""

    item: Impression
    s: Sections
    feed: Feeding
    half_runner: float
    gap: float

    @property
    def riser(self) -> bool:
        return self.feed.method == "riser"

    @property
    def length(self) -> float:
        """From the runner to the riser or to the casting's side [mm]."""
        return self.gap - (self.feed.riser_diameter_mm + NECK_LENGTH_MM if self.riser else 0.0)

    def _heights(self, height: float) -> tuple[float, float]:
        return (height, 0.0) if in_cope(self.item) else (0.0, height)

    def _in_riser(self, width: float) -> float:
        """Return the area of a channel of a width [mm] between a riser's middle and its rim [mm²]."""
        return disc_strip(self.feed.riser_diameter_mm / 2, width / 2) / 2

    def ingate(self, label: str, x: float, side: float, offset: float) -> Rect:
        width, height = self.s.ingate_w, self.s.ingate_h
        heights = self._heights(height)
        # an ingate in the drag laps under the runner, whose metal lies in the cope
        lap = min(2.0 * self.half_runner, max(height, self.half_runner)) if heights[1] else 0.0
        begin, overlap = self.half_runner - lap, 0.0
        if self.riser:
            # in the drag it laps under the riser to its middle; in the cope it ends in the riser's side
            end = self.half_runner + self.length + self.feed.riser_diameter_mm / 2
            overlap = 0.0 if heights[1] else self._in_riser(width) * height
        else:
            most, mean = self.item.inset(offset, width)
            end = self.half_runner + self.length + most
            overlap = (most - mean) * width * height
        middle = side * (begin + end) / 2
        return Rect(f"ingate {label}", x, middle, width, end - begin, *heights, overlap_mm3=overlap)

    def neck(self, label: str, x: float, side: float, offset: float) -> Rect:
        width, height = self.s.neck_w, self.s.neck_h
        heights = self._heights(height)
        most, mean = self.item.inset(offset, width)
        begin = self.half_runner + self.length + self.feed.riser_diameter_mm / 2
        end = self.half_runner + self.gap + most
        overlap = (most - mean) * width * height + (0.0 if heights[1] else self._in_riser(width) * height)
        return Rect(f"neck {label}", x, side * (begin + end) / 2, width, end - begin, *heights, overlap_mm3=overlap)
