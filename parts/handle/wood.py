"""The six woods of the interface: strength, movement and density data with their sources."""

from __future__ import annotations

import difflib
from functools import cache

from parts.handle.blanks import LEAST_AT_MACHINE_MM
from shared.errors import Fault, InputError
from shared.record import Record
from shared.tables import table
from shared.units import MM_PER_IN

MECHANICAL_SOURCE = "Wood Handbook FPL-GTR-190 (2010), Table 5-3a at 12 % MC"
FIBRE_SATURATION_PERCENT = 30.0


class Species(Record):
    """One wood. Strengths [MPa], hardness [N], movement [share per 1 % MC], shrinkage [percent of green size]."""

    id: str
    specific_gravity: float  # oven-dry mass over the volume at 12 % MC
    bending_mpa: float
    compression_parallel_mpa: float
    compression_perpendicular_mpa: float
    shear_parallel_mpa: float
    tension_perpendicular_mpa: float | None  # None where the handbook prints none
    modulus_mpa: float
    side_hardness_n: float
    movement_radial: float
    movement_tangential: float
    shrinkage_radial_percent: float
    shrinkage_tangential_percent: float
    shrinkage_volumetric_percent: float


@cache
def all_species() -> dict[str, Species]:
    """Return every wood of the table by its id."""
    facts = table("wood")
    found = {}
    for name, row in facts["mechanical"]["species"].items():
        radial, tangential = facts["movement"]["species"][name]
        s_r, s_t, s_v = facts["shrinkage"]["species"][name]
        found[name] = Species(
            name,
            row["specific_gravity"],
            row["bending_mpa"],
            row["compression_parallel_mpa"],
            row["compression_perpendicular_mpa"],
            row["shear_parallel_mpa"],
            row.get("tension_perpendicular_mpa"),
            row["modulus_mpa"],
            row["side_hardness_n"],
            radial,
            tangential,
            s_r,
            s_t,
            s_v,
        )
    return found


def species_ids() -> list[str]:
    """Return the ids that a spec, a rack or an option may name."""
    return list(all_species())


def nearest_hint(read: str) -> str:
    """Return "nearest: ..." for a misspelt species id, or ""."""
    near = difflib.get_close_matches(read.strip().lower().replace(" ", "-").replace("_", "-"), species_ids(), 1, 0.4)
    return f"nearest: {near[0]}" if near else ""


def species(name: str, where: str = "command line", key: str = "--species") -> Species:
    """Return one wood.

    Args:
        name: an id such as "black-cherry".
        where: file or "command line", for the message.
        key: key or option, for the message.

    Raises:
        InputError: unknown id.
    """
    if name not in all_species():
        raise InputError(Fault(where, key, repr(name), ", ".join(species_ids()), nearest_hint(name)))
    return all_species()[name]


def density_kg_m3(specific_gravity_at_mc: float, mc_percent: float) -> float:
    """Return the density [kg/m3] of wood at a moisture content.

    Args:
        specific_gravity_at_mc: oven-dry mass over the volume at that same MC, over water [-].
        mc_percent: moisture content [percent of oven-dry mass].

    Source: Wood Handbook FPL-GTR-190 (2010), chapter 4.
    """
    return 1000.0 * specific_gravity_at_mc * (1 + mc_percent / 100)


def specific_gravity_at(basic: float, shrinkage_volumetric_percent: float, mc_percent: float) -> float:
    """Return the specific gravity on the volume at a moisture content [-].

    Args:
        basic: oven-dry mass over green volume, over water [-].
        shrinkage_volumetric_percent: green to oven-dry [percent of green volume].
        mc_percent: moisture content [percent]; above 30 % the volume is the green one.

    Source: Wood Handbook FPL-GTR-190 (2010), Eq. 4-7 and the relation of specific gravities.
    """
    dried = max(0.0, 1 - mc_percent / FIBRE_SATURATION_PERCENT)
    return basic / (1 - shrinkage_volumetric_percent * dried / 100)


def species_density_kg_m3(wood: Species, mc_percent: float) -> float:
    """Return the density [kg/m3] of a wood at a moisture content [percent], from its value at 12 % MC."""
    shrink_12 = wood.shrinkage_volumetric_percent * (1 - 12 / FIBRE_SATURATION_PERCENT)
    basic = wood.specific_gravity * (1 - shrink_12 / 100)
    return density_kg_m3(specific_gravity_at(basic, wood.shrinkage_volumetric_percent, mc_percent), mc_percent)


class Caution(Record):
    """One thing that can hurt, in the shop's words, with its source."""

    topic: str
    text: str
    source: str


def wood_label(species_id: str) -> str:
    """Return a wood as papers write it: "black cherry" for "black-cherry", "American beech" for "american-beech"."""
    return species_id.replace("-", " ").replace("american", "American")


def wood_cautions(species_id: str, first: str = "mm") -> list[Caution]:
    """Return the cautions that stand on the woodshop's papers for one wood; each defers to local codes.

    Args:
        species_id: the wood.
        first: unit that stands first in the reader's papers, "inch" or "mm".
    """
    inches, mm = f"{LEAST_AT_MACHINE_MM / MM_PER_IN:.0f} in", f"{LEAST_AT_MACHINE_MM:.0f} mm"
    least = f"{inches} [{mm}]" if first == "inch" else f"{mm} [{inches}]"
    dust = table("wood")["dust"]
    word = species_id.rpartition("-")[2]
    if word in dust["confirmed"]:
        sort = f"{word} dust is listed as a confirmed human carcinogen (ACGIH A1)"
    elif word in dust["suspected"]:
        sort = f"{word} dust is listed as a suspected human carcinogen (ACGIH A2)"
    else:
        sort = f"{word} dust falls under all other woods in the ACGIH list (A4)"
    return [
        Caution(
            "dust",
            f"Wood dust harms lungs and nose. Limits for a shift: OSHA {dust['osha_pel_total']:g} mg/m³ total and "
            f"{dust['osha_pel_respirable']:g} respirable (the general dust limit), NIOSH {dust['niosh_rel_total']:g} "
            f"total, ACGIH {dust['acgih_tlv_inhalable']:g} inhalable; {sort}. Catch it at the machine, wear a mask to "
            "sand; local law decides.",
            str(dust["source"]),
        ),
        Caution(
            "small pieces",
            "Never hold a short piece by hand at a saw: clamp it, use a sled or push blocks. Saw the curves while the "
            "blank still hangs on the board or strip, and plane before cutting short: nothing under about "
            f"{least} through a thickness planer or a table saw unless its maker says less. Keep hood, spreader and "
            "kickback protection on the rip saw; the saw's own manual and local codes come first.",
            "29 CFR 1910.213 and summaries of it; least length common practice, no source",
        ),
        Caution(
            "turning",
            "Turn the knob only from sound stock without checks; eyes and face covered, sleeves tight, the square "
            "corners taken off at low speed, tool rest close and moved only with the lathe stopped. The lathe's manual "
            "comes first.",
            "common practice, no source",
        ),
    ]
