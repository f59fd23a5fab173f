"""The knob's sheet: half section, diameters by height, bores. Lengths mm, heights above the foot plane."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.handle.blank_view import knob_blank_view
from parts.handle.outline import knob_profile, knob_section
from parts.handle.size import HEIGHT_TOL, KnobSize
from parts.plane.sheets.common import SheetEntry, new_sheet
from parts.plane.sheets.metal import size_text, weighed
from parts.plane.sheets.wood_notes import wood_name, wood_notes, wood_tolerance
from parts.plane.wood import handle_blanks, shop_density
from shared.drawing.plan import SheetPlan
from shared.drawing.view import View
from shared.profile import Line
from shared.segments import Arc

if TYPE_CHECKING:
    from parts.plane.run import Run

BORE_TOL = (0.3, 0.0)  # a bore may come out wider, never tighter on the rod
TURN_TOL = HEIGHT_TOL  # diameters and heights of a turned handle
STEPS = 12  # rows of the table of diameters


def knob_sheet(run: Run, entry: SheetEntry) -> SheetPlan:
    """Return the knob's sheet."""
    d = run.design
    size, first = d.knob, d.spec.units
    mass = weighed(run, "knob", run.models.knob_local, shop_density(d))
    plan = new_sheet(run, entry, material=wood_name(d), mass_kg=mass, tolerance=wood_tolerance(d.spec.units),
                     texture="sanded to 180", finish="oil, see notes", scales=("2:1", "1:1"))  # fmt: skip
    half = knob_section(size)
    other = half.mirrored(0)
    long = plan.view("section A-A", [half, other], label="SECTION A-A")
    for piece in (half, other):
        long.hatch(piece, angle=45.0)
    long.centre_line((0.0, -5.0), (0.0, size.height + 5.0))
    long.draw(_seats(size))
    _sizes(long, size, "clear round the rod" if _on_toe_piece(run) else "over the boss")
    outside = plan.view("side", [knob_profile(size)], of=long, place="right")
    outside.draw(knob_blank_view(size, handle_blanks(d)[-1]).fibres, "SMOOTH")
    outside.centre_line((0.0, -2.0), (0.0, size.height + 2.0))
    outside.section_marks((0.0, size.height + 9.0), (0.0, -9.0), "A", 180.0)
    outside.leader((0.12 * size.diameter, 0.7 * size.height), "grain along the axis, ± 3°", end="dot", toward=20.0)
    plan.table(["height above the foot", "diameter"], profile_rows(size, first), title="Diameters, by height")
    plan.notes(_notes(run, size))
    return plan


def _seats(size: KnobSize) -> list[Line]:
    """Return the edges seen behind the section: rims and shoulders of the bores."""
    seat, step = size.height - size.nut_counterbore_depth, size.boss_counterbore_depth
    nut, bore, boss = (
        x / 2 for x in (size.nut_counterbore_diameter, size.bore_diameter, size.boss_counterbore_diameter)
    )
    levels = [(nut, size.height - size.rim_radius), (nut, seat), (bore, step), (boss, 0.0), (boss, step)]
    return [Line((-r, z), (r, z)) for r, z in levels]


GLUED = (
    "The nut is glued into its counterbore, so that the knob turns it: leave the counterbore bare of oil; when the "
    "finish is dry, glue the nut in with epoxy, degreased, on a waxed rod that keeps it square, and let it set."
)


def _on_toe_piece(run: Run) -> bool:
    """Return whether the knob stands on a moving toe piece, which has no boss."""
    return getattr(run.design.body, "toe_way", None) is not None


def widest_and_waist(size: KnobSize) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the points (radius, z) [mm] where swell and waist are touched."""
    outer = [p for s in knob_section(size).segments for p in (s.start, s.end)]
    swell = next(p for p in outer if abs(p[0] - size.diameter / 2) < 1e-6)
    waist = next(p for p in outer if abs(p[0] - size.waist / 2) < 1e-6 and p[1] < swell[1])
    return swell, waist


def _sizes(view: View, size: KnobSize, round_what: str) -> None:
    """Dimension the section; `round_what` says what the lower counterbore goes over."""
    (r, z), (w, low) = widest_and_waist(size)
    foot, high = size.foot_diameter / 2, size.height
    view.dim_h((-foot, 0.0), (foot, 0.0), size.foot_diameter, TURN_TOL, prefix="Ø ")
    view.dim_v((foot, 0.0), (size.crest_radius, high), high, TURN_TOL, side="right")
    view.dim_v((-foot, 0.0), (-r, z), z, side="left", reference=True)
    view.dim_v((-foot, 0.0), (-w, low), low, side="left", reference=True)
    view.dim_h((-r, z), (r, z), size.diameter, TURN_TOL, prefix="Ø ", side="above")
    nut, seat = size.nut_counterbore_diameter / 2, high - size.nut_counterbore_depth
    view.leader((w, low), [view.length_row(size.waist, TURN_TOL, prefix="waist Ø ")], toward=0.0)
    view.leader((nut, (seat + high - size.rim_radius) / 2), [
        view.length_row(size.nut_counterbore_diameter, BORE_TOL, prefix="Ø "),
        view.length_row(size.nut_counterbore_depth, TURN_TOL, suffix=" deep from the crest"),
        view.length_row(size.rim_radius, prefix="rim R ")], toward=40.0)  # fmt: skip
    view.leader((size.bore_diameter / 2, 0.4 * high), [
        view.length_row(size.bore_diameter, BORE_TOL, prefix="Ø ", suffix=" through"),
        view.frame("perpendicularity", 0.3, ["A"], diameter=True)], toward=-30.0)  # fmt: skip
    boss = size.boss_counterbore_diameter / 2
    view.leader((-boss, 0.5 * size.boss_counterbore_depth), [
        view.length_row(size.boss_counterbore_diameter, BORE_TOL, prefix="Ø "),
        view.length_row(size.boss_counterbore_depth, (0.3, 0.0), suffix=f" deep, {round_what}")],
        toward=200.0)  # fmt: skip
    view.datum("A", (-0.8 * foot, 0.0), toward=-90.0)


def profile_rows(size: KnobSize, first: str) -> list[list[str]]:
    """Return the outside diameter at even heights, and at waist and swell, as rows of text.

    Args:
        size: the knob.
        first: unit that stands first.
    """
    shape = knob_profile(size)
    low, high = 1.5 * size.arris_radius, size.height - 0.02 * size.height
    named = {p[1]: word for p, word in zip(widest_and_waist(size), ("swell", "waist"), strict=True)}
    heights = sorted({*(low + (high - low) * i / (STEPS - 1) for i in range(STEPS)), *named})
    rows, known = [], {"swell": size.diameter, "waist": size.waist}
    for z in heights:
        across = known[named[z]] if z in named else 2 * max(shape.crossings(1, z))
        said = f"{size_text(z, first)} {named.get(z, '')}".rstrip()
        rows.append([said, f"Ø {size_text(across, first)}"])
    return rows


def _notes(run: Run, size: KnobSize) -> list[str]:
    d, n, first = run.design, run.numbers["handle"], run.design.spec.units
    arcs = [
        s for s in knob_profile(size).segments if isinstance(s, Arc) and s.sweep > 0 and s.centre[1] > 0.3 * size.height
    ]
    least = min(a.radius for a in arcs)
    return [
        "Turn to the 1:1 template knob-profile; diameters by height in the table. Bore first, then turn between "
        "centres on the bore.",
        f"No edge that the hand meets is sharper than R {size_text(min(least, size.rim_radius), first)}; arris of "
        "the foot R "
        f"{size_text(size.arris_radius, first)}.",
        f"Wood round the bore at the waist {size_text(float(n.value('wood_at_knob_waist_mm')), first)}.",
        *wood_notes(d, n, "knob"),
        *([GLUED] if _on_toe_piece(run) else []),
    ]


KNOB_SHEET = SheetEntry("knob", "Knob", "knob", ("wood", "assembly"), knob_sheet)
