"""STEP files whose bytes depend on the model and the stamp only: one part, or a named and coloured assembly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import cadquery as cq
from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
from OCP.IFSelect import IFSelect_ReturnStatus
from OCP.Interface import Interface_HArray1OfHAsciiString, Interface_Static
from OCP.Message import Message
from OCP.Quantity import Quantity_Color, Quantity_TOC_sRGB
from OCP.STEPCAFControl import STEPCAFControl_Reader, STEPCAFControl_Writer
from OCP.STEPConstruct import STEPConstruct_Styles
from OCP.STEPControl import STEPControl_StepModelType
from OCP.StepRepr import (
    StepRepr_HArray1OfRepresentationItem,
    StepRepr_NextAssemblyUsageOccurrence,
    StepRepr_RepresentationContext,
    StepRepr_RepresentationItem,
)
from OCP.StepShape import StepShape_AdvancedBrepShapeRepresentation, StepShape_ManifoldSolidBrep
from OCP.StepVisual import (
    StepVisual_MechanicalDesignGeometricPresentationRepresentation,
    StepVisual_PresentationStyleAssignment,
)
from OCP.TCollection import TCollection_ExtendedString, TCollection_HAsciiString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label, TDF_LabelSequence
from OCP.TDocStd import TDocStd_Document
from OCP.TopLoc import TopLoc_Location
from OCP.XCAFDoc import XCAFDoc_DocumentTool
from OCP.XSControl import XSControl_WorkSession

from shared.cad.palette import GREY, Colour
from shared.errors import GeometryError
from shared.record import replace

FIXED_STAMP = "2000-01-01T00:00:00"
VOLUME_SLACK = 2e-6  # relative: what a file's rounding to 15 digits and a re-read surface may cost
_SCHEMAS = {"AP214": "AP214IS", "AP242": "AP242DIS"}


@dataclass(frozen=True)
class NamedSolid:
    """A solid with its product name, its colour and the places it stands in.

    `placements` are used by assemblies and pictures; the solid as drawn is one place (the default). `painted` gives
    single faces of the solid a colour of their own, such as machined ones.
    """

    name: str
    solid: cq.Solid
    colour: Colour = GREY
    placements: tuple[cq.Location, ...] = (cq.Location(),)
    painted: tuple[tuple[cq.Face, Colour], ...] = ()

    def placed(self) -> list[cq.Solid]:
        """Return the solid in each of its places."""
        return [self.solid.moved(p) for p in self.placements]


def silence_kernel() -> None:
    """Stop the kernel's own messages on the console; every failure reaches the user as a GeometryError instead."""
    messenger = Message.DefaultMessenger_s()
    for printer in list(messenger.Printers()):
        messenger.RemovePrinter(printer)


silence_kernel()


def write_step(
    path: Path,
    model: NamedSolid | Sequence[NamedSolid],
    stamp: str = FIXED_STAMP,
    *,
    product: str = "assembly",
    author: str = "",
    schema: str = "AP214",
    verify: bool = False,
) -> None:
    """Write one part, or an assembly of parts, in mm.

    Args:
        path: file to write.
        model: one solid (a plain part file), or several (an assembly; each stands in all its placements).
        stamp: time stamp of the file, "YYYY-MM-DDThh:mm:ss"; the spec's, never the clock.
        product: name of the assembly's root; must differ from every part's name.
        author: author line of the header.
        schema: "AP214" (widest read) or "AP242".
        verify: read the file back and compare solids, validity, volume and names (see `check_step`).

    Raises:
        GeometryError: the kernel could not write, or the file read back differs.
    """
    parts = [model] if isinstance(model, NamedSolid) else list(model)
    single = isinstance(model, NamedSolid)
    root = parts[0].name if single else product
    names = [p.name for p in parts]
    if len(set(names)) != len(names) or (not single and product in names):
        raise GeometryError(root, "write STEP", "the names of the parts must differ", names=sorted(names))
    if not all(n.isascii() for n in (*names, product, author)):
        raise GeometryError(root, "write STEP", "names must be plain ASCII", names=sorted(names))
    parts = _with_own_shapes(parts)
    doc = _document(parts, None if single else product)
    writer = STEPCAFControl_Writer(XSControl_WorkSession(), False)
    for key, value in (("write.step.schema", _SCHEMAS[schema]), ("write.step.unit", "MM")):
        # these settings belong to the whole process, so each write sets them anew
        if not Interface_Static.SetCVal_s(key, value):
            raise GeometryError(root, "write STEP", "the kernel does not take a setting", key=key, value=value)
    writer.SetNameMode(True)
    writer.SetColorMode(False)
    if not writer.Transfer(doc, STEPControl_StepModelType.STEPControl_AsIs):
        raise GeometryError(root, "write STEP", "the kernel could not translate the model")
    _colour_and_number(writer, parts)
    header = APIHeaderSection_MakeHeader(writer.ChangeWriter().Model())
    header.SetName(_text(path.name))
    header.SetTimeStamp(_text(stamp))
    header.SetAuthorValue(1, _text(author))
    header.SetOrganizationValue(1, _text(""))
    header.SetOriginatingSystem(_text("planewright"))
    header.SetPreprocessorVersion(_text("planewright"))
    header.SetAuthorisation(_text(""))
    lines = Interface_HArray1OfHAsciiString(1, 1)
    lines.SetValue(1, _text(root))
    header.SetDescription(lines)
    writer.ChangeWriter().WS().ComputeGraph(True)  # the model has grown since the kernel last looked
    if writer.Write(str(path)) != IFSelect_ReturnStatus.IFSelect_RetDone:
        raise GeometryError(root, "write STEP", "the kernel could not write the file", file=path.name)
    if verify:
        check_step(path, model, product=product)


def _colour_and_number(writer: STEPCAFControl_Writer, parts: Sequence[NamedSolid]) -> None:
    """Add the colours, and number the uses of parts from 1.

    Done here because the kernel writes colours in the order of memory addresses, which changes from run to run, and
    counts uses on from file to file within a process.
    """
    model = writer.ChangeWriter().Model()
    uses = 0
    bodies: list[tuple[StepRepr_RepresentationItem, StepRepr_RepresentationContext]] = []
    for i in range(1, model.NbEntities() + 1):
        entity = model.Value(i)
        if isinstance(entity, StepRepr_NextAssemblyUsageOccurrence):
            uses += 1
            entity.SetId(_text(str(uses)))
        elif isinstance(entity, StepShape_AdvancedBrepShapeRepresentation):
            items = [entity.ItemsValue(k) for k in range(1, entity.NbItems() + 1)]
            bodies += [(s, entity.ContextOfItems()) for s in items if isinstance(s, StepShape_ManifoldSolidBrep)]
    if len(bodies) != len(parts):
        raise GeometryError(parts[0].name, "write STEP", "another number of bodies than of parts came out",
                            bodies=len(bodies), parts=len(parts))  # fmt: skip
    maker = STEPConstruct_Styles(writer.ChangeWriter().WS())
    for (body, context), part in zip(bodies, parts, strict=True):
        body.SetName(_text(part.name))
        styles = [maker.AddStyle(body, _style(maker, body, part.colour), None)]
        for one, colour in part.painted:
            style = maker.AddStyle(one.wrapped, _style(maker, body, colour), styles[0])
            if style is None:
                raise GeometryError(part.name, "write STEP", "a painted face is not a face of the solid")
            styles.append(style)
        items = StepRepr_HArray1OfRepresentationItem(1, len(styles))
        for i, style in enumerate(styles, 1):
            items.SetValue(i, style)
        shown = StepVisual_MechanicalDesignGeometricPresentationRepresentation()
        shown.Init(_text(""), items, context)
        model.AddWithRefs(shown)


def _style(maker: STEPConstruct_Styles, body: StepRepr_RepresentationItem,
           colour: Colour) -> StepVisual_PresentationStyleAssignment:  # fmt: skip
    paint = STEPConstruct_Styles.EncodeColor_s(Quantity_Color(*colour, Quantity_TOC_sRGB))
    return maker.MakeColorPSA(body, paint, None, None, 0.0)


def _text(s: str) -> TCollection_HAsciiString:
    return TCollection_HAsciiString(s)


def _with_own_shapes(parts: Sequence[NamedSolid]) -> list[NamedSolid]:
    """Return the parts with solids that stand in place by their own geometry and share nothing.

    The kernel would otherwise write a moved or shared solid as one product in two places, under one name.
    """
    out: list[NamedSolid] = []
    for p in parts:
        shape = p.solid.wrapped
        if shape.Location().IsIdentity() and not any(shape.IsPartner(q.solid.wrapped) for q in out):
            out.append(p)
            continue
        moved = BRepBuilderAPI_Transform(shape.Located(TopLoc_Location()), shape.Location().Transformation(), True)
        solid = cq.Solid(moved.Shape())
        faces = list(zip(p.solid.Faces(), solid.Faces(), strict=True))
        painted = tuple((new, colour) for one, colour in p.painted for old, new in faces if old.isSame(one))
        if len(painted) != len(p.painted):
            raise GeometryError(p.name, "write STEP", "a painted face is not a face of the solid")
        out.append(replace(p, solid=solid, painted=painted))
    return out


def _document(parts: Sequence[NamedSolid], product: str | None) -> TDocStd_Document:
    doc = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(doc.Main())
    shapes.SetAutoNaming_s(False)
    root = None if product is None else shapes.NewShape()
    if root is not None and product is not None:
        _name(root, product)
    for p in parts:
        label = shapes.AddShape(p.solid.wrapped, False)
        _name(label, p.name)
        if root is not None:
            for i, place in enumerate(p.placements, 1):
                spot = place.wrapped if place.wrapped is not None else TopLoc_Location()
                used = shapes.AddComponent(root, label, spot)
                _name(used, p.name if len(p.placements) == 1 else f"{p.name} {i}")
    shapes.UpdateAssemblies()
    return doc


def _name(label: TDF_Label, name: str) -> None:
    TDataStd_Name.Set_s(label, TCollection_ExtendedString(name, True))


def read_step(path: Path) -> tuple[cq.Shape, list[str]]:
    """Return the shape of a STEP file (mm) and the names of its products, in the file's order.

    Raises:
        GeometryError: the file cannot be read.
    """
    doc = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    if reader.ReadFile(str(path)) != IFSelect_ReturnStatus.IFSelect_RetDone or not reader.Transfer(doc):
        raise GeometryError(path.stem, "read STEP", "the file cannot be read", file=path.name)
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(doc.Main())
    labels, free = TDF_LabelSequence(), TDF_LabelSequence()
    shapes.GetShapes(labels)
    shapes.GetFreeShapes(free)
    if free.Length() != 1:
        raise GeometryError(path.stem, "read STEP", "the file must hold one product tree", trees=free.Length())
    names = []
    for i in range(1, labels.Length() + 1):
        name = TDataStd_Name()
        if labels.Value(i).FindAttribute(TDataStd_Name.GetID_s(), name):
            names.append(name.Get().ToExtString())
    return cq.Shape.cast(shapes.GetShape_s(free.Value(1))), names


def check_step(path: Path, model: NamedSolid | Sequence[NamedSolid], *, product: str = "assembly") -> None:
    """Read a STEP file back and compare it with the model it was written from.

    Raises:
        GeometryError: another number of solids, an invalid solid, a volume that differs by more than 2e-6, or a
            missing name.
    """
    parts = [model] if isinstance(model, NamedSolid) else list(model)
    single = isinstance(model, NamedSolid)
    shape, names = read_step(path)
    solids = shape.Solids()
    times = [1 if single else len(p.placements) for p in parts]
    who = path.stem
    if len(solids) != sum(times):
        raise GeometryError(who, "check STEP", "another number of solids came back", wrote=sum(times), read=len(solids))
    if not shape.isValid():
        raise GeometryError(who, "check STEP", "a solid came back not valid")
    wrote = sum(p.solid.Volume() * n for p, n in zip(parts, times, strict=True))
    read = sum(s.Volume() for s in solids)
    if abs(read - wrote) > VOLUME_SLACK * wrote:
        raise GeometryError(who, "check STEP", "the volume came back changed", wrote_mm3=wrote, read_mm3=read)
    missing = {p.name for p in parts} | (set() if single else {product})
    missing -= set(names)
    if missing:
        raise GeometryError(who, "check STEP", "names are missing", missing=sorted(missing))
