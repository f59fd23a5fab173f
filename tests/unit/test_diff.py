"""What differs between two revisions: keys, numbers, parts, papers, and which patterns and castings still serve."""

from pathlib import Path

import pytest

from parts.plane.design import design
from parts.plane.diff import (
    Moved,
    cards_affected,
    keys_changed,
    models_affected,
    numbers_moved,
    parts_affected,
    parts_of,
    practice_changed,
)
from parts.plane.numbers import plane_numbers
from parts.plane.reissue import speaks_of, to_reissue
from parts.plane.reuse import AsCast, CastPiece, Face, compared, reuse
from parts.plane.shop import load_shop
from parts.plane.spec import spec_of
from shared.casting.contraction import Contraction
from shared.numbers import Numbers
from shared.specfile import parse_text

SPECS = Path(__file__).parents[2] / "specs"
SHOP = load_shop(SPECS / "shop.toml")
HERON = (SPECS / "heron.toml").read_text()


def changed(*pairs):
    text = HERON
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new, 1)
    old, new = (spec_of(parse_text(name, t)) for name, t in (("old.toml", HERON), ("new.toml", text)))
    return old, new


def both(*pairs):
    old, new = changed(*pairs)
    return design(old, SHOP), design(new, SHOP), keys_changed(old, new)


def test_one_size_written_in_two_ways_is_no_change():
    assert keys_changed(*changed(("width = 2.5", 'width = "63.5 mm"'))) == []


def test_a_changed_key_has_both_values_and_lines():
    (change,) = keys_changed(*changed(("mouth_opening = 0.015", "mouth_opening = 0.02")))
    assert (change.key, change.old, change.new) == ("body.mouth_opening", "0.015", "0.02")
    assert change.old_at == change.new_at.replace("new", "old")
    line = int(change.old_at.partition(":")[2])
    assert HERON.splitlines()[line - 1].startswith("mouth_opening")


def test_a_key_that_one_file_leaves_out():
    (change,) = keys_changed(*changed(("mouth_opening = 0.015", "mouth_opening = 0.015\nrail_height = 0.6")))
    assert (change.key, change.old, change.new) == ("body.rail_height", "left out", "0.6")


def numbers(**values):
    n = Numbers("blade")
    for key, value in values.items():
        n.add(key, value, "meaning", "formula")
    return {"blade": n}


def test_noise_moves_no_number():
    old = numbers(a_mm=100.0, b_deg=45.0, list_mm=[1.0, 2.0])
    new = numbers(a_mm=100.0002, b_deg=45.00001, list_mm=[1.0, 2.0000001])
    assert numbers_moved(old, new) == []


def test_moved_numbers_have_unit_change_and_percent():
    (moved,) = numbers_moved(numbers(a_mm=-4.0), numbers(a_mm=-5.0))
    assert (moved.number, moved.unit, moved.change, moved.percent) == ("blade.a_mm", "mm", -1.0, -25.0)
    gone = numbers_moved(numbers(a_mm=1.0, word="x"), numbers(word="y"))
    assert [(m.number, m.old, m.new, m.change) for m in gone] == [
        ("blade.a_mm", 1.0, None, None),
        ("blade.word", "x", "y", None),
    ]


@pytest.mark.parametrize(
    ("pair", "parts"),
    [
        (("mouth_opening = 0.015", "mouth_opening = 0.02"), ["body", "plane"]),
        (('hardness = "62 HRC"', 'hardness = "61 HRC"'), ["blade", "plane"]),
        (('species = "black-cherry"', 'species = "sugar-maple"'), ["tote", "knob", "plane"]),
        (('revision = "A"', 'revision = "B"'), []),
    ],
)
def test_parts_affected(pair, parts):
    old, new, keys = both(pair)
    assert parts_affected(old, new, keys) == parts


def test_a_thicker_blade_reaches_what_lies_on_it():
    old, new, keys = both(("thickness = 0.125", "thickness = 0.14"))
    assert {"blade", "frog", "chipbreaker", "body"} <= set(parts_affected(old, new, keys))
    assert "knob" not in parts_affected(old, new, keys)
    moved = {m.number for m in numbers_moved(plane_numbers(old), plane_numbers(new))}
    assert "bedding.unsupported_length_mm" in moved


def test_a_milled_change_keeps_pattern_and_castings():
    old, new, _ = both(("mouth_opening = 0.015", "mouth_opening = 0.02"))
    for r in reuse(old, new):
        assert r.pattern.yes
        assert r.stock.yes
        assert r.same_casting


def test_a_shorter_body_is_cut_from_the_old_casting_and_a_longer_one_is_not():
    old, short, _ = both(("length = 14\n", 'length = "13-15/16 in"\n'))
    body = next(r for r in reuse(old, short) if r.pattern.part == "body")
    assert body.pattern.yes
    assert body.stock.yes
    assert any("1.59 mm more comes off" in why for why in body.stock.why)
    body = next(r for r in reuse(short, old) if r.pattern.part == "body")
    assert not body.pattern.yes
    assert any("heel needs 1.59 mm more metal" in why for why in body.pattern.why)


def test_another_alloy_needs_other_patterns_and_castings():
    old, new, _ = both(("ductile-iron-65-45-12", "manganese-bronze-c86500"))
    body = next(r for r in reuse(old, new) if r.pattern.part == "body")
    assert "contraction" in body.pattern.why[0]
    assert "castings in stock are of ductile-iron" in body.stock.why[0]


def piece(as_cast=10.0, at=50.0, stock=2.0, cut="less", contraction=0.01, alloy="iron"):
    c = Contraction(contraction, contraction, contraction)
    return CastPiece("p", alloy, c, 9, (AsCast("wall", as_cast, cut=cut),), (Face("top", at, stock, 1.5),))


@pytest.mark.parametrize(
    ("new", "pattern", "stock"),
    [
        (piece(), True, True),
        (piece(at=49.0), True, True),  # more comes off
        (piece(at=50.1), False, False),  # metal lacks: only the required allowance is sure to be there
        (piece(as_cast=9.0), True, False),  # the pattern can be cut back, the casting would have to be
        (piece(as_cast=11.0), False, False),  # metal lacks where nothing is machined
        (piece(as_cast=9.9), True, True),  # within the casting's own scatter
        (piece(alloy="bronze"), True, False),
        (piece(contraction=0.013), False, True),  # castings that are there have shrunk already
    ],
)
def test_only_what_takes_metal_off_keeps_the_pattern(new, pattern, stock):
    found = compared(piece(), new)
    assert (found.pattern.yes, found.stock.yes) == (pattern, stock)
    assert found.pattern.why
    assert found.stock.why


def test_stock_left_is_the_nominal_stock_less_what_the_new_face_needs():
    assert compared(piece(), piece(at=49.0)).stock.least_stock_mm == pytest.approx(3.0)


PARTS = ["body", "frog", "blade", "lever-cap", "tote", "knob", "hardware"]


@pytest.mark.parametrize(
    ("path", "what"),
    [
        ("step/body.step", ("body",)),
        ("step/body-casting.step", ("body-casting",)),
        ("dxf/tote-side.dxf", ("tote",)),
        ("step/lever-cap.step", ("lever-cap",)),
        ("patterns/cam-lever-pattern.stl", ("lever-cap-pattern",)),
        ("pdf/cam-lever.pdf", ("lever-cap",)),
        ("cut-plan/plan.txt", ("tote", "knob")),
        ("cards/blade.txt", ("blade", "blade-card")),
        ("cards/mouth-stack.png", ("blade", "blade-card")),
        ("dxf/match-plate-frog.dxf", ("body-pattern", "frog-pattern", "lever-cap-pattern")),
        ("numbers.json", ()),
        ("book.html", ()),
        ("step/plane.step", ()),
    ],
)
def test_a_paper_is_known_by_its_name(path, what):
    assert speaks_of(path, PARTS) == what


def test_papers_of_what_changed_are_issued_again_and_no_others():
    files = ["step/body.step", "step/body-pattern.step", "step/blade.step", "numbers.json", "lists/pattern.txt"]
    assert to_reissue(files, PARTS, ["body", "plane"], {"body"}) == ["step/body.step", "numbers.json"]
    again = to_reissue(files, PARTS, ["body", "plane"], set())
    assert again == ["step/body.step", "step/body-pattern.step", "numbers.json", "lists/pattern.txt"]
    assert to_reissue(files, PARTS, [], set()) == []


def test_parts_and_practice():
    old, _, _ = both(("mouth_opening = 0.015", "mouth_opening = 0.02"))
    assert {"body", "frog", "blade", "chipbreaker", "lever-cap", "tote", "knob", "hardware"} == set(parts_of(old))
    assert practice_changed(SHOP, SHOP) == []
    assert "casting.tolerance_grade" in practice_changed(
        SHOP, SHOP.model_copy(update={"casting": SHOP.casting.model_copy(update={"tolerance_grade": 10})})
    )


ISSUED = [
    "step/body.step", "step/blade.step", "step/chipbreaker.step", "step/plane.step", "step/tote.step", "pdf/blade.pdf",
    "pdf/chipbreaker.pdf", "dxf/blade-sheet.dxf", "templates/blade.pdf", "cards/blade.txt", "cards/blade-camber.png",
    "cards/blade-section.png", "pictures/plane.png", "numbers.json",
]  # fmt: skip


def issued_again(*pairs):
    old, new, keys = both(*pairs)
    moved = numbers_moved(plane_numbers(old), plane_numbers(new))
    parts = parts_affected(old, new, keys, moved)
    same = {r.pattern.part for r in reuse(old, new) if r.same_casting}
    stale = [*parts, *cards_affected(moved)]
    return parts, set(to_reissue(ISSUED, parts_of(old), stale, same, models_affected(old, new, keys)))


def test_a_bed_angle_reaches_the_blade_whose_camber_and_angles_follow_it():
    parts, papers = issued_again(("angle = 45", "angle = 47"))
    assert "blade" in parts
    assert papers == set(ISSUED) - {"step/tote.step"}


def test_a_mouth_opening_reaches_the_blade_card_that_prints_it_but_not_the_blade():
    parts, papers = issued_again(("mouth_opening = 0.015", "mouth_opening = 0.02"))
    assert parts == ["body", "plane"]
    assert papers >= {"cards/blade.txt", "cards/blade-section.png", "step/body.step", "step/plane.step"}
    assert not papers & {"step/blade.step", "pdf/blade.pdf", "dxf/blade-sheet.dxf", "templates/blade.pdf"}


def test_another_blade_steel_changes_no_model():
    parts, papers = issued_again(('steel = "A2"', 'steel = "O1"'))
    assert parts == ["blade", "plane"]
    assert papers >= {"pdf/blade.pdf", "cards/blade.txt"}
    assert not papers & {"step/blade.step", "step/chipbreaker.step", "pdf/chipbreaker.pdf", "step/plane.step",
                         "pictures/plane.png"}  # fmt: skip


def test_the_wood_shows_in_the_models_colour():
    parts, papers = issued_again(('species = "black-cherry"', 'species = "sugar-maple"'))
    assert parts == ["tote", "knob", "plane"]
    assert {"step/tote.step", "step/plane.step", "pictures/plane.png"} <= papers


def test_a_number_of_the_knob_alone_leaves_the_tote():
    old, new, keys = both(('revision = "A"', 'revision = "B"'))
    keys_of = ("knob_movement_mm", "bore_movement_mm")
    knob, both_woods = (Moved(f"handle.{key}", "mm", 1.0, 2.0, 100.0) for key in keys_of)
    assert parts_affected(old, new, keys, [knob]) == ["knob", "plane"]
    assert parts_affected(old, new, keys, [both_woods]) == ["tote", "knob", "plane"]
