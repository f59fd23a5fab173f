"""Reading what every command needs: spec, practice, resolved design."""

from __future__ import annotations

from pathlib import Path

from parts.plane.design import Design, design
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec
from shared.errors import Fault, InputError
from shared.specfile import read_text

NOT_PLANES = {"shop.toml"}


def shop_path(spec: Path, shop: Path | None) -> Path | None:
    """Return the practice file: as asked, else shop.toml beside the spec, else None for the built-in practice."""
    if shop is not None:
        return shop
    beside = spec.parent / "shop.toml"
    return beside if beside.is_file() else None


def load_design(spec: Path, shop: Path | None) -> Design:
    """Read one plane and resolve it.

    Raises:
        InputError: a fault in spec or practice, one message each.
    """
    loaded = load_spec(spec)
    return design(loaded, load_shop(shop_path(spec, shop)))


def load_designs(specs: list[Path], shop: Path | None) -> list[Design]:
    """Read several planes; the faults of all are collected before any is refused.

    Raises:
        InputError: with the faults of every file.
    """
    designs: list[Design] = []
    faults: list[Fault] = []
    for spec in specs:
        try:
            designs.append(load_design(spec, shop))
        except InputError as err:
            faults += err.faults
    if faults:
        raise InputError(faults)
    return designs


def all_specs(folder: Path) -> list[Path]:
    """Return every plane's spec in a folder, sorted; files without a [plane] table are left out.

    Raises:
        InputError: no plane there.
    """
    found = []
    for path in sorted(folder.glob("*.toml")):
        if path.name not in NOT_PLANES and "plane" in read_text(path).data:
            found.append(path)
    if not found:
        hint = "name one: planewright build path/to/plane.toml"
        raise InputError(
            Fault(str(folder), "specs", "no plane's spec", "at least one *.toml with a [plane] table", hint)
        )
    return found
