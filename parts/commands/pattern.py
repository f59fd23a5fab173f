"""`planewright pattern`: the pattern maker's list."""

from __future__ import annotations

from pathlib import Path

import typer

from parts.commands.load import load_design, shop_path
from parts.commands.outputs import check_output
from parts.commands.show import print_json
from parts.plane.design import Design
from parts.plane.pattern_bow import bow_json
from parts.plane.pattern_list import pattern_list, pattern_text, shrink_sizes
from shared.files import whole_file


def run_pattern(spec: Path, as_json: bool, shop: Path | None, shrink_rule: Path | None = None) -> None:
    """Print the list of every cast part of one plane.

    Args:
        spec: the plane.
        as_json: one JSON object: part -> contraction and rows.
        shop: the works' practice, or None.
        shrink_rule: PDF that gets the rules of every contraction, or None.

    Raises:
        InputError: the PDF cannot be written.
    """
    d = load_design(spec, shop)
    if shrink_rule is not None:
        check_output("--shrink-rule", shrink_rule, (".pdf",), (spec, shop_path(spec, shop)))
        _write_rules(d, shrink_rule)
    parts = pattern_list(d)
    if as_json:
        print_json(
            {
                p.part: {
                    "alloy": p.alloy,
                    "contraction": p.contraction.x,
                    "contraction_low": p.contraction.low,
                    "contraction_high": p.contraction.high,
                    "master_contraction": None if d.master is None else d.master.x,
                    "contraction_by_axis": {axis: p.contraction.along(axis) for axis in "xyz"},
                    "notes": list(p.notes),
                    "counter_bow": bow_json(p.bow),
                    "rows": shrink_sizes(p),
                }
                for p in parts
            }
        )
    else:
        typer.echo(pattern_text(d, parts), nl=False)
        if shrink_rule is not None:
            typer.echo(f"shrink rules written: {shrink_rule}")


def _write_rules(d: Design, path: Path) -> None:
    from parts.plane.template_papers import write_rules  # loads the PDF writer

    with whole_file(path, "--shrink-rule") as file:
        write_rules(d, file)
