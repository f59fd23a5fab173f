"""Grain: strength at an angle to the fibres, short grain, and the direction that serves the weakest section."""

from __future__ import annotations

import math
from collections.abc import Sequence

from parts.handle.wood import MECHANICAL_SOURCE, Species
from shared.errors import Fault, InputError, RequestError
from shared.findings import Finding, judge
from shared.record import Record
from shared.tables import table

HANKINSON_SOURCE = "Wood Handbook FPL-GTR-190 (2010), Eq. 5-4 (formula and exponents from memory)"
PROPERTIES = ("compression", "bending", "tension", "modulus")
_ALIASES = {
    "compression-strength": "compression",
    "compression-parallel": "compression",
    "bending-strength": "bending",
    "modulus-of-rupture": "bending",
    "mor": "bending",
    "tensile": "tension",
    "tensile-strength": "tension",
    "tension-strength": "tension",
    "modulus-of-elasticity": "modulus",
    "moe": "modulus",
}


class AcrossGrain(Record):
    """A property at an angle: value, along P and across Q the grain [MPa], exponent [-] and where they are from."""

    value_mpa: float
    along_mpa: float
    across_mpa: float
    exponent: float
    source: str


class Section(Record):
    """A section of the handle: direction of its axis in the side view [deg from the sole], section modulus [mm3]."""

    name: str
    axis_deg: float
    modulus_mm3: float


def hankinson(along: float, across: float, angle_deg: float, exponent: float) -> float:
    """Return a property at an angle to the fibres, in the unit of `along`.

    Args:
        along: value along the fibres [any unit].
        across: value across them [same unit].
        angle_deg: angle from the fibre direction [deg].
        exponent: n [-], 1.5 to 2.5 by property.

    Source: Wood Handbook FPL-GTR-190 (2010), Eq. 5-4.
    """
    a = math.radians(angle_deg)
    s, c = abs(math.sin(a)) ** exponent, abs(math.cos(a)) ** exponent
    return along * across / (along * s + across * c)


def combined_slope(spiral: float, diagonal: float) -> float:
    """Return the slope of grain [-] (rise over run) of spiral and diagonal grain together.

    Source: Wood Handbook FPL-GTR-190 (2010), chapter 5.
    """
    return math.hypot(spiral, diagonal)


def read_property(name: str) -> str:
    """Return the property's own name for a written one.

    Raises:
        InputError: not one of compression, bending, tension, modulus or a known other name of these.
    """
    plain = name.strip().lower().replace("_", "-").replace(" ", "-")
    plain = _ALIASES.get(plain, plain)
    if plain not in PROPERTIES:
        raise InputError(Fault("command line", "--property", repr(name), ", ".join(PROPERTIES)))
    return plain


def strength_at_angle(wood: Species, name: str, angle_deg: float, exponent: float | None = None) -> AcrossGrain:
    """Return a strength (or the modulus of elasticity) at an angle to the fibres [MPa].

    Args:
        wood: the species.
        name: "compression", "bending", "tension" or "modulus".
        angle_deg: angle from the fibre direction [deg], 0 to 90.
        exponent: None takes the table's exponent of the property [-].

    Raises:
        InputError: unknown property or an angle outside 0 to 90.
        RequestError: the handbook prints no value across the grain for this wood.
    """
    name = read_property(name)
    if not 0 <= angle_deg <= 90:
        raise InputError(Fault("grain", "angle", f"{angle_deg:g} deg", "0 to 90 deg from the fibre direction"))
    facts = table("wood")["hankinson"]
    n = exponent or facts[name]["n"]
    if name == "compression":
        p, q = wood.compression_parallel_mpa, wood.compression_perpendicular_mpa
    elif name == "bending":
        p = wood.bending_mpa
        q = p * facts[name]["q_over_p"]
    elif name == "modulus":
        p = wood.modulus_mpa
        q = p * facts[name]["q_over_p"]
    else:
        if wood.tension_perpendicular_mpa is None:
            raise RequestError(
                f"grain: the handbook prints no tension across the grain for {wood.id}; ask for bending or compression"
            )
        # No tension along the fibres is tabulated: the bending strength stands in, as the handbook allows.
        p, q = wood.bending_mpa, wood.tension_perpendicular_mpa
    return AcrossGrain(hankinson(p, q, angle_deg, n), p, q, n, f"{HANKINSON_SOURCE}; {MECHANICAL_SOURCE}")


def angle_between(first_deg: float, second_deg: float) -> float:
    """Return the angle between two undirected lines [deg], 0 to 90."""
    d = abs(first_deg - second_deg) % 180
    return min(d, 180 - d)


def slope_one_in(angle_deg: float) -> float:
    """Return x of a slope of grain "1 in x" for an angle [deg]; infinite for straight grain."""
    t = math.tan(math.radians(angle_deg))
    return math.inf if t < 1e-12 else 1 / t


def short_grain_strength_mpa(wood: Species, angle_deg: float) -> float:
    """Return the bending strength [MPa] where the part's axis lies at an angle [deg] to the fibres."""
    return strength_at_angle(wood, "bending", angle_deg).value_mpa


def weakest(wood: Species, sections: Sequence[Section], grain_deg: float) -> tuple[Section, float]:
    """Return the section that breaks first with the grain at an angle [deg], and the moment it bears [N mm]."""
    moments = [
        (short_grain_strength_mpa(wood, angle_between(s.axis_deg, grain_deg)) * s.modulus_mm3, i)
        for i, s in enumerate(sections)
    ]
    moment, i = min(moments)
    return sections[i], moment


def best_grain_deg(wood: Species, sections: Sequence[Section], step_deg: float = 0.5) -> tuple[float, Section, float]:
    """Return the grain direction that makes the weakest section strongest.

    Args:
        wood: the species.
        sections: sections of the handle, at least one.
        step_deg: steps in which directions are tried [deg].

    Returns:
        Direction [deg from the sole, -90 to 90], the section that decides, the moment it bears [N mm].
    """
    steps = round(180 / step_deg)
    tried = [(*weakest(wood, sections, -90 + i * step_deg), -90 + i * step_deg) for i in range(steps)]
    section, moment, angle = max(tried, key=lambda t: (round(t[1], 9), -abs(t[2])))
    return angle, section, moment


def grain_finding(wood: Species, angle_deg: float, where: str) -> Finding:
    """Judge the short grain at the narrowest section.

    Args:
        wood: the species.
        angle_deg: angle of the section's axis to the fibres [deg].
        where: name of the section.
    """
    facts = table("wood")["grain_practice"]
    warn, bad = facts["warning_one_in"], facts["failure_prone_one_in"]
    x = slope_one_in(angle_deg)
    strength = short_grain_strength_mpa(wood, angle_deg)
    share = strength / wood.bending_mpa
    return Finding(
        "H22",
        "handle",
        f"short grain at {where}",
        judge(x >= warn, x >= bad),
        f"{'straight' if math.isinf(x) else f'1 in {x:.1f}'} ({angle_deg:.1f} deg), {strength:.0f} MPa",
        f"1 in {warn:g} or flatter; 1 in {bad:g} or steeper fails",
        f"the wood keeps {100 * share:.0f} % of its bending strength across that slope; a dropped tote breaks there",
        f"{facts['source']}; {HANKINSON_SOURCE}",
        ""
        if x >= warn
        else f"turn the grain {angle_deg - math.degrees(math.atan(1 / warn)):.0f} deg toward that section",
    )
