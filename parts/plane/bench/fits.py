"""What sits or runs in what in a bench plane: each feature as its part's sheet gives it."""

from __future__ import annotations

from parts.body.size import KEY_CLASS
from parts.frog.size import PIN_HOLE_CLASS, SLOT_CLASS, WAY_CLASS
from parts.hardware.size import PIN_HOLE, PIN_HOLE_TOL, PRESSED
from parts.lever_cap.size import PIVOT_BORE_TOL, PIVOT_RIVET_TOL, RUNNING_PLAY
from parts.plane.bench.mechanism import Mechanism
from shared.pairs import Feature, Pair, of_class, of_limits, of_thread


def pairs(m: Mechanism, key_half: float) -> tuple[Pair, ...]:
    """Return every fit of the mechanism, and the key's in the frog's way.

    A plain pin is pressed into its reamed hole; what runs on it has a free hole.

    Args:
        m: all that sits on the frog seat.
        key_half: half width of the body's key [mm].
    """
    frog, cap, screw = m.frog, m.lever_cap, m.holddown.thread
    yoke = of_class("yoke pin", m.depth.pivot_pin, PRESSED)
    lateral = of_class("lateral lever pin", m.lateral.pin, PRESSED)
    roller = of_class("lateral roller pin", m.lateral.pin, PRESSED)
    lever = _free("lateral lever's pivot hole", lateral)
    press = of_class("lateral lever's hole, roller pin", m.lateral.pin, PIN_HOLE_CLASS)
    return (
        Pair("key in the frog's way", of_class("frog's way", 2 * frog.key_half, WAY_CLASS),
             of_class("body's key", 2 * key_half, KEY_CLASS)),
        Pair("yoke pin in the frog", of_class("frog's hole, yoke pin", frog.yoke_pin, PIN_HOLE_CLASS), yoke),
        Pair("yoke on its pin", _free("yoke's hole", yoke), yoke),
        Pair("lateral lever pin in the frog",
             of_class("frog's hole, lateral lever pin", frog.lateral_pin, PIN_HOLE_CLASS), lateral),
        Pair("lateral lever on its pin", lever, lateral),
        Pair("lateral roller pin in the lever", press, roller),
        Pair("lateral roller on its pin", _free("lateral roller's hole", roller), roller),
        Pair("cam lever on its rivet",
             of_limits("cam lever's hole", cap.pivot_diameter + RUNNING_PLAY, PIVOT_BORE_TOL),
             of_limits("pivot rivet", cap.pivot_diameter, PIVOT_RIVET_TOL)),
        Pair("hold-down screws in the frog's slots, across",
             of_class("frog's hold-down slots, across", frog.holddown_slot[1], SLOT_CLASS),
             of_thread("hold-down screw", screw.major, screw.name)),
    )  # fmt: skip


def _free(name: str, pin: Feature) -> Feature:
    """Return the free hole of what runs on a pin."""
    return of_limits(name, pin.size + PIN_HOLE, PIN_HOLE_TOL)
