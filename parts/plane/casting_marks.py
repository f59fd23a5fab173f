"""What a kind of plane says of its cast parts for their proof: the finished part, machined planes, names of places.

A kind's own `casting_marks.MARKS` maps the name of each cast part to a function that returns its `Marks`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial

import cadquery as cq
import numpy as np
from numpy.typing import NDArray

from parts.body.machined_faces import MachinedFace
from parts.body.size import Trough
from parts.lever_cap.proof import lever_planes, stock_points
from parts.lever_cap.size import LeverCapSize
from parts.plane.models import PlaneModels
from shared.cad.slope import off_bed
from shared.casting.raycast import Floats
from shared.casting.stock import Machined
from shared.record import Record

Place = tuple[float, float, float]
# mm: how far the casting's rounded edges reach into the cap's milled faces
RIMS = {"nose land": 0.3, "nose front": 1.0, "head seat": 0.5, "lever slot": 0.5, "stop": 1.0}
LEVER_CLEAR = 2.5  # mm about the middle of the lever's milled faces; farther out they run out into ramps and roundings


class Marks(Record):
    """Of one cast part, in the frame of its casting [mm, deg]."""

    draft: float  # least that is asked of its walls
    finished: cq.Shape | None = None
    machined: tuple[Machined, ...] = ()
    landmarks: tuple[tuple[str, Place], ...] = ()


MarksOf = Mapping[str, Callable[[PlaneModels], Marks]]


def body_marks(
    size: Trough, faces: tuple[MachinedFace, ...], bosses: Mapping[float, str], more: tuple[tuple[str, Place], ...],
    finished: cq.Shape,
) -> Marks:  # fmt: skip
    """Return the marks of any body.

    Args:
        size: its sizes.
        faces: its machined faces; the planes among them are measured.
        bosses: what each boss is called, by its x [mm].
        more: names of further places [mm].
        finished: the finished body.
    """
    places = [(name, (x, 0.0, size.sole)) for x, name in bosses.items()]
    ends = (
        ("toe", (size.toe_x, 0.0, size.sole / 2)),
        ("heel", (size.heel_x, 0.0, size.sole / 2)),
        ("mouth", (0.0, 0.0, size.sole / 2)),
        ("cheek's peak", (size.arch_peak, size.width / 2, size.cheek_height)),
    )
    planes = tuple(_plane(f, size.cast.required) for f in faces if f.kind == "plane")
    draft = min(size.cast.draft_outside, size.cast.draft_inside)
    return Marks(draft, finished, planes, (*places, *more, *ends))


def _plane(face: MachinedFace, required: float) -> Machined:
    x0, x1 = face.own if face.own is not None else (-np.inf, np.inf)
    y = face.half if face.half is not None else np.inf
    low, high = (x0 - 1e-3, -y - 1e-3, -np.inf), (x1 + 1e-3, y + 1e-3, np.inf)
    return Machined(face.name, face.at, face.normal, required, low, high, partial(_clear, face))


# what follows is given its values by partial: a proof travels from one process of a build to the other


def _clear(face: MachinedFace, points: Floats) -> NDArray[np.bool_]:
    x, y = points[..., 0], points[..., 1]
    if face.clear_radius is not None:
        inside: NDArray[np.bool_] = np.hypot(x - face.at[0], y - face.at[1]) <= face.clear_radius
    elif face.clear_plan is not None:
        plan = face.clear_plan
        inside = np.array([plan.contains((a, b)) for a, b in zip(x.ravel(), y.ravel(), strict=True)])
        inside = inside.reshape(x.shape)
    elif face.clear_x is not None:
        inside = (x >= face.clear_x[0]) & (x <= face.clear_x[1])
    else:
        inside = np.ones(x.shape, dtype=bool)
    return inside


def _about(at: Place, reach: float) -> Callable[[Floats], NDArray[np.bool_]]:
    return partial(_near, at, reach)


def _near(at: Place, reach: float, points: Floats) -> NDArray[np.bool_]:
    inside: NDArray[np.bool_] = np.linalg.norm(points - np.array(at), axis=-1) <= reach
    return inside


def cap_marks(size: LeverCapSize, bed_angle: float, parts: Mapping[str, cq.Solid]) -> Marks:
    """Return the marks of a lever cap.

    Args:
        size: its sizes.
        bed_angle: at which its finished parts are seated [deg].
        parts: the finished parts, seated, by name.
    """
    planes: dict[str, Machined] = {}
    for label, (at, out) in stock_points(size).items():
        # several points of one face are one plane
        name = label.partition(",")[0]
        planes.setdefault(name, Machined(name, at, out, size.nose_stock, rim=RIMS[name]))
    places = (
        ("nose", (size.nose_at, 0.0, size.underside_q)),
        ("screw's seat", (size.screw_at, 0.0, size.head_q - 2.0)),
        ("pivot's right ear", (size.pivot_at, size.tail_width / 2 - 2.0, size.pivot_q)),
        ("tail", (size.tail, 0.0, size.stop_q)),
    )
    draft = min(size.outside_draft, size.inside_draft)
    return Marks(draft, off_bed(parts["lever cap cap"], bed_angle), tuple(planes.values()), places)


def lever_marks(size: LeverCapSize, bed_angle: float, parts: Mapping[str, cq.Solid]) -> Marks:
    """Return the marks of a cam lever. Arguments as `cap_marks`."""
    planes = (
        Machined(name, at, out, size.nose_stock, clear=_about(at, LEVER_CLEAR))
        for name, (at, out) in lever_planes(size).items()
    )
    places = (
        ("hub", (size.pivot_at, 0.0, size.pivot_q)),
        ("lever's tip", (size.pivot_at + size.lever_length, 0.0, size.pivot_q)),
    )
    return Marks(size.outside_draft, off_bed(parts["lever cap lever"], bed_angle), tuple(planes), places)
