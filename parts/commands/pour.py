"""`planewright pour`: the foundry's plan for so many good planes."""

from __future__ import annotations

from pathlib import Path

import typer

from parts.commands.load import load_design
from parts.commands.show import print_json, print_numbers
from parts.plane.pour import pour_plan
from parts.plane.pour_sheet import pour_text


def run_pour(spec: Path, quantity: int, as_json: bool, shop: Path | None) -> None:
    """Plan the pour; the models are built for the masses.

    Args:
        spec: the plane.
        quantity: good planes wanted.
        as_json: print one JSON object.
        shop: the works' practice, or None.
    """
    d = load_design(spec, shop)
    from parts.plane.models import models_of
    from parts.plane.moulding import foundry_parts

    plan = pour_plan(foundry_parts(models_of(d)), d.shop, quantity, d.spec.units)
    if as_json:
        print_json({"plane": d.spec.plane.name, **plan.as_json()})
        return
    typer.echo(f"{d.spec.plane.name}, revision {d.spec.plane.revision}: pour plan for {quantity} good planes")
    typer.echo("\n".join(pour_text(plan)))
    typer.echo("\nhow each number comes about")
    print_numbers(plan.numbers, False, "all castings")
    for name, numbers in plan.parts.items():
        print_numbers(numbers, False, f"\n{name}")
    for pour in plan.alloys.values():
        print_numbers(pour.numbers, False, f"\n{pour.metal.name}")
