"""Making the sized plane pass its checks: what the rules give first is moved by stated remedies until it does."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import nullcontext
from dataclasses import dataclass, field
from typing import Any

from parts.plane.checks import check_design
from parts.plane.design import design
from parts.plane.rules.trial import untried
from parts.plane.shop import ShopSpec
from parts.plane.sibling import RULES, Origin, Sizes, Wish, reason_of, stays_because
from parts.plane.spec import LoadedSpec, spec_of
from shared.errors import InputError, RequestError
from shared.findings import Finding
from shared.human import Step, rounded, said, written
from shared.record import replace
from shared.specfile import flat_keys, parse_text

MOVES = 60  # a size that needs more is refused


@dataclass(frozen=True)
class Remedy:
    """What moves when a check or a fault calls for it: a key by one step, or keys that are left open again."""

    calls: tuple[str, ...]  # codes of findings, keys of faults
    key: str
    step: Step
    sign: int
    why: str
    leaves_open: tuple[str, ...] = ()
    least: Callable[[Sizes], float] | None = None  # the key is not moved below this [mm]


def _least_toe(sizes: Sizes) -> float:
    """Return the shortest toe that still registers the plane before its edge cuts [mm]: rules B03 and B07."""
    return max(0.22 * sizes["body.length"], sizes["blade.width"])


ROOM = ("H01", "H02", "H04")
REMEDIES = (
    Remedy(ROOM, "body.mouth_from_toe", Step(1 / 8, 3.0), -1, "further ahead, so that hand and tote have their room",
           least=_least_toe),
    Remedy(ROOM, "handle", Step(0, 0), 0, "left open, so that a short body takes the tote's short form",
           ("handle.toe_reach", "handle.foot_length", "handle.lean")),
    Remedy(("B03", "body.mouth_from_toe"), "body.mouth_from_toe", Step(1 / 8, 3.0), -1, "no farther from the toe"),
    Remedy(("B03", "B07"), "body.mouth_from_toe", Step(1 / 8, 3.0), 1, "farther from the toe"),
    Remedy(("C01",), "body.cheek_thickness", Step(1 / 64, 0.2), 1, "so thick that the metal runs"),
    Remedy(("C02", "B01", "B02"), "body.sole_thickness", Step(1 / 32, 0.5), 1, "so thick that threads hold"),
    Remedy(("blade.width", "B04", "F03"), "body.width", Step(1 / 16, 1.0), 1, "so wide that all clears the cheeks"),
    Remedy(("C04",), "body.cheek_height", Step(1 / 16, 1.0), -1, "so low that the sand between the cheeks holds"),
    Remedy(("body.cheek_height",), "body.cheek_height", Step(1 / 16, 1.0), 1, "so high that the frog finds room"),
    Remedy(("B05",), "body.rail_height", Step(1 / 32, 0.5), 1, "so high that the rails stiffen the plate"),
    Remedy(("body.rail_height",), "body.rail_height", Step(1 / 32, 0.5), -1, "below the cheek"),
    Remedy(("blade.length", "A04"), "blade.length", Step(1 / 4, 5.0), 1, "so long that the slot lasts"),
    Remedy(("F01",), "body.sole_thickness", Step(1 / 32, 0.5), -1, "so thin that the blade is held near its edge"),
    Remedy(("F02",), "blade.thickness", Step(0.005, 0.1), 1, "so thick that the edge does not give"),
    Remedy(("B06",), "body.corner_radius", Step(0, 0), 0, "left open to its rule, which fits", ("body.corner_radius",)),
    Remedy(("B06",), "body.root_radius", Step(0, 0), 0, "left open to its rule, which fits", ("body.root_radius",)),
    Remedy(("B06",), "body.mouth_from_toe", Step(1 / 8, 3.0), 1, "farther from the toe, so that knob and ribs fit"),
)  # fmt: skip


@dataclass
class Entry:
    """One line of the new spec: the key's value as TOML, its size where it is one [mm], and the comment."""

    toml: str
    mm: float | None
    comment: str
    ruled: bool = False


@dataclass
class Draft:
    """A new spec in the making: dotted key -> line, in the sibling's order, and what was said on the way."""

    units: str
    entries: dict[str, Entry]
    moved: dict[tuple[str, int], str] = field(default_factory=dict)

    def toml(self) -> str:
        """Return the spec without comments."""
        lines = [f'units = "{self.units}"']
        for table, keys in self.tables():
            lines += [f"[{table}]", *(f"{key} = {entry.toml}" for key, entry in keys)]
        return "\n".join(lines) + "\n"

    def tables(self) -> Iterator[tuple[str, list[tuple[str, Entry]]]]:
        """Yield each table with its keys, in order."""
        for table in dict.fromkeys(key.rpartition(".")[0] for key in self.entries):
            rows = [(k.rpartition(".")[2], e) for k, e in self.entries.items() if k.rpartition(".")[0] == table]
            yield table, rows


@dataclass(frozen=True, eq=False, repr=False)
class Verdict:
    """What the checks say of a draft: findings that are not passed, or what the spec was refused for."""

    failed: list[Finding]
    warned: list[Finding]
    refused: dict[str, str]  # key -> what is allowed
    passed: int = 0

    @property
    def rank(self) -> tuple[int, int, int]:
        """The lower the better."""
        return len(self.refused), len(self.failed), len(self.warned)

    @property
    def works(self) -> bool:
        """Whether it passes its checks."""
        return not self.refused and not self.failed

    def says(self) -> str:
        """Return what still stands in the way, in one line."""
        return "; ".join(
            [*(f"{key}: {allowed}" for key, allowed in self.refused.items()),
             *(f"{f.code} {f.rule}: {f.value}, limit {f.limit}" for f in self.failed)]
        )  # fmt: skip


def judged(draft: Draft, shop: ShopSpec, advised: bool = False) -> Verdict:
    """Return what the checks say of a draft; what to change only where `advised`, since each advice is tried."""
    try:
        plane = design(spec_of(parse_text("new spec", draft.toml())), shop)
        with nullcontext() if advised else untried():
            findings = check_design(plane)
    except InputError as err:
        return Verdict([], [], {fault.key: fault.allowed for fault in err.faults})
    except RequestError as err:
        return Verdict([], [], {"handle": str(err)})
    failed = [f for f in findings if f.verdict == "failed"]
    warned = [f for f in findings if f.verdict == "warning"]
    return Verdict(failed, warned, {}, len(findings) - len(failed) - len(warned))


def first_draft(loaded: LoadedSpec[Any], wish: Wish) -> Draft:
    """Return what the rules give from a sibling, before any check.

    Args:
        loaded: the sibling.
        wish: name, length and blade width of the new plane.
    """
    spec = loaded.spec
    origin = Origin(spec, spec.plane.name)
    ruled = {rule.key: rule for rule in RULES}
    given = dict(flat_keys(loaded.source.data))
    sizes: dict[str, float] = {}
    for rule in RULES:
        if rule.key in given:
            sizes[rule.key] = rounded(rule.size(origin, wish, sizes), rule.step, spec.units, rule.rounds)
    entries: dict[str, Entry] = {}
    for key, value in given.items():
        if key == "plane.name":
            entries[key] = Entry(json.dumps(wish.name, ensure_ascii=False), None, "")
        elif key == "plane.revision":
            entries[key] = Entry('"A"', None, "a new plane begins at A")
        elif key in ("units", "plane.description"):
            continue
        elif key in sizes:
            comment = reason_of(ruled[key], origin, spec.units)
            entries[key] = Entry(written(sizes[key], spec.units), sizes[key], comment, ruled=True)
        else:
            old = origin.value(key)
            entries[key] = Entry(_toml(value), old if isinstance(old, float) else None, stays_because(key, origin.name))
    return Draft(spec.units, entries)


def _toml(value: Any) -> str:
    # what a spec holds besides tables (text, numbers, true and false, lists of them) TOML writes as JSON does
    return json.dumps(value, ensure_ascii=False)


def fit(draft: Draft, shop: ShopSpec, accepted: set[str]) -> tuple[Draft, Verdict]:
    """Move a draft until it passes its checks.

    Args:
        draft: what the rules gave.
        shop: the works' practice.
        accepted: codes of warnings that the sibling has too.

    Returns:
        The best draft met and what the checks say of it; it may not pass.
    """
    best, best_verdict = draft, judged(draft, shop)
    now, verdict = best, best_verdict
    for _ in range(MOVES):
        calls = [*verdict.refused, *(f.code for f in verdict.failed), *(f.code for f in verdict.warned)]
        moved = next((m for c in calls if c not in accepted and (m := _remedied(now, c))), None)
        if moved is None:
            break
        now, verdict = moved, judged(moved, shop)
        if verdict.rank < best_verdict.rank:
            best, best_verdict = now, verdict
        if verdict.works and all(f.code in accepted for f in verdict.warned):
            break
    return best, best_verdict


def _remedied(draft: Draft, call: str) -> Draft | None:
    """Return the draft moved by the first remedy that answers a call; None when none can any more."""
    for remedy in (r for r in REMEDIES if call in r.calls):
        # what has been moved one way for one check is not moved back for another
        if (remedy.key, -remedy.sign) in draft.moved and remedy.sign:
            continue
        moved = _left_open(draft, remedy) if remedy.leaves_open else _stepped(draft, remedy)
        if moved is not None:
            moved.moved = {**draft.moved, (remedy.key, remedy.sign): remedy.why}
            return moved
    return None


def _stepped(draft: Draft, remedy: Remedy) -> Draft | None:
    entry = draft.entries.get(remedy.key)
    if entry is None or entry.mm is None:
        return None
    size = remedy.step.of(draft.units)
    mm = rounded(entry.mm + remedy.sign * size, remedy.step, draft.units)
    least = 0.0 if remedy.least is None else remedy.least({k: e.mm for k, e in draft.entries.items() if e.mm})
    if mm <= 0 or mm < least - 1e-6:
        return None
    first = entry.comment.partition("; then ")[0]
    comment = f"{first}; then {remedy.why}"
    changed = replace(entry, toml=written(mm, draft.units), mm=mm, comment=comment, ruled=True)
    return Draft(draft.units, {**draft.entries, remedy.key: changed})


def _left_open(draft: Draft, remedy: Remedy) -> Draft | None:
    given = [key for key in remedy.leaves_open if key in draft.entries]
    if not given:
        return None
    return Draft(draft.units, {k: e for k, e in draft.entries.items() if k not in given})


def decisions(draft: Draft) -> list[tuple[str, str, str]]:
    """Return (key, size as said, reason) of every key that did not simply stay."""
    found = [(k, said(e.mm, draft.units), e.comment) for k, e in draft.entries.items() if e.ruled and e.mm is not None]
    opened = [(key, "open", why) for (key, sign), why in draft.moved.items() if sign == 0]
    return found + opened
