"""Rules of how a low-angle plane without a tote lies in the hand."""

from __future__ import annotations

from parts.handle.hand import hand_table
from parts.plane.low_angle import stations as st
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.rules.said import FINE, in_both
from parts.plane.rules.trial import offer, with_keys
from shared.findings import Finding, judge
from shared.human import rounded, said
from shared.numbers import COMMON_PRACTICE


def _width_in_hand(d: LowAngleDesign, over: float, under: float) -> str:
    """Return what brings the body's width [mm] into the hand; where the blade fills it, with the blade."""
    if over <= 0.0 and under <= 0.0:
        return ""
    if over <= 0.0:
        return offer(d, "widen", "body.width", under) or "widen body.width and blade.width together"
    alone = offer(d, "narrow", "body.width", over)
    if alone:
        return alone
    by = rounded(over, FINE, d.spec.units, "up")
    both = with_keys(d, {"body.width": d.body.width - by, "blade.width": d.blade.width - by})
    amount = said(by, d.spec.units)
    much = "" if both is None else f" by about {amount} each"
    return f"narrow body.width and blade.width{much}: the blade fills the body"


def hold(d: LowAngleDesign) -> list[Finding]:
    """Judge a plane that is held in one hand: its height and width in the palm, the rest for the finger."""
    if d.tote is not None:
        return []
    grip = hand_table()["power_grip"]
    palm, width, rest = d.palm_height, d.body.width, d.knob.foot_plane_z + d.knob.height
    return [
        Finding(
            "H05",
            "plane",
            "height under the palm",
            judge(30.0 <= palm <= 55.0, 25.0 <= palm <= 65.0),
            in_both(d, palm),
            "30 to 55 mm above the sole",
            "the palm lies on the clamp's knob, thumb and fingers reach down the cheeks",
            COMMON_PRACTICE,
            f"change bed.angle or body.sole_thickness; {st.CAP_GAP:g} mm of cap gap and the knob are fixed",
        ),
        Finding(
            "H06",
            "plane",
            "width between thumb and fingers",
            judge(grip["low"] <= width <= grip["high"], 0.8 * grip["low"] <= width <= 1.25 * grip["high"]),
            in_both(d, width),
            f"{grip['low']:g} to {grip['high']:g} mm",
            "the hand spans the cheeks",
            str(grip["source"]),
            _width_in_hand(d, width - grip["high"], grip["low"] - width),
        ),
        Finding(
            "H07",
            "handle",
            "finger rest within reach of the palm",
            judge(abs(palm - rest) <= 20.0, abs(palm - rest) <= 30.0),
            f"{in_both(d, rest)} above the sole, {in_both(d, d.stations.clamp_at - d.knob_x)} ahead of the clamp",
            "within 20 mm of the palm's height",
            "the forefinger bears down ahead of the mouth",
            COMMON_PRACTICE,
            f"{'raise' if rest < palm else 'lower'} handle.knob_height by {max(0.0, abs(palm - rest) - 20.0):.0f} mm",
        ),
    ]
