"""Rules of edge and mouth: can it cut, and does the shaving leave?"""

from __future__ import annotations

from math import cos, radians, sin, tan

from parts.blade.angles import edge_angles
from parts.blade.heat_treat import advised_temper, heat_treat_plan
from parts.blade.temper import c_to_f, choose_temper
from parts.plane.bench.design import BenchDesign
from parts.plane.design import Design
from parts.plane.rules.said import amount, in_both, move
from shared.both_units import temperature
from shared.errors import PlanewrightError
from shared.findings import Finding, judge
from shared.numbers import COMMON_PRACTICE

HALF_F = 0.5 / 1.8  # what rounding of the sheets' °F may hide [K]
COLD_C = -78.0  # of dry ice, the mildest cold treatment [°C]


def edge(d: Design) -> list[Finding]:
    """Judge clearance, wedge and hardness."""
    blade, bed = d.blade, d.spec.bed.angle
    a = edge_angles(d.blade.orientation, bed, blade.honed_bevel, blade.back_bevel, blade.skew)
    key = "blade.micro_bevel" if blade.micro_bevel is not None else "blade.bevel"
    # the underside is the bevel (bevel down) or the flat (bevel up), where only a back bevel takes clearance
    under = key if blade.orientation == "bevel-down" else "blade.back_bevel"
    lack = 10.0 - a.clearance
    more = f"lower {under} by {lack:.1f} deg, or raise bed.angle as much"
    if under == "blade.back_bevel" and not blade.back_bevel:
        more = f"raise bed.angle by {lack:.1f} deg"
    falls = "" if blade.orientation == "bevel-up" else "; the clearance falls as much"
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
            more,
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
            f"raise {key} by {25.0 - a.wedge:.1f} deg" + falls,
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
                f"{d.spec.blade.hardness:g} HRC, tempered at {temperature(choice.temperature_c, d.spec.units)}",
                "on the steel's temper curve",
                "the curve has the asked hardness",
                "steel table",
            )
        )
        found.append(_temper(d))
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
                "set blade.hardness within what the steel reaches, as said, or take another blade.steel",
            )
        )
    return found


def _temper(d: Design) -> Finding:
    """Judge the temper that the blade's card orders against what the steel's data sheets advise."""
    b = d.spec.blade
    low, high = advised_temper(b.steel)
    plan = heat_treat_plan(b.steel, b.hardness, d.blade.thickness, cold_c=b.cold_treatment)
    return Finding(
        "E04",
        "blade",
        "temper within what the steel's data sheets advise",
        judge(_advised(plan.temper.temperature_c, low, high), True),
        f"{plan.temper.temperature_c:.0f} °C ({c_to_f(plan.temper.temperature_c):.0f} °F)",
        f"{low:.0f} to {high:.0f} °C ({c_to_f(low):.0f} to {c_to_f(high):.0f} °F)",
        "a cooler temper leaves the quench's stresses in the edge, a hotter one its toughness unproved",
        "steel table",
        _other_temper(d, low, high),
    )


def _advised(temper_c: float, low: float, high: float) -> bool:
    return low - HALF_F <= temper_c <= high + HALF_F


def _other_temper(d: Design, low: float, high: float) -> str:
    """Return the nearest hardness, or the cold treatment, whose temper lies within a range [°C]."""
    b = d.spec.blade

    def within(hardness: float, cold: float | None) -> bool:
        try:
            temper = heat_treat_plan(b.steel, hardness, d.blade.thickness, cold_c=cold).temper
        except PlanewrightError:
            return False
        return _advised(temper.temperature_c, low, high)

    steps = [sign * i / 2 for i in range(1, 21) for sign in (-1, 1)]
    ways = []
    if (by := next((s for s in steps if within(b.hardness + s, b.cold_treatment)), None)) is not None:
        ways.append(f"{'lower' if by < 0 else 'raise'} blade.hardness to {b.hardness + by:g} HRC")
    if b.cold_treatment is None and within(b.hardness, COLD_C):
        ways.append(f"set blade.cold_treatment to {COLD_C:g} °C, which takes a hotter temper")
    return ", or ".join(ways) or "take another blade.steel"


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


def opening(d: Design) -> Finding:
    """Judge the mouth opening."""
    opening = d.spec.body.mouth_opening
    return Finding(
        "M01",
        "body",
        "mouth opening",
        judge(0.1 <= opening <= 1.5, opening <= 2.5),
        in_both(d, opening),
        "0.1 to 1.5 mm",
        "a shaving must pass, and a wide mouth no longer holds the wood down",
        COMMON_PRACTICE,
        move(d, "body.mouth_opening", opening, 0.1, 1.5),
    )


def side(d: Design) -> Finding:
    """Judge the room between blade and mouth, each side."""
    clearance = d.body.mouth_half_width - d.blade.width / 2
    return Finding(
        "M03",
        "body",
        "mouth wider than the blade, each side",
        judge(clearance >= 0.5, clearance >= 0.3),
        in_both(d, clearance),
        "0.5 mm or more",
        "the blade must tilt and the corners must not bind",
        COMMON_PRACTICE,
        f"raise body.mouth_side_clearance by about {amount(d, 0.5 - clearance)}",
    )


def chip_room(d: Design, gap: float, change: str) -> Finding:
    """Judge the throat: least gap [mm] between the mouth's front wall and what stands over the blade."""
    opening = d.spec.body.mouth_opening
    return Finding(
        "M02",
        "body",
        f"chip room between {'chipbreaker' if d.blade.orientation == 'bevel-down' else 'lever cap'} and front wall",
        judge(gap >= opening * 0.7, gap > 0.0),
        in_both(d, gap),
        f"at least 0.7 of the mouth opening ({in_both(d, 0.7 * opening)})",
        "the throat must not be narrower than the mouth, or chips jam",
        COMMON_PRACTICE,
        change,
    )


def mouth(d: BenchDesign) -> list[Finding]:
    """Judge mouth opening, throat, side clearance and setback of a bench plane."""
    setback = d.spec.chipbreaker.setback
    gap = _nose_gap(d)
    lack, turn = 0.7 * d.spec.body.mouth_opening - gap, radians(d.spec.bed.angle + d.body.mouth_front_angle)
    # along the face the chipbreaker leaves the wall by sin(bed + front); each mm of its height nears it by -cos
    more = f"raise chipbreaker.setback by about {amount(d, lack / sin(turn))}, "
    more += f"thin chipbreaker.thickness by about {amount(d, lack / max(0.1, -cos(turn)))}, or lower "
    more += "body.mouth_front_angle by 5 deg"
    return [
        opening(d),
        chip_room(d, gap, more),
        side(d),
        Finding(
            "M04",
            "chipbreaker",
            "setback over a smoothing shaving",
            judge(0.1 <= setback <= 1.5, setback > 0.05),
            in_both(d, setback),
            "0.1 to 1.5 mm",
            "the setback must exceed the shaving's thickness",
            "controlled trials on setback: 0.1 to 0.8 mm; the upper limit is common practice, no source",
            move(d, "chipbreaker.setback", setback, 0.1, 1.5),
        ),
    ]
