"""The pictures of the blade card: true scale, what stands on them, same bytes each time."""

from math import atan2, cos, radians, sin, tan

import pytest

from parts.blade.card_pictures import camber_picture, mouth_picture, save_picture, section_picture, temper_picture
from parts.blade.temper import choose_temper
from parts.plane.blade_card import draw_blade_card
from parts.plane.design import design
from parts.plane.mouth_section import mouth_section
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec
from shared.mouth_stack import mouth_stack
from shared.wording import UNCHECKED


def words_of(figure) -> str:
    texts = [t.get_text() for t in figure.texts]
    for axes in figure.axes:
        texts += [t.get_text() for t in axes.texts] + [t.get_text() for t in axes.get_yticklabels()]
    return "\n".join(texts)


@pytest.mark.parametrize(("way", "bed"), [("bevel-down", 45), ("bevel-up", 12)])
def test_section_is_at_its_scale(way, bed) -> None:
    figure = section_picture(orientation=way, bed=bed, thickness=3.2, bevel=25, scale=4.0)
    axes = figure.axes[0]
    box = axes.get_position()
    for share, inches, limits in (
        (box.width, figure.get_figwidth(), axes.get_xlim()),
        (box.height, figure.get_figheight(), axes.get_ylim()),
    ):
        assert share * inches * 25.4 == pytest.approx(4.0 * (limits[1] - limits[0]))
    words = words_of(figure)
    assert all(w in words for w in ("cutting", "clearance", "wedge 25°", "1/4 in"))
    # a picture on a screen has no scale of its own: only a length in it says how large things are
    assert "4:1" not in words


def test_bed_of_the_section_is_the_planes_own() -> None:
    """Bevel down the body's wall rises from the sole along the blade; bevel up it is the upright land, then the bed."""
    for name in ("heron", "heron-metric"):
        d = design(load_spec(f"specs/{name}.toml"), load_shop())
        b, (ahead, behind, frog) = radians(d.spec.bed.angle), mouth_section(d)
        (foot, sole), (seat, low) = behind[:2]
        assert sole == 0.0 and atan2(low, seat - foot) == pytest.approx(b)
        assert 0.0 < foot - d.blade.thickness / sin(b) < 0.2  # clear of the blade, and no open gap behind it
        assert frog[0][1] == pytest.approx(low) and ahead[1] == (-d.spec.body.mouth_opening, 0.0)
    d = design(load_spec("specs/wren.toml"), load_shop())
    land, top, end = mouth_section(d)[-1][:3]
    assert land[0] == top[0] and land[1] == 0.0 and top[1] == d.body.feather
    assert atan2(end[1] - top[1], end[0] - top[0]) == pytest.approx(radians(12)) == atan2(top[1], top[0])


def test_name_of_the_wedge_lies_in_the_steel_clear_of_the_heel() -> None:
    for way, bed, t in (("bevel-down", 45, 3.175), ("bevel-down", 50, 3.5), ("bevel-up", 12, 3.97)):
        figure = section_picture(orientation=way, bed=bed, thickness=t, bevel=25, micro_bevel=32)
        figure.canvas.draw()
        axes = figure.axes[0]
        name = next(text for text in axes.texts if text.get_text().startswith("wedge"))
        box = name.get_window_extent().transformed(axes.transData.inverted())
        b, side = radians(bed), 1 if way == "bevel-down" else -1
        for x, z in box.corners():
            along, depth = x * cos(b) + z * sin(b), side * (x * sin(b) - z * cos(b))
            assert 0 < depth < t and along > depth / tan(radians(25))


def test_camber_says_its_exaggeration() -> None:
    words = words_of(camber_picture(50.8, 0.0707, 0.05))
    assert "exaggerated 86 times" in words
    assert "0.002 in [0.05 mm] at the work over 2.000 in [50.80 mm]" in words
    assert "0.05 mm [0.002 in] at the work" in words_of(camber_picture(50.8, 0.0707, 0.05, "mm"))


@pytest.mark.parametrize(("name", "cambered"), [("heron", False), ("wren-long", True)])
def test_a_straight_edge_has_no_picture_of_its_camber(name, cambered, tmp_path) -> None:
    draw_blade_card(design(load_spec(f"specs/{name}.toml"), load_shop()), tmp_path)
    straight = {"blade-section.png", "blade-temper.png", "mouth-stack.png"}
    assert {p.name for p in tmp_path.iterdir()} == straight | ({"blade-camber.png"} if cambered else set())


def test_temper_curve_marks_the_target() -> None:
    words = words_of(temper_picture(choose_temper("D2", 58)))
    assert "58 HRC: 500 °F [260 °C]" in words
    assert UNCHECKED in words
    assert "several tempers give it" in words
    figure = temper_picture(choose_temper("D2", 58), "mm")
    assert "58 HRC: 260 °C [500 °F]" in words_of(figure)
    assert figure.axes[0].get_xlabel() == "temper, °C"


def test_mouth_bars_and_same_bytes(tmp_path) -> None:
    stack = mouth_stack(
        45,
        steel_under_edge=3.2,
        thickness_matters=True,
        bed_position_tol=0.1,
        bed_angle_tol=0.1,
        thickness_tol=0.05,
        front_tol=0.2,
    )
    words = words_of(mouth_picture(0.4, stack))
    assert "mouth front wall" in words and "0.0079 in [0.20 mm]" in words
    assert "0.20 mm [0.0079 in]" in words_of(mouth_picture(0.4, stack, "mm"))
    for name in ("a.svg", "b.svg", "a.png", "b.png"):
        save_picture(mouth_picture(0.4, stack), tmp_path / name)
    assert (tmp_path / "a.svg").read_bytes() == (tmp_path / "b.svg").read_bytes()
    assert (tmp_path / "a.png").read_bytes() == (tmp_path / "b.png").read_bytes()
