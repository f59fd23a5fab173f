"""Hot spots, advice and the whole proof, on small grids without a CAD kernel."""

import numpy as np
import pytest

from shared.casting.alloy import alloy
from shared.casting.feeding_advice import VOID_MM3, advice, demand, expansion, needs_feeding
from shared.casting.freezing import Freezing, Melt, freeze
from shared.casting.hot_spots import hot_spots
from shared.casting.proof import Case, Proof, prove
from shared.casting.slices import freezing_section, wall_view
from shared.casting.solidification import feeding
from shared.casting.stefan import Sand
from shared.casting.stock import Machined
from shared.casting.voxels import Voxels, voxelise
from shared.record import replace
from tests.meshes import Mesh, blocks, box, frustum

IRON, BRONZE = alloy("ductile-iron-65-45-12"), alloy("manganese-bronze-c86500")


def line(times, fill=None) -> tuple[Voxels, Freezing]:
    """Cells in a row that are frozen at given times, each having begun half as late."""
    t = np.array(times, float).reshape(-1, 1, 1)
    f = np.ones_like(t) if fill is None else np.array(fill, float).reshape(-1, 1, 1)
    return Voxels((0.0, 0.0, 0.0), 10.0, f), Freezing(t / 2, t, float(t.max()), 1)


def test_two_pools_and_the_pass_between():
    # the second pool has no mirror image: five cells later than 60 s, cut off at 60 s
    cells, times = line([10, 80, 100, 90, 70, 60, 65, 70, 75, 72, 68, 20])
    last, second = hot_spots(cells, times, 100.0)
    assert last.is_last and last.seconds == 100.0 and last.cut_off_s == 0.0 and last.at == (25.0, 5.0, 5.0)
    assert last.modulus_mm == pytest.approx(10.0) and last.pool_mm3 == pytest.approx(12e3)
    assert second.at == (85.0, 5.0, 5.0) and second.cut_off_s == 60.0
    assert second.pool_mm3 == pytest.approx(5e3)
    # cells freeze evenly from half their time on: what is left at 60 s
    left = sum((t - 60) / (t / 2) for t in (65, 70, 75, 72, 68))
    assert second.liquid_mm3 == pytest.approx(1e3 * left)
    assert second.lighter_by == pytest.approx(1 - (60 / 75) ** 0.5)


def test_ripples_are_no_pools():
    cells, times = line([50, 90, 100, 97, 98, 99, 98, 60, 50])  # 2 % deep
    assert len(hot_spots(cells, times, 100.0)) == 1


def test_mirror_images_are_counted_once():
    half = [10, 70, 80, 75, 72, 60]
    cells, times = line([*half, *half[::-1]])
    wide = Voxels(cells.origin, cells.spacing, np.repeat(cells.fill, 2, axis=1).transpose(1, 0, 2))
    turned = Freezing(*(np.repeat(a, 2, axis=1).transpose(1, 0, 2) for a in (times.begun, times.seconds)), 80.0, 1)
    (spot,) = hot_spots(wide, turned, 100.0)
    assert spot.twins == 2 and spot.at[1] == pytest.approx(95.0)


def test_a_dumbbell_freezes_last_in_its_balls_and_symmetry_holds():
    full = np.zeros((30, 8, 8))
    full[:8] = full[22:] = 1
    full[8:22, 3:5, 3:5] = 1
    mesh = blocks(full, 2.0)
    cells = voxelise(mesh, 2.0, 16.0)
    times = freeze(cells, Melt.of(BRONZE, 1000.0), Sand.silica(), 60.0, 16.0)
    assert np.isnan(times.seconds[cells.fill == 0]).all() and np.isfinite(times.seconds[cells.fill > 0.5]).all()
    assert (times.begun[cells.fill > 0.5] <= times.seconds[cells.fill > 0.5]).all()
    for axis in range(3):
        assert np.allclose(times.seconds, np.flip(times.seconds, axis), rtol=1e-3, equal_nan=True)
    lopsided = Voxels(cells.origin, cells.spacing, cells.fill * np.linspace(1, 0.9, cells.fill.shape[0])[:, None, None])
    assert len(hot_spots(lopsided, times, 100.0)) == 2
    first, other = hot_spots(cells, times, 100.0)[0], hot_spots(lopsided, times, 100.0)[1]
    assert first.seconds > 1.3 * other.cut_off_s
    assert min(abs(first.at[0] - 8), abs(first.at[0] - 52)) < 4.0


def test_hotter_metal_and_heavier_sections_take_longer():
    cells = voxelise(box((0, 0, 0), (30, 30, 12)), 2.0, 14.0)
    cool, hot = (freeze(cells, Melt.of(IRON, t), Sand.silica(), 60.0, 14.0).total_s for t in (1200.0, 1400.0))
    thick = voxelise(box((0, 0, 0), (30, 30, 18)), 2.0, 14.0)
    assert hot > 1.3 * cool
    assert freeze(thick, Melt.of(IRON, 1200.0), Sand.silica(), 60.0, 14.0).total_s > 1.2 * cool


def test_what_cannot_freeze_is_refused():
    cells = voxelise(box((0, 0, 0), (10, 10, 10)), 2.0, 6.0)
    with pytest.raises(ValueError, match="cannot freeze"):
        freeze(cells, Melt.of(IRON, 1100.0), Sand.silica(), 20.0, 6.0)
    with pytest.raises(ValueError, match="no metal"):
        freeze(Voxels((0, 0, 0), 2.0, np.zeros((4, 4, 4))), Melt.of(IRON, 1400.0), Sand.silica(), 20.0, 6.0)
    with pytest.raises(RuntimeError, match="not frozen"):
        # sand that is as hot as the metal: nothing ever freezes
        freeze(cells, Melt.of(IRON, 1400.0), replace(Sand.silica(), start_c=1390.0), 2.0, 4.0)


def test_advice_differs_by_alloy():
    cells, times = line([10, 80, 100, 90, 70, 60, 65, 70, 75, 72, 68, 20])
    last, second = hot_spots(cells, times, 100.0)
    feed = feeding(BRONZE, 1e5, last.modulus_mm)
    assert second.shrinkage_mm3(demand(BRONZE)) > VOID_MM3 and needs_feeding(second, BRONZE)
    assert "nothing brings" in advice(second, BRONZE, feed) and "chill" in advice(second, BRONZE, feed)
    assert "graphite" in advice(second, IRON, feed) and "carbides" in advice(second, IRON, feed)
    # the place that freezes last wants a riser of its own; the plate's stand at the casting's edge, which is said
    said = advice(last, BRONZE, feed)
    assert f"a riser of modulus {feed.riser_modulus_mm:.1f} mm [" in said and "match plate's risers stand at" in said
    assert "saw the first castings" in said
    assert f"[{feed.riser_modulus_mm:.1f} mm]" in advice(last, BRONZE, feed, "inch")
    small = replace(second, liquid_mm3=100.0)
    assert not needs_feeding(small, BRONZE) and "too little" in advice(small, BRONZE, feed)
    assert "4.5 to 6.5 %" in expansion(BRONZE) and "2 to 6 %" in expansion(IRON)


@pytest.fixture(scope="module")
def block() -> Proof:
    casting = frustum(20.0, 12.0, 2.0)
    finished = box((-17, -17, 1.5), (17, 17, 10.0))
    faces = (Machined("top", (0, 0, 10), (0, 0, 1), 1.5), Machined("bottom", (0, 0, 1.5), (0, 0, -1), 1.0))
    places = (("middle", (0.0, 0.0, 6.0)), ("corner", (20.0, 20.0, 0.0)))
    return prove(Case("block", IRON, casting, 2, 0.0, 2.0, 1400.0, finished, faces, places))


def test_the_whole_proof_of_a_block(block):
    p = block
    assert p.draws and p.covered and not p.lacking and p.bare_mm3 == 0.0
    assert [(s.name, round(s.least, 3)) for s in p.stock] == [("top", 2.0), ("bottom", 1.5)]
    assert p.walls.heaviest[0] == pytest.approx(12.0, abs=0.01)
    assert len(p.spots) == 1 and p.near(p.spots[0].at) == "at the middle"
    assert p.cells.volume == pytest.approx(p.volume_mm3, rel=0.01)
    # between the modulus of the whole and that of a plate as thick
    assert p.volume_mm3 / p.area_mm2 < p.hot_modulus_mm < 6.5
    assert p.cut is not None and np.allclose(p.cut.area, 34 * 8.5)
    assert p.is_slender


def test_faults_of_a_block_are_seen(block):
    assert not replace(block, case=replace(block.case, draft_asked=3.0)).draws
    assert not replace(block, draw=replace(block.draw, trapped_mm3=50.0)).draws
    assert [s.name for s in replace(block, stock=(replace(block.stock[0], least=1.4),)).lacking] == ["top"]
    assert not replace(block, bare_mm3=20.0).covered and replace(block, bare_mm3=None).covered
    flat = Mesh(np.zeros((3, 3)), np.array([[0, 1, 2]]))
    with pytest.raises(ValueError, match="encloses nothing"):
        prove(replace(block.case, casting=flat))


def test_pictures_show_the_section_and_the_view(block):
    section, above = freezing_section(block, 0.5), wall_view(block, 2, 0.5)
    area = np.isfinite(section.values).sum() * 0.25
    assert area == pytest.approx((40 + 40 - 24 * np.tan(np.radians(2))) / 2 * 12, rel=0.03)
    assert np.nanmax(section.values) == pytest.approx(block.freezing.total_s, rel=0.05)
    assert np.isfinite(above.values).sum() * 0.25 == pytest.approx(1600, rel=0.05)
