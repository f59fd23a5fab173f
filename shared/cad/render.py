"""Shaded pictures without a display, and a line drawing in their place where the machine has no off-screen graphics."""

from __future__ import annotations

import ctypes
import os
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from shared.cad.lineart import CREASE, dark_edges, draw_lines, eye_of
from shared.cad.palette import INK, PAPER
from shared.cad.scene import CAMERAS, Aim, Camera, Shown, aim, mesh_scene
from shared.cad.step import NamedSolid

FINE = 2  # the picture is drawn at twice its size and averaged, which smooths every edge alike
NO_GRAPHICS = "no off-screen graphics (libEGL) on this machine: the picture is a line drawing"


def has_graphics() -> bool:
    """Return whether shaded pictures can be made here: the EGL library loads and the user has not turned it off."""
    if os.environ.get("PLANEWRIGHT_NO_GL"):
        return False
    try:
        ctypes.CDLL("libEGL.so.1")
    except OSError:
        return False
    return True


def render(
    path: Path,
    scene: Sequence[Shown] | Sequence[NamedSolid],
    camera: Camera | str = "three-quarter",
    size: tuple[int, int] = (1600, 1000),
) -> str | None:
    """Draw a picture (PNG).

    Args:
        path: file to write.
        scene: what to show: solids, or meshes from `mesh_scene` (cheaper for several pictures of the same things).
        camera: a name of `CAMERAS`, or a camera.
        size: width and height [pixels].

    Returns:
        None, or a one-line note when a line drawing had to stand in.
    """
    shown = _shown(scene)
    view = CAMERAS[camera] if isinstance(camera, str) else camera
    target = aim(shown, view, size[0] / size[1])
    pixels = _shaded(shown, view, target, size) if has_graphics() else None
    if pixels is not None:
        _write_png(path, pixels)
        return None
    draw_lines(path, shown, view, target, size)
    return NO_GRAPHICS


def _shown(scene: Sequence[Shown] | Sequence[NamedSolid]) -> list[Shown]:
    ready = [s for s in scene if isinstance(s, Shown)]
    return ready + mesh_scene([s for s in scene if isinstance(s, NamedSolid)])


def _shaded(scene: Sequence[Shown], camera: Camera, target: Aim, size: tuple[int, int]) -> np.ndarray | None:
    """Return the picture's pixels, or None when the graphics library cannot open an off-screen window."""
    # read by VTK when the window is made; without it VTK looks for a display first and complains
    os.environ.setdefault("VTK_DEFAULT_OPENGL_WINDOW", "vtkEGLRenderWindow")
    import vtkmodules.vtkRenderingOpenGL2  # noqa: F401  (makes the window's real class known)
    from vtkmodules.util.numpy_support import vtk_to_numpy
    from vtkmodules.vtkCommonCore import vtkObject, vtkUnsignedCharArray
    from vtkmodules.vtkRenderingCore import vtkRenderer, vtkRenderWindow

    vtkObject.GlobalWarningDisplayOff()
    window = vtkRenderWindow()
    window.SetOffScreenRendering(1)
    window.SetMultiSamples(0)
    window.SetSize(size[0] * FINE, size[1] * FINE)
    if not window.SupportsOpenGL():
        return None
    renderer = vtkRenderer()
    renderer.SetBackground(*PAPER)
    window.AddRenderer(renderer)
    for s in scene:
        for actor in _actors(s, eye_of(target, camera), size):
            renderer.AddActor(actor)
    _lights(renderer)
    c = renderer.GetActiveCamera()
    c.SetPosition(*target.position)
    c.SetFocalPoint(*target.focus)
    c.SetViewUp(*target.up)
    if camera.angle == 0:
        c.ParallelProjectionOn()
        c.SetParallelScale(target.half_height)
    else:
        c.SetViewAngle(camera.angle)
    renderer.ResetCameraClippingRange()
    window.Render()
    data = vtkUnsignedCharArray()
    window.GetPixelData(0, 0, size[0] * FINE - 1, size[1] * FINE - 1, 0, data, 0)
    window.Finalize()
    raw = vtk_to_numpy(data).reshape(size[1], FINE, size[0], FINE, 3)
    return np.round(raw.astype(np.float32).mean(axis=(1, 3))).astype(np.uint8)[::-1]


def _actors(s: Shown, eye: tuple[NDArray[np.float64], bool], size: tuple[int, int]):  # type: ignore[no-untyped-def]
    """Return the surface of one mesh and its dark lines."""
    from vtkmodules.util.numpy_support import numpy_to_vtk
    from vtkmodules.vtkCommonCore import vtkPoints
    from vtkmodules.vtkCommonDataModel import vtkPolyData
    from vtkmodules.vtkFiltersCore import vtkPolyDataNormals
    from vtkmodules.vtkRenderingCore import vtkActor, vtkPolyDataMapper

    points = vtkPoints()
    points.SetData(numpy_to_vtk(s.mesh.vertices, deep=True))
    poly = vtkPolyData()
    poly.SetPoints(points)
    poly.SetPolys(_cells(s.mesh.triangles))
    smooth = vtkPolyDataNormals()
    smooth.SetInputData(poly)
    smooth.SetFeatureAngle(CREASE)
    smooth.ConsistencyOff()
    smooth.Update()
    split = smooth.GetOutput()
    split.GetPointData().SetNormals(numpy_to_vtk(_weighted_normals(split), deep=True))
    face = vtkPolyDataMapper()
    face.SetInputData(split)
    face.SetResolveCoincidentTopologyToPolygonOffset()
    face.SetRelativeCoincidentTopologyPolygonOffsetParameters(1.5, 1.5)
    surface = vtkActor()
    surface.SetMapper(face)
    look = surface.GetProperty()
    look.SetColor(*s.colour)
    look.SetAmbient(0.20)
    look.SetDiffuse(0.86)
    look.SetSpecular(0.16)
    look.SetSpecularPower(22.0)
    wires = vtkPolyData()
    wires.SetPoints(points)
    wires.SetLines(_cells(dark_edges(s.mesh, *eye)))
    pen = vtkPolyDataMapper()
    pen.SetInputData(wires)
    edges = vtkActor()
    edges.SetMapper(pen)
    edges.GetProperty().SetColor(*INK)
    edges.GetProperty().SetLighting(False)
    edges.GetProperty().SetLineWidth(1.3 * FINE * size[1] / 1000.0)
    return surface, edges


def _weighted_normals(poly) -> NDArray[np.float64]:  # type: ignore[no-untyped-def]
    """Return a normal a point, each triangle counting by its area.

    Counted alike, the slim triangles of a rounding would bend the shading of the large flat face beside it.
    """
    from vtkmodules.util.numpy_support import vtk_to_numpy

    points = vtk_to_numpy(poly.GetPoints().GetData()).astype(np.float64)
    corners = vtk_to_numpy(poly.GetPolys().GetConnectivityArray()).reshape(-1, 3)
    a, b, c = (points[corners[:, i]] for i in range(3))
    area = np.cross(b - a, c - a)
    total = np.zeros_like(points)
    for i in range(3):
        np.add.at(total, corners[:, i], area)
    length = np.linalg.norm(total, axis=1, keepdims=True)
    return total / np.where(length > 0.0, length, 1.0)


def _cells(rows: NDArray[np.int64]):  # type: ignore[no-untyped-def]
    """Return rows of corner numbers as VTK cells."""
    from vtkmodules.util.numpy_support import numpy_to_vtkIdTypeArray
    from vtkmodules.vtkCommonDataModel import vtkCellArray

    n, each = rows.shape
    cells = vtkCellArray()
    cells.SetData(
        numpy_to_vtkIdTypeArray(np.arange(0, each * n + 1, each), deep=True),
        numpy_to_vtkIdTypeArray(rows.reshape(-1), deep=True),
    )
    return cells


def _lights(renderer) -> None:  # type: ignore[no-untyped-def]
    """Set a key light from the upper left of the viewer, a weak one from the right, and one from the viewer."""
    from vtkmodules.vtkRenderingCore import vtkLight

    renderer.AutomaticLightCreationOff()
    for place, strength in (((-0.7, 1.2, 0.8), 0.55), ((1.2, 0.5, 0.7), 0.36), ((0.0, -0.1, 1.0), 0.52)):
        light = vtkLight()
        light.SetLightTypeToCameraLight()
        light.SetPosition(*place)
        light.SetFocalPoint(0.0, 0.0, 0.0)
        light.SetIntensity(strength)
        renderer.AddLight(light)


def _write_png(path: Path, pixels: np.ndarray) -> None:
    import struct
    import zlib

    height, width, _ = pixels.shape
    rows = np.zeros((height, 1 + 3 * width), dtype=np.uint8)
    rows[:, 1:] = pixels.reshape(height, -1)
    # filter "up" (2) for all rows but the first: large smooth areas pack far better
    rows[1:, 0] = 2
    rows[1:, 1:] = np.diff(pixels.reshape(height, -1).astype(np.int16), axis=0).astype(np.uint8)

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows.tobytes(), 6)) + chunk(b"IEND", b"")
    path.write_bytes(b"\x89PNG\r\n\x1a\n" + body)
