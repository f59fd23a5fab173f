"""The pictures of the blade card: true scale, what stands on them, same bytes each time."""

import pytest

from parts.blade.card_pictures import camber_picture, mouth_picture, save_picture, section_picture, temper_picture
from parts.blade.temper import choose_temper
from shared.mouth_stack import mouth_stack


def words_of(figure) -> str:
    texts = [t.get_text() for t in figure.texts]
    for axes in figure.axes:
        texts += [t.get_text() for t in axes.texts] + [t.get_text() for t in axes.get_yticklabels()]
    return "\n".join(texts)


@pytest.mark.parametrize(("way", "bed"), [("bevel-down", 45), ("bevel-up", 12)])
def test_section_is_at_its_scale(way, bed) -> None:
    figure = section_picture(orientation=way, bed=bed, thickness=3.2, bevel=25, support_height=1.0, scale=4.0)
    axes = figure.axes[0]
    box = axes.get_position()
    for share, inches, limits in (
        (box.width, figure.get_figwidth(), axes.get_xlim()),
        (box.height, figure.get_figheight(), axes.get_ylim()),
    ):
        assert share * inches * 25.4 == pytest.approx(4.0 * (limits[1] - limits[0]))
    words = words_of(figure)
    assert "section 4:1" in words
    assert all(w in words for w in ("cutting", "clearance", "wedge 25°"))


def test_camber_says_its_exaggeration() -> None:
    assert "exaggerated 86 times" in words_of(camber_picture(50.8, 0.0707, 0.05))
    assert "straight edge" in words_of(camber_picture(50.8, 0.0, 0.0))


def test_temper_curve_marks_the_target() -> None:
    words = words_of(temper_picture(choose_temper("D2", 58)))
    assert "58 HRC: 500 °F" in words
    assert "from memory" in words
    assert "several tempers give it" in words


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
    assert "mouth front wall" in words_of(mouth_picture(0.4, stack))
    for name in ("a.svg", "b.svg", "a.png", "b.png"):
        save_picture(mouth_picture(0.4, stack), tmp_path / name)
    assert (tmp_path / "a.svg").read_bytes() == (tmp_path / "b.svg").read_bytes()
    assert (tmp_path / "a.png").read_bytes() == (tmp_path / "b.png").read_bytes()
