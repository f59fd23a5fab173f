"""A drilled plate with a section and a turned pin: the sheet that the drawing tests look at. Not stored anywhere."""

from __future__ import annotations

from shared.drawing.plan import SheetPlan
from shared.drawing.title import Title
from shared.profile import Profile
from shared.segments import Line

IN = 25.4
TITLE = Title("Larch Lane Plane Works", "Drilled plate and pin", "LL-100", "B", material="Ductile iron 65-45-12",
              mass_kg=0.412, finish="Machined all over", tolerance="ISO 2768-m unless stated",
              texture="Ra 63 µin [1.6 µm]", spec_hash="3f2a91c0")  # fmt: skip


def demo(unit: str = "inch", papers: tuple[str, ...] = ("A4", "A3", "A2"), title: Title = TITLE) -> SheetPlan:
    plan = SheetPlan(title, unit=unit, papers=papers, scales=("1:1", "1:2"))
    holes = [((IN, IN), 6.35), ((3 * IN, 1.25 * IN), 3.175), ((3 * IN, 0.5 * IN), 3.175)]
    outline = Profile.rectangle(0, 0, 4 * IN, 2 * IN, 6.35)
    front = plan.view("plate", [outline, *(Profile.circle(c, r) for c, r in holes)])
    front.centre_marks(holes)
    front.dim_h((0, IN), (4 * IN, IN), 4 * IN, 0.1, side="above").dim_v((0, 0), (0, 2 * IN), 2 * IN, (0.0, -0.2))
    front.dim_h((0, 0), (IN, IN), IN, basic=True).dim_h((IN, IN), (3 * IN, 0.5 * IN), 2 * IN, 0.05)
    front.dim_v((3 * IN, 0.5 * IN), (3 * IN, 1.25 * IN), 0.75 * IN, side="right")
    front.dim_v((4 * IN, 0), (3 * IN, 0.5 * IN), 0.5 * IN, side="right")
    front.diameter((IN, IN), (IN + 6.35, IN), 12.7, "H7", suffix=" THRU",
                   frames=[front.frame("position", 0.1, ["A", "B"], diameter=True)])  # fmt: skip
    front.diameter((3 * IN, 1.25 * IN), (3 * IN + 3.175, 1.25 * IN), 6.35, prefix="2× ", more=["1/4-20 UNC-2B"])
    c = 6.35 * 2**-0.5
    front.radius((6.35, 2 * IN - 6.35), (6.35 - c, 2 * IN - 6.35 + c), 6.35, prefix="4× ")
    front.datum("A", (60, 0)).datum("B", (0, 10)).tolerance_frame((80, 2 * IN), "parallelism", 0.025, ["A"])
    front.surface((4 * IN, 44), 1.6).section_marks((-12, IN), (4 * IN + 12, IN), "A", 90.0)
    cut = [Profile.rectangle(0, 0, IN - 6.35, 12.7), Profile.rectangle(IN + 6.35, 0, 4 * IN, 12.7)]
    behind = [Line((IN - 6.35, v), (IN + 6.35, v)) for v in (0, 12.7)]
    below = plan.view("section", [*cut, *behind], of=front, place="below", label="SECTION A-A")
    for c in cut:
        below.hatch(c)
    below.dim_v((4 * IN, 0), (4 * IN, 12.7), 12.7, 0.025, side="right")
    pin = plan.view("pin", [Profile.polygon([(0, -6), (30, -6), (30, -4), (52, -4), (56, -2), (56, 2), (52, 4), (30, 4),
                                             (30, 6), (0, 6)])], label="PIN")  # fmt: skip
    pin.draw([Line((30, -4), (30, 4)), Line((52, -4), (52, 4))]).centre_line((-4, 0), (60, 0))
    pin.dim_h((0, -6), (30, -6), 30).dim_h((0, -6), (56, -2), 56, reference=True)
    pin.dim_v((0, -6), (0, 6), 12, (-0.006, -0.017), prefix="Ø").dim_v((40, -4), (40, 4), 8, side="right", prefix="Ø")
    pin.angle((52, 4), (62, 4), (56, 2), 26.565051177).tolerance_frame((15, 6), "runout", 0.02, ["C"])
    pin.balloon(1, (20, 2)).leader((54, -3), "Chamfer both\nends alike")
    plan.notes(["Break sharp edges 0.2 to 0.5 mm.", "Stress relieve before the last cut and let it rest overnight."])
    plan.table(["Item", "Part", "Qty"], [["1", "Plate", "1"], ["2", "Screw 1/4-20 × 3/4", "2"]], title="Parts")
    return plan
