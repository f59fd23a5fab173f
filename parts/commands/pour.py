"""`planewright pour`: the foundry's plan for so many good planes."""

from __future__ import annotations

from pathlib import Path

import typer

from parts.commands.load import load_design
from parts.commands.show import print_json, print_numbers
from parts.plane.pour import pour_plan


def run_pour(spec: Path, quantity: int, as_json: bool, shop: Path | None) -> None:
    """Plan the pour; the models are built for the masses.

    Args:
        spec: the plane.
        quantity: good planes wanted.
        as_json: print one JSON object.
        shop: the works' practice, or None.
    """
    d = load_design(spec, shop)
    from parts.plane.castings import cast_parts
    from parts.plane.models import models_of

    plan = pour_plan(cast_parts(d, models_of(d)), d.shop, quantity)
    if as_json:
        print_json({"plane": d.spec.plane.name, **plan.as_json()})
        return
    print_numbers(
        plan.numbers,
        False,
        f"{d.spec.plane.name}, revision {d.spec.plane.revision}: pour plan for {quantity} good planes",
    )
    for name, numbers in plan.parts.items():
        print_numbers(numbers, False, f"\n{name}")
    for name, pour in plan.alloys.items():
        print_numbers(pour.numbers, False, f"\nalloy {name}")
    typer.echo("\nsteps")
    for i, step in enumerate(plan.steps, 1):
        typer.echo(f"  {i}. {step}")
    for line in plan.cautions:
        typer.echo(f"caution: {line}")
