"""From bar to blade: what size of bar, and how many bars."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from parts.blade.hardness import steel_name
from shared.errors import Fault, InputError, RequestError
from shared.record import Value
from shared.tables import table
from shared.units import MM_PER_IN

#: Grinding stock left on each side for after hardening [mm], middle of 0.1 to 0.3; common practice, no source.
STOCK_PER_SIDE_MM = 0.2
#: Squaring off each sawn end [mm]; common practice, no source.
END_TRIM_MM = 1.0
#: Bars of ground flat stock as usually sold [in]; common practice, no source.
BAR_THICKNESSES_IN = (3 / 32, 1 / 8, 5 / 32, 3 / 16, 7 / 32, 1 / 4, 5 / 16, 3 / 8)
BAR_WIDTHS_IN = (1.5, 1.75, 2.0, 2.25, 2.5, 2.75, 3.0, 3.5, 4.0)
MOST_PATTERNS = 60_000
_UNIT = 0.001  # lengths are compared in thousandths of a millimetre, so that sums are exact


class Blank(Value):
    """Sizes on the way from bar to blade [mm]: width, length, thickness."""

    finished: tuple[float, float, float]
    growth: float  # share by which hardening makes the steel larger
    before_hardening: tuple[float, float, float]
    sawn_length: float
    ground_bar: tuple[float, float]  # width and thickness to buy as ground flat stock
    hot_rolled_bar: tuple[float, float] | None  # least width and thickness with skin still on; None outside the table


def growth_share(steel: str) -> float:
    """Return the share by which hardening lengthens a steel [-].

    Raises:
        InputError: unknown steel.
    """
    return float(table("steel")["schedule"][steel_name(steel)].get("size_change_mm_per_mm", 0.0))


def _next_up(values: Sequence[float], wanted: float, what: str) -> float:
    for v in values:
        if v >= wanted - 1e-6:
            return v
    raise RequestError(f"blade blank: no ground bar of {what} {wanted:.2f} mm or more (largest {values[-1]:.2f} mm)")


def skin_allowance(thickness: float, width: float) -> tuple[float, float]:
    """Return the allowance a side on the faces and on the edges of a hot rolled flat [mm]; its thickness, width [mm].

    Raises:
        RequestError: the size is not in the table.

    Source: hot rolled allowance table, same form as ASTM A681.
    """
    data = table("steel")["grinding"]["hot_rolled_flat"]
    t, w = thickness / MM_PER_IN, width / MM_PER_IN
    rows = [
        i for i, (a, b) in enumerate(zip(data["thickness_over_in"], data["thickness_to_in"], strict=True)) if a < t <= b
    ]
    columns = [j for j, b in enumerate(data["width_to_in"]) if w <= b + 1e-9]
    if not rows or not columns or data["a_side_in"][rows[0]][columns[0]] == 0:
        raise RequestError(f"hot rolled allowance: {thickness:g} x {width:g} mm is not in the table")
    i, j = rows[0], columns[0]
    return data["a_side_in"][i][j] * MM_PER_IN, data["b_side_in"][i][j] * MM_PER_IN


def blank(
    steel: str, width: float, length: float, thickness: float, *, stock_per_side: float = STOCK_PER_SIDE_MM
) -> Blank:
    """Return the sizes of the blank and the bar.

    Args:
        steel: such as "A2".
        width: finished width [mm].
        length: finished length [mm].
        thickness: finished thickness [mm].
        stock_per_side: grinding stock a side after hardening [mm].

    Raises:
        InputError: unknown steel.
        RequestError: no bar is large enough.
    """
    g = growth_share(steel)
    before = tuple((v + 2 * stock_per_side) / (1 + g) for v in (width, length, thickness))
    bar_w = _next_up([v * MM_PER_IN for v in BAR_WIDTHS_IN], before[0], "width")
    bar_t = _next_up([v * MM_PER_IN for v in BAR_THICKNESSES_IN], before[2], "thickness")
    try:
        face, edge = skin_allowance(before[2], before[0])
        rolled: tuple[float, float] | None = (before[0] + 2 * edge, before[2] + 2 * face)
    except RequestError:
        rolled = None
    return Blank(
        finished=(width, length, thickness),
        growth=g,
        before_hardening=(before[0], before[1], before[2]),
        sawn_length=before[1] + 2 * END_TRIM_MM,
        ground_bar=(bar_w, bar_t),
        hot_rolled_bar=rolled,
    )


class BarCut(Value):
    """One way of cutting a bar, and how often."""

    bar: float
    pieces: tuple[tuple[float, int], ...]
    times: int
    left_over: float


class BarOrder(Value):
    """Bars to buy for an order."""

    cuts: tuple[BarCut, ...]
    bought: float  # length of bar, all together [mm]
    used_fraction: float
    optimal: bool

    @property
    def bars(self) -> int:
        """Number of bars."""
        return sum(c.times for c in self.cuts)


def _patterns(bar: int, lengths: list[int], demand: list[int], kerf: int) -> list[tuple[int, ...]]:
    """Return every way of cutting a bar to which no further piece could be added; k pieces need k - 1 saw cuts."""
    found: list[tuple[int, ...]] = []

    def grow(i: int, left: int, so_far: tuple[int, ...]) -> None:
        if len(found) > MOST_PATTERNS:
            raise RequestError(f"bars: more than {MOST_PATTERNS} ways to cut a bar; split the order by length")
        most = min(demand[i], left // (lengths[i] + kerf))
        if i == len(lengths) - 1:
            found.append((*so_far, most))
            return
        for n in range(most, -1, -1):
            grow(i + 1, left - n * (lengths[i] + kerf), (*so_far, n))

    grow(0, bar + kerf, ())
    return [p for p in found if any(p)]


def bars_to_buy(pieces: Mapping[float, int], bars: Sequence[float], kerf: float) -> BarOrder:
    """Return the bars that give every piece at the least length bought; proven the least.

    Args:
        pieces: sawn length [mm] -> how many.
        bars: bar lengths on sale [mm]; as many of each as needed.
        kerf: width of the saw cut [mm]; a piece at the bar's end needs none.

    Raises:
        InputError: nothing ordered, or a length that is not above 0.
        RequestError: a piece longer than every bar, or too many different lengths.

    Source: cutting stock as an integer program over all maximal cutting patterns, solved by HiGHS to a zero gap.
    """
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp  # slow to load, and only a bar order needs them

    wanted = {length: n for length, n in pieces.items() if n > 0}
    if not wanted or not bars or min([*wanted, *bars]) <= 0 or kerf < 0:
        raise InputError(Fault("bars", "order", f"{dict(pieces)}, bars {list(bars)}", "lengths above 0 mm"))
    order = sorted(wanted, reverse=True)
    if order[0] > max(bars) + 1e-9:
        raise RequestError(f"bars: a piece of {order[0]:.1f} mm is longer than the longest bar, {max(bars):.1f} mm")
    # pieces are rounded up and bars down, so that a plan on paper also fits on the saw
    lengths = [int(np.ceil(x / _UNIT - 1e-6)) for x in order]
    demand = [wanted[x] for x in order]
    columns = [
        (bar, p)
        for bar in sorted(set(bars))
        for p in _patterns(int(np.floor(bar / _UNIT + 1e-6)), lengths, demand, int(np.ceil(kerf / _UNIT - 1e-6)))
    ]
    a = np.array([p for _, p in columns], float).T
    cost = np.array([bar for bar, _ in columns])
    out = milp(
        cost,
        constraints=LinearConstraint(a, lb=np.array(demand, float)),
        integrality=np.ones(len(columns)),
        bounds=Bounds(0, np.inf),
        options={"mip_rel_gap": 0.0, "time_limit": 60.0},
    )
    if out.x is None:
        raise RequestError(f"bars: no plan found: {out.message}")
    cuts = []
    for (bar, p), n in zip(columns, np.round(out.x).astype(int), strict=True):
        if n:
            cut = tuple((x, k) for x, k in zip(order, p, strict=True) if k)
            left = bar - sum(x * k for x, k in cut) - kerf * (sum(k for _, k in cut) - 1)
            # the last piece is sawn off what is left
            cuts.append(BarCut(float(bar), cut, int(n), max(float(left) - kerf, 0.0)))
    bought = float(sum(c.bar * c.times for c in cuts))
    used = sum(x * n for x, n in wanted.items())
    return BarOrder(tuple(cuts), bought, used / bought, bool(out.status == 0))
