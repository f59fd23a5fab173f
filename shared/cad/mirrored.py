"""Mirror images in the middle plane, and halves joined to theirs."""

from __future__ import annotations

import cadquery as cq
from OCP.BOPAlgo import BOPAlgo_GlueEnum
from OCP.BRepAlgoAPI import BRepAlgoAPI_Fuse
from OCP.TopTools import TopTools_ListOfShape

from shared.cad.solids import one_valid_solid
from shared.errors import GeometryError


def whole_of(half: cq.Solid, part: str) -> cq.Solid:
    """Return a half that stands on the middle plane y = 0 joined to its mirror image.

    The halves meet in whole faces and nowhere else; told so, the kernel looks for no other meeting, which is most of
    the work.

    Raises:
        GeometryError: the kernel could not join them, or made no valid solid of them.
    """
    job, one, other = BRepAlgoAPI_Fuse(), TopTools_ListOfShape(), TopTools_ListOfShape()
    one.Append(half.wrapped)
    other.Append(mirror_y(half, part).wrapped)
    job.SetArguments(one)
    job.SetTools(other)
    job.SetGlue(BOPAlgo_GlueEnum.BOPAlgo_GlueFull)
    job.Build()
    if not job.IsDone():
        raise GeometryError(part, "both halves", "the kernel could not join them")
    return one_valid_solid(cq.Shape.cast(job.Shape()), part, "both halves")


def mirror_y(solid: cq.Solid, part: str = "mirror") -> cq.Solid:
    """Return the mirror image in the middle plane y = 0."""
    return one_valid_solid(solid.mirror("XZ"), part, "mirror")
