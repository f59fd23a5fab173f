"""How long a blade lasts: steel to the slot, and sharpenings."""

from __future__ import annotations

import math

from parts.blade.bevel import bevel_along_blade
from shared.errors import Fault, InputError

#: Steel off the length a sharpening, grinding shared out over several honings [mm]; common practice, no source.
LOSS_PER_SHARPENING_MM = 0.12


def usable_length(slot_from_edge: float, thickness: float, bevel: float, bridge: float = 0.0) -> float:
    """Return the length that can be sharpened away before the heel of the bevel meets the slot [mm].

    Args:
        slot_from_edge: new edge to the lower end of the slot, along the blade [mm].
        thickness: blade thickness [mm].
        bevel: ground bevel [deg]; its heel lies t/tan(bevel) behind the edge.
        bridge: steel to be left between heel and slot [mm].

    Raises:
        InputError: the bevel of a new blade reaches the slot already.
    """
    heel = bevel_along_blade(thickness, bevel)
    left = slot_from_edge - heel - bridge
    if left <= 0:
        raise InputError(
            Fault("blade", "slot_from_edge", f"{slot_from_edge:g} mm", f"more than the bevel's {heel + bridge:.2f} mm")
        )
    return left


def sharpenings(usable: float, loss: float = LOSS_PER_SHARPENING_MM) -> int:
    """Return how many sharpenings a usable length [mm] gives at a loss each [mm].

    Raises:
        InputError: a loss that is not above 0.
    """
    if loss <= 0:
        raise InputError(Fault("blade", "loss per sharpening", f"{loss:g} mm", "more than 0 mm"))
    return math.floor(usable / loss + 1e-9)
