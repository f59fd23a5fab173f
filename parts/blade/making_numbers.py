"""Numbers of making a blade: heat treatment, life, blank and bar."""

from __future__ import annotations

from parts.blade.hardness import steel_name
from parts.blade.heat_treat import heat_treat_plan
from parts.blade.life import sharpenings, usable_length
from parts.blade.stock import blank
from parts.blade.temper import f_to_c
from shared.errors import RequestError
from shared.numbers import COMMON_PRACTICE, Numbers, Value
from shared.tables import table


def heat_numbers(out: Numbers, steel: str, hardness: float, thickness: float, cold_c: float | None) -> None:
    """Add hardening and tempering; hardness [HRC], thickness [mm], cold_c the set point of a cold treatment [degC].

    Raises:
        InputError: unknown steel, hardness out of its reach, or a set point that nitrogen cannot reach.
    """
    plan = heat_treat_plan(steel, hardness, thickness, cold_c=cold_c)
    t = plan.temper
    put: dict[str, Value] = {"steel": plan.steel, "hardness_hrc": hardness, "hardening_f": t.curve.hardening_f}
    source = f"{t.curve.source} ({t.curve.known})"
    out.add("hardness_hrc", hardness, "wanted hardness", "as the spec asks", {"steel": steel}, "the spec")
    out.add(
        "hardening_temperature_c",
        t.curve.hardening_c,
        "temperature that the temper curve belongs to",
        "table",
        put,
        source,
    )
    out.add(
        "temper_temperature_c",
        t.temperature_c,
        f"temper for the wanted hardness; {t.branch}",
        "temper curve read backward, linear between its rows",
        put,
        source,
    )
    out.add(
        "temper_temperature_low_c", t.low_c, "lowest temper of this stretch that gives it", "temper curve", put, source
    )
    out.add(
        "temper_temperature_high_c",
        t.high_c,
        "highest temper of this stretch that gives it",
        "temper curve",
        put,
        source,
    )
    out.add("tempers", t.tempers, f"tempers of {t.hours:g} h each", "schedule", put, source)
    out.add(
        "expected_low_hrc",
        plan.band[0],
        "lowest hardness to expect",
        "curve - spread",
        put,
        f"{source}; {t.curve.note}",
    )
    out.add(
        "expected_high_hrc",
        plan.band[1],
        "highest hardness to expect",
        "curve + spread",
        put,
        f"{source}; {t.curve.note}",
    )
    if plan.steps:
        row = table("steel")["schedule"][plan.steel]
        for key, value, said in (
            ("preheat_temperature_c", row.get("preheat_f"), "middle of the first preheat's range"),
            ("second_preheat_temperature_c", row.get("second_preheat_f"), "middle of the second preheat's range"),
        ):
            if value is not None:
                mid = f_to_c((value[0] + value[1]) / 2)
                out.add(key, mid, said, "(low + high)/2", {"low_f": value[0], "high_f": value[1]}, row["source"])


def life_numbers(
    out: Numbers, slot: float, thickness: float, bevel: float, loss: float, adjuster_life: float | None = None
) -> None:
    """Add usable length and sharpenings; slot from the edge, thickness and loss each [mm], bevel [deg].

    `adjuster_life` is the length [mm] after which a depth adjuster no longer reaches the blade, where there is one.

    Raises:
        InputError: the bevel of a new blade reaches the slot.
    """
    usable = usable_length(slot, thickness, bevel)
    put = {"slot_from_edge": slot, "t": thickness, "bevel": bevel}
    if adjuster_life is None:
        out.add(
            "usable_length_mm",
            usable,
            "length that can be sharpened away before the heel of the bevel meets the slot",
            "slot from edge - t/tan(bevel)",
            put,
        )
    else:
        ends = {usable: "the bevel's heel meets the slot", adjuster_life: "the last cross slot reaches the adjuster"}
        usable = min(ends)
        out.add(
            "usable_length_mm",
            usable,
            "length that can be sharpened away before the bevel meets the slot or the adjuster the last cross slot",
            "lesser of slot from edge - t/tan(bevel), and the adjuster's row of cross slots",
            {**put, "adjuster": adjuster_life},
            decided_by=ends[usable],
        )
    out.add(
        "sharpenings",
        sharpenings(usable, loss),
        "sharpenings in its life",
        "usable length/loss each",
        {"usable": usable, "loss": loss},
        f"loss of {loss:g} mm each: {COMMON_PRACTICE}",
    )


def blank_numbers(out: Numbers, steel: str, width: float, length: float, thickness: float, per_side: float) -> None:
    """Add the sizes of blank and bar, when a bar is large enough; all sizes and the stock a side [mm].

    Raises:
        InputError: unknown steel.
    """
    row = table("steel")["schedule"][steel_name(steel)]
    try:
        b = blank(steel, width, length, thickness, stock_per_side=per_side)
    except RequestError:
        return
    put: dict[str, Value] = {
        "width": width,
        "length": length,
        "thickness": thickness,
        "stock_per_side": per_side,
        "growth": b.growth,
    }
    source = f"growth: {row.get('size_change_note', 'not tabled, none reckoned')}; stock a side: {COMMON_PRACTICE}"
    out.add(
        "hardening_growth_mm", width * b.growth, "growth of the width on hardening", "width*growth", put, row["source"]
    )
    for i, name in enumerate(("width", "length", "thickness")):
        out.add(
            f"blank_{name}_mm",
            b.before_hardening[i],
            f"{name} of the blank before hardening",
            "(finished + 2*stock)/(1 + growth)",
            put,
            source,
        )
    out.add("bar_width_mm", b.ground_bar[0], "ground flat bar to buy, width", "next size up", put, COMMON_PRACTICE)
    out.add(
        "bar_thickness_mm", b.ground_bar[1], "ground flat bar to buy, thickness", "next size up", put, COMMON_PRACTICE
    )
    out.add(
        "sawn_length_mm", b.sawn_length, "length to saw from the bar", "blank + 1 mm at each end", put, COMMON_PRACTICE
    )
