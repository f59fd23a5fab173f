"""The rules by which a new plane size follows from a sibling: what each key follows, and why.

Four things decide the sizes of a plane: its length, its blade, the hand and the process. Only what follows the length
or the blade changes; everything else stays as the sibling has it, whatever the kind. Proportion rules of this works,
common practice, no source: quarter powers and constant differences as its own planes show them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from shared.human import Direction, Step, said
from shared.record import Record

# how far from its sibling a plane may be before the rules no longer hold; this works' own limits, no source
LENGTH_RATIO = (0.6, 1.7)
WIDTH_RATIO = (0.8, 1.25)

SIXTEENTH, SIXTY_FOURTH = Step(1 / 16, 0.5), Step(1 / 64, 0.1)


@dataclass(frozen=True)
class Wish:
    """What the new plane is asked to be [mm]."""

    name: str
    length: float
    blade_width: float


class Origin(Record):
    """The sibling: its spec and its name."""

    spec: Any
    name: str

    def value(self, key: str) -> Any:
        """Return the value of a dotted key; None where the spec leaves it open or has no such key."""
        node: Any = self.spec
        for bit in key.split("."):
            node = getattr(node, bit, None)
        return node


# what a rule may look at: the sibling, the wish, and the sizes that earlier rules have given
Sizes = dict[str, float]
SizeRule = Callable[[Origin, Wish, Sizes], float]


@dataclass(frozen=True)
class Rule:
    """How one key follows: its size [mm] from sibling and wish, the steps it is rounded to, and the reason."""

    key: str
    follows: str  # length or blade
    size: SizeRule
    step: Step
    reason: str  # {old} is what the sibling has, {sibling} its name
    rounds: Direction = "near"


def _grown(key: str, o: Origin, new: Sizes) -> float:
    """Return by how much an earlier rule has made a size larger [mm]; nothing where this kind has no such size."""
    return new[key] - float(o.value(key)) if key in new else 0.0


def _width(o: Origin, w: Wish, new: Sizes) -> float:
    wider = w.blade_width - o.value("blade.width")
    return float(o.value("body.width") + wider + 2 * _grown("body.cheek_thickness", o, new))


def _by_length(key: str, power: float) -> SizeRule:
    return lambda o, w, _: float(o.value(key) * (w.length / o.value("body.length")) ** power)


def _over_plate(key: str) -> SizeRule:
    return lambda o, _, new: float(o.value(key) + _grown("body.sole_thickness", o, new))


def _with_cheek(key: str) -> SizeRule:
    def size(o: Origin, _: Wish, new: Sizes) -> float:
        cheek = float(o.value("body.cheek_thickness"))
        return float(o.value(key)) * (1 + _grown("body.cheek_thickness", o, new) / cheek)

    return size


RULES = (
    Rule("body.length", "length", lambda _, w, __: w.length, Step(0, 0), "asked for"),
    Rule("blade.width", "blade", lambda _, w, __: w.blade_width, Step(0, 0), "asked for"),
    Rule("body.sole_thickness", "length", _by_length("body.sole_thickness", 0.25), Step(1 / 32, 0.1),
         "follows the length by its fourth root: a longer plate bends more ({sibling}: {old})"),
    Rule("body.cheek_thickness", "length", _by_length("body.cheek_thickness", 0.25), SIXTY_FOURTH,
         "follows the length by its fourth root, as the sole does ({sibling}: {old})"),
    Rule("body.width", "blade", _width, SIXTEENTH,
         "follows the blade: the room beside it as on {sibling}, and the cheeks ({sibling}: {old})", "up"),
    Rule("body.cheek_height", "length", _over_plate("body.cheek_height"), SIXTEENTH,
         "follows the sole: as high over the plate as on {sibling} ({old})"),
    Rule("body.rail_height", "length", _over_plate("body.rail_height"), Step(1 / 32, 0.1),
         "follows the sole: as high over the plate as on {sibling} ({old})"),
    Rule("body.root_radius", "length", _with_cheek("body.root_radius"), SIXTY_FOURTH,
         "follows the cheek's thickness ({sibling}: {old})"),
    Rule("body.corner_radius", "length", _with_cheek("body.corner_radius"), SIXTY_FOURTH,
         "follows the cheek's thickness ({sibling}: {old})"),
    Rule("body.mouth_from_toe", "length", _by_length("body.mouth_from_toe", 1.0), Step(1 / 8, 1.0),
         "follows the length: its share of it as on {sibling} ({old})"),
)  # fmt: skip

# why a key stays; a table's own line stands for all its keys that have none
STAYS = {
    "plane.kind": "a sibling is of the same kind",
    "body": "stays as on {sibling}",
    "body.alloy": "stays: the process decides it (alloy, contraction and least walls with it)",
    "body.mouth_opening": "stays: the work decides it, not the size",
    "body.mouth_side_clearance": "stays: cutter and lateral adjuster decide it",
    "body.mouth_front_angle": "stays: the cutter decides it",
    "body.parting_height": "stays: the process decides it",
    "bed": "stays: the work decides it, not the size",
    "blade": "stays: the work decides it, not the size",
    "blade.steel": "stays: the process decides it (steel, hardness and heat treatment)",
    "blade.hardness": "stays: the process decides it",
    "blade.cold_treatment": "stays: the process decides it",
    "blade.wheel_diameter": "stays: the works' grinding wheel",
    "blade.length": "stays: the same adjusters and the same hand behind it",
    "blade.thickness": "stays: one thickness of bar for the family",
    "blade.slot_from_edge": "stays: the adjusters decide it",
    "chipbreaker": "stays: the blade's thickness and the work decide it",
    "frog": "stays: the adjusters decide it",
    "adjuster": "stays: one adjuster for the family",
    "lever_cap": "stays: the blade's thickness decides it",
    "handle": "stays: the hand decides it, never the plane's size",
    "handle.species": "stays: the works' choice of wood",
}


def stays_because(key: str, sibling: str) -> str:
    """Return why a key without a rule stays.

    Args:
        key: dotted key.
        sibling: the sibling's name.
    """
    table = key.partition(".")[0]
    return STAYS.get(key, STAYS.get(table, "stays as on {sibling}")).format(sibling=sibling)


def covered(value: float, ratios: tuple[float, float], stated: tuple[float, float]) -> tuple[float, float]:
    """Return the least and the greatest size [mm] that the rules cover from a sibling's size [mm].

    Args:
        value: the sibling's size [mm].
        ratios: least and greatest ratio to it [-].
        stated: the range that a spec allows at all [mm].
    """
    return max(stated[0], value * ratios[0]), min(stated[1], value * ratios[1])


def reason_of(rule: Rule, origin: Origin, units: str) -> str:
    """Return a rule's reason with the sibling's name and size in it."""
    return rule.reason.format(sibling=origin.name, old=said(origin.value(rule.key), units))
