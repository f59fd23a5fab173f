"""Many solids seen together: each one's own visible lines, less what others hide. Lengths mm.

Exact where it can be; a freely shaped or fluted part costs the exact way seconds, and is drawn from its triangles.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import cadquery as cq
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape, HLRBRep_PolyAlgo, HLRBRep_PolyHLRToShape

from shared.cad.facets import facets
from shared.cad.project import VIEWS, View, flat_lines, room_about
from shared.drawing.merge import tidy
from shared.drawing.primitives import Primitive
from shared.errors import GeometryError


def seen_together(shapes: Sequence[cq.Shape], view: View | str) -> list[tuple[Primitive, ...]]:
    """Return the visible lines of each of several shapes that stand in one another's way.

    Args:
        shapes: solids or compounds in their places [mm].
        view: a name of `shared.cad.project.VIEWS`, or a view.

    Raises:
        GeometryError: the kernel could not project the shapes.
    """

    def exact(v: View) -> HLRBRep_HLRToShape:
        algo = HLRBRep_Algo()
        for s in shapes:
            algo.Add(s.wrapped)
        algo.Projector(_projector(v))
        algo.Update()
        algo.Hide()
        return HLRBRep_HLRToShape(algo)

    return _seen(exact, shapes, view)


def seen_as_facets(shapes: Sequence[cq.Shape], view: View | str) -> list[tuple[Primitive, ...]]:
    """Return what `seen_together` returns, within 0.08 mm and in short straight lines, from the shapes' triangles.

    Raises:
        GeometryError: the kernel could not project the shapes.
    """

    def by_facets(v: View) -> HLRBRep_PolyHLRToShape:
        algo = HLRBRep_PolyAlgo()
        for s in shapes:
            facets(s)  # the kernel draws the triangles that a shape carries
            algo.Load(s.wrapped)
        algo.Projector(_projector(v))
        algo.Update()
        lines = HLRBRep_PolyHLRToShape()
        lines.Update(algo)
        return lines

    return _seen(by_facets, shapes, view)


def _seen(
    found: Callable[[View], HLRBRep_HLRToShape | HLRBRep_PolyHLRToShape], shapes: Sequence[cq.Shape], view: View | str
) -> list[tuple[Primitive, ...]]:
    v = VIEWS[view] if isinstance(view, str) else view
    try:
        return _lines(found(v), shapes, v)
    except GeometryError:
        raise
    except Exception as err:
        raise GeometryError("view", "hidden lines", "the kernel could not project the shapes together") from err


def _projector(view: View) -> HLRAlgo_Projector:
    return HLRAlgo_Projector(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*view.toward), gp_Dir(*view.right)))


def _lines(
    found: HLRBRep_HLRToShape | HLRBRep_PolyHLRToShape, shapes: Sequence[cq.Shape], view: View
) -> list[tuple[Primitive, ...]]:
    out = []
    for s in shapes:
        room = room_about(s, view)
        sharp, outline = found.VCompound(s.wrapped), found.OutLineVCompound(s.wrapped)
        out.append(tuple(tidy(flat_lines(sharp, room) + flat_lines(outline, room))))
    return out
