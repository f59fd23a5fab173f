"""`planewright diff`: what changed between two revisions or sizes, and what that means for each shop."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import typer

from parts.commands.load import shop_path
from parts.commands.show import print_json
from parts.plane.design import Design, design
from parts.plane.diff import (
    KeyChange,
    Moved,
    cards_affected,
    keys_changed,
    models_affected,
    numbers_moved,
    parts_affected,
    parts_of,
    practice_changed,
)
from parts.plane.numbers import plane_numbers
from parts.plane.reissue import built_files, to_reissue
from parts.plane.reuse import Answer, Reuse, reuse
from parts.plane.shop import load_shop
from parts.plane.spec import LoadedSpec, load_spec
from shared.errors import InputError

WIDE = 34  # a value is cut to this in the table
REASONS = 4  # so many are said in the text, all of them in the JSON
SHEETS = ("step", "dxf", "pdf")  # folders whose files are called after the part
OTHERS = ("cards/blade", "cards/pour", "lists/pattern", "cut-plan/plan", "numbers.json", "book.html", "pictures/plane")


@dataclass(frozen=True, eq=False, repr=False)
class Difference:
    """All that differs."""

    old: Design
    new: Design
    keys: list[KeyChange]
    practice: list[str]
    numbers: list[Moved]
    parts: list[str]
    reuse: list[Reuse]
    folder: Path
    built: bool
    papers: list[str]
    outside: dict[str, float]  # by the models, where asked for [mm3]


def run_diff(old: Path, new: Path, out: Path, solids: bool, as_json: bool, shop: Path | None) -> None:
    """Compare two specs.

    Args:
        old: spec of the plane as it was.
        new: spec of the plane as it will be, of the same kind.
        out: folder of the outputs, a folder a plane.
        solids: look at the models too, for castings in stock.
        as_json: print one JSON object.
        shop: the works' practice, or None for shop.toml beside each spec.
    """
    loaded = _both(old, new)
    found = _compare(loaded[0], loaded[1], [shop_path(spec, shop) for spec in (old, new)], out, solids)
    if as_json:
        print_json(_as_json(found))
    else:
        _print(found)


def _both(old: Path, new: Path) -> tuple[LoadedSpec[Any], LoadedSpec[Any]]:
    loaded, faults = [], []
    for path in (old, new):
        try:
            loaded.append(load_spec(path))
        except InputError as err:
            faults += err.faults
    if faults:
        raise InputError(faults)
    a, b = loaded
    if a.spec.plane.kind != b.spec.plane.kind:
        allowed = f"{a.spec.plane.kind}, the kind of {old}: planes of different kinds share no key to compare by"
        hint = f"planewright numbers {old} {new} sets them side by side"
        raise InputError(b.source.fault("plane.kind", allowed, hint))
    return a, b


def _compare(
    old: LoadedSpec[Any], new: LoadedSpec[Any], shops: list[Path | None], out: Path, solids: bool
) -> Difference:  # fmt: skip
    practices = [load_shop(path) for path in shops]
    a, b = design(old, practices[0]), design(new, practices[1])
    keys = keys_changed(old, new)
    moved = numbers_moved(plane_numbers(a), plane_numbers(b))
    parts = parts_affected(a, b, keys, moved)
    stale = [*parts, *cards_affected(moved)]
    kept = reuse(a, b)
    same = {r.pattern.part for r in kept if r.same_casting}
    folder = out / old.folder
    files = built_files(folder)
    outside: dict[str, float] = {}
    if solids:
        from parts.plane.solid_reuse import outside_old_casting

        outside = outside_old_casting(a, b, parts)
    return Difference(
        a, b, keys, practice_changed(*practices), moved, parts, kept, folder, bool(files),
        to_reissue(files or _likely(parts), parts_of(a), stale, same, models_affected(a, b, keys)), outside,
    )  # fmt: skip


def _likely(parts: list[str]) -> list[str]:
    """Return what papers of some parts are called, for a plane that was never built."""
    return [f"{folder}/{part}" for part in parts if part != "hardware" for folder in SHEETS] + list(OTHERS)


def _stock(d: Difference, r: Reuse) -> Answer:
    """Return what becomes of castings in stock, the models' word included where it was asked."""
    volume = d.outside.get(r.stock.part)
    if volume is None:
        return r.stock
    from parts.plane.solid_reuse import NOTHING

    if volume > NOTHING:
        why = f"by the models {volume:.1f} mm³ of the new part lie outside the old casting"
        return Answer(r.stock.part, False, (why, *(() if r.stock.yes else r.stock.why)))
    return Answer(r.stock.part, r.stock.yes, (*r.stock.why, "by the models the new part lies inside the old casting"),
                  r.stock.least_stock_mm)  # fmt: skip


def _as_json(d: Difference) -> dict[str, Any]:
    def side(x: Design) -> dict[str, str]:
        return {"spec": x.loaded.source.path, "plane": x.spec.plane.name, "revision": x.spec.plane.revision}

    return {
        "old": side(d.old),
        "new": side(d.new),
        "keys": [asdict(k) for k in d.keys],
        "practice": d.practice,
        "numbers": [{**asdict(m), "change": m.change} for m in d.numbers],
        "parts": d.parts,
        "papers": {"folder": str(d.folder), "built": d.built, "reissue": d.papers},
        "patterns": [_answer(r.pattern) for r in d.reuse],
        "stock": [_answer(_stock(d, r)) for r in d.reuse],
    }


def _answer(a: Answer) -> dict[str, Any]:
    return {"part": a.part, "usable": a.yes, "why": list(a.why), "least_stock_mm": a.least_stock_mm}


def _print(d: Difference) -> None:
    a, b = d.old.spec.plane, d.new.spec.plane
    typer.echo(f"{a.name}, revision {a.revision}  ->  {b.name}, revision {b.revision}")
    if not d.keys and not d.practice:
        typer.echo("no key differs: nothing to do")
        return
    _table(f"Keys changed: {len(d.keys)}", [
        (k.key, k.old, "->", k.new, "  ".join(dict.fromkeys((k.old_at, k.new_at)))) for k in d.keys
    ])  # fmt: skip
    if d.practice:
        typer.echo(f"Practice differs: {', '.join(d.practice)}")
    _table(f"Numbers moved: {len(d.numbers)}", [_number(m) for m in d.numbers])
    typer.echo(f"Parts affected: {', '.join(d.parts) or 'none'}")
    where = f"of {d.folder}/: {len(d.papers)}" if d.built else f"by name, since {d.folder}/ was not built"
    typer.echo(f"Papers to issue again, {where}")
    for folder in dict.fromkeys(path.rpartition("/")[0] for path in d.papers):
        names = [path.rpartition("/")[2] for path in d.papers if path.rpartition("/")[0] == folder]
        typer.echo(f"  {folder + '/' if folder else ''}: {', '.join(names)}" if folder else f"  {', '.join(names)}")
    typer.echo("Patterns")
    for r in d.reuse:
        _say(r.pattern, "still serves", "make new")
    typer.echo("Castings in stock")
    for r in d.reuse:
        _say(_stock(d, r), "can be reworked", "no use")
    if d.keys and a.name == b.name and a.revision == b.revision:
        typer.echo(f"The revision is still {a.revision}: raise plane.revision before the papers go out.")


def _number(m: Moved) -> tuple[str, ...]:
    change = "" if m.change is None else f"{m.change:+.4g} {m.unit}".rstrip()
    percent = "" if m.percent is None else f"{m.percent:+.1f} %"
    return m.number, _value(m.old, m.unit), "->", _value(m.new, m.unit), change, percent


def _value(value: Any, unit: str) -> str:
    if value is None:
        return "none"
    if isinstance(value, float):
        text = f"{value:.5g}"
    elif isinstance(value, list):
        text = f"{len(value)} entries" if value and isinstance(value[0], dict) else ", ".join(str(v) for v in value)
    else:
        text = str(value)
    text = f"{text} {unit}".rstrip()
    return text if len(text) <= WIDE else text[: WIDE - 3] + "..."


def _table(title: str, rows: list[tuple[str, ...]]) -> None:
    typer.echo(title)
    if not rows:
        return
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    for row in rows:
        typer.echo("  " + "  ".join(cell.ljust(w) for cell, w in zip(row, widths, strict=True)).rstrip())


def _say(a: Answer, yes: str, no: str) -> None:
    left = f"; least stock left {a.least_stock_mm:.2f} mm" if a.yes and a.least_stock_mm is not None else ""
    why = "; ".join(a.why[:REASONS]) + (f"; and {len(a.why) - REASONS} more" if len(a.why) > REASONS else "")
    typer.echo(f"  {a.part}: {yes if a.yes else no}: {why}{left}")
