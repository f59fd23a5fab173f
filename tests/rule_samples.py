"""What breaks each design rule of arithmetic: an edit of a shipped spec, or where no spec can, a size changed after.

Every sample names the verdict it must bring; a rule with two limits is broken past each of them.
"""

from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from parts.plane.checks import check_design
from parts.plane.design import Design, design
from parts.plane.rules.trial import untried
from parts.plane.shop import ShopSpec, load_shop
from parts.plane.spec import spec_of
from shared.record import replace
from shared.specfile import parse_text

SPECS = Path(__file__).parents[1] / "specs"
KINDS = {"bench": ("heron", "heron-metric", "linnet", "crane"), "low-angle": ("wren", "wren-long")}
SHOP = load_shop(None)


@dataclass(frozen=True)
class Edit:
    """Keys of a shipped spec (or of the shop's practice) that break one rule, and one key moved further."""

    code: str
    spec: str
    keys: dict[str, str]
    verdict: str
    further: str = ""  # the single key's value farther the same way
    practice: dict[str, dict[str, object]] = field(default_factory=dict)

    def __str__(self) -> str:
        told = {**self.keys, **{f"shop {k}": v for k, v in self.practice.items()}}
        return f"{self.code} {self.spec} " + ", ".join(f"{k} {v}" for k, v in told.items())


@dataclass(frozen=True)
class Size:
    """Resolved sizes of a shipped plane, changed to what breaks one rule."""

    code: str
    spec: str
    sizes: dict[str, float]
    verdict: str

    def __str__(self) -> str:
        return f"{self.code} {self.spec} " + ", ".join(f"{k} {v:g}" for k, v in self.sizes.items())


def kind_of(spec: str) -> str:
    """Return the kind of a shipped plane."""
    return next(kind for kind, specs in KINDS.items() if spec in specs)


def edited(name: str, keys: dict[str, str]) -> str:
    """Return a shipped spec's text with some keys replaced or added, every value as text."""
    text = (SPECS / f"{name}.toml").read_text(encoding="utf-8")
    for dotted, value in keys.items():
        section, _, key = dotted.rpartition(".")
        line = f'{key} = "{value}"'
        at = parse_text(name, text).lines
        rows = text.splitlines()
        if dotted in at:
            rows[at[dotted] - 1] = line
        elif section in at:
            rows.insert(at[section], line)
        else:
            rows += ["", f"[{section}]", line]
        text = "\n".join(rows) + "\n"
    return text


def plane(text: str, shop: ShopSpec = SHOP) -> Design:
    """Return the plane of a spec's text."""
    return design(spec_of(parse_text("edited", text)), shop)


def broken(sample: Edit | Size) -> Design:
    """Return the plane that a sample makes."""
    if isinstance(sample, Edit):
        shop = ShopSpec.model_validate(sample.practice) if sample.practice else SHOP
        return plane(edited(sample.spec, sample.keys), shop)
    d = shipped(sample.spec)
    for path, value in sample.sizes.items():
        d = resized(d, path, value)
    return d


@cache
def shipped(name: str) -> Design:
    """Return a shipped plane as it is."""
    return plane(edited(name, {}))


@cache
def before(name: str) -> dict[str, str]:
    """Return the verdict of every rule on a shipped plane."""
    return verdicts(shipped(name))


def verdicts(d: Design) -> dict[str, str]:
    """Return the verdict of every rule by its code; what to change is not looked for, which takes longer."""
    with untried():
        return {f.code: f.verdict for f in check_design(d)}


def resized(record: Any, path: str, value: float) -> Any:
    """Return a record of records with the one value at a dotted path changed."""
    name, _, rest = path.partition(".")
    if isinstance(record, tuple):
        at = int(name)
        return *record[:at], resized(record[at], rest, value), *record[at + 1 :]
    new = resized(getattr(record, name), rest, value) if rest else value
    if hasattr(record, "model_copy"):  # a section of a spec is no record
        return record.model_copy(update={name: new})
    return replace(record, **{name: new})


def _edit(code: str, spec: str, key: str, verdict: str, value: str, further: str = "") -> Edit:
    return Edit(code, spec, {key: value}, verdict, further)


def _size(code: str, spec: str, path: str, verdict: str, value: float) -> Size:
    return Size(code, spec, {path: value}, verdict)


W, F = "warning", "failed"
FINEST_CASTING: dict[str, dict[str, object]] = {"casting": {"tolerance_grade": 1, "machining_grade": "A"}}
NARROW_AND_DEEP = {
    "body.width": "44 mm",
    "body.cheek_thickness": "5 mm",
    "body.cheek_height": "60 mm",
    "blade.width": "30 mm",
}
# a bed so flat bears no blade bevelled as usual
A_FLATTER_BED = {"loaded.spec.bed.angle": 23.0, "mechanism.blade.micro_bevel": 12.0, "mechanism.blade.bevel": 10.0}

EDITS = (
    # bench planes
    _edit("A02", "heron", "body.mouth_side_clearance", W, "0.44 mm", "0.3 mm"),
    Edit("A03", "heron", {"frog.travel": "0.5 mm", "body.mouth_opening": "1.2 mm"}, F),
    _edit("A04", "heron", "blade.length", W, "165 mm", "160 mm"),
    _edit("A06", "heron", "chipbreaker.setback", W, "0.1 mm", "0.05 mm"),
    _edit("A06", "heron", "chipbreaker.setback", F, "0.06 mm", "0.05 mm"),
    _edit("B02", "heron", "body.sole_thickness", W, "5.5 mm", "5 mm"),
    _edit("B03", "heron", "body.mouth_from_toe", W, "71 mm"),
    _edit("B03", "heron", "body.mouth_from_toe", F, "60 mm", "50 mm"),
    _edit("B03", "heron", "body.mouth_from_toe", W, "154 mm", "175 mm"),
    _edit("B03", "heron", "body.length", F, "650 mm", "750 mm"),
    _edit("B05", "heron", "body.rail_height", F, "9 mm", "8 mm"),
    _edit("B06", "heron", "body.root_radius", F, "5.25 mm", "6 mm"),
    _edit("B07", "heron", "body.mouth_from_toe", W, "50 mm"),
    Edit("C01", "heron", {}, W, practice={"casting": {"machining_grade": "A"}}),
    _edit("E01", "heron", "bed.angle", W, "39.5 deg", "38 deg"),
    _edit("E01", "heron", "blade.micro_bevel", F, "41 deg", "44 deg"),
    Edit("E02", "heron", {"blade.bevel": "18 deg", "blade.micro_bevel": "22 deg"}, W),
    Edit("E02", "heron", {"blade.bevel": "15 deg", "blade.micro_bevel": "18 deg"}, F),
    _edit("E04", "crane", "blade.hardness", W, "58 HRC", "57 HRC"),
    _edit("F01", "heron", "body.sole_thickness", W, "10.5 mm", "12 mm"),
    _edit("F02", "heron", "body.sole_thickness", W, "11.5 mm", "12 mm"),
    Edit("F03", "crane", {"body.root_radius": "5.8 mm", "frog.bed_margin": "0.5 mm"}, W),
    Edit("F04", "crane", {"bed.angle": "51 deg", "blade.width": "44 mm", "frog.bed_margin": "3.6 mm"}, W),
    _edit("H01", "heron", "body.length", F, "250 mm"),
    _edit("H02", "heron", "body.length", F, "250 mm"),
    _edit("H04", "heron", "body.mouth_from_toe", F, "175 mm"),
    _edit("H08", "heron", "body.rail_height", W, "17.5 mm", "22 mm"),
    _edit("H08", "heron", "body.rail_height", F, "20 mm", "24 mm"),
    _edit("M01", "heron", "body.mouth_opening", W, "0.08 mm", "0.05 mm"),
    _edit("M01", "heron", "body.mouth_opening", W, "1.55 mm", "2.4 mm"),
    _edit("M01", "heron", "body.mouth_opening", F, "2.55 mm", "3 mm"),
    _edit("M02", "heron", "chipbreaker.edge_angle", W, "71 deg", "80 deg"),
    _edit("M02", "heron", "chipbreaker.edge_angle", F, "76 deg", "80 deg"),
    _edit("M03", "heron", "body.mouth_side_clearance", W, "0.45 mm", "0.3 mm"),
    _edit("M04", "heron", "chipbreaker.setback", W, "0.09 mm", "0.05 mm"),
    _edit("M04", "heron", "chipbreaker.setback", W, "1.55 mm", "2.3 mm"),
    _edit("M04", "heron", "chipbreaker.setback", F, "0.05 mm"),
    _edit("P01", "heron", "chipbreaker.thickness", W, "4 mm", "5 mm"),
    _edit("W01", "heron", "body.sole_thickness", W, "9.8 mm", "12 mm"),
    _edit("W02", "heron", "body.length", W, "700 mm", "750 mm"),
    # low-angle planes
    _edit("A01", "wren", "adjuster.slot_pitch", W, "5.2 mm", "5.5 mm"),
    _edit("A02", "wren", "body.mouth_side_clearance", W, "0.3 mm"),
    _edit("A02", "wren-long", "body.mouth_opening", F, "0.05 mm"),
    _edit("A04", "wren", "adjuster.life", W, "9 mm", "8 mm"),
    _edit("A05", "wren", "blade.slot_from_edge", W, "35.2 mm", "35.35 mm"),
    _edit("A06", "wren-long", "body.mouth_opening", W, "0.29 mm", "0.05 mm"),
    _edit("A06", "wren-long", "body.mouth_opening", F, "0.08 mm", "0.05 mm"),
    _edit("B02", "wren-long", "body.sole_thickness", W, "5.4 mm", "4.5 mm"),
    _edit("B02", "wren-long", "body.sole_thickness", F, "4.6 mm", "4.5 mm"),
    _edit("B03", "wren", "body.length", W, "202 mm", "450 mm"),
    _edit("B03", "wren", "body.length", F, "240 mm", "450 mm"),
    _edit("B03", "wren-long", "body.mouth_from_toe", W, "149 mm", "160 mm"),
    _edit("B03", "wren-long", "body.mouth_from_toe", F, "51 mm", "30 mm"),
    _edit("B05", "wren", "body.rail_height", F, "8.2 mm", "8 mm"),
    _edit("B06", "wren", "body.toe_piece.thickness", F, "4 mm", "6 mm"),
    _edit("B07", "wren-long", "body.mouth_from_toe", W, "45 mm", "30 mm"),
    _edit("B07", "wren-long", "body.mouth_from_toe", F, "35 mm", "30 mm"),
    _edit("C01", "wren", "body.cheek_thickness", W, "3.1 mm", "3 mm"),
    Edit("C02", "wren", {"body.sole_thickness": "4.5 mm"}, W, practice=FINEST_CASTING),
    Edit("C04", "wren", NARROW_AND_DEEP, W),
    _edit("E01", "wren", "blade.back_bevel", W, "2.5 deg", "6.5 deg"),
    _edit("E01", "wren", "blade.back_bevel", F, "7.5 deg", "10 deg"),
    _edit("E02", "wren", "blade.bevel", W, "23 deg", "20 deg"),
    _edit("E04", "wren", "blade.hardness", W, "56 HRC", "54 HRC"),
    _edit("E04", "wren", "blade.hardness", W, "62 HRC"),
    _edit("F05", "wren", "body.feather", W, "2.27 mm", "3 mm"),
    _edit("F05", "wren", "body.feather", F, "2.5 mm", "3 mm"),
    _edit("F09", "wren", "lever_cap.alloy", W, "silicon-bronze-c87300"),
    _edit("H01", "wren-long", "blade.length", W, "152 mm", "220 mm"),
    _edit("H01", "wren-long", "blade.length", F, "165 mm", "220 mm"),
    _edit("H02", "wren-long", "blade.length", F, "165 mm", "220 mm"),
    _edit("H04", "wren-long", "blade.length", W, "163.7 mm", "220 mm"),
    _edit("H04", "wren-long", "blade.length", F, "175 mm", "220 mm"),
    _edit("H08", "wren-long", "body.rail_height", W, "17.5 mm", "22 mm"),
    _edit("H08", "wren-long", "body.rail_height", F, "20 mm", "24 mm"),
    _edit("H06", "wren", "body.width", W, "53 mm", "80 mm"),
    _edit("H06", "wren", "body.width", F, "65 mm", "80 mm"),
    Edit("H07", "wren", {"bed.angle": "25 deg", "blade.length": "181 mm", "blade.thickness": "5 mm"}, W),
    _edit("M01", "wren", "body.mouth_opening", W, "0.08 mm", "0.05 mm"),
    _edit("M01", "wren", "body.mouth_opening", W, "1.55 mm", "2.2 mm"),
    _edit("M01", "wren", "body.mouth_opening", F, "2.55 mm", "3 mm"),
    _edit("M03", "wren", "body.mouth_side_clearance", W, "0.45 mm", "0.3 mm"),
    _edit("M05", "wren", "body.toe_piece.opening_most", W, "1.4 mm", "1 mm"),
    _edit("W01", "wren", "body.length", W, "260 mm", "450 mm"),
)

SIZES = (
    # bench planes
    Size("A01", "heron", A_FLATTER_BED, F),
    _size("A02", "heron", "mechanism.stations.cap_screw_at", F, 110.0),
    _size("A04", "heron", "mechanism.blade.slot_high", F, 110.0),
    _size("A05", "heron", "mechanism.blade.slot_low", W, 45.7),
    _size("A05", "heron", "mechanism.blade.slot_low", F, 46.2),
    _size("A07", "heron", "mechanism.depth.wheel_at", W, 74.9),
    _size("A07", "heron", "mechanism.depth.wheel_at", F, 76.0),
    _size("A07", "heron", "mechanism.depth.wheel_at", W, 69.6),
    _size("A07", "heron", "mechanism.depth.wheel_at", F, 66.0),
    _size("A08", "heron", "mechanism.lateral.tab_width", W, 45.0),
    _size("A08", "heron", "mechanism.lateral.tab_width", F, 50.0),
    _size("B01", "heron", "body.knob_boss.hole.depth", F, 7.95),
    _size("B02", "heron", "body.knob_boss.hole.depth", F, 5.5),
    _size("B04", "heron", "body.mouth_half_width", F, 26.9),
    _size("B07", "heron", "mechanism.blade.width", F, 150.0),
    _size("C01", "heron", "body.cheek", F, 0.5),
    _size("C02", "heron", "body.sole", W, 1.5),
    _size("C02", "heron", "body.sole", F, 0.2),
    _size("C03", "heron", "body.root_radius", F, 27.0),
    _size("C04", "heron", "body.cheek_height", W, 100.0),
    Size("C04", "heron", {"body.cheek_height": 150.0, "body.rail_height": 120.0}, F),
    _size("C05", "heron", "body.cast.end", F, 0.3),
    _size("E03", "heron", "loaded.spec.blade.hardness", F, 64.0),
    _size("F01", "heron", "mechanism.blade.thickness", F, 1.0),
    _size("F02", "heron", "mechanism.blade.width", F, 5.0),
    _size("F03", "heron", "mechanism.frog.half_width", F, 26.5),
    _size("F04", "heron", "mechanism.frog.holddown_y", W, 18.0),
    _size("F04", "heron", "mechanism.frog.holddown_y", F, 19.0),
    _size("F05", "heron", "mechanism.lever_cap.nose_at", W, 14.7),
    _size("F05", "heron", "mechanism.lever_cap.nose_at", F, 14.0),
    _size("H01", "heron", "tote_at.clearance", W, 7.0),
    _size("H02", "heron", "tote_at.x", W, 110.3),
    _size("H03", "heron", "tote.grip", W, 70.0),
    _size("H03", "heron", "tote.grip", F, 65.0),
    _size("H04", "heron", "tote_at.wood_clearance", W, 2.5),
    _size("H09", "heron", "hardware.tote_rod.nut_height", W, 9.5),
    _size("H10", "heron", "tote.boss_counterbore_depth", W, 6.05),
    _size("H10", "heron", "tote.toe.boss_depth", F, 4.0),
    _size("H09", "heron", "hardware.knob_rod.nut_height", F, 6.0),
    _size("H20", "heron", "tote.bore_diameter", W, 6.45),
    _size("H20", "heron", "tote.bore_diameter", F, 6.3),
    _size("M03", "heron", "body.mouth_half_width", F, 25.5),
    _size("P02", "heron", "mechanism.chipbreaker.gap", W, 6.0),
    _size("W01", "heron", "body.sole", W, 1.5),
    _size("W02", "heron", "tote_at.x", W, 50.0),
    # low-angle planes
    _size("A01", "wren", "adjuster.slot_pitch", F, 7.0),
    _size("A02", "wren", "lateral.degrees", F, 0.2),
    _size("A04", "wren", "adjuster.slots", F, 2),
    _size("A05", "wren", "blade.slot_low", F, 36.0),
    _size("A10", "wren", "adjuster.flange_radius", W, 6.55),
    _size("A10", "wren", "adjuster.flange_radius", F, 6.9),
    Size("A10", "wren", {"adjuster.travel": 7.0, "adjuster.flange_radius": 4.0}, F),
    _size("A11", "wren", "adjuster.rim_radius", W, 10.8),
    _size("A11", "wren", "adjuster.rim_radius", F, 11.7),
    _size("A12", "wren", "lever_cap.clamp.knob_diameter", W, 30.0),
    _size("A12", "wren", "lever_cap.clamp.knob_diameter", F, 70.0),
    _size("B01", "wren", "body.stud.depth", F, 6.0),
    _size("B04", "wren", "body.mouth_half_width", F, 19.3),
    _size("C01", "wren", "body.cheek", F, 1.2),
    _size("C02", "wren", "body.sole", W, 2.0),
    _size("C02", "wren", "body.sole", F, 0.5),
    _size("C03", "wren", "body.root_radius", F, 20.0),
    _size("C04", "wren", "body.cheek_height", W, 80.0),
    _size("C04", "wren", "body.cheek_height", F, 110.0),
    _size("C05", "wren", "body.cast.end", F, 0.1),
    _size("E02", "wren", "blade.bevel", F, 15.0),
    _size("E03", "wren", "loaded.spec.blade.hardness", F, 65.0),
    _size("F01", "wren", "body.feather", W, 4.8),
    _size("F01", "wren", "body.feather", F, 8.0),
    _size("F02", "wren", "blade.thickness", W, 0.63),
    _size("F02", "wren", "blade.thickness", F, 0.3),
    _size("F06", "wren", "body.feather", F, 0.75),
    _size("F07", "wren", "stations.heel_at", W, 7.1),
    _size("F07", "wren", "stations.heel_at", F, 7.3),
    _size("F08", "wren", "lever_cap.clamp.knob_diameter", W, 6.0),
    _size("F08", "wren", "lever_cap.clamp.knob_diameter", F, 3.0),
    _size("F09", "wren", "lever_cap.clamp.knob_diameter", F, 40.0),
    _size("H02", "wren-long", "tote_at.x", W, 173.6),
    _size("H03", "wren-long", "tote.grip", W, 70.0),
    _size("H03", "wren-long", "tote.grip", F, 65.0),
    _size("H09", "wren-long", "rods.knob.0.nut_height", W, 9.5),
    _size("H09", "wren-long", "rods.tote.0.nut_height", F, 6.0),
    _size("H10", "wren-long", "knob.boss_counterbore_depth", W, 5.05),
    _size("H10", "wren-long", "tote.boss_counterbore_depth", F, 5.9),
    _size("H05", "wren", "lever_cap.clamp.at", W, 170.0),
    _size("H05", "wren", "lever_cap.clamp.at", F, 210.0),
    _size("H05", "wren", "lever_cap.underside_q", W, -5.0),
    _size("H05", "wren", "lever_cap.underside_q", F, -10.0),
    _size("H06", "wren", "body.width", W, 30.0),
    _size("H06", "wren", "body.width", F, 24.0),
    _size("H07", "wren", "knob.height", W, 5.0),
    _size("H07", "wren", "knob.height", F, 70.0),
    _size("H20", "wren", "knob.bore_diameter", W, 4.95),
    _size("H20", "wren", "knob.bore_diameter", F, 4.7),
    _size("H20", "wren-long", "tote.bore_diameter", F, 6.3),
    _size("M02", "wren", "body.mouth_front_angle", W, 144.0),
    _size("M02", "wren", "body.mouth_front_angle", F, 150.0),
    _size("M03", "wren", "body.mouth_half_width", F, 17.6),
    _size("M05", "wren", "body.toe_way.opening_least", W, 0.2),
    _size("M05", "wren", "body.toe_way.opening_most", F, 0.9),
    _size("W02", "wren-long", "tote_at.x", W, 60.0),
)

BY_LAYOUT = "the layout itself puts it inside the limit, whatever the spec: "
BY_REFUSAL = "the spec is refused before any rule is asked: "
BY_RANGE = "no value inside the keys' ranges comes near the limit: "

# kind -> codes that no spec breaks, and why; `SIZES` breaks each of them by a size changed after
UNREACHED = {
    "bench": {
        "A01": BY_RANGE + "bed.angle is 38 deg at least, which draws the edge 1.2 mm back",
        "A05": BY_LAYOUT + "the lever-cap screw stands where the slot leaves it its travel and 0.5 mm",
        "A07": BY_LAYOUT + "the post ends 1.5 mm beyond the wheel's travel",
        "A08": BY_RANGE + "cheeks that pass a blade of 44 mm leave the lever room",
        "B01": BY_LAYOUT + "tapped holes are drilled as deep as the metal under them allows",
        "B04": BY_REFUSAL + "blade.width is held to what the body's width leaves",
        "C02": BY_RANGE + "body.sole_thickness is 5 mm at least, and stock comes on it",
        "C03": BY_RANGE + "body.root_radius is 6 mm at most, the cheeks stand 44 mm apart at least",
        "C04": BY_RANGE + "body.cheek_height is 75 mm at most, the cheeks stand 44 mm apart at least",
        "C05": BY_RANGE + "stock grows with the body's length as the spread does",
        "E03": BY_REFUSAL + "blade.hardness is held to the steel's temper curve",
        "F05": BY_LAYOUT + "the lever cap's nose stands 2 mm above the bed's foot",
        "H03": BY_RANGE + "handle.grip is 75 mm at least, which clears half of either group's hands",
        "H09": BY_LAYOUT + "a nut is as tall as its rod asks",
        "H10": BY_LAYOUT + "recesses are deeper than their bosses by more than the shop's own grade asks",
        "H20": BY_RANGE + "the bore's clearance is over what the worst of climates and woods takes",
        "H22": BY_LAYOUT + "the grain is laid no steeper to the grip than the warning's slope",
        "P02": BY_RANGE + "chipbreaker.gap is 1.5 mm at most, and its spring bends no further than flat",
    },
    "low-angle": {
        "A10": BY_LAYOUT + "the wheel's station follows the sole and the bridge",
        "A11": BY_LAYOUT + "the rim stands behind the flange, higher up the bed",
        "A12": BY_RANGE + "lever_cap.knob_diameter is 22 mm at most",
        "B01": BY_LAYOUT + "tapped holes are drilled as deep as the metal under them allows",
        "B04": BY_REFUSAL + "blade.width is held to what the body's width leaves",
        "C03": BY_RANGE + "body.root_radius is 6 mm at most, the cheeks stand 30 mm apart at least",
        "C05": BY_RANGE + "stock grows with the body's length as the spread does",
        "E03": BY_REFUSAL + "blade.hardness is held to the steel's temper curve",
        "F01": BY_RANGE + "body.feather is 3 mm at most, and a thin blade's bevel is short",
        "F02": BY_RANGE + "the edge stands out by the feather only, and blade.thickness is 2.5 mm at least",
        "F06": BY_RANGE + "body.feather is 0.8 mm at least, the limit itself",
        "F07": BY_LAYOUT + "the nose stands behind the bevel's heel by the blade's travel and more",
        "F08": BY_RANGE + "lever_cap.knob_diameter is 14 mm at least",
        "H03": BY_RANGE + "handle.grip is 75 mm at least, which clears half of either group's hands",
        "H05": BY_LAYOUT + "the cap's knob stands over the bed by the blade and fixed heights",
        "H09": BY_LAYOUT + "a nut is as tall as its rod asks",
        "H10": BY_LAYOUT + "recesses are deeper than their bosses by more than the shop's own grade asks",
        "H20": BY_RANGE + "the bore's clearance is over what the worst of climates and woods takes",
        "H22": BY_LAYOUT + "the grain is laid no steeper to the grip than the warning's slope",
        "M02": BY_RANGE + "body.mouth_front_angle is 90 deg at most, and a blade so low leans away from that wall",
        "W02": BY_LAYOUT + "the tote stands behind blade and wheel, and the weight between mouth and tote",
    },
}
