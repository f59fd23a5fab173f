"""Which patterns still serve, and which castings in stock can be reworked, when a plane changes: by arithmetic.

A change that only takes more metal off keeps the pattern. A casting made for the old plane is known, wherever it is
machined, to stand at least the required allowance outside the old finished face; the new finished face with its own
allowance must lie within that. What stays as cast must stay where it is, or be cut back on the pattern. Where in doubt
the answer is no.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isclose

from parts.plane import kinds
from parts.plane.design import Design
from shared.casting.allowance import dimension_tolerance
from shared.casting.contraction import Contraction
from shared.record import Record

SAME = 0.05  # as-cast sizes nearer than this are the same [mm]
SCATTER = 0.25  # share of its casting tolerance by which an as-cast size may be off; choice of this works
FIXED = {"deg"}  # units of as-cast values that must agree exactly


@dataclass(frozen=True)
class Face:
    """A machined face: how far out it stands from the datum when finished, and what the casting adds [mm]."""

    name: str
    at: float
    stock: float  # nominal
    required: float  # at least


@dataclass(frozen=True)
class AsCast:
    """A size that no machine touches; unit "mm" or "deg".

    `cut` says which way the size goes when metal is cut off the pattern, "less" or "more"; "" where neither would do.
    """

    name: str
    value: float
    unit: str = "mm"
    cut: str = ""


class CastPiece(Record):
    """One casting: its metal, what stays as cast and what is machined, all from one datum."""

    part: str
    alloy: str
    contraction: Contraction
    grade: int  # casting tolerance grade [-]
    as_cast: tuple[AsCast, ...]
    faces: tuple[Face, ...]


@dataclass(frozen=True)
class Answer:
    """Yes or no, and why, in as few words as the shop needs."""

    part: str
    yes: bool
    why: tuple[str, ...]
    least_stock_mm: float | None = None  # nominal, over all machined faces of the new plane in the old casting


class Reuse(Record):
    """What becomes of one casting's pattern and of its castings in stock."""

    pattern: Answer
    stock: Answer
    same_casting: bool  # nothing of the casting changes at all


def cast_pieces(d: Design) -> list[CastPiece]:
    """Return every casting of a plane."""
    found: list[CastPiece] = kinds.of(d.spec.plane.kind, "reuse").cast_pieces(d)
    return found


def reuse(old: Design, new: Design) -> list[Reuse]:
    """Return what becomes of each pattern and of each casting in stock.

    Args:
        old: the plane that patterns and castings were made for.
        new: the plane as it will be, of the same kind.
    """
    before = {piece.part: piece for piece in cast_pieces(old)}
    return [compared(before[piece.part], piece) for piece in cast_pieces(new) if piece.part in before]


def compared(old: CastPiece, new: CastPiece) -> Reuse:
    """Return what becomes of one casting.

    Args:
        old: as it was made.
        new: as it will be.
    """
    against, off, back = _as_cast(old, new)
    short, more, left = _faces(old, new)
    against += short
    nothing = ["nothing of the casting changes"]
    shrink = [] if _same_contraction(old, new) else ["another contraction: every size of the pattern changes"]
    metal = [] if old.alloy == new.alloy else [f"castings in stock are of {old.alloy}, the plane is now of {new.alloy}"]
    cut_back = [f"cut the pattern back: {said}" for said in back]
    touched = [f"a face that stays as cast would have to be cut: {said}" for said in back]
    return Reuse(
        _answer(new.part, [*shrink, *against], [*cut_back, *off, *more] or nothing, left),
        _answer(new.part, [*metal, *against, *touched], [*off, *more] or nothing, left),
        same_casting=not (against or off or back or shrink) and _same_raw(old, new),
    )


def _answer(part: str, against: list[str], kept: list[str], left: float | None) -> Answer:
    return Answer(part, not against, tuple(against or kept), None if against else left)


def _same_raw(old: CastPiece, new: CastPiece) -> bool:
    raw = [{f.name: f.at + f.stock for f in piece.faces} for piece in (old, new)]
    return raw[0].keys() == raw[1].keys() and all(isclose(raw[0][k], raw[1][k], abs_tol=1e-6) for k in raw[0])


def _same_contraction(old: CastPiece, new: CastPiece) -> bool:
    a, b = old.contraction, new.contraction
    return all(isclose(p, q, abs_tol=1e-9) for p, q in ((a.x, b.x), (a.y, b.y), (a.z, b.z)))


def _as_cast(old: CastPiece, new: CastPiece) -> tuple[list[str], list[str], list[str]]:
    """Return what stands against the old pattern, what is off but within the casting's own scatter, and what can be
    cut back on it.
    """
    against: list[str] = []
    off: list[str] = []
    back: list[str] = []
    before, after = ({s.name: s for s in piece.as_cast} for piece in (old, new))
    for name in dict.fromkeys([*before, *after]):
        a, b = before.get(name), after.get(name)
        if a is None or b is None:
            against.append(f"{name} {'is new' if a is None else 'falls away'}, as cast")
            continue
        change = abs(b.value - a.value)
        said = f"{name} {a.value:.2f} to {b.value:.2f} {a.unit}, as cast"
        way = "more" if b.value > a.value else "less"
        if change <= (1e-6 if a.unit in FIXED else SAME):
            continue
        scatter = 0.0 if a.unit in FIXED else SCATTER * dimension_tolerance(max(abs(a.value), 1.0), old.grade)
        if change <= scatter:
            off.append(f"{said}: within a quarter of the casting tolerance")
        elif way == a.cut:
            back.append(said)
        else:
            against.append(said)
    return against, off, back


def _faces(old: CastPiece, new: CastPiece) -> tuple[list[str], list[str], float | None]:
    """Return which faces lack metal, which get more taken off, and the least nominal stock left [mm]."""
    short, more, left = [], [], []
    before, after = ({f.name: f for f in piece.faces} for piece in (old, new))
    for name in dict.fromkeys([*before, *after]):
        a, b = before.get(name), after.get(name)
        if a is None or b is None:
            short.append(f"{name} {'is new' if a is None else 'falls away'}")
            continue
        lack = (b.at + b.required) - (a.at + a.required)
        if b.required > 0:
            left.append(a.at + a.stock - b.at)
        if lack > 1e-6:
            short.append(f"{name} needs {lack:.2f} mm more metal")
        elif a.at - b.at > 1e-6:
            more.append(f"{name}: {a.at - b.at:.2f} mm more comes off")
    return short, more, min(left) if left else None
