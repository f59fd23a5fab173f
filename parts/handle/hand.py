"""The hand that a handle is made for: breadths by percentile, and the grip length that they ask for."""

from __future__ import annotations

import math
from typing import Any, Literal

from shared.tables import table

Group = Literal["men", "women"]


def hand_table() -> dict[str, dict[str, Any]]:
    """Return the table of hands and grips, `shared/tables/hand.toml`."""
    return table("hand")


def _mean_sd(group: Group) -> tuple[float, float]:
    row = hand_table()["hand_breadth"]
    return row[f"{group}_mean"], row[f"{group}_sd"]


def hand_breadth(share: float, group: Group = "men") -> float:
    """Return the hand breadth [mm] that a share of the group does not exceed.

    Args:
        share: share of the group [-], between 0 and 1 (0.95 for the 95th percentile).
        group: "men" or "women" of the survey.

    Raises:
        ValueError: share not between 0 and 1.

    Source: means and standard deviations of ANSUR II, taken as a normal distribution.
    """
    if not 0 < share < 1:
        raise ValueError(f"share of hands {share} is not between 0 and 1")
    mean, sd = _mean_sd(group)
    low, high = -6.0, 6.0
    # the bell curve has no closed inverse; 60 halvings reach the last digit and load no library
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if _normal(middle) < share else (low, middle)
    return mean + sd * (low + high) / 2


def share_of_hands(breadth: float, group: Group = "men") -> float:
    """Return the share of the group [-] whose hand is no broader than a breadth [mm]. Source: ANSUR II, normal."""
    mean, sd = _mean_sd(group)
    return _normal((breadth - mean) / sd)


def _normal(z: float) -> float:
    return 0.5 * (1.0 + math.erf(z / math.sqrt(2.0)))


def largest_hand(grip: float, fingers: Literal[3, 4]) -> float:
    """Return the broadest hand [mm] that a clear grip length takes.

    Args:
        grip: clear length along the grip [mm].
        fingers: how many fingers wrap it; with three, the index finger lies forward.

    Source: own estimate, clearance 5 mm beyond the breadth, three fingers take 3/4 of it.
    """
    row = hand_table()["grip_length"]
    share = row["three_finger_share"] if fingers == 3 else 1.0
    return (grip - row["clearance"]) / share


def grip_for(breadth: float, fingers: Literal[3, 4]) -> float:
    """Return the clear grip length [mm] that a hand of a breadth [mm] asks for: `largest_hand` turned round."""
    row = hand_table()["grip_length"]
    share = row["three_finger_share"] if fingers == 3 else 1.0
    return float(breadth * share + row["clearance"])


def three_finger_band(breadth: float) -> float:
    """Return the length [mm] that three fingers of a hand of this breadth [mm] take along the grip."""
    return float(hand_table()["grip_length"]["three_finger_share"]) * breadth


def default_grip(share: float, group: Group = "men") -> float:
    """Return the grip length [mm] for a hand, to the nearest 1/8 in: 7/8 of its breadth and 5 mm.

    Args:
        share: share of the group [-] that is to fit.
        group: "men" or "women" of the survey.

    Source: proportion rule of this works on ANSUR II breadths.
    """
    row = hand_table()["grip_length"]
    wish = row["default_share"] * hand_breadth(share, group) + row["clearance"]
    return round(wish / 3.175) * 3.175


def palm_radius() -> float:
    """Return the least radius [mm] of anything the palm wraps."""
    return float(hand_table()["edge_radius"]["palm"])
