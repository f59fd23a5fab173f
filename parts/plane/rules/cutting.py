"""Rules of edge and mouth: can it cut, and does the shaving leave?"""

from __future__ import annotations

from math import cos, radians, sin, tan

from parts.blade.angles import edge_angles
from parts.blade.temper import choose_temper
from parts.plane.bench.design import BenchDesign
from parts.plane.rules.said import in_both
from shared.errors import PlanewrightError
from shared.findings import Finding, judge
from shared.numbers import COMMON_PRACTICE


def edge(d: BenchDesign) -> list[Finding]:
    """Judge clearance, wedge and hardness."""
    blade, bed = d.mechanism.blade, d.spec.bed.angle
    a = edge_angles("bevel-down", bed, blade.honed_bevel, blade.back_bevel, blade.skew)
    key = "blade.micro_bevel" if blade.micro_bevel is not None else "blade.bevel"
    found = [
        Finding(
            "E01",
            "blade",
            "clearance angle",
            judge(a.clearance >= 10.0, a.clearance > 5.0),
            f"{a.clearance:.1f} deg",
            "10 deg or more; 5 deg at the very least",
            "a wear bevel soon lifts an edge with little clearance off the wood",
            "Kato and Kawai's film condition and sharpening guides: 10 deg; no published hard minimum",
            f"lower {key} by {10.0 - a.clearance:.1f} deg, or raise bed.angle as much",
        ),
        Finding(
            "E02",
            "blade",
            "wedge angle of the steel",
            judge(a.wedge >= 25.0, a.wedge >= 20.0),
            f"{a.wedge:.1f} deg",
            "25 deg or more; 20 deg at the very least",
            "a thinner wedge chips and folds in hardwood",
            COMMON_PRACTICE,
            f"raise {key} by {25.0 - a.wedge:.1f} deg",
        ),
    ]
    try:
        choice = choose_temper(d.spec.blade.steel, d.spec.blade.hardness)
        found.append(
            Finding(
                "E03",
                "blade",
                "hardness within reach of the steel",
                "passed",
                f"{d.spec.blade.hardness:g} HRC, tempered at {choice.temperature_c:.0f} °C",
                "on the steel's temper curve",
                "the curve has the asked hardness",
                "steel table",
            )
        )
    except PlanewrightError as err:
        found.append(
            Finding(
                "E03",
                "blade",
                "hardness within reach of the steel",
                "failed",
                f"{d.spec.blade.hardness:g} HRC",
                "on the steel's temper curve",
                str(err),
                "steel table",
                "change blade.hardness or blade.steel",
            )
        )
    return found


def _nose_gap(d: BenchDesign) -> float:
    """Return the least gap between the mouth's front wall and chipbreaker or lever cap [mm], square to the wall."""
    m, b = d.mechanism, radians(d.spec.bed.angle)
    c, f = m.chipbreaker, radians(d.body.mouth_front_angle)
    tip = (c.setback + c.thickness / tan(radians(c.edge_angle)), c.thickness)
    points = [(c.setback, 0.0), tip, (c.hump_at, c.hump_top), (m.lever_cap.nose_at - 4.0, c.hump_top + 2.0)]
    gaps = []
    for s, q in points:
        x, z = s * cos(b) - q * sin(b), s * sin(b) + q * cos(b)
        if z <= d.body.sole:
            gaps.append((x + d.body.mouth_opening) * sin(f) + z * cos(f))
        else:
            gaps.append(x + d.body.mouth_opening + d.body.sole / tan(f))
    return min(gaps)


def mouth(d: BenchDesign) -> list[Finding]:
    """Judge mouth opening, throat, side clearance and setback."""
    body, spec = d.body, d.spec
    gap = _nose_gap(d)
    clearance = body.mouth_half_width - spec.blade.width / 2
    setback, opening = spec.chipbreaker.setback, spec.body.mouth_opening
    return [
        Finding(
            "M01",
            "body",
            "mouth opening",
            judge(0.1 <= opening <= 1.5, opening <= 2.5),
            in_both(d, opening),
            "0.1 to 1.5 mm",
            "a shaving must pass, and a wide mouth no longer holds the wood down",
            COMMON_PRACTICE,
            "change body.mouth_opening",
        ),
        Finding(
            "M02",
            "body",
            "chip room between chipbreaker and front wall",
            judge(gap >= opening * 0.7, gap > 0.0),
            in_both(d, gap),
            f"at least 0.7 of the mouth opening ({in_both(d, 0.7 * opening)})",
            "the throat must not be narrower than the mouth, or chips jam",
            COMMON_PRACTICE,
            "lower body.mouth_front_angle, raise chipbreaker.setback or thin chipbreaker.thickness",
        ),
        Finding(
            "M03",
            "body",
            "mouth wider than the blade, each side",
            judge(clearance >= 0.5, clearance >= 0.3),
            in_both(d, clearance),
            "0.5 mm or more",
            "the blade must tilt and the corners must not bind",
            COMMON_PRACTICE,
            "raise body.mouth_side_clearance",
        ),
        Finding(
            "M04",
            "chipbreaker",
            "setback over a smoothing shaving",
            judge(0.1 <= setback <= 1.5, setback > 0.05),
            in_both(d, setback),
            "0.1 to 1.5 mm",
            "the setback must exceed the shaving's thickness",
            "controlled trials on setback: 0.1 to 0.8 mm; the upper limit is common practice, no source",
            "change chipbreaker.setback",
        ),
    ]
