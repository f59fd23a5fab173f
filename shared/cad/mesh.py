"""Triangles of a solid as arrays, and STL and 3MF files of them. Lengths mm."""

from __future__ import annotations

import struct
import zipfile
from dataclasses import dataclass
from pathlib import Path
from xml.sax.saxutils import quoteattr

import cadquery as cq
import numpy as np
from numpy.typing import NDArray
from OCP.BRep import BRep_Tool
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.TopAbs import TopAbs_Orientation
from OCP.TopLoc import TopLoc_Location

DEFLECTION = 0.05  # mm: farthest that a triangle may leave the surface
TURN = 0.2  # rad: largest angle between neighbouring triangles on a curved face
WELD = 1e-6  # mm: corners nearer than this are one; triangles along an edge share their corners exactly


@dataclass(frozen=True)
class Mesh:
    """Corner points, shape (n, 3) [mm], and triangles as corner numbers, shape (m, 3), seen counter-clockwise.

    `faces` is the number of the solid's face that each triangle lies on, shape (m,), where that is known.
    """

    vertices: NDArray[np.float64]
    triangles: NDArray[np.int64]
    faces: NDArray[np.int64] | None = None

    @property
    def volume(self) -> float:
        """Enclosed volume [mm3] (divergence theorem); means something for a closed mesh only."""
        a, b, c = (self.vertices[self.triangles[:, i]] for i in range(3))
        return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6.0)

    @property
    def closed(self) -> bool:
        """Whether every edge belongs to two triangles that run along it in opposite directions."""
        t = self.triangles
        edges = np.concatenate([t[:, [0, 1]], t[:, [1, 2]], t[:, [2, 0]]])
        n = len(self.vertices)
        forth, back = edges[:, 0] * n + edges[:, 1], edges[:, 1] * n + edges[:, 0]
        return len(np.unique(forth)) == len(forth) and bool(np.array_equal(np.sort(forth), np.sort(back)))

    def moved(self, place: cq.Location) -> Mesh:
        """Return a copy set to a place."""
        t = place.wrapped.Transformation()
        m = np.array([[t.Value(r, c) for c in range(1, 5)] for r in range(1, 4)])
        return Mesh(self.vertices @ m[:, :3].T + m[:, 3], self.triangles, self.faces)


def tessellate(shape: cq.Shape, deflection: float = DEFLECTION, turn: float = TURN) -> Mesh:
    """Return the triangles of a shape, its faces welded together.

    Args:
        shape: solid or compound.
        deflection: farthest distance of a triangle from the surface [mm].
        turn: largest angle between neighbouring triangles on a curved face [rad].
    """
    BRepMesh_IncrementalMesh(shape.wrapped, deflection, False, turn, False)
    points: list[tuple[float, float, float]] = []
    cells: list[tuple[int, int, int]] = []
    on: list[int] = []
    for number, face in enumerate(shape.Faces()):
        spot = TopLoc_Location()
        grid = BRep_Tool.Triangulation_s(face.wrapped, spot)
        if grid is None:
            continue
        base, moved, place = len(points) - 1, not spot.IsIdentity(), spot.Transformation()
        for i in range(1, grid.NbNodes() + 1):
            p = grid.Node(i)
            if moved:
                p = p.Transformed(place)
            points.append((p.X(), p.Y(), p.Z()))
        flipped = face.wrapped.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
        for i in range(1, grid.NbTriangles() + 1):
            a, b, c = grid.Triangle(i).Get()
            cells.append((base + a, base + c, base + b) if flipped else (base + a, base + b, base + c))
        on += [number] * grid.NbTriangles()
    return _welded(np.array(points), np.array(cells, dtype=np.int64), np.array(on, dtype=np.int64))


def _welded(points: NDArray[np.float64], cells: NDArray[np.int64], on: NDArray[np.int64]) -> Mesh:
    keys = np.round(points / WELD).astype(np.int64)
    _, first, number = np.unique(keys, axis=0, return_index=True, return_inverse=True)
    cells = number.reshape(-1)[cells]
    good = (cells[:, 0] != cells[:, 1]) & (cells[:, 1] != cells[:, 2]) & (cells[:, 2] != cells[:, 0])
    cells = cells[good]
    used, renumbered = np.unique(cells, return_inverse=True)
    return Mesh(points[first][used], renumbered.reshape(-1, 3), on[good])


def write_stl(path: Path, mesh: Mesh, name: str = "") -> None:
    """Write a binary STL in mm: the name [ASCII] stands in the header, cut at 80 characters."""
    corners = mesh.vertices[mesh.triangles].astype(np.float32)
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    size = np.linalg.norm(normal, axis=1, keepdims=True)
    rows = np.zeros(len(corners), dtype=[("n", "<f4", 3), ("v", "<f4", (3, 3)), ("a", "<u2")])
    rows["n"] = np.divide(normal, size, out=np.zeros_like(normal), where=size > 0)
    rows["v"] = corners
    # "solid" at the front would make some readers take the file for a text one
    head = (b"STL " + name.encode("ascii", "replace"))[:80].ljust(80, b" ")
    path.write_bytes(head + struct.pack("<I", len(rows)) + rows.tobytes())


_TYPES = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>'
)
_RELS = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    '<Relationship Target="/3D/3dmodel.model" Id="rel0" '
    'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>'
)


def write_3mf(path: Path, mesh: Mesh, name: str = "") -> None:
    """Write a 3MF file in mm, its clock fixed."""
    vs = "".join(f'<vertex x="{x:.6f}" y="{y:.6f}" z="{z:.6f}"/>' for x, y, z in mesh.vertices.tolist())
    ts = "".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in mesh.triangles.tolist())
    model = (
        '<?xml version="1.0" encoding="UTF-8"?>\n<model unit="millimeter" xml:lang="en" '
        'xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"><resources>'
        f'<object id="1" type="model" name={quoteattr(name)}><mesh><vertices>{vs}</vertices>'
        f'<triangles>{ts}</triangles></mesh></object></resources><build><item objectid="1"/></build></model>'
    )
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as box:
        for inner, text in (("[Content_Types].xml", _TYPES), ("_rels/.rels", _RELS), ("3D/3dmodel.model", model)):
            entry = zipfile.ZipInfo(inner, (2000, 1, 1, 0, 0, 0))
            entry.compress_type = zipfile.ZIP_DEFLATED
            box.writestr(entry, text)
