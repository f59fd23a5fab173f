"""`planewright edge`: the blade card."""

from __future__ import annotations

from pathlib import Path

import typer

from parts.commands.load import load_design
from parts.commands.show import print_json
from parts.plane.blade_card import blade_card_text, card_of


def run_edge(spec: Path, quantity: int | None, as_json: bool, shop: Path | None) -> None:
    """Print the blade card of one plane.

    Args:
        spec: the plane.
        quantity: blades to make, for bars and nitrogen, or None.
        as_json: one JSON object: the derived numbers of blade, bedding and chipbreaker, and the card.
        shop: the works' practice, or None.
    """
    d = load_design(spec, shop)
    if as_json:
        from parts.plane.numbers import plane_numbers

        numbers = plane_numbers(d)
        print_json(
            {
                "plane": d.spec.plane.name,
                **{part: numbers[part].as_json() for part in ("blade", "bedding", "chipbreaker") if part in numbers},
                "card": card_of(d, quantity).as_json(),
            }
        )
    else:
        typer.echo(blade_card_text(d, quantity), nl=False)
