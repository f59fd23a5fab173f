"""Tempering curves: hardness from temperature, and back, without hiding that the way back may have several answers."""

from __future__ import annotations

from parts.blade.hardness import steel_name
from shared.errors import Fault, InputError
from shared.interpolate import interpolate
from shared.record import Record
from shared.tables import table

#: Two hardness readings closer than this are the same [HRC].
SAME_HRC = 1e-9


def f_to_c(f: float) -> float:
    """Return a temperature [degC] given in [degF]."""
    return (f - 32) / 1.8


def c_to_f(c: float) -> float:
    """Return a temperature [degF] given in [degC]."""
    return c * 1.8 + 32


class TemperCurve(Record):
    """Hardness after tempering; it holds only for the hardening temperature it was measured with."""

    key: str
    steel: str
    hardening_f: float
    quench: str
    temper_f: tuple[float, ...]
    hrc: tuple[float, ...]
    half_band: tuple[float, ...]  # plus/minus to expect at each row [HRC]
    as_quenched: float
    hold: str
    source: str
    known: str
    note: str
    measured_on: str

    @property
    def hardening_c(self) -> float:
        """Hardening temperature [degC]."""
        return f_to_c(self.hardening_f)

    def hardness(self, temperature_c: float) -> float:
        """Return the hardness after tempering at a temperature [degC]: [HRC].

        Raises:
            InputError: outside the curve.
        """
        return interpolate(self._inside(temperature_c), self.temper_f, self.hrc)

    def band(self, temperature_c: float) -> tuple[float, float]:
        """Return the lowest and highest hardness to expect [HRC] at a temperature [degC]."""
        f = self._inside(temperature_c)
        mid, half = interpolate(f, self.temper_f, self.hrc), interpolate(f, self.temper_f, self.half_band)
        return mid - half, mid + half

    def _inside(self, temperature_c: float) -> float:
        f = c_to_f(temperature_c)
        low, high = self.temper_f[0], self.temper_f[-1]
        if not low - 1e-6 <= f <= high + 1e-6:
            raise InputError(
                Fault(
                    "temper",
                    "temperature",
                    f"{temperature_c:.1f} C ({f:.0f} F)",
                    f"{f_to_c(low):.0f} to {f_to_c(high):.0f} C ({low:g} to {high:g} F), the {self.steel} curve",
                    "outside, the source gives nothing and nothing is extrapolated",
                )
            )
        return min(max(f, low), high)

    def answers(self, target: float) -> list[tuple[float, float]]:
        """Return every range of temperature [degF] that gives a hardness [HRC]; a point is a range of no width."""
        found: list[tuple[float, float]] = []
        for (f1, h1), (f2, h2) in zip(
            zip(self.temper_f, self.hrc, strict=True), zip(self.temper_f[1:], self.hrc[1:], strict=True), strict=False
        ):
            if abs(h1 - target) <= SAME_HRC and abs(h2 - target) <= SAME_HRC:
                piece = (f1, f2)
            elif min(h1, h2) - SAME_HRC <= target <= max(h1, h2) + SAME_HRC and h1 != h2:
                f = f1 + (f2 - f1) * (target - h1) / (h2 - h1)
                piece = (f, f)
            else:
                continue
            if found and piece[0] - found[-1][1] <= 1e-6:
                found[-1] = (found[-1][0], max(piece[1], found[-1][1]))
            else:
                found.append(piece)
        return found


class TemperChoice(Record):
    """A temper for a wanted hardness, with everything that makes it uncertain."""

    curve: TemperCurve
    target: float
    temperature_c: float
    low_c: float  # all temperatures from low to high give the target on this curve
    high_c: float
    unique: bool
    others_c: tuple[tuple[float, float], ...]  # further branches that give the same hardness
    branch: str
    tempers: int
    hours: float
    band: tuple[float, float]


def curves(steel: str) -> list[TemperCurve]:
    """Return the curves of a steel, by hardening temperature.

    Raises:
        InputError: unknown steel.
    """
    name = steel_name(steel)
    found = []
    for key, row in table("steel")["temper_curve"].items():
        if row["steel"] != name or row.get("check_only"):
            continue
        spread = float(row["spread_hrc"])
        if "hrc" in row:
            hrc, half = [float(v) for v in row["hrc"]], [spread] * len(row["hrc"])
        else:
            pairs = list(zip(row["hrc_low"], row["hrc_high"], strict=True))
            hrc, half = [(a + b) / 2 for a, b in pairs], [(b - a) / 2 for a, b in pairs]
        found.append(
            TemperCurve(
                key=key,
                steel=name,
                hardening_f=float(row["hardening_f"]),
                quench=row["quench"],
                temper_f=tuple(float(v) for v in row["temper_f"]),
                hrc=tuple(hrc),
                half_band=tuple(half),
                as_quenched=float(row["as_quenched_hrc"]),
                hold=row["hold"],
                source=row["source"],
                known=row["known"],
                note=row.get("spread_note", ""),
                measured_on=row.get("measured_on", name),
            )
        )
    return sorted(found, key=lambda c: c.hardening_f)


def curve_for(steel: str, hardening_c: float | None = None) -> TemperCurve:
    """Return the curve of a steel for a hardening temperature [degC]; the schedule's own when none is given.

    Raises:
        InputError: unknown steel, or no curve within 25 F of that hardening temperature.
    """
    own = curves(steel)
    wanted = table("steel")["schedule"][own[0].steel]["hardening_f"] if hardening_c is None else c_to_f(hardening_c)
    best = min(own, key=lambda c: abs(c.hardening_f - wanted))
    if abs(best.hardening_f - wanted) > 25.0 + 1e-6:
        known = ", ".join(f"{c.hardening_f:g} F ({c.hardening_c:.0f} C)" for c in own)
        raise InputError(
            Fault("temper", "hardening", f"{wanted:.0f} F", f"within 25 F of {known}", "no other curve is tabled")
        )
    return best


def temper_count(steel: str, hardening_f: float) -> int:
    """Return how many tempers a steel needs [-] after hardening at a temperature [degF]."""
    row = table("steel")["schedule"][steel_name(steel)]
    return 3 if hardening_f >= row.get("three_tempers_from_f", float("inf")) else int(row["tempers"])


def choose_temper(steel: str, target: float, hardening_c: float | None = None) -> TemperChoice:
    """Return the temper that gives a hardness.

    Where several temperatures give it, the lowest branch is taken (the lowest end of a flat stretch), and the choice
    says so. Without a hardening temperature the schedule's own is used; a steel that is tabled for several takes the
    next higher one that reaches the target.

    Args:
        steel: such as "A2".
        target: wanted hardness [HRC].
        hardening_c: hardening temperature [degC], or None.

    Raises:
        InputError: unknown steel, or a hardness that no tabled temper of it gives.
    """
    first = curve_for(steel, hardening_c)
    tries = [first]
    if hardening_c is None:
        own = curves(steel)
        tries += [c for c in own if c.hardening_f > first.hardening_f]
        tries += [c for c in reversed(own) if c.hardening_f < first.hardening_f]
    for curve in tries:
        found = curve.answers(target)
        if found:
            return _choice(curve, target, found)
    low, high = min(min(c.hrc) for c in tries), max(max(c.hrc) for c in tries)
    hint = f"the curve belongs to hardening at {first.hardening_f:g} F"
    if target > high:
        hint += f"; as quenched it reads about {first.as_quenched:g} HRC, no tabled temper leaves more than {high:g}"
    raise InputError(
        Fault("temper", "hardness", f"{target:g} HRC", f"{low:g} to {high:g} HRC for {first.steel} as tabled", hint)
    )


def _choice(curve: TemperCurve, target: float, found: list[tuple[float, float]]) -> TemperChoice:
    low, high = found[0]
    unique = len(found) == 1 and high - low < 1e-6
    if unique:
        branch = "the only temperature on this curve that gives it"
    elif high - low >= 1e-6:
        branch = (
            f"not unique: the curve is flat at {target:g} HRC from {low:.0f} to {high:.0f} F; "
            "the lowest end of the lowest such stretch is taken"
        )
    else:
        branch = f"not unique: the curve passes {target:g} HRC {len(found)} times; the lowest temperature is taken"
    chosen = f_to_c(low)
    return TemperChoice(
        curve=curve,
        target=target,
        temperature_c=chosen,
        low_c=f_to_c(low),
        high_c=f_to_c(high),
        unique=unique,
        others_c=tuple((f_to_c(a), f_to_c(b)) for a, b in found[1:]),
        branch=branch,
        tempers=temper_count(curve.steel, curve.hardening_f),
        hours=float(table("steel")["schedule"][curve.steel]["temper_h"]),
        band=curve.band(chosen),
    )
