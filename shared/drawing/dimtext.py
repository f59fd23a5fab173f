"""The text of a dimension: both units, the spec's own first, with its tolerance. Values in mm or degrees."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

from shared.both_units import number
from shared.drawing import lettering
from shared.drawing.marks import SMALL, TEXT, Stroke, polyline
from shared.drawing.primitives import Note
from shared.segments import Point, polar
from shared.units import MM_PER_IN

PLACES = {"inch": 3, "mm": 2}  # decimals shown where a tolerance asks for no more
MOST = 4  # decimals at most: a tenth of a thousandth of an inch, or of a millimetre
CLEAR = 0.35  # gap between a number and its deviations, per capital height: a lower "0" is no digit of the number
Tolerance = float | tuple[float, float] | str | None


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of a dimension's text: plain, or two deviations one above the other."""

    text: str
    lower: str = ""

    def width(self, height: float) -> float:
        """Return its width [mm] at a capital height [mm]."""
        if not self.lower:
            return lettering.width(self.text, height)
        small = SMALL / TEXT * height
        wide = max(lettering.width(t, small) + _indent(t, small) for t in (self.text, self.lower))
        return wide + (CLEAR + 0.15) * height


@dataclass(frozen=True)
class DimText:
    """A dimension's text in parts, the way CAD programs are told of it, and whether it stands in a box (basic).

    `two` is the same with the second unit below the dimension line, in `under`, for a dimension too short for one line.
    """

    parts: tuple[Part, ...]
    code: str  # DXF: "<>" stands for the measured number
    places: int
    basic: bool = False
    height: float = TEXT
    under: tuple[Part, ...] = ()
    two: DimText | None = None

    @property
    def shown(self) -> str:
        """The text as one line."""
        every = (*self.parts, Part(" "), *self.under) if self.under else self.parts
        return "".join(f" {p.text}/{p.lower}" if p.lower else p.text for p in every)

    @property
    def width(self) -> float:
        """Width [mm]."""
        return max(_wide(self.parts, self.height) + (1.6 if self.basic else 0.0), _wide(self.under, self.height))

    @property
    def rise(self) -> float:
        """Height above the foot [mm]."""
        if self.basic:
            return self.height + 0.8
        return 2 * SMALL + 0.7 if any(p.lower for p in self.parts) else self.height * lettering.ABOVE

    @property
    def drop(self) -> float:
        """Depth below the foot [mm]."""
        return lettering.BELOW * self.height + (0.1 if self.basic else 0.0)

    @property
    def below(self) -> float:
        """Height of what stands below the dimension line [mm]; 0 when nothing does."""
        if not self.under:
            return 0.0
        stacked = any(p.lower for p in self.under)
        return (2 * SMALL + 0.7 if stacked else self.height * lettering.ABOVE) + lettering.BELOW * self.height

    def strokes(self, foot: Point, angle: float = 0.0, layer: str = "DIM", under: bool = False) -> list[Stroke]:
        """Return the text, or what stands below the line, from the foot of its first letter [mm], turned [deg]."""
        out: list[Stroke] = []

        def at(along: float, up: float) -> Point:
            return polar(polar(foot, along, angle), up, angle + 90.0)

        line = self.under if under else self.parts
        t = (self.width - _wide(line, self.height)) / 2
        for p in line:
            if p.lower:
                small = SMALL / TEXT * self.height
                left = t + CLEAR * self.height
                for text, up in ((p.text, small + 0.65), (p.lower, 0.0)):
                    out.append(Stroke(layer, Note(text, at(left + _indent(text, small), up), small, angle)))
            elif p.text:
                out.append(Stroke(layer, Note(p.text, at(t, 0.0), self.height, angle)))
            t += p.width(self.height)
        if self.basic:
            corners = [at(u, v) for u, v in ((0.0, -self.drop), (t + 0.8, -self.drop), (t + 0.8, self.rise),
                                             (0.0, self.rise), (0.0, -self.drop))]  # fmt: skip
            out += polyline(corners, layer)
        return out


def _indent(text: str, height: float) -> float:
    """Return how far a deviation stands in [mm]: one without a sign keeps the signs' column free."""
    return 0.0 if text[:1] in "+−" else lettering.width("+", height)


def _wide(parts: tuple[Part, ...], height: float) -> float:
    return sum(p.width(height) for p in parts)


def _places(value: float, least: int) -> int:
    """Return how many decimals show a deviation to within 5 % of itself; no more than `MOST`."""
    n = least
    while n < MOST and abs(round(value, n) - value) > 0.05 * abs(value):
        n += 1
    return n


def _inward(value: float, places: int, way: float) -> float:
    """Return a deviation as shown; where that is more than 5 % off, rounded into the tolerance (down for way 1)."""
    near = round(value, places)
    if abs(near - value) <= 0.05 * abs(value):
        return near
    step = 10.0**-places
    return (math.floor(value / step) if way > 0 else math.ceil(value / step)) * step


def _signed(value: float, places: int, upper: bool, inch: bool) -> str:
    """Return a deviation with its sign; nothing is "0" in mm, and has all decimals and the sign of its side in inch."""
    if round(value, places) == 0.0:
        return ("+" if upper else "−") + number(0.0, places) if inch else "0"
    return ("+" if value > 0 else "−") + number(abs(value), places)


def _tolerance(tol: Tolerance, k: float, places: int, inch: bool = False) -> tuple[Part, int]:
    """Return the tolerance as text in one unit, and the decimals it needs; k turns mm into that unit."""
    if tol is None:
        return Part(""), places
    if isinstance(tol, str):
        # a class is worked out from the size, so an inch size keeps what would shift its limits
        return Part(f" {tol}"), max(places, 4) if inch else places
    if isinstance(tol, tuple):
        upper, lower = max(tol) * k, min(tol) * k
        n = max(_places(upper, places), _places(lower, places))
        return Part(_signed(_inward(upper, n, 1), n, True, inch), _signed(_inward(lower, n, -1), n, False, inch)), n
    n = _places(tol * k, places)
    return Part(f" ±{number(_inward(tol * k, n, 1), n)}"), n


def plus_minus(mm: float, unit: str) -> str:
    """Return a plus-minus tolerance [mm] for a text, "inch" or "mm" first: "±0.008 in [0.20 mm]"."""
    texts = {}
    for name, k, suffix in (("inch", 1 / MM_PER_IN, "in"), ("mm", 1.0, "mm")):
        n = _places(mm * k, PLACES[name])
        texts[name] = f"{number(_inward(mm * k, n, 1), n)} {suffix}"
    return f"±{texts[unit]} [{texts['mm' if unit == 'inch' else 'inch']}]"


def limits(value: float, off: tuple[float, float], unit: str, least: dict[str, int] | None = None) -> tuple[str, str]:
    """Return a size, and its least and largest, as a dimension with these deviations shows them, in both units.

    Args:
        value: the size [mm].
        off: its deviations, upper and lower [mm].
        unit: "inch" or "mm", which stands first.
        least: decimals shown at least, by unit; default: a dimension's.

    Returns:
        Such as ("0.1575 [4.000]", "0.1577 to 0.1580 [4.004 to 4.012]").
    """
    size, span = {}, {}
    for name, k in (("inch", 1 / MM_PER_IN), ("mm", 1.0)):
        high, low = max(off) * k, min(off) * k
        n = max(_places(v, (least or PLACES)[name]) for v in (high, low))
        size[name] = number(value * k, n)
        a, b = (Decimal(size[name]) + Decimal(number(_inward(v, n, w), n)) for v, w in ((low, -1), (high, 1)))
        span[name] = f"{a} to {b}"
    other = "mm" if unit == "inch" else "inch"
    return f"{size[unit]} [{size[other]}]", f"{span[unit]} [{span[other]}]"


def _stack(p: Part) -> str:
    return f"{{\\H{SMALL / TEXT:g}x;\\S{p.text}^ {p.lower};}}" if p.lower else p.text


def length(value: float, unit: str, tol: Tolerance = None, *, prefix: str = "", suffix: str = "",
           basic: bool = False, reference: bool = False, places: tuple[int, int] | None = None,
           height: float = TEXT, single: bool = False) -> DimText:  # fmt: skip
    """Return the text of a length.

    Args:
        value: length [mm].
        unit: the unit that stands first, "inch" or "mm"; the other follows in brackets.
        tol: plus-minus [mm], (upper, lower) deviations [mm], or a class such as "H7".
        prefix: before the number ("4× ", "Ø", "R").
        suffix: after it (" THRU").
        basic: theoretically exact, in a box.
        reference: for information, in parentheses.
        places: decimals of inch and mm (default 3 and 2; more where the tolerance needs more).
        height: capital height [mm].
        single: the first unit only.
    """
    want = dict(zip(("inch", "mm"), places, strict=True)) if places else PLACES
    other = "mm" if unit == "inch" else "inch"
    k = {"inch": 1 / MM_PER_IN, "mm": 1.0}
    first, n = _tolerance(tol, k[unit], want[unit], unit == "inch")
    second, m = _tolerance(tol if not isinstance(tol, str) else None, k[other], want[other], other == "inch")
    if isinstance(tol, str) and other == "inch":
        m = max(m, 4)
    left, right = ("(", ")") if reference else ("", "")
    main = number(value * k[unit], n)
    other_text = "" if single else number(value * k[other], m)
    lead = Part(f"{left}{prefix}{main}")
    code = f"{left}{_escape(prefix)}<>{_stack(first)}"
    if single:
        line = [lead, first, Part(f"{suffix}{right}")]
        return DimText(_merged(line), code + _escape(suffix) + right, n, basic, height)
    open_, close = Part(f"[{other_text}"), Part("]")
    bracket = f"[{other_text}{_stack(second)}]"
    two = DimText(_merged([lead, first, Part(f"{suffix}")]), f"{code}{_escape(suffix)}\\X{bracket}{right}", n, False,
                  height, _merged([open_, second, Part(f"]{right}")]))  # fmt: skip
    line = [lead, first, Part(" "), open_, second, close, Part(f"{suffix}{right}")]
    return DimText(_merged(line), f"{code} {bracket}{_escape(suffix)}{right}", n, basic, height,
                   two=None if basic else two)  # fmt: skip


def degrees(value: float, tol: Tolerance = None, *, prefix: str = "", suffix: str = "", basic: bool = False,
            reference: bool = False, places: int = 1, height: float = TEXT) -> DimText:  # fmt: skip
    """Return the text of an angle [deg]; `tol` is plus-minus or (upper, lower) [deg], the rest as for a length."""
    first, n = _tolerance(tol, 1.0, places)
    main = number(value, n)
    if "." in main and first.text == "":
        main = main.rstrip("0").rstrip(".")
    shown = len(main.partition(".")[2])
    left, right = ("(", ")") if reference else ("", "")
    if first.lower:
        first = Part(f"{first.text}°", f"{first.lower}°")
    elif first.text:
        first = Part(f"{first.text}°")
    parts = [Part(f"{left}{prefix}{main}°"), first, Part(f"{suffix}{right}")]
    code = f"{left}{_escape(prefix)}<>{_stack(first)}{_escape(suffix)}{right}"
    return DimText(_merged(parts), code, shown, basic, height)


def _escape(text: str) -> str:
    return text.replace("\\", "\\\\").replace("{", "\\{").replace("}", "\\}")


def _merged(parts: list[Part]) -> tuple[Part, ...]:
    out: list[Part] = []
    for p in parts:
        if not p.text and not p.lower:
            continue
        if out and not p.lower and not out[-1].lower:
            out[-1] = Part(out[-1].text + p.text)
        else:
            out.append(p)
    return tuple(out)
