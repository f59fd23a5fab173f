"""Lever cap and cam lever on the pattern maker's list, the counter-bow, the first article and what it changes."""

from __future__ import annotations

import csv
import errno
import io
from math import radians, tan
from pathlib import Path
from typing import Any

import pytest

from parts.plane.design import Design, design
from parts.plane.first_article import judge, template
from parts.plane.pattern_bow import bow_json
from parts.plane.pattern_list import pattern_list, pattern_text
from parts.plane.shop import ShopSpec, load_shop
from parts.plane.shop_write import take_over
from parts.plane.spec import load_spec
from shared.casting.counter_bow import CounterBow, bow_of
from shared.casting.pattern_row import PatternRow
from shared.errors import InputError, RequestError

SPECS = Path(__file__).parents[2] / "specs"
IRON = "ductile-iron-65-45-12"


def plane(shop: ShopSpec | None = None, spec: str = "heron") -> Design:
    return design(load_spec(SPECS / f"{spec}.toml"), shop or load_shop(SPECS / "shop.toml"))


def rows(d: Design, part: str) -> dict[str, PatternRow]:
    return {r.feature: r for p in pattern_list(d) if p.part == part for r in p.rows}


@pytest.mark.parametrize("spec", ["heron", "crane", "linnet"])
def test_cap_and_lever_stand_on_the_list(spec: str) -> None:
    d = plane(spec=spec)
    cap, lever = rows(d, "lever cap"), rows(d, "cam lever")
    size = d.mechanism.lever_cap  # type: ignore[attr-defined]
    length = cap["length, nose front to tail"]
    # stock on a front of 60 deg is s/sin 60 along the blade
    assert length.casting_mm == pytest.approx(size.tail - size.land[0] + size.nose_stock / 0.8660254, abs=1e-6)
    assert cap["width at the nose"].casting_mm > size.width
    slot = cap["lever slot between the ears, at their top"]
    assert slot.casting_far_mm < slot.casting_mm == pytest.approx(2 * (size.slot_half - size.nose_stock))
    assert lever["width of hub and cam"].casting_mm == pytest.approx(size.lever_width + 2 * size.nose_stock)
    for part in (cap, lever):
        for r in part.values():
            assert r.pattern_mm == pytest.approx(r.casting_mm * (1 + r.contraction))
            assert r.master_mm is not None and r.master_mm > r.pattern_mm
            assert (r.casting_mm < r.finished_mm) == (r.kind == "inside two sides")
    # more stock than asked anywhere is a waste; less spoils the part
    assert cap["plate under the screw's head"].allowance_mm >= size.nose_stock


@pytest.mark.parametrize("spec", ["linnet", "heron", "crane", "wren-long"])
def test_a_turned_boss_carries_its_stock_and_places_the_end_s_draft(spec: str) -> None:
    d = plane(spec=spec)
    b, body = d.body, rows(d, "body")
    for boss, name in ((b.knob_boss, "knob boss"), (b.tote_boss, "tote boss"), (b.toe_boss, "toe-screw boss")):
        if boss is None:
            continue
        # by the size across: the allowance, and a quarter of the casting's tolerance on each side
        assert b.cast.boss_side > b.cast.required
        least = boss.diameter + 2 * b.cast.boss_side
        assert body[f"{name}, diameter at the plate"].casting_far_mm == pytest.approx(least)
        raw = least - 2 * b.cast.boss * tan(radians(b.cast.draft_inside))
        assert body[f"{name}, diameter at its raw top"].casting_mm == pytest.approx(raw)
        # half of what the length has gained by draft stands at the toe
        place, long = body[f"toe end to {name}"], body["length over all"]
        assert place.draft_mm == pytest.approx(long.draft_mm / 2)
        assert place.casting_mm == pytest.approx(boss.x - b.toe_x + b.cast.end + long.draft_mm / 2)
    assert not [f for f in body if "pads across" in f]


def test_the_list_is_written_with_names_and_for_the_plane_s_own_rule() -> None:
    inch, metric = (pattern_text(d, pattern_list(d)) for d in (plane(), plane(spec="heron-metric")))
    for text in (inch, metric):
        assert IRON not in text and "aluminium-pattern-metal" not in text
        assert text.count("Ductile iron 65-45-12") == 2  # body and frog, once each
        assert " along " in text and "any: a round or sloping size" in text
    rule = next(line for line in metric.splitlines() if "length over all" in line).split()
    assert "~356.0" in rule
    assert "/64" not in metric and "~14-15/64" in inch


def test_counter_bow_is_a_parabola_through_the_ends() -> None:
    bow = bow_of(-100.0, 400.0, 1.5)
    assert bow is not None
    assert bow.depth_mm == pytest.approx(1.5 * 0.4**2)
    assert bow.ordinate(-100.0) == pytest.approx(0.0) == bow.ordinate(300.0)
    assert bow.ordinate(100.0) == pytest.approx(-bow.depth_mm)
    assert bow.ordinate(0.0) == pytest.approx(-bow.depth_mm * 0.75)
    table = bow.ordinates()
    assert len(table) == 17 and table[1][0] == pytest.approx(25.0)
    assert bow_of(0.0, 400.0, 0.0) is None and bow_json(None) is None
    raised = bow_of(0.0, 400.0, -1.5)
    assert raised is not None and raised.ordinate(200.0) > 0
    assert bow.grown(1.01, 1.02) == CounterBow(-101.0, 404.0, bow.depth_mm * 1.02)


def test_the_list_shows_the_bow_for_the_piece_that_is_cut() -> None:
    shop = load_shop(SPECS / "shop.toml")
    bowed = shop.model_copy(update={"pattern": shop.pattern.model_copy(update={"distortion_per_metre": 1.5})})
    d = plane(bowed)
    text = pattern_text(d, pattern_list(d))
    assert "the master's middle is lowered by 0.203 mm" in text  # 1.5 × 0.36523² × 1.013
    assert "370.0 mm" in text and "counter-bow" not in pattern_text(plane(), pattern_list(plane()))


def filled(d: Design, path: Path, contraction: dict[str, float], only: tuple[str, ...] = ("body", "frog")) -> None:
    sheet = list(csv.DictReader(io.StringIO(template(d))))
    with path.open("w", newline="") as file:
        out = csv.DictWriter(file, sheet[0])
        out.writeheader()
        for row in sheet:
            if row["part"] in only:
                row["casting_in"] = f"{float(row['pattern_in']) / (1 + contraction[row['axis']]):.6f}"
            out.writerow(row)


def test_the_sheet_has_every_size_along_an_axis() -> None:
    d = plane()
    sheet = list(csv.DictReader(io.StringIO(template(d))))
    asked = [(p.part, r.feature) for p in pattern_list(d) for r in p.rows if r.axis != "n"]
    assert [(r["part"], r["feature"]) for r in sheet] == asked
    length = next(r for r in sheet if r["feature"] == "length over all")
    assert float(length["pattern_in"]) == pytest.approx(rows(d, "body")["length over all"].pattern_mm / 25.4, abs=1e-4)
    assert all(r["casting_in"] == "" for r in sheet)


def test_a_first_article_taken_over_changes_the_list_axis_by_axis(tmp_path: Path) -> None:
    true = {"x": 0.0094, "y": 0.0103, "z": 0.0117}
    d, sheet, shop = plane(), tmp_path / "first.csv", tmp_path / "shop.toml"
    text = (SPECS / "shop.toml").read_text()
    shop.write_text(text)
    filled(d, sheet, true)
    (found,) = judge(d, sheet, 0.95)
    assert found.metal.id == IRON and found.parts == ("body", "frog")
    assert {a.axis: a.contraction for a in found.result.axes} == pytest.approx(true, abs=2e-6)
    take_over(shop, {found.metal.id: found.lines})
    assert shop.read_text().startswith(text.rstrip("\n"))  # every comment kept
    after = plane(load_shop(shop))
    body = rows(after, "body")
    for feature, axis in (("length over all", "x"), ("width over the cheeks", "y"), ("sole thickness", "z")):
        assert body[feature].contraction == pytest.approx(true[axis], abs=1e-9)
        assert body[feature].pattern_mm == pytest.approx(body[feature].casting_mm * (1 + true[axis]))
    assert "scaled by the mean of the axes" in pattern_text(after, pattern_list(after))
    # bronze was not measured and keeps its table
    assert rows(after, "lever cap") != {}
    assert after.shop.contraction_of("manganese-bronze-c86500") == d.shop.contraction_of("manganese-bronze-c86500")


def test_a_contraction_that_stands_there_is_not_written_over(tmp_path: Path) -> None:
    shop = tmp_path / "shop.toml"
    shop.write_text(f'units = "mm"\n[contraction.{IRON}]\nall = "1 %"  # ours\n')
    before = shop.read_bytes()
    with pytest.raises(RequestError, match=r"shop\.toml:2: .*stands there already.*nothing was written"):
        take_over(shop, {"grey-iron-class-30": ["[contraction.grey-iron-class-30]", 'x = "1 %"'], IRON: ["x"]})
    shop.write_text('units = "mm"\ncontraction = {}\n')
    with pytest.raises(RequestError, match="does not take the lines at its end"):
        take_over(shop, {IRON: [f"[contraction.{IRON}]", 'x = "1 %"']})
    assert shop.read_text() == 'units = "mm"\ncontraction = {}\n' and before.startswith(b"units")
    assert list(tmp_path.iterdir()) == [shop]


def test_a_practice_file_that_cannot_be_written_stays_as_it_is(tmp_path: Path, monkeypatch: Any) -> None:
    shop = tmp_path / "shop.toml"
    shop.write_text('units = "mm"\n')

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(InputError, match=r"shop\.toml: --write: read no space left on device"):
        take_over(shop, {IRON: [f"[contraction.{IRON}]", 'x = "1 %"']})
    assert list(tmp_path.iterdir()) == [shop] and shop.read_text() == 'units = "mm"\n'


def test_what_a_sheet_cannot_say(tmp_path: Path) -> None:
    d, sheet = plane(), tmp_path / "first.csv"
    sheet.write_text(template(d))
    with pytest.raises(InputError, match="at least one measured casting size"):
        judge(d, sheet, 0.95)
    sheet.write_text(
        "part,casting,feature,axis,pattern_mm,casting_mm\nbody,1,length over all,x,100,99\ntail,1,width,y,50,49.5\n"
    )
    with pytest.raises(InputError, match=r"first\.csv:3: part: read 'tail'; allowed: one of body, frog, lever cap"):
        judge(d, sheet, 0.95)
    sheet.write_text(
        "casting,feature,axis,pattern_mm,casting_mm\n1,length over all,x,100,101\n1,sole thickness,z,5,4.95\n"
    )
    with pytest.raises(RequestError, match=r"along x the castings show a contraction of -0\.99 %"):
        judge(d, sheet, 0.95)


def test_a_pattern_that_is_not_the_list_s_is_said(tmp_path: Path) -> None:
    sheet = tmp_path / "first.csv"
    sheet.write_text(
        "casting,feature,axis,pattern_mm,casting_mm\n1,length over all,x,366.2,362.6\n1,sole thickness,y,9.24,9.15\n"
    )
    (found,) = judge(plane(), sheet, 0.95)
    said = "\n".join(found.notes)
    for words in ("366.20 mm, the list asks for", "'sole thickness' lies along z"):
        assert words in said
    with sheet.open("a") as more:
        more.write("1,hand-made lug,z,20.2,20.0\n1,sole thicknes,z,9.24,9.15\n")
    with pytest.raises(InputError) as err:
        judge(plane(), sheet, 0.95)
    lug, slip = err.value.faults
    assert str(lug).startswith(f"{sheet}:4: feature: read 'hand-made lug'; allowed: a size of the body on its sheet")
    assert slip.where == f"{sheet}:5" and slip.hint == "did you mean 'sole thickness'?"
