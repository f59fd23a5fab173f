"""What to do about each place where a casting freezes last, by alloy."""

from __future__ import annotations

from collections.abc import Sequence

from shared.both_units import length
from shared.casting.alloy import Alloy
from shared.casting.hot_spots import HotSpot
from shared.casting.solidification import Feeding
from shared.tables import table
from shared.wording import plain_source

# mm³ of shrinkage that leave a hole of about 4 mm; less is let pass. Common practice, no source
VOID_MM3 = 30.0


def demand(metal: Alloy) -> float:
    """Return the share [-] of a pool's volume that must flow in while it freezes: the table's middle value."""
    return float(table("foundry")["feed_demand"][metal.family]) / 100.0


def needs_feeding(spot: HotSpot, metal: Alloy) -> bool:
    """Return whether a place cut off from the rest asks for more than `VOID_MM3`."""
    return not spot.is_last and spot.twins * spot.shrinkage_mm3(demand(metal)) >= VOID_MM3


def expansion(metal: Alloy) -> str:
    """Return what the alloy's volume does while it freezes, in a sentence."""
    rows = table("foundry")["freezing_volume"]
    low, high = rows[metal.family]
    text = str(rows[f"{metal.family}-why"])
    return f"{text}: {low:g} to {high:g} % of volume, after {plain_source(rows['source'], rows['known'])}"


def _last(feed: Feeding, first: str) -> str:
    """Return what the place that freezes last wants, and what it gets from the match plate."""
    if feed.method == "none":
        return f"no riser needed; {feed.advice}"
    neck = length(feed.neck_modulus_mm, first, (2, 1))
    if feed.method == "riser":
        riser = length(feed.riser_modulus_mm, first, (2, 1))
        what, wants = "risers", f"a riser of modulus {riser} with a neck of {neck}"
    else:
        what, wants = "ingates", f"an ingate of modulus {neck}"
    return (
        f"it wants {wants} at this place. The match plate's {what} stand at the casting's edge beside the runner and "
        "feed it only while the way to it stays open: saw the first castings through here; where one is open, set "
        f"{'a riser' if feed.method == 'riser' else 'an ingate'} at this place or a chill against it"
    )


def advice(spot: HotSpot, metal: Alloy, feed: Feeding, first: str = "mm") -> str:
    """Return what to do at one place.

    Args:
        spot: the place.
        metal: the alloy.
        feed: how the whole casting is fed.
        first: "inch" or "mm": the unit that leads.
    """
    if spot.is_last:
        return f"freezes last of all: {_last(feed, first)}"
    wants = f"liquid for {spot.seconds - spot.cut_off_s:.0f} s after its way is shut"
    if not needs_feeding(spot, metal):
        return f"{wants}; too little metal to matter"
    share = table("foundry")["feeding"]["feeder_ratio"]
    own = f"an ingate or riser of modulus {length(share * spot.modulus_mm, first, (2, 1))} at this place"
    away = [
        "an iron chill against it",
        f"{100 * spot.lighter_by:.0f} % off its section",
        f"a way to it as thick as modulus {length(spot.modulus_mm, first, (2, 1))}",
    ]
    ask = spot.shrinkage_mm3(demand(metal))
    if metal.is_iron:
        soft = f"in hard rammed sand the graphite makes up for it; in soft sand its last liquid asks for {ask:.0f} mm³"
        help_it = f"{own}, or {', or '.join(away)}"
        return f"{wants}; {soft}. Where that shows: {help_it}. A chill on a thin wall makes carbides"
    return f"{wants} and asks for {ask:.0f} mm³ that nothing brings: {own}, or {', or '.join(away)}"


def summary(spots: Sequence[HotSpot], metal: Alloy) -> str:
    """Return how many places freeze last and how many of them want help, in a few words."""
    cut_off = [s for s in spots if not s.is_last]
    bad = [s for s in cut_off if needs_feeding(s, metal)]
    if not cut_off:
        return "one pool to the end"
    return f"{sum(s.twins for s in cut_off)} cut off before the end, {sum(s.twins for s in bad)} of them want feeding"
