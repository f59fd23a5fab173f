"""Rules of weight and balance, by the estimate that needs no model."""

from __future__ import annotations

from itertools import pairwise

from parts.plane.design import Design
from parts.plane.rules.said import amount, in_both
from parts.plane.weight import Weight
from shared.findings import Finding, judge
from shared.numbers import COMMON_PRACTICE

# body length [mm] -> least and most mass of an iron plane [kg]: smoother, jack, jointer; general trade practice
Masses = tuple[tuple[float, float, float], ...]
MASSES: Masses = ((245.0, 1.6, 2.3), (355.0, 2.2, 3.0), (560.0, 3.3, 4.3))
POUND = 0.45359237  # kg, by definition


def usual_mass(length: float, masses: Masses = MASSES) -> tuple[float, float]:
    """Return the least and the most that a plane of iron usually weighs [kg], between the known sizes by a line.

    Args:
        length: of the body [mm].
        masses: the known sizes.
    """
    pairs = list(pairwise(masses))
    (la, low_a, high_a), (lb, low_b, high_b) = next((p for p in pairs if length <= p[1][0]), pairs[-1])
    along = (length - la) / (lb - la)
    return low_a + along * (low_b - low_a), high_a + along * (high_b - high_a)


def _kg(mass: float) -> str:
    return f"{mass:.2f} kg ({mass / POUND:.2f} lb)"


def weighed(d: Design, w: Weight | None, masses: Masses = MASSES) -> list[Finding]:
    """Judge weight and balance of a plane; nothing where the body cannot be drawn, which its own rule says.

    Args:
        d: the plane.
        w: its weight by arithmetic.
        masses: what planes of its kind weigh by their length.
    """
    if w is None:
        return []
    low, high = usual_mass(d.body.length, masses)
    mass = w.as_iron
    plate = d.body.length * d.body.width * d.body_alloy.density_kg_m3 * 1e-9  # kg a mm of sole
    more = max(low - mass, 0.0) / plate
    less = max(mass - high, 0.0) / plate
    change = (
        f"thicken body.sole_thickness by about {amount(d, more)}, or body.cheek_thickness"
        if mass < low
        else f"thin body.sole_thickness by about {amount(d, less)}, or body.cheek_thickness; or shorten body.length"
    )
    found = [
        Finding(
            "W01",
            "plane",
            "weight, as if of iron, estimated",
            judge(low <= mass <= high, True),  # it planes all the same
            _kg(mass) + ("" if abs(mass - w.mass) < 0.01 else f"; as it is {_kg(w.mass)}"),
            f"{_kg(low)} to {_kg(high)} for this length",
            "too light chatters and is pushed off the cut, too heavy tires the arms",
            COMMON_PRACTICE,
            change,
        )
    ]
    if d.tote_at is not None:
        found.append(_balance(d, w.balance, d.tote_at.x))
    return found


def _balance(d: Design, at: float, tote: float) -> Finding:
    way = "lower" if at < 0 else "raise"
    return Finding(
        "W02",
        "plane",
        "balance point between mouth and tote, estimated",
        judge(0.0 <= at <= tote, True),
        f"{in_both(d, at)} aft of the edge",
        f"0 to {in_both(d, tote)}",
        "a plane that is heavy ahead of its mouth dives off the work, one heavy behind its tote lifts its toe",
        COMMON_PRACTICE,
        f"{way} body.mouth_from_toe by about {amount(d, -at if at < 0 else at - tote)}",
    )
