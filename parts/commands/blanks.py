"""`planewright blanks`: the cut plan for handle blanks, or footage by grade when there is no rack."""

from __future__ import annotations

from pathlib import Path

import typer

from parts.commands.load import load_design, shop_path
from parts.commands.outputs import check_output, output_folder
from parts.commands.show import option_fault, print_json
from parts.handle.cutplan.words import footage as volume
from parts.handle.cutplan.words import sizes
from parts.handle.footage import footage
from parts.handle.moisture import MOISTURE_TOL_PERCENT
from parts.handle.rack import rack_unit, write_rack
from parts.handle.wood import wood_cautions, wood_label
from parts.plane.design import Design
from parts.plane.handle_blanks import best_way, off_moisture, plan_title, rack_plan, rack_plan_text
from parts.plane.wood import handle_blanks
from shared.errors import EXIT_CHECK_FAILED
from shared.files import files_into, whole_file
from shared.wording import counted


def run_blanks(
    spec: Path,
    quantity: int,
    rack: Path | None,
    leftovers: Path | None,
    papers: str | None,
    as_json: bool,
    shop: Path | None,
) -> None:
    """Plan handle blanks; leaves with 1 when the rack falls short.

    Args:
        spec: the plane.
        quantity: handle sets wanted.
        rack: the rack's CSV, or None for footage by grade.
        leftovers: file for what is left, as a new rack, or None.
        papers: folder for the plan's drawings, or None; what else is in it stays.
        as_json: print one JSON object.
        shop: the works' practice, or None.
    """
    d = load_design(spec, shop)
    if rack is None:
        if leftovers is not None:
            raise option_fault("--leftovers", str(leftovers), "only together with --rack")
        if papers is not None:
            raise option_fault("--papers", papers, "only together with --rack")
        _footage(d, quantity, as_json)
        return
    if leftovers is not None:
        check_output("--leftovers", leftovers, (".csv",), (rack, spec, shop_path(spec, shop)))
    folder = None if papers is None else output_folder("--papers", papers)
    plans = rack_plan(d, quantity, rack, quick=False)
    best = best_way(plans)
    if folder is not None:
        from parts.plane.cut_plan_papers import draw_plan, earlier_papers

        with files_into(folder, earlier_papers, "--papers") as work:
            (work / "plan.txt").write_text(rack_plan_text(d, plans), encoding="utf-8")
            draw_plan(plans[best], plan_title(d, quantity), work)
    if leftovers is not None:
        what = f"what is left after {quantity} sets of {d.spec.plane.name}"
        left = write_rack(plans[best].leftovers, what, rack_unit(rack))
        with whole_file(leftovers, "--leftovers") as file:
            file.write_text(left, encoding="utf-8")
    shop_percent = plan_title(d, quantity).shop_moisture_percent
    cautions = [f"{c.text} [{c.source}]" for c in wood_cautions(d.spec.handle.species, d.spec.units)]
    if as_json:
        print_json(
            {
                "plane": d.spec.plane.name,
                "quantity": quantity,
                "best": best,
                "blanks": [
                    {
                        "name": b.name,
                        "length_mm": b.length_mm,
                        "width_mm": b.width_mm,
                        "thickness_mm": b.thickness_mm,
                        "lumber": b.buy.name,
                    }
                    for b in handle_blanks(d)
                ],
                "plans": {way: plan.as_json() for way, plan in plans.items()},
                "off_moisture": {
                    way: [
                        {
                            "board": b.name,
                            "moisture_percent": b.moisture_percent,
                            "shop_moisture_percent": round(shop_percent, 1),
                            "may_differ_percent": MOISTURE_TOL_PERCENT,
                        }
                        for b in off_moisture(plan, shop_percent)
                    ]
                    for way, plan in plans.items()
                },
                "cautions": cautions,
            }
        )
    else:
        typer.echo(rack_plan_text(d, plans), nl=False)
        for line in cautions:
            typer.echo(f"caution: {line}")
    if plans[best].short:
        raise typer.Exit(EXIT_CHECK_FAILED)


def _footage(d: Design, quantity: int, as_json: bool) -> None:
    blanks = handle_blanks(d)
    rows = footage(blanks, quantity, d.shop.wood_practice())
    if as_json:
        print_json(
            {
                "plane": d.spec.plane.name,
                "quantity": quantity,
                "species": d.spec.handle.species,
                "blanks": [
                    {
                        "name": b.name,
                        "length_mm": b.length_mm,
                        "width_mm": b.width_mm,
                        "thickness_mm": b.thickness_mm,
                        "lumber": b.buy.name,
                        "board_feet": b.board_feet,
                    }
                    for b in blanks
                ],
                "footage": [r.as_json() for r in rows],
            }
        )
        return
    wood = wood_label(d.spec.handle.species)
    typer.echo(f"{d.spec.plane.name}: {counted(quantity, 'set')} of {wood}, no rack given; footage by grade")
    for b in blanks:
        typer.echo(
            f"  {b.name}: {sizes((b.length_mm, b.width_mm, b.thickness_mm), d.spec.units)}, lumber {b.buy.name}, "
            f"{volume(b.board_feet, d.spec.units, 3)} each"
        )
    typer.echo(f"  {'blank':<8}{'grade':<14}{'lumber':<8}{'clear':>7}{'filled':>8}{'per 100 bf':>12}{'needed':>12}")
    for r in (row.as_json() for row in rows):
        typer.echo(
            f"  {r['blank']:<8}{r['grade']:<14}{r['thickness']:<8}{r['clear_percent']:>6}%{r['fill_percent']:>7}%"
            f"{r['blanks_per_100_bf']:>12}{r['needed_bf']:>9} bf"
        )
