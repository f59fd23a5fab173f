"""`planewright new`: a new plane size from a sibling, written as a commented spec."""

from __future__ import annotations

from pathlib import Path

import typer

from parts.commands.load import shop_path
from parts.commands.show import option_fault, print_json, read_option
from parts.plane import kinds
from parts.plane.shop import load_shop
from parts.plane.sibling import Wish
from parts.plane.sibling_spec import NewSize, sized
from parts.plane.spec import load_spec, slug
from shared.errors import Fault, InputError, PlanewrightError
from shared.files import write_new
from shared.human import said
from shared.specfile import read_text
from shared.units import LENGTH


def run_new(
    name: str, like: Path, length: str, blade_width: str, kind: str | None, out: Path | None, as_json: bool,
    shop: Path | None,
) -> None:  # fmt: skip
    """Size a plane from a sibling and write its spec; nothing that exists is ever overwritten.

    Args:
        name: of the new plane.
        like: the sibling's spec.
        length: body length as written, with its unit.
        blade_width: blade width as written, with its unit.
        kind: the kind wanted; it must be the sibling's. None takes the sibling's.
        out: file to write; None puts it beside the sibling.
        as_json: print one JSON object.
        shop: the works' practice, or None.
    """
    if not slug(name) or len(name) > 60:
        raise option_fault("NAME", name, "1 to 60 characters with at least one letter or digit")
    long, wide = read_option("--length", length, LENGTH, 0.0), read_option("--blade-width", blade_width, LENGTH, 0.0)
    wish = Wish(name, long, wide)
    loaded = load_spec(like)
    _same_kind(kind, loaded.spec.plane.kind, like)
    target = like.parent / f"{slug(name)}.toml" if out is None else out
    _is_free(target, name)
    made = sized(loaded, wish, load_shop(shop_path(target, shop)))
    write_new(target, made.text)
    if as_json:
        print_json(_as_json(made, target))
    else:
        _print(made, target, loaded.spec, wish)


def _same_kind(kind: str | None, sibling: str, like: Path) -> None:
    if kind is None or kind == sibling:
        return
    if kind not in kinds.KINDS:
        raise option_fault("--kind", kind, "one of " + ", ".join(kinds.KINDS))
    others = [str(p) for p in sorted(like.parent.glob("*.toml")) if _plane_of(p).get("kind") == kind]
    hint = "such as --like " + others[0] if others else f"there is none in {like.parent}/ yet: write the first by hand"
    raise InputError(Fault("command line", "--like", f"{like}, kind {sibling}", f"a sibling of kind {kind}", hint))


def _plane_of(path: Path) -> dict[str, object]:
    """Return the [plane] table of a file; empty where there is none to be read."""
    try:
        table = read_text(path).data.get("plane")
    except PlanewrightError:
        return {}
    return table if isinstance(table, dict) else {}


def _is_free(target: Path, name: str) -> None:
    if target.suffix != ".toml":
        raise option_fault("--out", str(target), "a file that ends in .toml")
    if target.exists():
        allowed = "a name whose file is not there yet"
        raise InputError(Fault(str(target), "NAME", repr(name), allowed, "nothing was written"))
    if not target.parent.is_dir():
        raise InputError(Fault(str(target.parent), "--out", "no such folder", "a file in a folder that exists"))
    for path in sorted(target.parent.glob("*.toml")):
        if slug(str(_plane_of(path).get("name", ""))) == slug(name):
            allowed = f"another name: the plane in {path} has it (folder {slug(name)}/)"
            raise InputError(Fault("command line", "NAME", repr(name), allowed, "nothing was written"))


def _as_json(made: NewSize, target: Path) -> dict[str, object]:
    return {
        "spec": str(target),
        "decisions": [{"key": k, "value": v, "reason": r} for k, v, r in made.decisions],
        "counts": {"passed": made.verdict.passed, "warning": len(made.verdict.warned), "failed": 0},
        "warnings": [f.as_json() for f in made.verdict.warned],
    }


def _print(made: NewSize, target: Path, spec: object, wish: Wish) -> None:
    units = spec.units  # type: ignore[attr-defined]
    typer.echo(f"{target}: {wish.name}, {said(wish.length, units)} long, blade {said(wish.blade_width, units)}")
    wide = max(len(key) for key, _, _ in made.decisions)
    for key, value, reason in made.decisions:
        typer.echo(f"  {key:<{wide}}  {value:>10}  {reason}")
    typer.echo(f"  everything else stays as on {spec.plane.name}; the file says why")  # type: ignore[attr-defined]
    warned = "".join(f"; {f.code} {f.rule}: {f.value}, limit {f.limit}" for f in made.verdict.warned)
    typer.echo(f"  check: {made.verdict.passed} passed, {len(made.verdict.warned)} warnings{warned}")
    typer.echo(f"What to do next: planewright check {target}")
