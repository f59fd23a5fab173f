"""`planewright numbers` and `planewright explain`."""

from __future__ import annotations

import difflib
from pathlib import Path
from typing import Any

import typer

from parts.commands.load import load_designs, shop_path
from parts.commands.show import option_fault, print_json, print_numbers
from parts.plane.numbers import plane_numbers
from shared.explain import explain, explanation_text, format_value
from shared.numbers import Numbers

FROM_MODELS = {"mass_kg", "casting_mass_kg", "center_of_mass_mm", "pattern_volume_ratio"}


def _all(specs: list[Path], solids: bool, shop: Path | None) -> list[tuple[str, dict[str, Numbers]]]:
    designs = load_designs(specs, shop)
    tables = []
    for spec, d in zip(specs, designs, strict=True):
        if solids:
            from parts.plane.solid_run import numbers_with_solids

            tables.append((d.spec.plane.name, numbers_with_solids(spec, shop_path(spec, shop))))
        else:
            tables.append((d.spec.plane.name, plane_numbers(d)))
    return tables


def _one_part(table: dict[str, Numbers], part: str) -> dict[str, Numbers]:
    if part not in table:
        near = difflib.get_close_matches(part, list(table), 1, 0.4)
        raise option_fault("--part", part, "one of " + ", ".join(table), f"did you mean {near[0]}?" if near else "")
    return {part: table[part]}


def run_numbers(specs: list[Path], part: str | None, solids: bool, as_json: bool, shop: Path | None) -> None:
    """Print derived numbers of one plane, or of several side by side.

    Args:
        specs: the planes.
        part: one part only, or None for all.
        solids: build the models and add what only they tell.
        as_json: one JSON object; with several specs one object a plane's name.
        shop: the works' practice, or None.
    """
    tables = [(name, _one_part(t, part) if part else t) for name, t in _all(specs, solids, shop)]
    if as_json:
        data: list[tuple[str, Any]] = [(name, {p: n.as_json() for p, n in t.items()}) for name, t in tables]
        print_json(data[0][1] if len(data) == 1 else dict(_unique(data)))
    elif len(tables) == 1:
        for p, numbers in tables[0][1].items():
            print_numbers(numbers, False, title=f"{tables[0][0]}: {p}")
    else:
        _side_by_side(tables)


def _unique(data: list[tuple[str, Any]]) -> list[tuple[str, Any]]:
    seen: dict[str, int] = {}
    named = []
    for name, value in data:
        seen[name] = seen.get(name, 0) + 1
        named.append((name if seen[name] == 1 else f"{name} ({seen[name]})", value))
    return named


def _side_by_side(tables: list[tuple[str, dict[str, Numbers]]]) -> None:
    names = [name for name, _ in _unique([(n, None) for n, _ in tables])]
    parts = list(dict.fromkeys(p for _, t in tables for p in t))
    for p in parts:
        keys = list(dict.fromkeys(n.key for _, t in tables if p in t for n in t[p]))
        rows = [[k, *(_cell(t.get(p), k) for _, t in tables)] for k in keys]
        widths = [max(len(r[i]) for r in [[p, *names], *rows]) for i in range(len(names) + 1)]
        for row in [[p, *names], *rows]:
            cells = [row[0].ljust(widths[0]), *(c.rjust(w) for c, w in zip(row[1:], widths[1:], strict=True))]
            typer.echo("  ".join(cells).rstrip())
        typer.echo("")


def _cell(numbers: Numbers | None, key: str) -> str:
    if numbers is None or key not in numbers:
        return "-"
    text = format_value(numbers[key])
    return text if len(text) <= 34 else text[:31] + "..."


def run_explain(spec: Path, number: str, as_json: bool, shop: Path | None) -> None:
    """Explain one number of a plane.

    Args:
        spec: the plane.
        number: PART.NUMBER, such as blade.cutting_angle_deg.
        as_json: print one JSON object.
        shop: the works' practice, or None.
    """
    part, _, key = number.partition(".")
    # masses come from the models; only then are they built
    table = _all([spec], key in FROM_MODELS, shop)[0][1]
    everything = [f"{p}.{n.key}" for p, ns in table.items() for n in ns]
    if part not in table or key not in table[part]:
        near = difflib.get_close_matches(number, everything, 3, 0.4)
        hint = "did you mean " + " or ".join(near) + "?" if near else ""
        raise option_fault("PART.NUMBER", number, "a number that planewright numbers lists", hint)
    n = table[part][key]
    if as_json:
        print_json(
            {
                "number": number,
                "value": n.value,
                "unit": n.unit,
                "meaning": n.meaning,
                "formula": n.formula,
                "values": dict(n.values),
                "source": n.source,
                "decided_by": n.decided_by,
            }
        )
        return
    typer.echo(explanation_text(explain(part, n)))
