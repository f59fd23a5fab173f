"""PDF pages at exact scale, read back by another library; SVG as XML."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pypdf
import pypdfium2
import pytest

from shared.drawing.ink import Path as InkPath
from shared.drawing.ink import arc_pieces, ink
from shared.drawing.plan import SheetPlan
from shared.drawing.plot import write_pdf
from shared.drawing.primitives import Hatch
from shared.drawing.sheet import Sheet
from shared.drawing.title import Title
from shared.profile import Profile

MM = 72 / 25.4


def one(w: float, h: float, papers: list[str]) -> SheetPlan:
    plan = SheetPlan(Title("Larch Lane Plane Works", "Plate", "LL-1", "A"), unit="mm", papers=papers, scales=["1:1"])
    plan.view("front", [Profile.rectangle(0, 0, w, h), Profile.circle((w / 2, h / 2), 9.0)])
    return plan


def test_pages_have_the_paper_size_and_what_is_drawn_its_own(tmp_path: Path) -> None:
    plans = [one(100.0, 50.0, ["A4"]), one(123.0, 60.0, ["B"]), one(300.0, 200.0, ["A2"])]
    file = tmp_path / "p.pdf"
    write_pdf(file, [s for p in plans for s in p.layout().sheets], title="Packet", footer="Heron rev A")
    reader = pypdf.PdfReader(file)
    assert reader.metadata is not None and reader.metadata.title == "Packet"
    doc = pypdfium2.PdfDocument(file)
    for n, (plan, (w, h)) in enumerate(zip(plans, ((100, 50), (123, 60), (300, 200)), strict=True)):
        page = doc[n]
        paper = plan.layout().paper
        assert page.get_size() == pytest.approx((paper.width * MM, paper.height * MM), abs=0.01)
        at = plan.layout().pages[0].views[0].at
        boxes = [o.get_bounds() for o in page.get_objects() if o.type == 2]
        sizes = [((b[2] - b[0]) / MM, (b[3] - b[1]) / MM, b[0] / MM, b[1] / MM) for b in boxes]
        # the bounds that pdfium gives reach a whole pen, 0.5 mm, past the line
        lower = [s for s in sizes if s == pytest.approx((w + 1.0, 1.0, at[0] - 0.5, at[1] - 0.5), abs=0.01)]
        left = [s for s in sizes if s == pytest.approx((1.0, h + 1.0, at[0] - 0.5, at[1] - 0.5), abs=0.01)]
        hole = [s for s in sizes if s[:2] == pytest.approx((19.0, 19.0), abs=0.01)]
        assert (len(lower), len(left), len(hole)) == (1, 1, 1)
        assert f"Heron rev A · page {n + 1} of 3" in reader.pages[n].extract_text()


def test_a_drawing_without_paper_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="paper"):
        write_pdf(tmp_path / "x.pdf", [Sheet()])


def test_curves_follow_the_arc() -> None:
    start, pieces = arc_pieces((3.0, -2.0), 50.0, 350.0, 200.0)
    points = InkPath("DIM", start, pieces).points()
    for u, v in points:
        assert ((u - 3) ** 2 + (v + 2) ** 2) ** 0.5 == pytest.approx(50.0, abs=5e-4)
    assert len(pieces) == 5


def test_hatch_lines_stay_inside_and_leave_the_holes_out() -> None:
    sheet = Sheet()
    outer, hole = Profile.rectangle(0, 0, 40, 20, 4.0), Profile.circle((20, 10), 5)
    sheet.draw([Hatch(outer, (hole,), 45.0, 2.0)], "HATCH", at=(7.0, 3.0))
    lines = [x.points() for x in ink(sheet) if isinstance(x, InkPath)]
    total = sum(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 for a, b in lines)
    # lines every 2 mm: their length times 2 is the area they cover
    assert total * 2.0 == pytest.approx(outer.area - hole.area, rel=0.02)
    for a, b in lines:
        mid = ((a[0] + b[0]) / 2 - 7, (a[1] + b[1]) / 2 - 3)
        assert outer.contains(mid) and not hole.contains(mid)


def test_svg_is_small_and_keeps_text_as_text(tmp_path: Path) -> None:
    plan = one(100.0, 50.0, ["A4"])
    plan.notes(["Tilt < 1° & flat", "Größe 5 µm"])
    plan.save(svg=tmp_path / "s.svg")
    root = ElementTree.parse(tmp_path / "s.svg").getroot()
    assert root.get("viewBox") == "0 0 210 297" and root.get("width") == "210mm"
    words = [t.text for t in root.iter("{http://www.w3.org/2000/svg}text")]
    assert {"Tilt < 1° & flat", "Größe 5 µm", "Plate"} <= set(words)
    assert (tmp_path / "s.svg").stat().st_size < 30_000
