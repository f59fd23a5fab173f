"""Machined planes and places of a low-angle plane's cast parts, for their proof."""

from __future__ import annotations

from typing import cast

from parts.body.low_angle.machined_faces import boss_names, machined_faces
from parts.low_angle.proof import stock_points
from parts.plane.casting_marks import Marks, MarksOf, body_marks
from parts.plane.low_angle.models import Models
from parts.plane.models import PlaneModels
from shared.cad.slope import off_bed
from shared.casting.stock import Machined

# mm: how far the casting's rounded edges reach into the cap's milled faces
RIMS = {"nose land": 0.3, "nose front": 1.0, "head seat": 0.5}


def _body(models: PlaneModels) -> Marks:
    m = cast(Models, models)
    b = m.design.body
    places = [
        ("front land", ((b.bed_from + b.ramp_to) / 2, 0.0, b.bed_z(b.ramp_to) / 2)),
        ("bridge", ((b.bridge.x0 + b.bridge.x1) / 2, 0.0, b.bed_z(b.bridge.x1) / 2)),
    ]
    if b.toe_way is not None:
        places.append(("bridge block", (b.toe_way.boss_x, 0.0, b.toe_way.block_z / 2)))
    return body_marks(b, machined_faces(b), boss_names(b), tuple(places), m.body)


def _cap(models: PlaneModels) -> Marks:
    m = cast(Models, models)
    size = m.design.lever_cap
    planes: dict[str, Machined] = {}
    for label, (at, out) in stock_points(size).items():
        # several points of one face are one plane
        name = label.partition(",")[0]
        planes.setdefault(name, Machined(name, at, out, size.stock, rim=RIMS[name]))
    places = (
        ("nose", (size.nose_at, 0.0, size.underside_q)),
        ("stud's seat", (size.stud.at, 0.0, size.head_q - 2.0)),
        ("clamp's thread", (size.clamp.at, 0.0, size.head_q)),
    )
    finished = off_bed(dict(m.lever_cap)["lever cap"], m.design.spec.bed.angle)
    return Marks(size.outside_draft, finished, tuple(planes.values()), places)


MARKS: MarksOf = {"body": _body, "lever cap": _cap}
