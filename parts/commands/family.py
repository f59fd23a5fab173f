"""`planewright numbers --family`: planes side by side in a few lines, and a picture of them to one scale."""

from __future__ import annotations

from pathlib import Path

import typer

from parts.commands.load import load_designs, shop_path
from parts.commands.outputs import check_output
from parts.commands.show import option_fault, print_json
from parts.plane.family import Member, member
from parts.plane.numbers import plane_numbers
from shared.files import whole_file

FORMATS = (".png", ".svg", ".pdf")


def run_family(
    specs: list[Path], family: bool, part: str | None, solids: bool, picture: Path | None, as_json: bool,
    shop: Path | None,
) -> None:  # fmt: skip
    """Print the family table and draw its picture where asked.

    Args:
        specs: the planes.
        family: whether `--family` was given; a picture is only drawn with it.
        part: must be None: the table has no parts.
        solids: build the models and take mass and balance from them.
        picture: PNG, SVG or PDF to draw, or None.
        as_json: one JSON object, a member a plane's name.
        shop: the works' practice, or None.
    """
    if not family:
        raise option_fault("--picture", str(picture), "only together with --family")
    if part is not None:
        raise option_fault("--part", part, "nothing beside --family, whose table has no parts")
    if picture is not None:
        check_output("--picture", picture, FORMATS, [*specs, *(shop_path(spec, shop) for spec in specs)])
    designs = load_designs(specs, shop)
    members = []
    for spec, d in zip(specs, designs, strict=True):
        if solids:
            from parts.plane.solid_run import numbers_with_solids

            members.append(member(d, numbers_with_solids(spec, shop_path(spec, shop))))
        else:
            members.append(member(d, plane_numbers(d)))
    if picture is not None:
        from parts.plane.family_picture import draw_family  # loads matplotlib

        with whole_file(picture, "--picture") as file:
            draw_family(designs, file)
    if as_json:
        print_json({"family": [{"name": m.name, **m.values} for m in members]})
    else:
        _print(members)
        if picture is not None:
            typer.echo(f"{picture}: side views to one scale, the edges in one line")


def _print(members: list[Member]) -> None:
    labels = list(dict.fromkeys(label for m in members for label in m.said))
    rows = [["", *(m.name for m in members)]]
    rows += [[label, *(m.said.get(label, "-") for m in members)] for label in labels]
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    for row in rows:
        cells = [row[0].ljust(widths[0]), *(c.rjust(w) for c, w in zip(row[1:], widths[1:], strict=True))]
        typer.echo("  ".join(cells).rstrip())
