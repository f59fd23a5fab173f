"""A new plane size from a sibling, ready to write: the spec's text with the reason of every size, or why not."""

from __future__ import annotations

from functools import cache
from typing import Any

from parts.plane import kinds
from parts.plane.shop import ShopSpec
from parts.plane.sibling import LENGTH_RATIO, WIDTH_RATIO, Wish, covered
from parts.plane.sibling_fit import Draft, Verdict, decisions, first_draft, fit, judged
from parts.plane.sibling_other import what_works
from parts.plane.spec import LoadedSpec
from shared.errors import Fault, InputError, RequestError
from shared.fields import RANGE
from shared.human import said
from shared.record import Record
from shared.units import both_units

REASON_AT = 34  # column of the comments


class NewSize(Record):
    """A sized plane: text of its spec, what was decided, what the checks say of it."""

    text: str
    decisions: list[tuple[str, str, str]]  # key, size as said, reason
    verdict: Verdict


@cache
def stated_range(kind: str, section: str, key: str) -> tuple[float, float]:
    """Return the range that a spec of a kind allows for one of its lengths [mm], as its schema states it."""
    schema = kinds.of(kind, "spec").Spec.model_json_schema()
    table = schema["$defs"][schema["properties"][section]["$ref"].rpartition("/")[2]]
    said_of = table["properties"][key]
    # a key that may be left out says its range in the first of its forms
    low, high, _ = next(form[RANGE] for form in (said_of, *said_of.get("anyOf", ())) if RANGE in form)
    return float(low), float(high)


def _check_covered(spec: Any, wish: Wish) -> None:
    kind, faults = spec.plane.kind, []
    for option, section, key, value, ratios in (
        ("--length", "body", "length", wish.length, LENGTH_RATIO),
        ("--blade-width", "blade", "width", wish.blade_width, WIDTH_RATIO),
    ):
        old = getattr(getattr(spec, section), key)
        low, high = covered(old, ratios, stated_range(kind, section, key))
        if not low - 1e-6 <= value <= high + 1e-6:
            faults.append(
                Fault(
                    "command line",
                    option,
                    both_units(value, spec.units),
                    f"{both_units(low, spec.units)} to {both_units(high, spec.units)}: what the rules cover "
                    f"from {spec.plane.name} ({said(old, spec.units)})",
                    "a sibling nearer to it reaches farther",
                )
            )
    if faults:
        raise InputError(faults)


def sized(loaded: LoadedSpec[Any], wish: Wish, shop: ShopSpec) -> NewSize:
    """Size a new plane from a sibling.

    Args:
        loaded: the sibling.
        wish: name, length [mm] and blade width [mm] of the new plane.
        shop: the works' practice.

    Raises:
        InputError: a length or blade width that no rule covers.
        RequestError: the sibling itself fails its checks, or no plane of this size passes; says which lengths do.
    """
    spec = loaded.spec
    _check_covered(spec, wish)
    sibling = first_draft(loaded, Wish(spec.plane.name, spec.body.length, spec.blade.width))
    own = judged(sibling, shop)
    if not own.works:
        raise RequestError(f"{loaded.source.path} is no sibling to size from: it fails its own checks: {own.says()}")
    accepted = {f.code for f in own.warned}
    draft, verdict = fit(first_draft(loaded, wish), shop, accepted)
    if not verdict.works:
        raise RequestError(
            f"no {spec.plane.kind} plane of {said(wish.length, spec.units)} with a blade of "
            f"{said(wish.blade_width, spec.units)} follows from {spec.plane.name}: {verdict.says()}.\n"
            + what_works(loaded, wish, shop, stated_range)
        )
    return NewSize(_text(draft, loaded, wish), decisions(draft), judged(draft, shop, advised=True))


def _text(draft: Draft, loaded: LoadedSpec[Any], wish: Wish) -> str:
    plane = loaded.spec.plane
    lines = [
        f"# {wish.name}, sized from {plane.name} (revision {plane.revision}) for a length of "
        f"{said(wish.length, draft.units)} and a blade of {said(wish.blade_width, draft.units)}.",
        "# Each line says what decides it; change what you like and ask `planewright check` again.",
        _line("units", f'"{draft.units}"', "unit of bare lengths; bare angles are degrees"),
    ]
    for table, rows in draft.tables():
        lines += ["", f"[{table}]", *(_line(key, entry.toml, entry.comment) for key, entry in rows)]
    return "\n".join(lines) + "\n"


def _line(key: str, value: str, comment: str) -> str:
    return f"{key} = {value}".ljust(REASON_AT) + f"# {comment}" if comment else f"{key} = {value}"
