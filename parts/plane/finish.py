"""The finish of each cast part, for all papers: what is powder coated, what is masked, what stays bare and why."""

from __future__ import annotations

from dataclasses import dataclass

from parts.plane.shop import HeatSpec
from shared.both_units import difference, temperature
from shared.casting.alloy import Alloy
from shared.casting.stress_relief import bake_check

# iron parts with broad faces left as cast, which rust; caps and levers are handled, polished and rub
MASKED = {
    "body": "sole, cheeks, ends, bed or pads with step and key, bosses, mouth",
    "frog": "bed, foot with step and way, spot face, openings",
}


@dataclass(frozen=True)
class Finish:
    """How one cast part is finished."""

    part: str
    coated: bool
    box: str  # for the title block
    masked: str  # faces kept free of the coat; "" for a bare part
    why: str  # of a bare part; "" for a coated one


def finish_of(part: str, metal: Alloy, heat: HeatSpec, first: str = "mm") -> Finish:
    """Return the finish of a cast part.

    Iron bodies and frogs are coated on the faces left as cast. Bronze does not rust, and where the bake is hot enough
    to let its stress go a coat would move it; caps and levers rub and are handled.

    Args:
        part: name of the cast part, such as "body".
        metal: its alloy.
        heat: the shop's bake [°C, s].
        first: "inch" or "mm": the unit that leads.
    """
    check = bake_check(metal, heat.bake_temperature, heat.bake_time / 60.0, first)
    if part in MASKED and metal.is_iron and not check.changes_metal:
        return Finish(part, True, "As-cast faces powder coated; machined faces bare, oiled", MASKED[part], "")
    if part not in MASKED:
        why = "it is handled and rubs"
    elif not metal.is_iron:
        why = "it does not rust"
    else:
        why = ""
    if check.changes_metal:
        over = difference(heat.bake_temperature - check.affects_from_c, first)
        hot = (
            f"the coat's bake at {temperature(heat.bake_temperature, first)} is {over} above the "
            f"{temperature(check.affects_from_c, first)} from which this metal lets stress go and may move"
        )
        why = f"{why}, and {hot}" if why else hot
    return Finish(part, False, "Machined where marked, else as cast; no coat", "", why)
