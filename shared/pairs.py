"""Holes and pins that sit or run in one another: size and limits of each said once, and the play between them [mm]."""

from __future__ import annotations

from typing import Any

from shared.fits import tolerance_class
from shared.record import Value


class Feature(Value):
    """A hole, groove, pin or key as its part's sheet gives it: size and deviations [mm]."""

    name: str
    size: float
    upper: float
    lower: float
    grade: str = ""  # class of ISO 286 that the deviations come from
    bought: str = ""  # name of a bought thread: its size is its most, and nobody gauges it

    @property
    def high(self) -> float:
        """Largest size that passes [mm]."""
        return self.size + self.upper

    @property
    def low(self) -> float:
        """Smallest size that passes [mm]."""
        return self.size + self.lower


class Pair(Value):
    """A hole and what is in it."""

    name: str
    hole: Feature
    pin: Feature

    @property
    def play(self) -> tuple[float, ...]:
        """Least and largest play [mm], negative where it is pressed in; the least alone over a bought thread."""
        least = self.hole.low - self.pin.high
        return (least,) if self.pin.bought else (least, self.hole.high - self.pin.low)

    def row(self) -> dict[str, Any]:
        """Return the pair as a row of a list of numbers [mm]."""
        found: dict[str, Any] = {"name": self.name}
        for key, f in (("hole", self.hole), ("pin", self.pin)):
            found |= {key: f.name, f"{key}_size_mm": _mm(f.size)}
            if f.bought:
                found[f"{key}_thread"] = f.bought
            else:
                found[f"{key}_limits_mm"] = [_mm(f.low), _mm(f.high)]
            if f.grade:
                found[f"{key}_class"] = f.grade
        return found | {"clearance_mm": [_mm(x) for x in self.play]}


def _mm(value: float) -> float:
    return round(value, 6)


def of_class(name: str, size: float, grade: str) -> Feature:
    """Return a feature with the limits of a class such as "H7" or "m6"; size [mm].

    Raises:
        InputError: the class or the size is not in the table.
    """
    limits = tolerance_class(size, grade)
    return Feature(name, size, limits.upper / 1000, limits.lower / 1000, grade)


def of_limits(name: str, size: float, deviations: tuple[float, float]) -> Feature:
    """Return a feature of a size [mm] with deviations (upper, lower) [mm]."""
    return Feature(name, size, *deviations)


def of_thread(name: str, major: float, thread: str) -> Feature:
    """Return a bought screw as the pin in its hole: its thread's major diameter [mm] is the most it can have."""
    return Feature(name, major, 0.0, 0.0, bought=thread)
