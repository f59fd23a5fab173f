"""The proof of the castings in words and as plain data: `castings/proof.txt` and `castings/proof.json`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from shared.both_units import length, temperature
from shared.casting.feeding_advice import advice, demand, expansion
from shared.casting.proof import DRAFT_GRAIN, RAYS, STATION, STOCK_GRAIN, TRAPPED_GRAIN, Proof
from shared.casting.sections import Sections
from shared.casting.walls import PATCH_MM2

LOAD_N = 100.0
AXES = "xyz"
ROUND = 4  # digits behind the point in the data: below what the mesh can tell

METHOD = (
    "How it was computed. Walls: the largest ball inside the skin at points all over it; where it touches two faces "
    f"that look away from each other its diameter is the wall, and a least counts when {PATCH_MM2:g} mm² of skin has "
    "it. Freezing: heat conduction with latent heat on cells of metal and sand (finite volumes, enthalpy), mould "
    "filled at once, metal and sand in full contact, metal at rest, dry sand; checked against the similarity "
    "solutions for plates in sand. On these cells thin plates come out up to 7 % slow, heavy places less. Modulus of "
    "a place: half the thickness of a plate in open sand that takes as long. Pools: metal that is liquid when its "
    "last way to a hotter place closes. Sections: from the mesh. Not computed: flow, gas, stress, and gates and "
    "risers, which change what freezes last near them."
)


def _place(at: Sequence[float]) -> str:
    # adding 0 takes the sign off a rounded nothing
    return "(" + ", ".join(f"{round(v) + 0.0:.0f}" for v in at) + ")"


def _size(mm: float, first: str) -> str:
    return length(mm, first, (3, 2))


def proof_text(proofs: Sequence[Proof], title: str, first: str = "mm") -> str:
    """Return the record of all castings for people to read.

    Args:
        proofs: one a cast part.
        title: first line.
        first: "inch" or "mm": the unit that leads.
    """
    lines = [title, "Proof of the castings by computation. Places are x, y, z in mm in the casting's own frame.", ""]
    for p in proofs:
        lines += [*_part(p, first), ""]
    lines += _wrapped(METHOD, "")
    for metal in {p.case.alloy.id: p.case.alloy for p in proofs}.values():
        lines += ["", *_wrapped(f"{metal.name}, while it freezes: {expansion(metal)}.", "")]
    return "\n".join(lines) + "\n"


def _part(p: Proof, first: str) -> list[str]:
    c, w = p.case, p.walls
    metal = c.alloy
    (least, least_at), (most, most_at), (ball, ball_at) = w.least, w.most, w.heaviest
    lines = [
        f"{c.name.upper()}: {metal.name}, {p.volume_mm3 / 1000:.1f} cm³, drawn along {AXES[c.axis]}, "
        f"parting at {AXES[c.axis]} = {c.parting:.1f} mm",
        f"  walls      least {_size(least, first)} at {_where(p, least_at)}; "
        f"the alloy's least is {_size(metal.minimum_wall_mm, first)}, comfortable from "
        f"{_size(metal.comfortable_wall_mm, first)}",
        f"             half of the skin has less than {_size(w.middle, first)}; most {_size(most, first)} at "
        f"{_where(p, most_at)}",
        f"             heaviest place: a ball of {_size(ball, first)} at {_where(p, ball_at)}",
        f"  draw       least draft {p.draw.least_deg:.2f} deg at {_where(p, p.draw.at)}, asked {c.draft_asked:g} deg; "
        + _trapped(p),
    ]
    if p.bare_mm3 is not None:
        lines.append(f"  covered    {_covered(p)}")
    for f in p.stock:
        short = "" if f.least >= f.asked - STOCK_GRAIN else "  TOO LITTLE"
        lines.append(
            f"  stock      {f.name:24s} least {_size(f.least, first)}, most {_size(f.most, first)}, "
            f"asked {_size(f.asked, first)}{short}"
        )
    lines += [f"  stock      {name:24s} not found on the finished part" for name in p.unmeasured]
    lines.append(
        f"  freezing   {p.freezing.total_s:.0f} s from pouring at {temperature(c.poured_c, first)}, on cells of "
        f"{p.cells.spacing:.2f} mm; fed by: {p.feed.method}"
    )
    for i, s in enumerate(p.spots, 1):
        twin = ", and the same on the other side" if s.twins == 2 else ""
        cut = "" if s.is_last else f", cut off at {s.cut_off_s:.0f} s with {s.liquid_mm3 / 1000:.2f} cm³ still liquid"
        lines.append(
            f"  hot spot {i} {s.seconds:.0f} s{cut}, modulus {length(s.modulus_mm, first, (2, 1))}, at "
            f"{_where(p, s.at)}{twin}"
        )
        lines += _wrapped(advice(s, metal, p.feed, first) + ".", "             ")
    lines += _section_lines(p)
    return lines


def _covered(p: Proof) -> str:
    """Say whether the finished part lies in its casting; what the facets of two meshes of one skin feign is no lack."""
    if p.covered:
        return f"yes; the facets of the two meshes differ by {p.bare_mm3:.1f} mm³, up to {p.bare_limit_mm3:.1f} is none"
    return f"NO: {p.bare_mm3:.1f} mm³ of the finished part outside"


def _where(p: Proof, at: Sequence[float]) -> str:
    name = p.near((at[0], at[1], at[2]))
    return f"{_place(at)}, {name}" if name else _place(at)


def _trapped(p: Proof) -> str:
    if p.draw.trapped_mm3 <= TRAPPED_GRAIN or p.draw.trapped_at is None:
        return "no sand held by metal"
    return f"UNDERCUT: {p.draw.trapped_mm3:.0f} mm³ of sand held by metal at {_where(p, p.draw.trapped_at)}"


def _section_lines(p: Proof) -> list[str]:
    out = []
    for label, s in (("casting", p.raw), ("finished", p.cut)):
        if s is None:
            continue
        i = s.weakest()
        text = (
            f"{label}: weakest under a load spread along {AXES[p.length_axis]} at {s.at[i]:.0f} mm: "
            f"{s.area[i]:.0f} mm², second moment {s.second_moment[i]:.0f} mm⁴, section modulus {s.modulus[i]:.0f} mm³"
        )
        if p.is_slender:
            sag = 1000.0 * s.sag(p.case.alloy.youngs_modulus_gpa, LOAD_N)
            text += f"; held at its ends it gives {sag:.1f} µm under {LOAD_N:g} N"
        first, *rest = _wrapped(text, "             ")
        out += ["  section    " + first.lstrip(), *rest]
    return out


def _wrapped(text: str, indent: str, width: int = 116) -> list[str]:
    lines, line = [], indent
    for word in text.split():
        if len(line) + len(word) + 1 > width and line.strip():
            lines.append(line.rstrip())
            line = indent
        line += word + " "
    return [*lines, line.rstrip()]


def proof_json(proofs: Sequence[Proof]) -> dict[str, Any]:
    """Return the record as plain data: cast part -> what was measured; keys end in their unit.

    Args:
        proofs: one a cast part.
    """
    return {p.case.name: _record(p) for p in proofs}


def _record(p: Proof) -> dict[str, Any]:
    metal, w = p.case.alloy, p.walls
    return {
        "alloy": metal.id,
        "volume_mm3": _r(p.volume_mm3),
        "draw_axis": AXES[p.case.axis],
        "parting_mm": _r(p.case.parting),
        "walls": {
            "least_mm": _r(w.least[0]),
            "least_at_mm": _rs(w.least[1]),
            "middle_mm": _r(w.middle),
            "most_mm": _r(w.most[0]),
            "most_at_mm": _rs(w.most[1]),
            "heaviest_ball_mm": _r(w.heaviest[0]),
            "heaviest_at_mm": _rs(w.heaviest[1]),
            "minimum_mm": metal.minimum_wall_mm,
            "comfortable_mm": metal.comfortable_wall_mm,
        },
        "draw": {
            "least_draft_deg": _r(p.draw.least_deg),
            "at_mm": _rs(p.draw.at),
            "asked_deg": p.case.draft_asked,
            "within_deg": DRAFT_GRAIN,
            "trapped_sand_mm3": _r(p.draw.trapped_mm3) if p.draw.trapped_mm3 > TRAPPED_GRAIN else 0.0,
            "draws": p.draws,
        },
        "finished_outside_mm3": None if p.bare_mm3 is None else _r(p.bare_mm3),
        "stock": [
            {"face": s.name, "asked_mm": _r(s.asked), "least_mm": _r(s.least), "most_mm": _r(s.most), "rays": s.rays}
            for s in p.stock
        ],
        "freezing": {
            "total_s": _r(p.freezing.total_s),
            "poured_c": p.case.poured_c,
            "cell_mm": _r(p.cells.spacing),
            "cells_volume_ratio": _r(p.cells.volume / p.volume_mm3),
            "feeding": p.feed.method,
            "feed_demand": demand(metal),
        },
        "hot_spots": [
            {
                "at_mm": _rs(s.at),
                "near": p.near(s.at),
                "frozen_s": _r(s.seconds),
                "cut_off_s": _r(s.cut_off_s),
                "pool_mm3": _r(s.pool_mm3),
                "liquid_mm3": _r(s.liquid_mm3),
                "modulus_mm": _r(s.modulus_mm),
                "way_modulus_mm": _r(s.path_modulus_mm),
                "count": s.twins,
                "advice": advice(s, metal, p.feed),
            }
            for s in p.spots
        ],
        "sections": {
            "along": AXES[p.length_axis],
            "bends": AXES[p.bends_axis],
            "casting": _sections(p, p.raw),
            "finished": None if p.cut is None else _sections(p, p.cut),
        },
        "rays_mm": RAYS,
        "station_mm": STATION,
    }


def _sections(p: Proof, s: Sections) -> dict[str, Any]:
    return {
        "weakest_at_mm": _r(float(s.at[s.weakest()])),
        "sag_um_per_100n": _r(1000.0 * s.sag(p.case.alloy.youngs_modulus_gpa, LOAD_N)) if p.is_slender else None,
        "at_mm": _rs(s.at),
        "area_mm2": _rs(s.area),
        "centre_mm": _rs(s.centre),
        "second_moment_mm4": _rs(s.second_moment),
        "modulus_mm3": _rs(s.modulus),
    }


def _r(value: float) -> float:
    return round(float(value), ROUND)


def _rs(values: Sequence[float] | np.ndarray) -> list[float]:
    return [_r(float(v)) for v in values]
