"""A small book made by hand: two boxes and a numbers list, no kernel."""

import struct
import zlib

import numpy as np

from shared.book.content import Book, Entry, Fact, FileEntry, Group, Paper, PartLine, Picture, Shape, SheetFile
from shared.findings import Finding
from shared.numbers import Numbers
from shared.surface import Surface

ODD_NAME = "<Heron> & \"Söhne\" 'x' 鷺 🪶 \x07"
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20"><style>path{stroke:#111}</style>'
    '<path id="a" d="M0 0L40 20"/></svg>'
)


ANGLES = Group("Angles", (Entry("edge", "30 deg", "v + k", "geometry"),), ("a note",))


def box(low, high):
    """A box as a surface: four corners a face, normals outward."""
    low, high = np.array(low, float), np.array(high, float)
    vertices, normals, triangles, edges = [], [], [], []
    for axis in range(3):
        for side in (0, 1):
            u, v = (axis + 1) % 3, (axis + 2) % 3
            start = len(vertices)
            for a, b in ((0, 0), (1, 0), (1, 1), (0, 1)):
                corner = np.zeros(3)
                corner[axis] = (low, high)[side][axis]
                corner[u], corner[v] = (low, high)[a][u], (low, high)[b][v]
                vertices.append(corner)
                normals.append(np.eye(3)[axis] * (2 * side - 1))
            turn = [0, 1, 2, 3] if side else [0, 3, 2, 1]
            triangles += [[start + turn[i] for i in t] for t in ((0, 1, 2), (0, 2, 3))]
            edges += [[start + i, start + (i + 1) % 4] for i in range(4)]
    return Surface(np.array(vertices), np.array(normals), np.array(triangles), np.array(edges))


def png(width=4, height=4):
    """A grey picture."""

    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    rows = b"".join(b"\0" + b"\x80\x80\x80" * width for _ in range(height))
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


def numbers():
    """Two numbers of one part."""
    n = Numbers("blade")
    n.add("length_mm", 190.5, "from the edge to the top", "as set", {"length": 190.5, "word": "x < y"}, "the spec <A>")
    n.add("edge_deg", 30.0, "angle of the edge", "v + k", {"v": 30.0, "k": 0.0}, decided_by="the rule of the works")
    return {"blade": n}


def sample(name="Heron", description="A jack."):
    """A book with something in every chapter."""
    red, blue = (0.75, 0.2, 0.2), (0.2, 0.3, 0.8)
    lower, upper = box((-100, -30, 0), (100, 30, 20)), box((-40, -20, 20), (40, 20, 70))
    casting = box((-103, -33, -3), (103, 33, 23))
    return Book(
        name=name,
        revision="A",
        kind="bench plane",
        spec_sha256="0123456789abcdef" * 4,
        works="Larch Lane Plane Works",
        version="planewright",
        units="inch",
        description=description,
        facts=(Fact("edge", "30.0 deg", "blade.edge_deg"),),
        pictures=(Picture("plane", png(), "pictures/plane.png"), Picture("rear", png(), "pictures/rear #2.png")),
        shapes=(
            Shape("lower", "base", red, (0, 0, 0), {"finished": lower, "casting": casting}, number="1"),
            Shape("upper", "small parts", blue, (0, 0, 60), {"finished": upper}, number="2"),
        ),
        parts=(
            PartLine("1", "lower", "1", "Iron", "3.307 lb [1.500 kg]", "lower", "pdf/lower.pdf", (200, 60, 20),
                     ("finished", "casting"), red),
            PartLine("2", "upper", "3", "", "0.441 lb [200.0 g]", "bought", "", None, (), blue),
        ),
        parts_note="Numbered as on the sheet.",
        mass="3.748 lb [1.700 kg]",
        findings=(
            Finding("A01", "blade", "edge angle", "passed", "30.0 deg", "25 deg or more", "it chips", "own trials"),
            Finding("A02", "body", "room <inside>", "failed", "1 mm", "2 mm", "sand", "a book", "raise body.width"),
        ),
        numbers=numbers(),
        sheets=(SheetFile("body", SVG, "dxf/body.dxf", "pdf/body.pdf"), SheetFile("knob", None, "dxf/knob.dxf")),
        papers=(
            Paper("Blade card", groups=(ANGLES,)),
            Paper("List: cuts", header=("piece", "length_mm"), rows=(("tote", "125.92"),), files=("lists/cuts.csv",)),
            Paper("Plain", plain="line one\n  line <two>"),
        ),
        templates=(SheetFile("cheek", SVG, pdf="templates/cheek.pdf"),),
        files=(FileEntry("numbers.json", 1234), FileEntry("step/a b.step", 2_500_000)),
        cautions=("Hot metal hurts.",),
        notes=("no rack",),
        names={"ductile-iron-65-45-12": "Ductile iron 65-45-12"},
    )  # fmt: skip
