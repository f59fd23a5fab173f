"""The solids of a match plate: plate with bushes, the patterns' halves on both sides, runner, ingates, risers, sprue.

The plate's cope face lies at z = 0 and its drag face one thickness lower; what hangs in the drag hangs from there.
Close cope and drag without the plate and both faces meet in the parting plane.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import radians, tan

import cadquery as cq

from shared.cad import palette
from shared.cad.cast_solid import CastSolid
from shared.cad.solids import cut_away, extrude, one_valid_solid, revolve, taper_extrude
from shared.cad.step import NamedSolid
from shared.casting.match_plate import MatchPlate
from shared.casting.plate_shapes import Circle, Rect
from shared.profile import Profile
from shared.record import replace

PART = "match plate"
FAR = 4000.0  # mm, longer than any plate
DRAFT = 5.0  # deg of runners and ingates, half their height as computed; common practice, no source
RISER_DRAFT = 2.0  # deg; common practice, no source
REACH = 1.0  # mm that a piece runs into the next one before it is cut to fit
BUSH_WALL = 6.0  # mm of steel round a flask pin; common practice, no source
COPE, DRAG, GATE, RISER = palette.WOOD, (0.42, 0.28, 0.20), palette.BRASS, palette.BRONZE


@dataclass(frozen=True)
class _Local:
    """One casting with its gating, about the middle of its column on the runner's axis; and where copies stand."""

    at: tuple[cq.Location, ...]  # of the cope face
    impression: tuple[float, float]
    ingates: tuple[Rect, ...]
    necks: tuple[Rect, ...]
    risers: tuple[Circle, ...]


def plate_solids(layout: MatchPlate, part: CastSolid, thickness: float) -> list[NamedSolid]:
    """Return a match plate as named, coloured solids that touch but share no metal.

    Args:
        layout: where everything stands.
        part: the cast part.
        thickness: of the plate [mm].

    Raises:
        GeometryError: a piece could not be built.
        RequestError: the part does not draw from a flat plate.
    """
    cope, drag = part.halves
    local = _local(layout)
    down = [cq.Location(cq.Vector(0, 0, -thickness)) * at for at in local.at]
    found = [
        NamedSolid("match plate", _plate(layout, thickness), palette.MACHINED),
        NamedSolid("pin bush", _bush(layout, thickness), palette.STEEL, tuple(_spots(layout.pins))),
    ]
    x, y = local.impression
    for side, halves, places, colour in (("cope", cope, local.at, COPE), ("drag", drag, tuple(down), DRAG)):
        for name, half in _numbered(f"{part.name} {side} impression", halves):
            solid = cq.Solid(half.moved(cq.Location(cq.Vector(x, y, 0))).wrapped)
            found.append(NamedSolid(name, solid, colour, places))
    found += _sprue(layout, thickness)
    found += _runners(layout)
    halves_at = {
        True: [h.moved(cq.Location(cq.Vector(x, y, 0))) for h in cope],
        False: [h.moved(cq.Location(cq.Vector(x, y, 0))) for h in drag],
    }
    return [*found, *_gates(layout, local, halves_at, tuple(down))]


def _numbered(name: str, solids: Sequence[cq.Solid]) -> Iterator[tuple[str, cq.Solid]]:
    for i, solid in enumerate(solids, 1):
        yield (name if len(solids) == 1 else f"{name} {i}"), solid


def _local(layout: MatchPlate) -> _Local:
    """Return the first casting with its gates, and the places of all: every casting with an odd number is turned."""
    axis_y, first = layout.sprue.y, layout.impressions[0]
    each = len(layout.ingates) // layout.count
    places = [cq.Location(cq.Vector(i.x, axis_y, 0), cq.Vector(0, 0, 1), i.turned_deg) for i in layout.impressions]

    def near(things: Sequence[Rect]) -> tuple[Rect, ...]:
        return tuple(_shifted(t, first.x, axis_y) for t in things[:each])

    risers = tuple(
        Circle(c.name, c.x - first.x, c.y - axis_y, c.diameter, c.height_mm, c.side, c.end_diameter)
        for c in layout.risers[:each]
    )
    return _Local(tuple(places), (0.0, first.y - axis_y), near(layout.ingates), near(layout.necks), risers)


def _shifted(r: Rect, x: float, y: float) -> Rect:
    return Rect(r.name, r.x - x, r.y - y, r.dx, r.dy, r.cope_mm, r.drag_mm)


def _plate(layout: MatchPlate, thickness: float) -> cq.Solid:
    p = layout.plate
    slab = cq.Solid.makeBox(p.dx, p.dy, thickness, cq.Vector(p.x - p.dx / 2, p.y - p.dy / 2, -thickness))
    holes = [
        cq.Solid.makeCylinder(c.diameter / 2 + BUSH_WALL, 3 * thickness, cq.Vector(c.x, c.y, -2 * thickness))
        for c in layout.pins
    ]
    return cut_away(slab, holes, PART, "bore for the bushes")


def _bush(layout: MatchPlate, thickness: float) -> cq.Solid:
    inner = layout.pins[0].diameter / 2
    ring = Profile.rectangle(inner, -thickness, inner + BUSH_WALL, 0.0, name="pin bush")
    return revolve(ring, part=PART)


def _spots(circles: Sequence[Circle]) -> list[cq.Location]:
    return [cq.Location(cq.Vector(c.x, c.y, 0)) for c in circles]


def _sprue(layout: MatchPlate, thickness: float) -> list[NamedSolid]:
    base, well, s = layout.base, layout.well, layout.sprue
    r0, r1 = s.diameter / 2, (s.end_diameter or s.diameter) / 2
    top = s.foot_mm + s.height_mm
    pin = revolve(
        Profile.polygon([(0, s.foot_mm), (r0, s.foot_mm), (r1, top), (0, top)], name="sprue"),
        (s.x, s.y, 0.0), part=PART,
    )  # fmt: skip
    return [
        NamedSolid("sprue base", _round(base, base.height_mm, 0.0), GATE),
        NamedSolid("sprue well", _round(well, -well.height_mm, -thickness), GATE),
        NamedSolid("sprue pin, loose", pin, palette.GREY),
    ]


def _round(c: Circle, height: float, foot: float, draft: float = DRAFT) -> cq.Solid:
    """Return a drafted round block of the computed volume: foot level and height (negative: downward) [mm]."""
    radius, tall = c.diameter / 2, abs(height)
    slant = tall * tan(radians(draft)) / 2
    # the mean radius is smaller than computed by what the slant adds: r² + slant²/3 = R²
    mean = (radius**2 - slant**2 / 3) ** 0.5
    wide, slim = mean + slant, mean - slant
    end = foot + height
    corners = [(0.0, foot), (wide, foot), (slim, end), (0.0, end)]
    return revolve(Profile.polygon(corners, name=c.name), (c.x, c.y, 0.0), part=PART)


def _lean(height: float) -> float:
    """Return how far a drafted wall of a height leans from its middle to its foot [mm]."""
    return height * tan(radians(DRAFT)) / 2


def _bar(r: Rect, y0: float, y1: float) -> cq.Solid:
    """Return a channel from y to y [mm], of its computed width at half its height, the sides drafted.

    In the cope both ends run into something; in the drag the end at y0 is free and drafted, too.
    """
    height = r.cope_mm or r.drag_mm
    lean = _lean(height)
    wide, slim = r.dx / 2 + lean, r.dx / 2 - lean
    if r.cope_mm:
        corners = [(r.x - wide, 0.0), (r.x + wide, 0.0), (r.x + slim, height), (r.x - slim, height)]
        return extrude(Profile.polygon(corners, name=r.name), "y", y0, y1, part=PART)
    plan = Profile.rectangle(r.x - wide, y0 - lean, r.x + wide, y1 + 2 * lean, name=r.name)
    return taper_extrude(plan, "z", 0.0, DRAFT, down=height, part=PART)


def _runner_bar(r: Rect, x0: float, x1: float) -> cq.Solid:
    lean = _lean(r.cope_mm)
    plan = Profile.rectangle(x0 - lean, r.y - r.dy / 2 - lean, x1 + lean, r.y + r.dy / 2 + lean, name="runner")
    return taper_extrude(plan, "z", 0.0, DRAFT, up=r.cope_mm, part=PART)


def _runners(layout: MatchPlate) -> list[NamedSolid]:
    """Return the runner's arms, which end in the block under the sprue."""
    block = _round(layout.base, layout.base.height_mm, 0.0)
    ends = [r.bounds for r in layout.runners]
    bar = _runner_bar(layout.runners[0], min(e[0] for e in ends), max(e[2] for e in ends))
    arms = sorted(bar.cut(block).Solids(), key=lambda s: -s.Center().x)
    return [NamedSolid(name, one_valid_solid(s, PART, name), GATE) for name, s in _numbered("runner", arms)]


def _gates(layout: MatchPlate, local: _Local, halves: Mapping[bool, Sequence[cq.Shape]],
           down: tuple[cq.Location, ...]) -> list[NamedSolid]:  # fmt: skip
    """Return ingates, risers and necks, each cut to fit what it runs into."""
    found = []
    # a long stand-in for the runner about this casting's own middle; its ends do not matter here
    beside = _runner_bar(replace(layout.runners[0], y=0.0), -FAR, FAR)
    feeders = [_round(c, c.height_mm, 0.0, RISER_DRAFT) for c in local.risers]
    for i, gate in enumerate(local.ingates, 1):
        cope = gate.cope_mm > 0
        _, y0, _, y1 = gate.bounds
        away: list[cq.Shape] = [beside, *feeders] if cope else []
        if not feeders:
            away += halves[cope]
            y1 += REACH
        bar = _bar(gate, y0 - (REACH if cope else 0.0), y1)
        found.append(_placed(f"ingate {i}", bar, away, local.at if cope else down, GATE))
    for i, neck in enumerate(local.necks, 1):
        cope = neck.cope_mm > 0
        bar = _bar(neck, neck.bounds[1], neck.bounds[3] + REACH)
        away = [*(feeders if cope else []), *halves[cope]]
        found.append(_placed(f"riser neck {i}", bar, away, local.at if cope else down, GATE))
    return found + [NamedSolid(f"riser pad {i}", r, RISER, local.at) for i, r in enumerate(feeders, 1)]


def _placed(name: str, bar: cq.Solid, away: Sequence[cq.Shape], places: tuple[cq.Location, ...],
            colour: palette.Colour) -> NamedSolid:  # fmt: skip
    """Return a gate less what it runs into; slivers beyond a rounded wall fall away with the largest piece kept."""
    left = bar.cut(*away).Solids() if away else [bar]
    return NamedSolid(name, one_valid_solid(max(left, key=lambda s: s.Volume()), PART, name), colour, places)


def gating_volume(layout: MatchPlate, solids: Sequence[NamedSolid]) -> tuple[float, float]:
    """Return the metal of gating and of risers of a plate's solids [mm3], sprue included."""
    gating = risers = 0.0
    for s in solids:
        volume = s.solid.Volume() * len(s.placements)
        if s.name.startswith("riser pad"):
            risers += volume
        elif s.name.startswith(("sprue", "runner", "ingate", "riser neck")):
            gating += volume
    return gating, risers
