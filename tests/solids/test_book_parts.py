"""The book's parts list is the assembly sheet's; cast parts stand in the 3-D view at every stage, in their place."""

from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest

from parts.plane import book_view
from parts.plane.book_parts import note, part_lines, whole_mass
from parts.plane.book_view import cast_stages
from parts.plane.design import design
from parts.plane.models import Piece, models_of
from parts.plane.moulding import cast_solid, names
from parts.plane.numbers import plane_numbers
from parts.plane.sheets.assembly_list import items, list_rows
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec
from shared.book.content import Shape
from shared.cad import palette
from tests.book_samples import box

pytestmark = pytest.mark.kernel
SPECS = Path(__file__).parents[2] / "specs"
CAP = ("cap", "lever", "pivot rivet", "spring rivet", "leaf spring")
HELD = [
    ("body", "body"), ("frog", "frog"), *((f"lever cap {n}", "lever_cap") for n in CAP),
    *((f"frog hold-down screw{w} {s}", "hardware") for s in ("right", "left") for w in ("", " washer")),
    ("depth wheel", "hardware"),
]  # fmt: skip


def plane(name):
    return design(load_spec(SPECS / f"{name}.toml"), load_shop(SPECS / "shop.toml"))


@pytest.fixture(scope="module")
def run():
    """A build whose solids are names only: each weighs 0.1 kg."""
    d = plane("heron")
    pieces = [Piece(name, part, None, 7800.0, palette.IRON) for name, part in HELD]
    models = SimpleNamespace(
        pieces=pieces,
        pieces_of=lambda part: [p for p in pieces if p.part == part],
        measured=lambda piece: (0.0, 0.1, (0.0, 0.0, 0.0)),
        mass_and_centre=lambda: (0.1 * len(pieces), [0.0, 0.0, 0.0]),
    )
    return SimpleNamespace(design=d, models=models, numbers=plane_numbers(d))


def lines_of(run):
    surface = box((0, 0, 0), (1, 1, 1))
    shapes = [Shape(n, part, palette.IRON, (0, 0, 0), {"finished": surface}, (3, 2, 1)) for n, part in HELD]
    return part_lines(run, shapes)


def test_every_part_has_the_number_name_and_quantity_of_the_assembly_sheet(run):
    lines, shapes = lines_of(run)
    sheet = list_rows(run, items(run))
    told = [(n.number, n.name, n.quantity, n.material, n.mass, n.where) for n in lines if not n.inner]
    assert told == [tuple(row) for row in sheet]
    number = {piece: str(item.number) for item in items(run) for piece in item.pieces}
    for (name, _), shape in zip(HELD, shapes, strict=True):
        assert shape.number.partition(".")[0] == number[name]
    assert "assembly sheet" in note(lines)
    assert whole_mass(run) == "2.646 lb [1.200 kg]"


def test_the_lever_cap_s_own_parts_stand_below_its_line_under_the_sheets_names(run):
    lines, shapes = lines_of(run)
    inner = [(n.number, n.name, n.sheet) for n in lines if n.inner]
    own = next(n.number for n in lines if n.name == "lever cap")
    assert inner[:2] == [(f"{own}.1", "cap", "pdf/lever-cap-cap.pdf"), (f"{own}.2", "cam lever", "pdf/cam-lever.pdf")]
    assert [n for n, _, _ in inner] == [f"{own}.{i}" for i in range(1, 6)]
    called = {s.name for s in shapes}
    assert {"cap", "cam lever", "frog hold-down screw right", "frog hold-down screw washer left"} <= called
    assert "lever cap cap" not in called


@pytest.mark.parametrize(
    ("name", "casts"),
    [("heron", {"lever cap cap": 1, "lever cap lever": 1}), ("wren", {"lever cap": 1})],
)
def test_castings_and_patterns_of_the_cap_lie_where_the_finished_part_does(name, casts, monkeypatch):
    d = plane(name)
    models = models_of(d)
    # bodies and frogs take long, and are drawn where they are built
    caps = [n for n in names(models) if n in ("lever cap", "cam lever")]
    monkeypatch.setattr(book_view, "cast_solids", lambda m: [cast_solid(m, n) for n in caps])
    finished = {p.name: p.solid for p in models.pieces_of("lever_cap")}
    models.take("pieces", models.pieces_of("lever_cap"))
    staged = cast_stages(models)
    assert staged.keys() == casts.keys()
    for piece, stages in staged.items():
        assert set(stages) == {"casting", "pattern"}
        solid, casting = finished[piece], stages["casting"]
        # the finished part is inside its casting
        inner, outer = solid.BoundingBox(), casting.BoundingBox()
        for axis in "xyz":
            assert getattr(inner, f"{axis}min") > getattr(outer, f"{axis}min") - 0.01
            assert getattr(inner, f"{axis}max") < getattr(outer, f"{axis}max") + 0.01
        grown = np.cbrt(stages["pattern"].Volume() / casting.Volume())
        assert 1.005 < grown < 1.03
