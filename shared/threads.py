"""Screw threads of the small parts: ISO metric coarse and unified, with tap drill and engagement.

Sizes: ISO 261 (coarse pitches) and ASME B1.1 (UNC/UNF), from memory. The tap drill is the common rule
major diameter less pitch, about 77 % of full thread in both systems: common practice, no source.
"""

from __future__ import annotations

from shared.record import Value
from shared.units import MM_PER_IN


class Thread(Value):
    """One thread: name, major diameter [mm], pitch [mm]."""

    name: str
    major: float
    pitch: float

    @property
    def tap_drill(self) -> float:
        """Drill before tapping [mm]."""
        return self.major - self.pitch

    @property
    def clearance_hole(self) -> float:
        """Free hole for the screw [mm], about ISO 273 medium (value from memory: major + 10 %)."""
        return round(self.major * 1.1, 1)


def _unified(name: str, major_in: float, per_inch: int) -> Thread:
    return Thread(name, major_in * MM_PER_IN, MM_PER_IN / per_inch)


METRIC = {
    "small": Thread("M5", 5.0, 0.8),
    "medium": Thread("M6", 6.0, 1.0),
    "large": Thread("M8", 8.0, 1.25),
    "fine": Thread("M6x0.75", 6.0, 0.75),
    "small-fine": Thread("M5x0.5", 5.0, 0.5),
}
UNIFIED = {
    "small": _unified("#10-24 UNC", 0.190, 24),
    "medium": _unified("1/4-20 UNC", 0.250, 20),
    "large": _unified("5/16-18 UNC", 0.3125, 18),
    "fine": _unified("1/4-28 UNF", 0.250, 28),
    "small-fine": _unified("#10-32 UNF", 0.190, 32),
}


def thread(use: str, system: str) -> Thread:
    """Return the thread for a use (small, medium, large, fine, small-fine) in a spec's units ("inch", "mm")."""
    return (UNIFIED if system == "inch" else METRIC)[use]
