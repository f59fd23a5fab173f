"""Machined planes and places of a bench plane's cast parts, for their proof."""

from __future__ import annotations

from typing import cast

from parts.body.machined_faces import boss_names, machined_faces
from parts.frog.finished import slope
from parts.frog.proof import machined_planes
from parts.plane.bench.models import Models
from parts.plane.casting_marks import Marks, MarksOf, body_marks, cap_marks, lever_marks
from parts.plane.models import PlaneModels
from shared.casting.stock import Machined


def _body(models: PlaneModels) -> Marks:
    m = cast(Models, models)
    b = m.design.body
    pads = (
        ("frog's high pad", ((b.high_pad.x0 + b.high_pad.x1) / 2, 0.0, b.high_pad.z / 2)),
        ("frog's low pad", ((b.low_pad.x0 + b.low_pad.x1) / 2, 0.0, b.low_pad.z / 2)),
    )
    return body_marks(b, machined_faces(b), boss_names(b), pads, m.body)


def _frog(models: PlaneModels) -> Marks:
    m = cast(Models, models)
    f = m.design.mechanism.frog
    at = slope(f)
    places = (
        ("cap screw's hole", at.point(f.cap_screw_at, f.cap_screw_depth / 2)),
        ("top of the bed", at.point(f.bed_top, f.bed_plate / 2)),
        ("foot of the bed", at.point(0.0, f.bed_plate / 2)),
        ("hold-down screws", (f.holddown_at, 0.0, f.high_z + f.floor / 2)),
    )
    planes = tuple(Machined(name, spot, out, f.required) for name, spot, out in machined_planes(f))
    return Marks(f.draft, m.frog, planes, places)


def _cap(models: PlaneModels) -> Marks:
    m = cast(Models, models)
    return cap_marks(m.design.mechanism.lever_cap, m.design.spec.bed.angle, dict(m.lever_cap))


def _lever(models: PlaneModels) -> Marks:
    m = cast(Models, models)
    return lever_marks(m.design.mechanism.lever_cap, m.design.spec.bed.angle, dict(m.lever_cap))


MARKS: MarksOf = {"body": _body, "frog": _frog, "lever cap": _cap, "cam lever": _lever}
