"""First article: measured casting sizes against pattern sizes give the shop's real contraction by axis.

A CSV has the columns casting, feature, axis, pattern_mm, casting_mm (or both in _in), and part where several parts
stand in one file. A row whose casting size is left empty was not measured. The castings of one feature are averaged
first, since a feature's restraint by cores and sand is the same every time; then p = (1 + s)·c is fitted through the
origin over the features of an axis. The interval is Student's, with the scatter between features.
"""

from __future__ import annotations

import csv
import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from scipy.special import stdtrit

from shared.casting.allowance import dimension_tolerance
from shared.errors import Fault, InputError, RequestError, in_words
from shared.units import LENGTH, QuantityError, parse

# A feature is named when its residual is this improbable among all features of the axis.
DISAGREE = 0.01
MIN_FEATURES_TO_JUDGE = 4
MOST = 0.04  # largest contraction that shop.toml takes [-]


@dataclass(frozen=True)
class Measurement:
    """One size of one casting and of its pattern [mm]."""

    casting: str
    feature: str
    axis: str
    pattern_mm: float
    casting_mm: float
    part: str = ""  # "" where the file does not say
    line: int = 0  # of the file

    @property
    def contraction(self) -> float:
        """Contraction that this size alone shows [-]."""
        return self.pattern_mm / self.casting_mm - 1.0


@dataclass(frozen=True)
class FeatureResult:
    """One feature, its castings averaged."""

    feature: str
    axis: str
    castings: int
    pattern_mm: float
    casting_mm: float
    contraction: float
    residual_mm: float  # pattern size less what the axis's contraction gives
    agrees: bool
    note: str


@dataclass(frozen=True)
class AxisResult:
    """Contraction of one axis with its confidence interval [-]."""

    axis: str
    contraction: float
    low: float | None  # None when a single size gives no interval
    high: float | None
    confidence: float
    features: int
    castings: int
    basis: str  # "features" or "castings of one feature"


@dataclass(frozen=True)
class FirstArticle:
    """What a first article says."""

    axes: tuple[AxisResult, ...]
    features: tuple[FeatureResult, ...]

    @property
    def disagreeing(self) -> tuple[FeatureResult, ...]:
        """Features that do not follow their axis."""
        return tuple(f for f in self.features if not f.agrees)

    def shop_lines(self, alloy_id: str) -> list[str]:
        """Return the lines that shop.toml can take over.

        Args:
            alloy_id: id of the alloy measured.

        Raises:
            RequestError: a contraction that no pattern is built with, such as a negative one.
        """
        for a in self.axes:
            if not 0.0 <= a.contraction <= MOST:
                raise RequestError(
                    f"along {a.axis} the castings show a contraction of {100 * a.contraction:.2f} %: shop.toml takes "
                    f"0 to {100 * MOST:.0f} %. Were pattern and casting measured at the same place, in one unit?"
                )
        lines = [f"[contraction.{alloy_id}]"]
        lines += [f'{a.axis} = "{100 * a.contraction:.3f} %"' for a in self.axes]
        parts = []
        for a in self.axes:
            band = f" ({100 * a.low:.2f} to {100 * a.high:.2f} %)" if a.low is not None and a.high is not None else ""
            parts.append(f"{a.axis}: {a.features} features{band}")
        return [*lines, f'note = "first article, {self.axes[0].confidence:.0%} interval; ' + "; ".join(parts) + '"']


def read_measurements(path: str | Path) -> list[Measurement]:
    """Read a first-article CSV.

    Raises:
        InputError: the file or any cell is wrong, one fault a cell with its line.
    """
    name = str(path)
    try:
        text = Path(path).read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as err:
        raise InputError(Fault(name, "file", in_words(err), "a readable CSV file")) from None
    rows = csv.DictReader(text.splitlines())
    header = [h.strip() for h in rows.fieldnames or []]
    unit = "mm" if "pattern_mm" in header else "in"
    pattern, cast = f"pattern_{unit}", f"casting_{unit}"
    needed = ["casting", "feature", "axis", pattern, cast]
    if [h for h in needed if h not in header]:
        allowed = "columns casting, feature, axis, pattern_mm, casting_mm (or _in)"
        raise InputError(Fault(f"{name}:1", "header", ", ".join(header) or "nothing", allowed))
    faults: list[Fault] = []
    found: list[Measurement] = []
    lines: dict[tuple[str, ...], int] = {}
    for raw in rows:
        row = {(k or "").strip(): (v if isinstance(v, str) else "").strip() for k, v in raw.items()}
        where = f"{name}:{rows.line_num}"
        if not any(row.values()) or (row[pattern] and not row[cast]):
            continue
        sizes = []
        for key in (pattern, cast):
            try:
                value = parse(row[key], LENGTH, unit)
            except QuantityError:
                value = math.nan
            if not value > 0.0:
                faults.append(Fault(where, key, repr(row[key]), 'a size of more than 0, such as 8.719 or "8-23/32 in"'))
            sizes.append(value)
        if row["axis"].lower() not in ("x", "y", "z"):
            faults.append(Fault(where, "axis", repr(row["axis"]), "x (length), y (width) or z (height)"))
        if not row["feature"]:
            faults.append(Fault(where, "feature", "nothing", "the name of the measured size"))
        if all(v > 0.0 for v in sizes) and not -0.05 < sizes[0] / sizes[1] - 1.0 < 0.08:
            allowed = "pattern and casting within -5 to +8 % of each other: a slip of column or unit?"
            faults.append(Fault(where, cast, repr(row[cast]), allowed))
        same = (row.get("part", ""), row["casting"], row["feature"], row["axis"].lower())
        first = lines.setdefault(same, rows.line_num)
        if first != rows.line_num:
            allowed = f"each size of a casting once: line {first} and line {rows.line_num} are of the same"
            faults.append(Fault(where, "feature", f"{row['feature']!r} of casting {row['casting']!r}", allowed))
        found.append(
            Measurement(row["casting"], row["feature"], row["axis"].lower(), sizes[0], sizes[1],
                        row.get("part", ""), rows.line_num)
        )  # fmt: skip
    if faults:
        raise InputError(faults)
    if not found:
        raise InputError(Fault(name, cast, "no size in any row", "at least one measured casting size"))
    return found


@dataclass
class _Mean:
    feature: str
    pattern: float
    casting: float
    count: int


def _fit(means: Sequence[_Mean]) -> tuple[float, float]:
    """Return contraction and residual standard deviation [mm] of p = (1 + s)·c through the origin."""
    sxx = sum(m.casting**2 for m in means)
    s = sum(m.casting * (m.pattern - m.casting) for m in means) / sxx
    if len(means) < 2:
        return s, math.nan
    rss = sum((m.pattern - (1 + s) * m.casting) ** 2 for m in means)
    return s, math.sqrt(rss / (len(means) - 1))


def _two_sided(dof: int, chance: float) -> float:
    return float(stdtrit(dof, 1.0 - chance / 2.0))


def _worst(means: Sequence[_Mean]) -> int | None:
    """Return the feature that the others say is improbable, by its residual with itself left out; None if all agree."""
    found, worst = None, 0.0
    for i, m in enumerate(means):
        rest = [*means[:i], *means[i + 1 :]]
        s, sd = _fit(rest)
        spread = sd * math.sqrt(1.0 + m.casting**2 / sum(r.casting**2 for r in rest))
        out = abs(m.pattern - (1 + s) * m.casting)
        if spread < 1e-9:
            t = math.inf if out > 1e-6 else 0.0
        else:
            t = out / spread
        # as many chances to be odd as there are features (Bonferroni)
        if t > _two_sided(len(rest) - 1, DISAGREE / len(means)) and t > worst:
            found, worst = i, t
    return found


def analyse(
    measured: Sequence[Measurement], confidence: float = 0.95, grades: Mapping[str, int] | None = None
) -> FirstArticle:
    """Return the contraction of each axis, and the features that do not follow it.

    Features that disagree are left out of their axis's fit, at most a third of them, and named; they need a look at
    the pattern, the core or the sand before shop.toml takes a value over.

    Args:
        measured: the measurements.
        confidence: of the interval [-], more than 0, less than 1.
        grades: feature -> its ISO 8062 grade [-]; one outside half its tolerance at the fitted contraction is said.

    Raises:
        InputError: a confidence out of range.
        RequestError: no measurement, or one feature measured under two axes.
    """
    if not 0.0 < confidence < 1.0:
        raise InputError(Fault("first article", "confidence", f"{confidence:g}", "more than 0, less than 1"))
    if not measured:
        raise RequestError("no measurement was given")
    by_axis: dict[str, dict[str, list[Measurement]]] = defaultdict(lambda: defaultdict(list))
    for m in measured:
        by_axis[m.axis][m.feature].append(m)
    names = [f for features in by_axis.values() for f in features]
    twice = sorted({n for n in names if names.count(n) > 1})
    if twice:
        raise RequestError(f"measured under two axes: {', '.join(twice)}; give each size its own name")
    axes, results = [], []
    for axis in sorted(by_axis):
        features = by_axis[axis]
        means = [
            _Mean(f, sum(m.pattern_mm for m in ms) / len(ms), sum(m.casting_mm for m in ms) / len(ms), len(ms))
            for f, ms in features.items()
        ]
        agree = list(means)
        odd: list[_Mean] = []
        while len(agree) >= MIN_FEATURES_TO_JUDGE and len(odd) < len(means) // 3 + (len(means) < 6):
            worst = _worst(agree)
            if worst is None:
                break
            odd.append(agree.pop(worst))
        axes.append(_axis(axis, agree, features, confidence))
        results += [_feature(m, axis, axes[-1].contraction, m in odd, len(means), (grades or {}).get(m.feature))
                    for m in means]  # fmt: skip
    return FirstArticle(tuple(axes), tuple(results))


def _axis(axis: str, means: list[_Mean], features: dict[str, list[Measurement]], confidence: float) -> AxisResult:
    castings = max(m.count for m in means)
    if len(means) > 1:
        units, basis = means, "features"
    else:
        units = [_Mean(m.casting, m.pattern_mm, m.casting_mm, 1) for m in features[means[0].feature]]
        basis = "castings of one feature"
    s, sd = _fit(units)
    if len(units) < 2:
        return AxisResult(axis, s, None, None, confidence, len(means), castings, basis)
    half = _two_sided(len(units) - 1, 1.0 - confidence) * sd / math.sqrt(sum(u.casting**2 for u in units))
    return AxisResult(axis, s, s - half, s + half, confidence, len(means), castings, basis)


def _feature(m: _Mean, axis: str, s: float, odd: bool, count: int, grade: int | None) -> FeatureResult:
    residual = m.pattern - (1 + s) * m.casting
    notes = []
    if odd:
        notes.append(f"does not follow the other features of {axis}: look at pattern, core and sand there")
    elif count < MIN_FEATURES_TO_JUDGE:
        notes.append(f"too few features along {axis} to judge by")
    if grade is not None:
        half = dimension_tolerance(m.casting, grade) / 2.0
        if abs(residual) > half:
            notes.append(f"off by {abs(residual):.2f} mm, more than the ± {half:.2f} mm of grade {grade}")
    value = m.pattern / m.casting - 1.0
    return FeatureResult(m.feature, axis, m.count, m.pattern, m.casting, value, residual, not odd, "; ".join(notes))
