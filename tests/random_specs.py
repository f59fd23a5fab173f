"""Random specs inside the stated ranges, seeded; a kind of plane is one entry of `LIKELY`.

Half of them take every key from the whole of its range; the others stay near a plane that a works would make, so that
many pass their checks and the rest fail one by little. The ranges come from the JSON Schema that editors read.
"""

import random
from dataclasses import dataclass
from functools import cache

from parts.plane import kinds

GIVEN = 0.25  # share of the optional keys that a spec sets
WRITTEN = {"mm": "{:.3f} mm", "deg": "{:.2f} deg", "degC": "{:.0f} C", "HRC": "{:.1f} HRC", "": "{:.1%}"}

Spec = dict[str, dict[str, object]]


@dataclass(frozen=True)
class Key:
    """One key of a spec: its choices, or its range with the unit."""

    choices: tuple[str, ...]
    low: float
    high: float
    unit: str
    needed: bool

    def anywhere(self, dice: random.Random) -> str:
        if self.choices:
            return dice.choice(self.choices)
        return WRITTEN[self.unit].format(dice.uniform(self.low, self.high))

    def clipped(self, value: float) -> str:
        return WRITTEN[self.unit].format(min(max(value, self.low), self.high))


@cache
def keys_of(kind: str) -> dict[tuple[str, str], Key]:
    """Return (section, key) -> what may be written there, read from the schema of a kind."""
    schema = kinds.of(kind, "spec").Spec.model_json_schema()
    found: dict[tuple[str, str], Key] = {}

    def look(section: str, table: dict, needed: bool) -> None:
        for key, prop in table.get("properties", {}).items():
            options = [prop, *prop.get("anyOf", [])]
            inner = next((o["$ref"] for o in options if "$ref" in o), None)
            enum = next((tuple(o["enum"]) for o in options if "enum" in o), ())
            span = next((o["x-range"] for o in options if "x-range" in o), None)
            must = needed and key in table.get("required", ())
            if inner:
                look(f"{section}.{key}".strip("."), schema["$defs"][inner.rpartition("/")[2]], must)
            elif enum or span:
                low, high, unit = span or (0, 0, "")
                found[section, key] = Key(enum, low, high, unit, must)
            elif any(o.get("type") == "boolean" for o in options):
                found[section, key] = Key(("true", "false"), 0, 0, "bool", must)

    look("", schema, True)
    return {k: v for k, v in found.items() if k[0] not in ("", "plane")}


def anywhere(kind: str, dice: random.Random) -> Spec:
    """Return a spec that takes every key from the whole of its range."""
    spec: Spec = {}
    for (section, key), what in keys_of(kind).items():
        if what.needed or dice.random() < GIVEN:
            spec.setdefault(section, {})[key] = what.anywhere(dice)
    return spec


def near(kind: str, dice: random.Random) -> Spec:
    """Return a spec like one that a works would write: the needed keys by proportion, few others."""
    spec: Spec = {}
    for (section, key), what in keys_of(kind).items():
        if what.choices and (what.needed or dice.random() < GIVEN / 2):
            spec.setdefault(section, {})[key] = what.anywhere(dice)
    for (section, key), value in LIKELY[kind](dice).items():
        spec.setdefault(section, {})[key] = keys_of(kind)[section, key].clipped(value)
    return spec


def _bench(dice: random.Random) -> dict[tuple[str, str], float]:
    blade, length = dice.uniform(44, 66), dice.uniform(225, 640)
    sole, bed = dice.uniform(5.5, 8), dice.choice([45, 45, 47.5, 50, 55])
    likely = {
        ("body", "length"): length,
        ("body", "width"): blade + dice.uniform(10, 18),
        ("body", "sole_thickness"): sole,
        ("body", "cheek_thickness"): dice.uniform(3.6, 5),
        ("body", "cheek_height"): sole + dice.uniform(40, 52),
        ("body", "mouth_from_toe"): length * dice.uniform(0.22, 0.36),
        ("body", "mouth_opening"): dice.uniform(0.15, 0.9),
        ("bed", "angle"): bed,
        ("blade", "width"): blade,
        ("blade", "length"): dice.uniform(170, 200),
        ("blade", "thickness"): dice.uniform(2.8, 4.5),
        ("blade", "bevel"): dice.uniform(23, 30),
        ("blade", "hardness"): dice.uniform(58, 63),
        ("chipbreaker", "thickness"): dice.uniform(2.5, 3.5),
        ("chipbreaker", "setback"): dice.uniform(0.15, 1),
        ("chipbreaker", "edge_angle"): dice.uniform(40, 60),
        ("handle", "grip"): dice.uniform(80, 95),
    }
    if dice.random() < 0.5:
        likely["blade", "micro_bevel"] = likely["blade", "bevel"] + dice.uniform(1, 9)
    return likely


def _low_angle(dice: random.Random) -> dict[tuple[str, str], float]:
    block = dice.random() < 0.5
    blade = dice.uniform(34, 44) if block else dice.uniform(46, 58)
    length = dice.uniform(145, 185) if block else dice.uniform(325, 420)
    sole = dice.uniform(5, 7)
    likely = {
        ("body", "length"): length,
        ("body", "width"): blade + dice.uniform(11.5, 14),
        ("body", "sole_thickness"): sole,
        ("body", "cheek_thickness"): dice.uniform(3.6, 5),
        ("body", "cheek_height"): sole + (dice.uniform(24, 30) if block else dice.uniform(32, 42)),
        ("body", "mouth_from_toe"): length * dice.uniform(0.24, 0.33),
        ("body", "mouth_opening"): dice.uniform(0.2, 0.9),
        ("bed", "angle"): dice.choice([12, 12, 15, 20]),
        ("blade", "width"): blade,
        ("blade", "length"): dice.uniform(102, 118) if block else dice.uniform(115, 130),
        ("blade", "thickness"): dice.uniform(3, 4.5),
        ("blade", "bevel"): dice.uniform(25, 38),
        ("blade", "hardness"): dice.uniform(58, 62),
    }
    if dice.random() < 0.5:
        likely["body.toe_piece", "opening_most"] = dice.uniform(1.5, 3)
    return likely


LIKELY = {"bench": _bench, "low-angle": _low_angle}


def text_of(spec: Spec, kind: str, units: str, name: str) -> str:
    """Return a spec as TOML."""
    lines = [f'units = "{units}"', "", "[plane]", f'name = "{name}"', f'kind = "{kind}"']
    for section, table in sorted(spec.items()):
        lines += ["", f"[{section}]"]
        for key, value in table.items():
            bare = keys_of(kind)[section, key].unit == "bool"
            lines.append(f"{key} = {value}" if bare else f'{key} = "{value}"')
    return "\n".join(lines) + "\n"


def random_spec(kind: str, number: int) -> str:
    """Return the random spec of a kind with a number, always the same, as TOML."""
    dice = random.Random(f"{kind} {number}")  # text seeds alike on every machine
    spec = near(kind, dice) if number % 2 else anywhere(kind, dice)
    return text_of(spec, kind, dice.choice(["inch", "mm"]), f"Random {number}")
