"""The check for overlaps finds what is planted; layouts of random sheets pass it."""

from __future__ import annotations

import math
import random

import pytest

from shared.drawing.overlap import assert_clean, faults, ink_faults
from shared.drawing.paper import paper
from shared.drawing.plan import SheetPlan
from shared.drawing.primitives import Arc, Line, Note
from shared.drawing.sheet import Sheet
from shared.drawing.title import Title
from shared.errors import GeometryError
from shared.profile import Profile


def sheet(*items: Line | Note | Arc) -> list[str]:
    s = Sheet()
    s.paper = paper("A4")
    s.draw([Note("base text", (50, 100), 2.5), *items], "DIM")
    return ink_faults(s)


@pytest.mark.parametrize(
    ("item", "fault"),
    [
        (Note("other", (60, 101), 2.5), "overlaps text"),
        (Note("up", (55, 97), 2.5, 90.0), "overlaps text"),
        (Line((40, 101), (90, 101)), "crossed by a line"),
        (Line((40, 90), (70, 110)), "crossed by a line"),
        (Arc((55, 91), 10.0, 45.0, 90.0), "crossed by a line"),
        (Note("off", (5, 200), 2.5), "runs off the frame"),
        (Line((40, 200), (205, 200)), "runs off the frame"),
    ],
)
def test_planted_faults_are_found(item: Line | Note | Arc, fault: str) -> None:
    found = sheet(item)
    assert len(found) == 1 and fault in found[0]


@pytest.mark.parametrize(
    "item", [Line((40, 98.9), (90, 98.9)), Note("below", (50, 96), 2.5), Arc((55, 91), 8.0, 0.0, 360.0)]
)
def test_near_is_not_a_fault(item: Line | Note | Arc) -> None:
    assert sheet(item) == []


def test_a_moved_view_is_found() -> None:
    plan = random_plan(3)
    assert_clean(plan)
    page = plan.layout().pages[0]
    page.views[0] = type(page.views[0])(page.views[0].arranged, page.blocks[0].at)
    assert any("overlaps" in f for f in faults(plan.layout()))
    with pytest.raises(GeometryError, match="overlaps"):
        assert_clean(plan)


def random_plan(seed: int) -> SheetPlan:
    r = random.Random(seed)
    w, h = r.uniform(8, 380), r.uniform(5, 200)
    plan = SheetPlan(Title("Larch Lane Plane Works", f"Part {seed}", "X", "A"), unit=r.choice(["inch", "mm"]))
    v = plan.view("front", [Profile.rectangle(0, 0, w, h)])
    for _ in range(r.randint(1, 6)):
        c, rad = (r.uniform(0.2 * w, 0.8 * w), r.uniform(0.2 * h, 0.8 * h)), min(w, h) * r.uniform(0.02, 0.15)
        v.draw([Profile.circle(c, rad)]).centre_marks([(c, rad)])
        v.diameter(c, (c[0] + rad, c[1]), 2 * rad, r.choice([None, 0.1, "H7", (0.1, 0.0)]))
        v.dim_h((0, 0), c, c[0], r.choice([None, 0.1, (0.1, -0.02)]), side=r.choice(["above", "below"]))
        v.dim_v((0, 0), c, c[1], side=r.choice(["left", "right"]), basic=r.random() < 0.3)
    v.dim_h((0, 0), (w, 0), w).dim_v((0, 0), (0, h), h)
    v.angle((0, 0), (w, 0), (w, h), math.degrees(math.atan2(h, w))).dim_aligned((0, 0), (w, h), math.hypot(w, h))
    for _ in range(r.randint(0, 4)):
        v.leader((r.uniform(0, w), r.choice([0, h])), r.choice(["Note", "A longer note\nof two lines"]))
    v.datum("A", (0.4 * w, 0)).tolerance_frame((0.3 * w, h), "flatness", 0.025).surface((w, 0.3 * h), 1.6)
    if r.random() < 0.5:
        v.section_marks((-8, h / 2), (w + 8, h / 2), "A", 90.0)
    for i in range(r.randint(0, 3)):
        v.balloon(i + 1, (w * r.random(), h * r.random()))
    plan.view("side", [Profile.rectangle(0, 0, 0.4 * h, h)], of=v, place="right").dim_h((0, 0), (0.4 * h, 0), 0.4 * h)
    plan.notes([f"note {i} " * r.randint(1, 20) for i in range(r.randint(1, 8))])
    plan.table(["Item", "Name"], [[f"{i}", "part " * r.randint(1, 5)] for i in range(r.randint(1, 9))], title="Parts")
    return plan


@pytest.mark.parametrize("seed", (0, 1, 4, 5))
def test_random_sheets_are_clean(seed: int) -> None:
    assert_clean(random_plan(seed))
