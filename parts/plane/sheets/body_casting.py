"""The sheets of any body's casting and pattern."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import radians, tan
from typing import TYPE_CHECKING

from parts.body.machined_faces import FromSolid, MachinedFace
from parts.body.ribs import bosses_of, ribs_of
from parts.body.size import Trough
from parts.plane.pattern_bow import bow_text
from parts.plane.pattern_list import CastPart, pattern_list
from parts.plane.sheets.cast_body import CastViews, Stage, cast_heights, cast_views, over_all
from parts.plane.sheets.common import SheetEntry, new_sheet
from parts.plane.sheets.metal import AS_CAST, kg_text, near_full_size, size_text, weighed
from shared.drawing.plan import SheetPlan

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
    wall = min(16, shop.tolerance_grade + shop.wall_grade_offset)
    tolerance = f"ISO 8062-3 DCTG {shop.tolerance_grade}, walls DCTG {wall}"
    plan = new_sheet(run, entry, material=metal.name, mass_kg=mass, kind="Casting drawing", tolerance=tolerance,
                     texture=f"Ra {AS_CAST:g} µm, as cast", scales=near_full_size(size.length))  # fmt: skip
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
        "Cast solid: " + "; ".join(f"{c.name} ({c.why})" for c in closed) + ".",
        "Phantom lines: the finished body.",
        "No weld repair, no chill near mouth and seats. Gate, risers and vents: ground flush to 0.5 mm.",
        "Stress-relieve as the stress-relief card says before the first cut.",
        f"Casting {kg_text(mass)}, finished {kg_text(finished)}.",
    ])  # fmt: skip
    return plan


def _parting_text(size: Trough, first: str) -> str:
    z = size.cast.parting_z
    if abs(z + size.cast.sole) < 1e-9:
        return "the raw face of the sole"
    return f"{size_text(abs(z), first)} {'above' if z > 0 else 'below'} the finished sole face"


def stock_rows(faces: Sequence[MachinedFace], first: str) -> list[list[str]]:
    """Return a row for each kind of machined face; faces that differ by their side only share one.

    Args:
        faces: of the part.
        first: unit that stands first.
    """
    found: dict[tuple[str, str, str], list[str]] = {}
    for f in faces:
        found.setdefault((size_text(f.stock, first), f.how, f.why), []).append(f.name)
    return [[", ".join(names), stock, how, why] for (stock, how, why), names in found.items()]


def _radii(views: CastViews, stage: Stage) -> None:
    """Say the cast radii and ribs where they are."""
    s, w = stage.size, stage.walls
    k = w.corner
    centre = (w.x1 - k, w.half - k)
    views.plan.radius(centre, (centre[0] + k * 0.5**0.5, centre[1] + k * 0.5**0.5), k, prefix="4× ")
    for b in bosses_of(s):
        top = s.cast.boss + b.z_top
        r = b.diameter / 2 + (s.cast.required if b.turned else 0.0) - s.cast.boss * tan(radians(s.cast.draft_inside))
        views.long.leader((b.x - r + 1.0, top), [views.long.length_row(2 * r, prefix="Ø", suffix=" at its top")],
                          toward=120.0)  # fmt: skip
    inner = s.inside_half_at(s.cheek_height)
    views.cross.dim_h((-inner, s.cheek_height), (inner, s.cheek_height), 2 * inner, side="above", reference=True)
    foot = s.inside_half_at(s.sole) - 0.3 * s.root_radius
    views.cross.leader((-foot, s.sole + 0.3 * s.root_radius),
                       [views.cross.length_row(s.root_radius, prefix="R", suffix=" cheek to plate")], toward=60.0)
    edge = [views.cross.length_row(s.cast.edge_radius, prefix="R", suffix=" all other edges")]
    views.cross.leader((w.half - w.inset(s.cheek_height) - 0.2, s.cheek_height - 0.2), edge, toward=30.0)
    for rib in ribs_of(s)[:1]:
        thin = 2 * rib.half_thick - 2 * (rib.z - s.sole) * tan(radians(s.cast.draft_inside))
        views.long.leader((rib.x, rib.z), [views.long.length_row(thin, suffix=" thick at its top"), "ribs alike"],
                          toward=70.0)  # fmt: skip


PATTERN_COLUMNS = ("feature", "axis", "finished", "stock", "draft", "casting", "shrink rule", "pattern", "master")
PATTERN_WIDTHS = (56.0, 10.0, 27.0, 24.0, 24.0, 28.0, 20.0, 28.0, 28.0)  # mm, so that a row is one line


def pattern_rows_text(part: CastPart, first: str) -> list[list[str]]:
    """Return the pattern maker's list as a table's rows.

    Args:
        part: list of one cast part.
        first: unit that stands first.
    """
    out = []
    for r in part.rows:
        master = "–" if r.master_mm is None else size_text(r.master_mm, first)
        out.append([r.feature, r.axis, size_text(r.finished_mm, first), size_text(r.allowance_mm, first),
                    size_text(r.draft_mm, first), size_text(r.casting_mm, first), r.shrink_rule_in,
                    size_text(r.pattern_mm, first), master])  # fmt: skip
    return out


def contraction_text(run: Run, part: CastPart) -> str:
    """Return the contraction of a part's alloy, and of the pattern metal where the pattern is cast from a master."""
    c, master = part.contraction, run.design.master
    if c.is_uniform:
        said = f"{100 * c.x:.3f} % ({12 * c.x:.4f} in/ft)"
    else:
        said = ", ".join(f"{axis} {100 * c.along(axis):.3f} %" for axis in "xyz")
    second = ""
    if master is not None:
        second = f" Master: a further {100 * master.x:.3f} % for {run.design.shop.pattern.metal}."
    return f"Contraction of {part.alloy}: {said}; {c.source}.{second}"


def pattern_notes(run: Run, part: CastPart) -> list[str]:
    """Return what the pattern shop must know besides the table."""
    shop, bow = run.design.shop, part.bow
    rap = f" Rapping of {shop.pattern.rapping:g} mm is taken off along and across." if shop.pattern.rapping else ""
    lines = [
        contraction_text(run, part),
        "The shrink rule already has the contraction in it: read the casting's size off it ("
        f"1/{shop.pattern.shrink_rule_denominator} in; ~ nearest). By a plain rule cut the pattern's size, or the "
        "master's where the working pattern is cast." + rap,
        "Casting and pattern sizes are at the parting end of the draw, where an outside is largest.",
        *part.notes,
    ]
    if bow is not None and bow.depth_mm:
        lines += [line.strip() for line in bow_text(bow, run.design.master)[:2]]
    lines.append(
        "Sand-smooth, sealed; no undercut. Fillets are on the model, cut, not waxed over sharp corners. Wood and resin "
        "dust: extraction and a mask."
    )
    return lines


def pattern_sheet(run: Run, entry: SheetEntry, across_at: float) -> SheetPlan:
    """Return the sheet of the body's working pattern with the pattern maker's list; arguments as `casting_sheet`."""
    d, m = run.design, run.models
    part = next(p for p in pattern_list(d) if p.part == "body")
    plan = new_sheet(run, entry, material=d.shop.pattern.metal.replace("-", " "), kind="Pattern drawing",
                     tolerance="± 0.1 mm on the pattern", texture="sealed, no tool marks along the draw",
                     scales=near_full_size(d.body.length))  # fmt: skip
    stage = Stage("body pattern", m.body_pattern, d.body, across_at, d.contraction.factors)
    views = cast_views(run, plan, stage, None)
    over_all(views, stage)
    plan.table(PATTERN_COLUMNS, pattern_rows_text(part, d.spec.units), "Pattern maker's list: body", PATTERN_WIDTHS)
    plan.notes(pattern_notes(run, part))
    return plan
