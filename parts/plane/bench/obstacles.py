"""What stands between the edge and the hand on a bench plane."""

from __future__ import annotations

from parts.plane.bench.mechanism import Mechanism
from parts.plane.bench.stations import BLADE_TRAVEL
from parts.plane.placing import Obstacle


def obstacles(m: Mechanism) -> list[Obstacle]:
    """Return what stands between edge and hand, each at its worst setting of the adjusters."""
    frog = m.frog

    def box(name: str, s0: float, s1: float, h0: float, h1: float) -> Obstacle:
        return Obstacle(name, [frog.bed_point(s, h) for s, h in ((s0, h0), (s1, h0), (s1, h1), (s0, h1))])

    wheel, lateral = m.depth, m.lateral
    swing = BLADE_TRAVEL / wheel.ratio
    front, back = wheel.wheel_front, wheel.wheel_thickness - wheel.wheel_front
    radius = wheel.wheel_diameter / 2
    screw = m.chipbreaker_screw
    return [
        box("blade", 0.0, m.blade.length + BLADE_TRAVEL, -m.blade.thickness, 0.0),
        box("depth wheel", wheel.wheel_at - front, wheel.wheel_at + back + swing, 0.0, wheel.post_h + radius),
        box("depth post", wheel.wheel_at, wheel.post_to, 0.0, wheel.post_h + wheel.thread.major / 2),
        box("lateral lever", lateral.tab_at, lateral.tab_at + lateral.thickness, 0.0, lateral.tab_drop),
        box(
            "chipbreaker screw",
            m.stations.screw_at - screw.head_diameter / 2,
            m.stations.screw_at + screw.head_diameter / 2 + BLADE_TRAVEL,
            0.0,
            screw.head_height,
        ),
        Obstacle("frog", frog.outline()),
    ]
