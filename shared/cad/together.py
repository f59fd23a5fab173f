"""Many solids seen together: each one's own visible lines, less what others hide. Lengths mm.

Exact where it can be; a freely shaped or fluted part costs the exact way seconds, and is drawn from its triangles.
"""

from __future__ import annotations

from collections.abc import Sequence

import cadquery as cq
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape, HLRBRep_PolyAlgo, HLRBRep_PolyHLRToShape

from shared.cad.facets import facets
from shared.cad.project import VIEWS, View, _flat, _room
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
    v = VIEWS[view] if isinstance(view, str) else view
    try:
        algo = HLRBRep_Algo()
        for s in shapes:
            algo.Add(s.wrapped)
        algo.Projector(_projector(v))
        algo.Update()
        algo.Hide()
        return _lines(HLRBRep_HLRToShape(algo), shapes, v)
    except GeometryError:
        raise
    except Exception as err:
        raise GeometryError("view", "hidden lines", "the kernel could not project the shapes together") from err


def seen_as_facets(shapes: Sequence[cq.Shape], view: View | str) -> list[tuple[Primitive, ...]]:
    """Return what `seen_together` returns, within 0.08 mm and in short straight lines, from the shapes' triangles.

    Raises:
        GeometryError: the kernel could not project the shapes.
    """
    v = VIEWS[view] if isinstance(view, str) else view
    try:
        algo = HLRBRep_PolyAlgo()
        for s in shapes:
            facets(s)  # the kernel draws the triangles that a shape carries
            algo.Load(s.wrapped)
        algo.Projector(_projector(v))
        algo.Update()
        lines = HLRBRep_PolyHLRToShape()
        lines.Update(algo)
        return _lines(lines, shapes, v)
    except GeometryError:
        raise
    except Exception as err:
        raise GeometryError("view", "hidden lines", "the kernel could not project the triangles") from err


def _projector(view: View) -> HLRAlgo_Projector:
    return HLRAlgo_Projector(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*view.toward), gp_Dir(*view.right)))


def _lines(
    found: HLRBRep_HLRToShape | HLRBRep_PolyHLRToShape, shapes: Sequence[cq.Shape], view: View
) -> list[tuple[Primitive, ...]]:
    out = []
    for s in shapes:
        room = _room(s, view)
        sharp, outline = found.VCompound(s.wrapped), found.OutLineVCompound(s.wrapped)
        out.append(tuple(tidy(_flat(sharp, room) + _flat(outline, room))))
    return out
