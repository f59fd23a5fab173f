"""What works where a size does not follow from a sibling: other lengths, other keys in the sibling; all tried."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from parts.plane.rules.trial import with_value
from parts.plane.shop import ShopSpec
from parts.plane.sibling import LENGTH_RATIO, Wish, covered
from parts.plane.sibling_fit import first_draft, fit, judged
from parts.plane.spec import LoadedSpec
from shared.errors import InputError
from shared.human import said
from shared.units import MM_PER_IN

Range = Callable[[str, str, str], tuple[float, float]]  # kind, table, key -> least and greatest
COARSE, FINE = {"inch": 0.5 * MM_PER_IN, "mm": 10.0}, {"inch": 0.125 * MM_PER_IN, "mm": 2.0}  # steps of length [mm]
BED_TURNS = (5.0, -5.0, 10.0, -10.0)  # of the bed, tried one after the other [deg]


def what_works(loaded: LoadedSpec[Any], wish: Wish, shop: ShopSpec, stated: Range) -> str:
    """Return what would work in place of a size that is refused, in a sentence or two.

    Args:
        loaded: the sibling.
        wish: the size that is refused.
        shop: the works' practice.
        stated: gives the range that a spec allows for a length.
    """
    units, kind = loaded.spec.units, loaded.spec.plane.kind
    spans = _spans(loaded, wish, shop, covered(loaded.spec.body.length, LENGTH_RATIO, stated(kind, "body", "length")))
    lengths = ", ".join(said(a, units) if a == b else f"{said(a, units)} to {said(b, units)}" for a, b in spans)
    ways = " or ".join(filter(None, (smaller_grip(loaded, wish, shop, stated), _bed(loaded, wish, shop))))
    return f"Lengths that work with this blade: {lengths or 'none'}." + (f" In the sibling: {ways}." if ways else "")


def follows(loaded: LoadedSpec[Any], wish: Wish, shop: ShopSpec) -> bool:
    """Return whether a size follows from a sibling that itself passes its checks."""
    spec = loaded.spec
    own = judged(first_draft(loaded, Wish(spec.plane.name, spec.body.length, spec.blade.width)), shop)
    if not own.works:
        return False
    return fit(first_draft(loaded, wish), shop, {f.code for f in own.warned})[1].works


def _spans(
    loaded: LoadedSpec[Any], wish: Wish, shop: ShopSpec, within: tuple[float, float]
) -> list[tuple[float, float]]:  # fmt: skip
    """Return the spans of length that work [mm]: by coarse steps over a range, their ends by fine ones."""
    coarse, fine = COARSE[loaded.spec.units], FINE[loaded.spec.units]
    least, greatest = math.ceil(within[0] / fine - 1e-6), math.floor(within[1] / fine + 1e-6)
    ratio, known = round(coarse / fine), {}

    def works(i: int) -> bool:
        if i not in known:
            known[i] = follows(loaded, Wish(wish.name, i * fine, wish.blade_width), shop)
        return known[i]

    spans: list[tuple[int, int]] = []
    for i in range(math.ceil(least / ratio) * ratio, greatest + 1, ratio):
        if not works(i):
            continue
        if spans and i - spans[-1][1] <= ratio:
            spans[-1] = spans[-1][0], i
        else:
            spans.append((i, i))
    return [(_end(a, -1, least, greatest, works) * fine, _end(b, 1, least, greatest, works) * fine) for a, b in spans]


def _end(at: int, way: int, least: int, greatest: int, works: Callable[[int], bool]) -> int:
    while least <= at + way <= greatest and works(at + way):
        at += way
    return at


def smaller_grip(loaded: LoadedSpec[Any], wish: Wish, shop: ShopSpec, stated: Range) -> str:
    """Return the greatest grip, smaller than the sibling's, from which the size follows; "" where none does.

    Args:
        loaded: the sibling.
        wish: the size that is refused.
        shop: the works' practice.
        stated: gives the range that a spec allows for a length.
    """
    spec, now = loaded.spec, getattr(loaded.spec.handle, "grip", None)
    if now is None:
        return ""
    step = FINE[spec.units]
    least = stated(spec.plane.kind, "handle", "grip")[0]
    low, high = math.ceil(least / step - 1e-6), math.ceil(now / step - 1e-6) - 1

    def works(i: int) -> bool:
        return _so(loaded, wish, shop, "handle.grip", f"{i * step:.6f} mm")

    if high < low or not works(low):
        return ""
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if works(middle) else (low, middle - 1)
    return f"lower handle.grip to {said(low * step, spec.units)}"


def _bed(loaded: LoadedSpec[Any], wish: Wish, shop: ShopSpec) -> str:
    """Return another bed angle from which the size follows, the nearest first; "" where none does."""
    now = loaded.spec.bed.angle
    angle = next((now + t for t in BED_TURNS if _so(loaded, wish, shop, "bed.angle", f"{now + t:g} deg")), None)
    return "" if angle is None else f"{'raise' if angle > now else 'lower'} bed.angle to {angle:g} deg"


def _so(loaded: LoadedSpec[Any], wish: Wish, shop: ShopSpec, key: str, value: str) -> bool:
    """Return whether the size follows once a key of the sibling has another value, as a spec writes it."""
    try:
        return follows(with_value(loaded, {key: value}), wish, shop)
    except InputError:
        return False
