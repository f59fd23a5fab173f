"""Advice that has been tried: a plane with the key changed as said, so that no advice is refused when followed."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any

from parts.plane.design import Design, design
from parts.plane.spec import LoadedSpec, spec_of
from shared.errors import InputError, RequestError
from shared.human import rounded, said
from shared.specfile import flat_keys, parse_text

Holds = Callable[[Any], bool]
TRIES = 12  # planes looked at for one amount
GROWS = {"raise": 1, "widen": 1, "thicken": 1, "lengthen": 1, "lower": -1, "narrow": -1, "thin": -1, "shorten": -1}


_UNTRIED = ContextVar("untried", default=False)


@contextmanager
def untried() -> Iterator[None]:
    """Leave advice out for the while: of a plane that is only judged, nobody reads it."""
    token = _UNTRIED.set(True)
    try:
        yield
    finally:
        _UNTRIED.reset(token)


def with_keys(d: Design, values: dict[str, float | None]) -> Design | None:
    """Return a plane with some keys changed; None where its spec would be refused.

    Args:
        d: the plane.
        values: dotted key -> its size [mm], or None to leave it out.
    """
    written = {key: None if value is None else f"{value:.6f} mm" for key, value in values.items()}
    try:
        return design(with_value(d.loaded, written), d.shop)
    except (InputError, RequestError):
        return None


def with_value(loaded: LoadedSpec[Any], values: dict[str, str | None]) -> LoadedSpec[Any]:
    """Return a spec with some keys changed.

    Args:
        loaded: the spec.
        values: dotted key -> its value as a spec writes it, with its unit, or None to leave it out.

    Raises:
        InputError: a value that its key does not allow.
    """
    keys = dict(flat_keys(loaded.source.data)) | values
    text = "".join(f"{k} = {json.dumps(v, ensure_ascii=False)}\n" for k, v in keys.items() if v is not None)
    return spec_of(parse_text(loaded.source.path, text))


def size_of(d: Design, key: str, resolved: float | None = None) -> float | None:
    """Return the size of a dotted key [mm]: as set, or else as resolved."""
    node: Any = d.spec
    for bit in key.split("."):
        node = getattr(node, bit, None)
    return float(node) if isinstance(node, float) else resolved


def offer(d: Design, verb: str, key: str, by: float, holds: Holds | None = None, now: float | None = None) -> str:
    """Return advice to move a key one way by about an amount; "" where the plane would be refused or still fail.

    Args:
        d: the plane.
        verb: which way, a word of `GROWS`.
        key: dotted key of a length.
        by: amount [mm], 0 or more; it is rounded up to what one would write.
        holds: whether a plane so changed passes; None asks only that it is not refused.
        now: the key's size where the spec leaves it out [mm].
    """
    from parts.plane.rules.said import FINE, FINEST, SMALL

    size = size_of(d, key, now)
    if size is None or by <= 0 or _UNTRIED.get():
        return ""
    step = FINEST if by < SMALL else FINE
    # the amount is written rounded, so the plane that is tried has the rounded one
    whole = rounded(by, step, d.spec.units, "up")
    tried = with_keys(d, {key: size + GROWS[verb] * whole})
    if tried is None or (holds is not None and not holds(tried)):
        return ""
    return f"{verb} {key} by about {said(whole, d.spec.units)}"


def least_offer(d: Design, verb: str, key: str, first: float, holds: Holds, now: float | None = None) -> str:
    """Return advice by the least amount that does, found by trying; "" where none does.

    Args:
        d: the plane.
        verb: which way, a word of `GROWS`.
        key: dotted key of a length.
        first: amount to try first [mm], above 0.
        holds: whether a plane so changed passes.
        now: the key's size where the spec leaves it out [mm].
    """
    size = size_of(d, key, now)
    if size is None or first <= 0 or _UNTRIED.get():
        return ""

    def does(by: float) -> bool:
        tried = with_keys(d, {key: size + GROWS[verb] * by})
        return tried is not None and holds(tried)

    low, high = 0.0, max(first, 0.1)
    for _ in range(TRIES // 2):
        if does(high):
            break
        low, high = high, 2 * high
    else:
        return ""
    while high - low > 0.02 * high:
        middle = (low + high) / 2
        low, high = (low, middle) if does(middle) else (middle, high)
    return offer(d, verb, key, high, holds, now)


def either(*offers: str) -> str:
    """Return advice from several offers, those that are none left out."""
    return ", or ".join(text for text in offers if text)
