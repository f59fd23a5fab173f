"""The sheets of any body's casting and pattern."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import radians, tan
from typing import TYPE_CHECKING

from parts.body.machined_faces import FromSolid, MachinedFace
from parts.body.ribs import boss_roundings, boss_side, bosses_of, ribs_of
from parts.body.size import Trough
from parts.plane.pattern_bow import bow_text
from parts.plane.pattern_list import (
    AXES,
    AXES_SAID,
    PARTING_END,
    CastPart,
    alloy_name,
    contraction_text,
    pattern_list,
    pattern_metal,
    rule_note,
)
from parts.plane.practice import as_cast_tolerance
from parts.plane.sheets.cast_body import CastViews, Stage, cast_heights, cast_views, over_all
from parts.plane.sheets.common import SheetEntry, new_sheet
from parts.plane.sheets.metal import AS_CAST, plus_minus, ra_text, size_text, weighed
from shared.drawing.plan import SheetPlan
from shared.drawing.title import mass_text

if TYPE_CHECKING:
    from parts.plane.run import Run


def casting_sheet(run: Run, entry: SheetEntry, across_at: float, faces: Sequence[MachinedFace],
                  closed: Sequence[FromSolid], seats: Callable[[CastViews, Stage], None]) -> SheetPlan:  # fmt: skip
    """Return the sheet of a raw casting: sizes, stock by face, what is cast closed, what the foundry must hold.

    Args:
        run: the build.
        entry: which sheet.
        across_at: x of the cross section [mm].
        faces: machined faces with their stock.
        closed: what is cut from solid.
        seats: dimensions the seat of frog or blade.
    """
    d, m = run.design, run.models
    size, metal, shop = d.body, d.body_alloy, d.shop.casting
    first = d.spec.units
    mass = weighed(run, "body casting", m.body_casting, metal.density_kg_m3)
    plan = new_sheet(run, entry, material=metal.name, mass_kg=mass, kind="Casting drawing",
                     tolerance=as_cast_tolerance(d.shop), texture=f"{ra_text(AS_CAST, first)}, as cast",
                     scales=FULL_SIZE)  # fmt: skip
    stage = Stage("body casting", m.body_casting, size, across_at)
    views = cast_views(run, plan, stage, m.body)
    over_all(views, stage)
    cast_heights(views, stage)
    seats(views, stage)
    _radii(views, stage)
    plan.table(["face", "stock", "machined by", "why"], stock_rows(faces, first), title="Stock on machined faces")
    finished = weighed(run, "body", m.body, metal.density_kg_m3)
    plan.notes([
        f"Draft: outside {size.cast.draft_outside:g}°, inside {size.cast.draft_inside:g}°, added to the metal. "
        "Length and width are those at the parting plane, where the outside is largest.",
        f"Parting plane: {_parting_text(size, first)}. Heights stand above the raw face of the sole.",
        f"Required machining allowance: RMA {size_text(size.cast.required, first)}, grade {shop.machining_grade} "
        "(ISO 8062-3); the table's stock holds it after the casting's tolerance.",
        "Not on the casting, made by the machine shop: " + "; ".join(f"{c.name} ({c.how})" for c in closed) + ".",
        "Where two faces meet in a radius, sizes are to the corner that they would have without it.",
        "The cheek's arch is as cast what it is on the finished body's sheet, stations, heights and radii, "
        "counted there from the finished toe and sole; 1:1 at pattern size: template body-pattern-side.",
        "Phantom lines: the finished body.",
        f"No weld repair. {CHILL[metal.is_iron]} Gate, risers and vents: ground flush to "
        f"{size_text(FLUSH, first)}.",
        "Stress-relieve as the stress-relief card says before the first cut.",
        f"Casting {mass_text(mass, first)}, finished {mass_text(finished, first)}.",
    ])  # fmt: skip
    return plan


def _parting_text(size: Trough, first: str) -> str:
    z = size.cast.parting_z
    if abs(z + size.cast.sole) < 1e-9:
        return "the raw face of the sole"
    return f"{size_text(abs(z), first)} {'above' if z > 0 else 'below'} the finished sole face"


def stock_rows(faces: Sequence[MachinedFace], first: str) -> list[list[str]]:
    """Return a row for each kind of machined face; faces that differ by their side or place only share one.

    Args:
        faces: of the part.
        first: unit that stands first.
    """
    found: dict[tuple[str, str, str], list[str]] = {}
    for f in faces:
        found.setdefault((size_text(f.stock, first), f.how, f.why), []).append(f.name)
    return [[joined(names), stock, how, why] for (stock, how, why), names in found.items()]


def joined(names: Sequence[str]) -> str:
    """Return faces of one stock in words: the corners together, the bosses' sides together, both sides of one thing."""
    corners = [n for n in names if n.startswith("corner, ")]
    sides = [n.removesuffix(", side") for n in names if n.endswith(" boss, side")]
    pairs: dict[str, list[str]] = {}
    for name in names:
        if name not in corners and not name.endswith(" boss, side"):
            thing, _, place = name.partition(", ")
            pairs.setdefault(thing, []).append(place)
    out = [f"{COUNTS.get(len(corners), len(corners))} corners"] if corners else []
    if sides:
        out.append(f"side of the {sides[0]}" if len(sides) == 1 else f"sides of the {COUNTS[len(sides)]} bosses")
    for thing, places in pairs.items():
        what = "sides" if places[0].endswith("side") else "ends"
        out.append(f"{thing}, both {what}" if len(places) == 2 else ", ".join([thing, *filter(None, places)]))
    return ", ".join(out)


def _radii(views: CastViews, stage: Stage) -> None:
    """Say the cast radii, bosses and ribs where they are."""
    s, w = stage.size, stage.walls
    k = w.corner
    centre = (w.x1 - k, w.half - k)
    views.plan.radius(centre, (centre[0] + k * 0.5**0.5, centre[1] + k * 0.5**0.5), k, prefix="4× ")
    for b in bosses_of(s):
        top = s.cast.boss + b.z_top
        r = boss_side(s, b, top)
        rows = [views.long.length_row(2 * r, prefix="Ø", suffix=" at its top"),
                views.long.length_row(boss_roundings(s, b)[0], prefix="R", suffix=" at its foot")]  # fmt: skip
        # clear of a boss close ahead of it
        side = 1.0 if any(0.0 < b.x - o.x < 3 * b.diameter for o in bosses_of(s)) else -1.0
        views.long.leader((b.x + side * (r - 1.0), top), rows, toward=90.0 - 30.0 * side)
    inner = s.inside_half_at(s.cheek_height)
    views.cross.dim_h((-inner, s.cheek_height), (inner, s.cheek_height), 2 * inner, side="above", reference=True)
    edge = [views.cross.length_row(s.cast.edge_radius, prefix="R", suffix=" all other edges")]
    views.cross.leader((w.half - w.inset(s.cheek_height), s.cheek_height - 0.6), edge, toward=30.0)
    ribs = ribs_of(s)
    for rib in ribs[:1]:
        thin = 2 * rib.half_thick - 2 * (rib.z - s.sole) * tan(radians(s.cast.draft_inside))
        said = [views.plan.length_row(2 * rib.half_long, suffix=" long at the plate, round ends"),
                views.plan.length_row(thin, suffix=" thick at its top"),
                views.plan.length_row(rib.root, prefix="R", suffix=" at its foot")]  # fmt: skip
        views.plan.leader((rib.x, -rib.half_long), [RIBS[len(ribs) > 1], *said], toward=320.0 if rib.x > 0 else 290.0)


def floor_radii(views: CastViews, stage: Stage, floor_z: float, foot: tuple[float, float, str] | None = None) -> None:
    """Say the radius between cheek and floor in the cross section, and that of what stands on the plate lengthwise.

    Args:
        views: of the casting.
        stage: the casting.
        floor_z: height of the raw floor in the cross section [mm].
        foot: x of the foot of what stands on the plate, its radius [mm], and its name.
    """
    s = stage.size
    # middle of the arc that touches the cheek and the floor
    off = (1.0 - 0.5**0.5) * s.root_radius
    at = (-(s.inside_half_at(floor_z) - off), floor_z + off)
    views.cross.leader(at, [views.cross.length_row(s.root_radius, prefix="R", suffix=" along the cheeks' feet")],
                       toward=70.0)  # fmt: skip
    if foot is not None:
        x, radius, name = foot
        views.long.leader((x, s.sole + 0.3), [views.long.length_row(radius, prefix="R", suffix=f" at {name}")],
                          toward=100.0)  # fmt: skip


FULL_SIZE = ("1:1",)  # a pattern maker lays calipers and templates on the sheet
CHILL = {
    True: "A chill only against the heavy place that the castings' proof names: on a thin wall, as near the mouth, it "
    "makes carbides that no cutter takes.",
    False: "A chill only against the heavy place that the castings' proof names.",
}
FLUSH = 0.5  # mm that is left of gate, risers and vents; common practice, no source
PATTERN_TOL = 0.1  # mm on the pattern; common practice, no source
COUNTS = {2: "two", 3: "three", 4: "four"}
RIBS = {False: "rib", True: "ribs, all alike"}
PATTERN_COLUMNS = ("feature", "axis", "finished", "stock", "draft", "casting", "shrink rule", "pattern", "master")
PATTERN_WIDTHS = (70.0, 15.0, 27.0, 24.0, 24.0, 28.0, 20.0, 28.0, 28.0)  # mm, so that a row is one line


def pattern_rows_text(part: CastPart, first: str) -> list[list[str]]:
    """Return the pattern maker's list as a table's rows.

    Args:
        part: list of one cast part.
        first: unit that stands first.
    """
    out = []
    for r in part.rows:
        master = "–" if r.master_mm is None else size_text(r.master_mm, first)
        out.append([r.feature, AXES[r.axis], size_text(r.finished_mm, first), size_text(r.allowance_mm, first),
                    size_text(r.draft_mm, first), size_text(r.casting_mm, first), r.shrink_rule(first),
                    size_text(r.pattern_mm, first), master])  # fmt: skip
    return out


def cast_sizes(plan: SheetPlan, run: Run, name: str) -> None:
    """Add the table of a small cast part's sizes: finished, as cast, of its pattern, of a master where there is one.

    Args:
        plan: the part's sheet.
        run: the build.
        name: of the cast part.
    """
    first = run.design.spec.units
    part = next(p for p in pattern_list(run.design) if p.part == name)
    rows = []
    for r in part.rows:
        sizes = [r.finished_mm, r.casting_mm, r.pattern_mm, *([] if r.master_mm is None else [r.master_mm])]
        rows.append([r.feature, *(size_text(s, first) for s in sizes)])
    columns = ["feature", "finished", "casting", "pattern", "master"]
    plan.table(columns[: len(rows[0])], rows, title="Casting and pattern sizes, at the parting")


def pattern_notes(run: Run, part: CastPart) -> list[str]:
    """Return what the pattern shop must know besides the table."""
    d, bow = run.design, part.bow
    rapping = d.shop.pattern.rapping
    rap = f" Rapping of {size_text(rapping, d.spec.units)} is taken off along and across." if rapping else ""
    lines = [
        f"Contraction of {alloy_name(part)}: {contraction_text(d, part)}.",
        f"Axis: {AXES_SAID}.",
        rule_note(d) + rap,
        f"{PARTING_END[0].upper()}{PARTING_END[1:]}.",
        *(f"{note[0].upper()}{note[1:]}." for note in part.notes),
    ]
    if bow is not None and bow.depth_mm:
        lines += [line.strip() for line in bow_text(bow, d.master)[:2]]
    lines.append(
        "Sand-smooth, sealed; no undercut. Fillets are on the model, cut, not waxed over sharp corners. Wood and resin "
        "dust: extraction and a mask."
    )
    return lines


def pattern_sheet(run: Run, entry: SheetEntry, across_at: float) -> SheetPlan:
    """Return the sheet of the body's working pattern with the pattern maker's list; arguments as `casting_sheet`."""
    d, m = run.design, run.models
    part = next(p for p in pattern_list(d) if p.part == "body")
    plan = new_sheet(run, entry, material=pattern_metal(d), kind="Pattern drawing",
                     tolerance=f"{plus_minus(PATTERN_TOL, d.spec.units)} on the pattern",
                     texture="sealed, no tool marks along the draw", scales=FULL_SIZE)  # fmt: skip
    stage = Stage("body pattern", m.body_pattern, d.body, across_at, d.contraction.factors)
    views = cast_views(run, plan, stage, None)
    over_all(views, stage)
    plan.table(PATTERN_COLUMNS, pattern_rows_text(part, d.spec.units), "Pattern maker's list: body", PATTERN_WIDTHS)
    plan.notes(pattern_notes(run, part))
    return plan
