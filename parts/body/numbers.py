"""The body's numbers that arithmetic alone gives."""

from __future__ import annotations

from parts.body.layout import TroughSpec, iron_in_plate
from parts.body.size import BodySize, Trough
from parts.body.walls import envelope
from shared.casting.alloy import Alloy
from shared.casting.contraction import Contraction
from shared.numbers import COMMON_PRACTICE, GEOMETRY, PROPORTION, Numbers

ISO_8062 = "ISO 8062:1994 table of machining allowances (memory) and ISO 8062-3:2007 Table 2"


def casting_length(size: Trough) -> float:
    """Return the overall length of the raw casting [mm]: at the parting plane, where it is largest."""
    outside = envelope(size)
    return outside.x1 - outside.x0


def casting_width(size: Trough) -> float:
    """Return the overall width of the raw casting [mm]: at the parting plane, where it is largest."""
    return 2 * envelope(size).half


def _heights(size: Trough, top: float) -> tuple[float, float]:
    """Return how far an outer wall runs above the parting plane, and below it down to the finished sole face [mm]."""
    return max(0.0, top - size.cast.parting_z), max(0.0, size.cast.parting_z)


def thermal_bow_um_per_k(length: float, height: float, expansion: float) -> float:
    """Return the bow [µm] of a body for 1 K between sole and top: α·ΔT·L²/(8h).

    Args:
        length: toe to heel [mm].
        height: over which the gradient acts [mm].
        expansion: of the metal [1/K].
    """
    return 1000.0 * expansion * length**2 / (8.0 * height)


def trough_numbers(
    spec: TroughSpec,
    size: Trough,
    metal: Alloy,
    contraction: Contraction,
    master: Contraction | None,
    seat: str,
    seat_z: float,
) -> Numbers:
    """Return the numbers that every body has: stock, casting, pattern, bow, mass, radii.

    Args:
        spec: the body section.
        size: the resolved body.
        metal: its alloy.
        contraction: of that alloy.
        master: contraction of the pattern metal, when working patterns are cast.
        seat: what `cast.pad` is the stock on.
        seat_z: height of that above the sole face [mm].
    """
    n = Numbers("body")
    c = size.cast
    n.add(
        "required_machining_allowance_mm",
        c.required,
        "least stock asked on every machined face",
        "table by grade and the largest finished dimension",
        {"largest_mm": size.length},
        ISO_8062,
    )
    n.add(
        "sole_stock_mm",
        c.sole,
        "stock under the sole",
        "RMA + CT/2 of the sole's thickness, a grade coarser (wall)",
        {"RMA": c.required, "sole_mm": size.sole},
        ISO_8062,
    )
    n.add(
        "side_stock_mm",
        c.side,
        "stock on each cheek's outside at its top",
        "RMA + CT/4 of the width, both sides machined",
        {"RMA": c.required, "width_mm": size.width},
        ISO_8062,
    )
    n.add(
        "end_stock_mm",
        c.end,
        "stock at toe and heel",
        "RMA + CT/4 of the length, both ends machined",
        {"RMA": c.required, "length_mm": size.length},
        ISO_8062,
    )
    n.add(
        "pad_stock_mm",
        c.pad,
        f"stock on {seat}",
        "RMA + CT/2 of its height",
        {"RMA": c.required, "height_mm": seat_z},
        ISO_8062,
    )
    up = max(_heights(size, size.rail_height))
    length = casting_length(size)
    n.add(
        "casting_length_mm",
        length,
        "raw casting over all, at the parting plane",
        "L + 2·stock + 2·h·tan(draft)",
        {"L_mm": size.length, "stock_mm": c.end, "h_mm": up, "draft_deg": c.draft_outside},
        GEOMETRY,
    )
    width = casting_width(size)
    n.add(
        "casting_width_mm",
        width,
        "raw casting over both cheeks, at the parting plane",
        "W + 2·stock + 2·h·tan(draft)",
        {
            "W_mm": size.width,
            "stock_mm": c.side,
            "h_mm": max(_heights(size, size.cheek_height)),
            "draft_deg": c.draft_outside,
        },
        GEOMETRY,
    )
    n.add(
        "contraction",
        contraction.x,
        "pattern maker's contraction along the length",
        "pattern = casting × (1 + contraction)",
        {"low": contraction.low or contraction.x, "high": contraction.high or contraction.x},
        f"{contraction.source}; {metal.source_of('contraction')}",
    )
    n.add(
        "pattern_length_mm",
        length * (1 + contraction.x),
        "working pattern over all",
        "casting length × (1 + contraction x)",
        {"casting_length_mm": length, "contraction": contraction.x},
        GEOMETRY,
    )
    n.add(
        "pattern_width_mm",
        width * (1 + contraction.y),
        "working pattern over both cheeks",
        "casting width × (1 + contraction y)",
        {"casting_width_mm": width, "contraction": contraction.y},
        GEOMETRY,
    )
    if master is not None:
        n.add(
            "master_length_mm",
            length * (1 + contraction.x) * (1 + master.x),
            "master that a cast pattern is moulded from",
            "casting × (1 + c_alloy) × (1 + c_pattern metal)",
            {"casting_length_mm": length, "c_alloy": contraction.x, "c_pattern_metal": master.x},
            GEOMETRY,
        )
    n.add(
        "thermal_bow_um_per_k",
        thermal_bow_um_per_k(size.length, size.cheek_height, metal.thermal_expansion_per_k),
        "bow of the sole for each kelvin between sole and cheek tops",
        "α·L²/(8h)",
        {"alpha_per_k": metal.thermal_expansion_per_k, "L_mm": size.length, "h_mm": size.cheek_height},
        f"beam with a linear gradient; α: {metal.source_of('thermal_expansion_per_k')}",
    )
    n.add(
        "mass_estimate_kg",
        iron_in_plate(spec) * metal.density_kg_m3 * 1e-9,
        "rough mass of plate and cheeks alone, before the models",
        "(L·W·s + 2·0.58·L·(H − s)·c·π/4)·density",
        {"density_kg_m3": metal.density_kg_m3},
        PROPORTION,
    )
    for key, value, meaning, formula in (
        ("rail_height_mm", size.rail_height, "low rails at toe and heel, above the sole face", "sole + 1.6 cheek"),
        ("root_radius_mm", size.root_radius, "inside radius cheek to sole", "0.7 cheek"),
        ("corner_radius_mm", size.corner_radius, "plan radius of the corners", "width / 10"),
        ("mouth_width_mm", 2 * size.mouth_half_width, "mouth slot across", "blade + 2 × side clearance"),
    ):
        n.add(key, value, meaning, formula, source=PROPORTION)
    n.add(
        "parting_height_mm",
        c.parting_z,
        "parting plane above the finished sole face",
        "the raw sole face unless set",
        source=COMMON_PRACTICE,
    )
    return n


def body_numbers(
    spec: TroughSpec, size: BodySize, metal: Alloy, contraction: Contraction, master: Contraction | None
) -> Numbers:
    """Return the numbers of a bench body. Arguments as `trough_numbers`."""
    n = trough_numbers(spec, size, metal, contraction, master, "the frog pads", size.high_pad.z)
    for key, value, meaning, formula in (
        ("low_pad_mm", size.low_pad.z, "low frog pad above the sole face", "sole + 1.5 mm"),
        (
            "high_pad_mm",
            size.high_pad.z,
            "high frog pad above the sole face",
            "the higher of sole + 6 mm and floor 2.5 mm + 1.25 thread + 2 pitches",
        ),
    ):
        n.add(key, value, meaning, formula, source=PROPORTION)
    return n
