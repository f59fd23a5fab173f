"""A pattern maker's rule on paper: every division is longer by the contraction of the metal. Lengths mm.

A size set off with it on the pattern comes out at that size in the casting.
"""

from __future__ import annotations

import itertools
from fractions import Fraction

from shared.drawing import lettering
from shared.drawing.dxf import scale_bars
from shared.drawing.paper import Paper, paper
from shared.drawing.primitives import Line, Note, Primitive
from shared.drawing.sheet import Sheet
from shared.errors import Fault, InputError
from shared.units import MM_PER_IN

MARGIN = 12.0
STRIP = 24.0  # height of the rule
PITCH = 40.0  # from strip to strip
HEAD = 42.0  # room for the title, the words and the bars
FOOT = 2.5  # height of the line at the foot
TITLE = 5.0  # height of the title; less where it is long
# length of a graduation by the denominator of its place on the rule
INCH_TICKS = {1: 12.0, 2: 9.5, 4: 7.5, 8: 5.5, 16: 4.0, 32: 2.6}


def ticks(length: float, unit: str, finest: int = 16) -> list[tuple[float, float, str]]:
    """Return the graduations of a rule before contraction: place [in or mm], length of the tick [mm], numeral.

    Args:
        length: length of the rule [in or mm].
        unit: "inch" (divided down to 1/`finest`) or "mm" (each millimetre).
        finest: denominator of the finest inch division [-], a power of two up to 32.
    """
    if unit == "inch":
        if finest not in INCH_TICKS:
            raise InputError(Fault("shrink rule", "finest division", str(finest), "1, 2, 4, 8, 16 or 32"))
        out = []
        for i in range(int(length * finest + 1e-9) + 1):
            at = Fraction(i, finest)
            out.append((float(at), INCH_TICKS[at.denominator], str(at) if at.denominator == 1 else ""))
        return out
    tall = {0: 11.0, 5: 7.0}
    return [(float(i), tall.get(i % 10, 4.0), str(i) if i % 10 == 0 else "") for i in range(int(length + 1e-9) + 1)]


def shrink_rule(contraction: float, length: float, unit: str = "inch", *, name: str = "", size: str = "A4",
                finest: int = 16, belongs: str = "") -> list[Sheet]:  # fmt: skip
    """Return the pages of a printed shrink rule at true size.

    Args:
        contraction: growth of pattern over casting [-], such as 0.0104; 0 gives a plain rule.
        length: length of the rule in its own divisions [in or mm].
        unit: "inch" or "mm".
        name: of the metal or the purpose.
        size: paper, "A4" or "A"; used lying.
        finest: finest inch division is 1/`finest` [-].
        belongs: what it was made for, written below the strips: plane, revision, spec.

    Raises:
        InputError: contraction or length out of range, unknown unit or division.
    """
    if not -0.02 <= contraction <= 0.1:
        raise InputError(Fault("shrink rule", "contraction", f"{contraction:g}", "-0.02 to 0.1"))
    if unit not in ("inch", "mm"):
        raise InputError(Fault("shrink rule", "unit", repr(unit), '"inch" or "mm"'))
    one = (MM_PER_IN if unit == "inch" else 1.0) * (1.0 + contraction)
    step = 1.0 if unit == "inch" else 10.0
    page = paper(size).with_margin(MARGIN)
    page = page if page.width > page.height else page.turned()
    u0, v0, u1, v1 = page.frame
    run = int((u1 - u0 - 6.0) / one / step) * step
    if not 0 < length <= 100 * run:
        raise InputError(Fault("shrink rule", "length", f"{length:g}", "above 0, and no more than 100 strips"))
    marks = ticks(length, unit, finest)
    strips = _strips(length, run, step)
    per_page = int((v1 - v0 - HEAD - FOOT) / PITCH)
    out: list[Sheet] = []
    for first in range(0, len(strips), per_page):
        sheet = Sheet()
        sheet.paper = page
        _head(sheet, page, contraction, length, unit, name)
        if belongs:
            number = f"page {len(out) + 1} of {-(-len(strips) // per_page)}"
            sheet.draw([Note(f"{belongs} · {number}", (u1, v0 + 1.0), FOOT, 0.0, "right")], "TEXT")
        for row, (a, b) in enumerate(strips[first : first + per_page]):
            top = v1 - HEAD - row * PITCH
            last = first + row + 1 == len(strips)
            sheet.draw(_strip(marks, a, b, one, u0 + 3.0, top, last, len(strips) > 1, step), "SCALE")
        out.append(sheet)
    return out


def _strips(length: float, run: float, step: float) -> list[tuple[float, float]]:
    """Return the stretches of a rule that stand on one strip each; neighbours share one numbered division."""
    out = []
    a = 0.0
    while True:
        b = min(length, a + run)
        out.append((a, b))
        if b >= length - 1e-9:
            return out
        a = b - step


def _strip(marks: list[tuple[float, float, str]], a: float, b: float, one: float, left: float, top: float, last: bool,
           many: bool, step: float) -> list[Primitive]:  # fmt: skip
    end = left + (b - a) * one
    low = top - STRIP
    ring = [(left, low), (end, low), (end, top), (left, top), (left, low)]
    out: list[Primitive] = [Line(p, q) for p, q in itertools.pairwise(ring)]
    for at, tall, numeral in marks:
        if a - 1e-9 <= at <= b + 1e-9:
            u = left + (at - a) * one
            out.append(Line((u, top), (u, top - tall)))
            if numeral:
                align = "left" if at == a else "right" if at >= b - 1e-9 else "centre"
                nudge = {"left": 1.0, "right": -1.0, "centre": 0.0}[align]
                size = 3.5 if one > 10 else 2.0
                out.append(Note(numeral, (u + nudge, top - tall - 1.5 - size), size, 0.0, align))
    if many and not last:
        cut = f"lay {b - step:g} of the next strip on {b - step:g} here"
        out.append(Note(cut, (end - 1.5, low + 1.5), 1.8, 0.0, "right"))
    return out


def _head(sheet: Sheet, page: Paper, contraction: float, length: float, unit: str, name: str) -> None:
    """Draw the title over the whole width, the words below it, and the bars right of the words."""
    u0, _, u1, v1 = page.frame
    short, places = ("in", 3) if unit == "inch" else ("mm", 1)
    title = f"Shrink rule, {name}" if name else "Shrink rule"
    if contraction == 0:
        title = f"Rule, {name}" if name else "Rule"
    by_unit = [f"{contraction * 12:.4f} in/ft", f"{contraction * 1000:.2f} mm/m"]
    one, other = by_unit if unit == "inch" else by_unit[::-1]
    lines = [f"Contraction {contraction * 100:.3f} % = {one} = {other}.",
             f"{length:g} {short} on this rule measure {length * (1 + contraction):.{places}f} {short}.",
             "Print at full size and measure a bar first."]  # fmt: skip
    height = min(TITLE, TITLE * (u1 - u0) / lettering.width(title, TITLE))
    sheet.draw([Note(title, (u0, v1 - 6.0), height)], "TEXT")
    sheet.draw([Note(t, (u0, v1 - 16.0 - 5.5 * i), 2.5) for i, t in enumerate(lines)], "TEXT")
    sheet.draw(scale_bars((u1 - 125.0, v1 - 18.0)), "SCALE")
