"""What differs between two revisions or two sizes of a plane: keys, numbers and parts."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass, fields, is_dataclass
from math import isclose
from typing import Any

from parts.plane.design import Design
from parts.plane.shop import ShopSpec
from parts.plane.spec import LoadedSpec
from shared.numbers import Number, Numbers, Value
from shared.record import Record
from shared.specfile import SourceText, flat_keys

NOISE = 1e-6  # share of a number that rounding may move
NOISE_MM = 5e-4  # and of a length, in any case [mm]

# which part a size of the design belongs to; a name that is not here is a part's own
PART_OF = {
    "body_alloy": "body",
    "contraction": "body",
    "master": "body",
    "frog_alloy": "frog",
    "cap_alloy": "lever-cap",
    "lever_cap": "lever-cap",
    "tote_at": "plane",
    "knob_x": "plane",
    "lateral": "plane",
}
MECHANISM = {"depth", "lateral", "holddown", "cap_screw", "chipbreaker_screw"}  # small parts listed with it
# says nothing of a shape: where it comes from, why, or what other sizes are already made from
NO_SHAPE = {"loaded", "shop", "stations", "foot_plane_z", "decided_by", "orientation", "source", "sources"}
# what no size shows: the stuff that a part is made of, and its treatment
MADE_OF = {
    "blade.steel": ("blade",),
    "blade.hardness": ("blade",),
    "blade.cold_treatment": ("blade",),
    "blade.wheel_diameter": ("blade",),
    "handle.species": ("tote", "knob"),
}
# keys that change a model without changing a size of its part: the blade is seated and cambered by its bed, and
# the wood is shown in its colour
SHOWN_BY = {"bed.angle": ("blade",), "handle.species": ("tote", "knob")}
# whose sheets print the numbers of a group; a group that is not here is a part's own
NUMBERS_OF = {"bedding": (), "plane": (), "lever_cap": ("lever-cap",), "toe_piece": ("body",)}
WOODEN = {"tote": ("tote",), "knob": ("knob",)}  # by how a number of the handle begins; any other is of both
# cards that print numbers of other groups than their part's
CARDS = {"blade-card": ("blade", "bedding", "chipbreaker")}
Leaf = float | int | str | bool | None


@dataclass(frozen=True)
class KeyChange:
    """A key whose value differs: as written in both files, and where; "left out" where it is not written."""

    key: str
    old: str
    new: str
    old_at: str
    new_at: str


@dataclass(frozen=True)
class Moved:
    """A number that differs; `percent` where both are numbers and the old one is not 0."""

    number: str
    unit: str
    old: Value | None
    new: Value | None
    percent: float | None

    @property
    def change(self) -> float | None:
        """New less old, where both are plain numbers [unit]."""
        if _is_number(self.old) and _is_number(self.new):
            return float(self.new) - float(self.old)  # type: ignore[arg-type]
        return None


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _written(source: SourceText, key: str) -> str:
    node: Any = source.data
    for bit in key.split("."):
        if not isinstance(node, dict) or bit not in node:
            return "left out"
        node = node[bit]
    return json.dumps(node, ensure_ascii=False)


def keys_changed(old: LoadedSpec[Any], new: LoadedSpec[Any]) -> list[KeyChange]:
    """Return the keys whose values differ; one size written in two ways is no change.

    Args:
        old: a spec.
        new: another of the same kind.
    """
    before, after = dict(flat_keys(old.spec.model_dump())), dict(flat_keys(new.spec.model_dump()))
    found = []
    for key in dict.fromkeys([*before, *after]):
        a, b = before.get(key), after.get(key)
        same = isclose(a, b, rel_tol=1e-9, abs_tol=1e-9) if isinstance(a, float) and isinstance(b, float) else a == b
        if not same:
            found.append(
                KeyChange(key, _written(old.source, key), _written(new.source, key), old.source.where(key),
                          new.source.where(key))
            )  # fmt: skip
    return found


def practice_changed(old: ShopSpec, new: ShopSpec) -> list[str]:
    """Return the keys in which two shops' practice differs."""
    before, after = dict(flat_keys(old.model_dump())), dict(flat_keys(new.model_dump()))
    return [key for key in dict.fromkeys([*before, *after]) if before.get(key) != after.get(key)]


def numbers_moved(old: dict[str, Numbers], new: dict[str, Numbers]) -> list[Moved]:
    """Return the numbers that differ by more than rounding, part by part.

    Args:
        old: part -> numbers.
        new: the same of the other plane.
    """
    found = []
    for part in dict.fromkeys([*old, *new]):
        before, after = _by_key(old.get(part)), _by_key(new.get(part))
        for key in dict.fromkeys([*before, *after]):
            a, b = before.get(key), after.get(key)
            if a is not None and b is not None and _alike(a.value, b.value, a.unit):
                continue
            known = a or b
            assert known is not None
            va, vb = (None if a is None else a.value), (None if b is None else b.value)
            percent = None
            if _is_number(va) and _is_number(vb) and va:
                percent = 100.0 * (float(vb) - float(va)) / abs(float(va))  # type: ignore[arg-type]
            found.append(Moved(f"{part}.{key}", known.unit, va, vb, percent))
    return found


def _by_key(numbers: Numbers | None) -> dict[str, Number]:
    return {} if numbers is None else {n.key: n for n in numbers}


def _alike(a: Any, b: Any, unit: str) -> bool:
    if _is_number(a) and _is_number(b):
        return isclose(a, b, rel_tol=NOISE, abs_tol=NOISE_MM if unit == "mm" else 1e-9)
    if isinstance(a, list) and isinstance(b, list):
        return len(a) == len(b) and all(_alike(x, y, unit) for x, y in zip(a, b, strict=True))
    if isinstance(a, dict) and isinstance(b, dict):
        return a.keys() == b.keys() and all(_alike(a[k], b[k], unit) for k in a)
    return bool(a == b)


def field_names(size: Any) -> tuple[str, ...]:
    """Return the names of a record's or dataclass's fields; none of anything else."""
    if isinstance(size, Record):
        return size._fields
    return tuple(f.name for f in fields(size)) if is_dataclass(size) else ()


def leaves(size: Any, above: str = "") -> dict[str, Leaf]:
    """Return every plain value within a resolved size, by its path; what says nothing of a shape is left out.

    Args:
        size: a record or dataclass of sizes, or a tuple of them.
        above: path of it.
    """
    found: dict[str, Leaf] = {}
    if names := field_names(size):
        for name in names:
            if name not in NO_SHAPE and not name.endswith("decided_by"):
                found |= leaves(getattr(size, name), f"{above}.{name}" if above else name)
    elif isinstance(size, tuple | list):
        for i, item in enumerate(size):
            found |= leaves(item, f"{above}.{i}")
    elif isinstance(size, dict):
        for key, item in size.items():
            found |= leaves(item, f"{above}.{key}")
    elif size is None or isinstance(size, float | int | str | bool):
        found[above] = size
    else:
        raise TypeError(f"{above or 'a plane'}: a {type(size).__name__} has no sizes to compare")
    return found


def changed_leaves(old: Any, new: Any) -> list[str]:
    """Return the paths at which two resolved sizes differ by more than rounding."""
    before, after = leaves(old), leaves(new)
    return [
        path
        for path in dict.fromkeys([*before, *after])
        if path not in before or path not in after or not _alike(before[path], after[path], "mm")
    ]


def _part(path: str) -> str:
    name, _, within = path.partition(".")
    if name == "mechanism":
        name = within.partition(".")[0]
        if name in MECHANISM:
            return "hardware"
    return PART_OF.get(name, name.replace("_", "-"))


def parts_of(d: Design) -> list[str]:
    """Return the names of a plane's parts."""
    return [part for part in dict.fromkeys(_part(path) for path in leaves(d)) if part != "plane"]


def parts_affected(old: Design, new: Design, keys: list[KeyChange], moved: Iterable[Moved] = ()) -> list[str]:
    """Return the parts whose sizes, stuff or printed numbers differ, and "plane", the assembly, with any of them.

    Args:
        old: a resolved plane.
        new: another of the same kind.
        keys: what `keys_changed` found.
        moved: what `numbers_moved` found.
    """
    paths = changed_leaves(old, new)
    found = dict.fromkeys(_part(path) for path in paths)
    found |= dict.fromkeys(part for change in keys for part in MADE_OF.get(change.key, ()))
    there = {*parts_of(old), *parts_of(new)}
    found |= dict.fromkeys(part for m in moved for part in _printed_by(m.number) if part in there)
    found.pop("plane", None)
    places = any(_part(path) == "plane" for path in paths)
    return [*found, *(["plane"] if found or places else [])]


def _printed_by(number: str) -> tuple[str, ...]:
    """Return the parts whose own papers print a number, by its group and key."""
    group, _, key = number.partition(".")
    if group == "handle":
        return WOODEN.get(key.partition("_")[0], ("tote", "knob"))
    return NUMBERS_OF.get(group, (group.replace("_", "-"),))


def cards_affected(moved: Iterable[Moved]) -> list[str]:
    """Return the cards that print a number that moved, though none of their part's may have: such as "blade-card"."""
    groups = {m.number.partition(".")[0] for m in moved}
    return [card for card, prints in CARDS.items() if groups & set(prints)]


def models_affected(old: Design, new: Design, keys: list[KeyChange]) -> set[str]:
    """Return the parts whose models differ, and "plane" where any does or stands elsewhere.

    Args:
        old: a resolved plane.
        new: another of the same kind.
        keys: what `keys_changed` found.
    """
    found = {_part(path) for path in changed_leaves(old, new)}
    found |= {part for change in keys for part in SHOWN_BY.get(change.key, ())}
    return found | ({"plane"} if found else set())
