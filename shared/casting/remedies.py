"""What to do with a melt whose sample is off its window, by the family of the alloy: what helps iron spoils bronze."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from shared.casting.alloy import Alloy


@dataclass(frozen=True)
class Addition:
    """What raises an element: its name, the element's share in it [-], and how much of that the melt keeps [-]."""

    what: str
    content: float
    recovery: float

    def amount(self, melt_kg: float, short_percent: float, aim_percent: float) -> float:
        """Return how much to add [kg], the melt's growth by the addition counted.

        Args:
            melt_kg: metal in the furnace or ladle [kg].
            short_percent: what the melt lacks [wt %].
            aim_percent: what it shall have [wt %].
        """
        kept, lost = self.content * self.recovery, self.content * (1.0 - self.recovery)
        # (M·(aim − short) + x·kept)/(M + x·(1 − lost)) = aim
        return melt_kg * short_percent / (100.0 * kept - aim_percent * (1.0 - lost))


@dataclass(frozen=True)
class Remedies:
    """The remedies of one family of alloys; recoveries and contents are common practice, no source."""

    raise_by: Mapping[str, Addition] = field(default_factory=dict)
    when_low: Mapping[str, str] = field(default_factory=dict)  # where nothing is to be weighed in
    when_high: Mapping[str, str] = field(default_factory=dict)
    else_high: str = "dilute with clean charge and sample again"


_IRON_RAISE = {
    "C": Addition("carburiser (98 % C)", 0.98, 0.85),
    "Si": Addition("ferrosilicon (75 % Si)", 0.75, 0.90),
    "Mn": Addition("ferromanganese (78 % Mn)", 0.78, 0.85),
    "Cu": Addition("clean copper scrap", 1.0, 0.97),
}
_IRON_HIGH = {
    "C": "dilute with steel scrap",
    "Si": "dilute with steel scrap or a base iron of less silicon",
    "Cr": "dilute with high-purity pig, find the scrap it came from; chromium makes carbides in thin walls",
    "P": "dilute with high-purity pig; phosphorus embrittles",
    "Cu": "dilute with high-purity pig or steel scrap free of copper; it cannot be taken out",
    "Ni": "dilute with high-purity pig or steel scrap free of nickel; it cannot be taken out",
}
_REMEDIES = {
    "ductile-iron": Remedies(
        raise_by=_IRON_RAISE,
        when_low={
            "Mg": "do not pour: graphite turns to flake. Pig the tap or treat it again; find why: fade, sulphur, "
            "recovery",
            "CE": "a low one makes carbides in thin walls",
        },
        when_high={
            **_IRON_HIGH,
            "Mn": "dilute with high-purity pig; manganese makes carbides in thin walls",
            "S": "desulphurise before treatment, or treat for the higher sulphur; check the charge",
            "Mg": "thin with untreated base iron, inoculate, sample again; it fades too slowly to wait for. Too much "
            "makes carbides, dross, shrinkage",
            "CE": "dilute with steel scrap; too high floats graphite in heavy sections",
        },
    ),
    "grey-iron": Remedies(
        raise_by={**_IRON_RAISE, "S": Addition("iron sulphide (35 % S)", 0.35, 0.75)},
        when_low={"CE": "a low one chills thin walls white"},
        when_high={
            **_IRON_HIGH,
            "Mn": "dilute with pig of low manganese; beyond what binds the sulphur it makes carbides in thin walls",
            "S": "dilute with pig of low sulphur and see that manganese is enough to bind the rest",
            "CE": "dilute with steel scrap; too high coarsens the graphite and weakens the iron",
        },
    ),
    "bronze": Remedies(
        raise_by={
            "Cu": Addition("clean copper scrap", 1.0, 0.97),
            "Zn": Addition("zinc ingot, plunged", 1.0, 0.90),
            "Al": Addition("aluminium", 1.0, 0.90),
            "Fe": Addition("copper-iron master alloy (10 % Fe)", 0.10, 0.95),
            "Mn": Addition("copper-manganese master alloy (30 % Mn)", 0.30, 0.95),
            "Si": Addition("copper-silicon master alloy (16 % Si)", 0.16, 0.95),
        },
        when_high={
            "Cu": "zinc has burnt off: plunge zinc ingot, stir, sample again",
            "Zn": "dilute with clean copper or ingot of the alloy low in zinc; do not burn it off by overheating",
            "Fe": "dilute with clean ingot of the alloy low in iron; iron makes hard spots",
            "Al": "dilute with clean ingot of the alloy low in aluminium; too much makes it brittle",
            "Mn": "dilute with clean ingot of the alloy low in manganese; too much makes it brittle",
            "Si": "dilute with clean copper; silicon beyond the window embrittles",
            "Sn": "dilute with clean ingot of the alloy free of tin; tin embrittles",
            "Pb": "reject for this job; lead cannot be taken out",
        },
        else_high="dilute with clean ingot of the alloy and sample again",
    ),
}
_ANY = Remedies()


def remedies(metal: Alloy) -> Remedies:
    """Return the remedies for an alloy's family; for a family without a list of its own only the general words."""
    return _REMEDIES.get(metal.family, _ANY)
