"""`planewright first-article`: the shop's real contraction from measured castings, or the sheet to measure them on."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path
from typing import Any

import typer

from parts.commands.load import load_design, shop_path
from parts.commands.show import option_fault, print_json, read_option
from parts.plane.first_article import Measured, judge, template
from parts.plane.shop_write import take_over
from shared import units


def run_first_article(
    spec: Path,
    measured: Path | None,
    as_template: bool,
    confidence: str,
    write: bool,
    as_json: bool,
    shop: Path | None,
) -> None:
    """Judge a first article, or print the sheet for one.

    Args:
        spec: the plane.
        measured: the filled sheet (CSV), or None with `as_template`.
        as_template: print the sheet and nothing else.
        confidence: of the intervals, such as "95%".
        write: add the lines to the practice file.
        as_json: print one JSON object.
        shop: the works' practice, or None.
    """
    if as_template == (measured is not None):
        read = "both" if as_template else "neither"
        raise option_fault("MEASURED.csv or --template", read, "the filled sheet, or --template for an empty one")
    if as_template and (write or as_json):
        raise option_fault("--template", "with --write or --json", "--template alone: it prints the sheet (CSV)")
    sure = read_option("--confidence", confidence, units.FRACTION, 0.0)
    if not sure < 1.0:
        raise option_fault("--confidence", confidence, "less than 100%")
    d = load_design(spec, shop)
    if as_template:
        typer.echo(template(d), nl=False)
        return
    assert measured is not None
    practice = shop_path(spec, shop)
    if write and practice is None:
        raise option_fault("--write", "no shop.toml", "a practice file beside the spec, or one named with --shop")
    found = judge(d, measured, sure)
    if as_json:
        print_json({m.metal.id: _json(m) for m in found})
    else:
        typer.echo(f"{d.spec.plane.name}, revision {d.spec.plane.revision}: first article {measured}")
        for m in found:
            typer.echo("\n".join(_text(m)))
    if write and practice is not None:
        take_over(practice, {m.metal.id: m.lines for m in found})
        added = ", ".join(f"[contraction.{m.metal.id}]" for m in found)
        typer.echo(f"{practice}: added {added}", err=as_json)


def _json(m: Measured) -> dict[str, Any]:
    return {
        "parts": list(m.parts),
        "axes": {a.axis: asdict(a) for a in m.result.axes},
        "features": [asdict(f) for f in m.result.features],
        "disagreeing": [f.feature for f in m.result.disagreeing],
        "notes": list(m.notes),
        "shop_lines": list(m.lines),
    }


def _percent(s: float) -> str:
    return f"{100 * s:.3f} % ({12 * s:.4f} in/ft)"


def _text(m: Measured) -> list[str]:
    low, high = m.metal.contraction_low, m.metal.contraction_high
    lines = ["", f"{m.metal.name}, from {', '.join(m.parts)}; usual {100 * low:.2f} to {100 * high:.2f} %"]
    for a in m.result.axes:
        band = "one size only: no interval"
        if a.low is not None and a.high is not None:
            band = f"{100 * a.low:.3f} to {100 * a.high:.3f} % at {a.confidence:.0%}"
        odd = "" if low <= a.contraction <= high else "; outside the usual"
        many = f"{a.features} feature{'s'[: a.features != 1]}, {a.castings} casting{'s'[: a.castings != 1]}"
        lines.append(f"  {a.axis}  {_percent(a.contraction)}  {band}; {many}{odd}")
    width = max(len(f.feature) for f in m.result.features)
    lines.append(f"  {'feature':<{width}}  axis {'pattern':>10} {'casting':>10} {'shows':>9} {'off':>9}")
    for f in m.result.features:
        lines.append(
            f"  {f.feature:<{width}}  {f.axis:<4} {f.pattern_mm:>7.2f} mm {f.casting_mm:>7.2f} mm "
            f"{100 * f.contraction:>7.3f} % {f.residual_mm:>6.2f} mm  {f.note}".rstrip()
        )
    names = ", ".join(f.feature for f in m.result.disagreeing)
    lines.append(f"  disagree with their axis and are left out of it: {names or 'none'}")
    lines += [f"  note: {note}" for note in m.notes]
    return [*lines, "  for shop.toml:", *(f"    {line}" for line in m.lines)]
