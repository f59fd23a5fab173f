"""What a match plate is made of: rectangles, circles, flasks, the impression, sand margins and the choice of flask."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from shared.errors import Fault, InputError, RequestError
from shared.interpolate import interpolate
from shared.tables import table


@dataclass(frozen=True)
class Rect:
    """A rectangle on the plate: middle, size [mm], how far it stands into cope and drag [mm], what it is."""

    name: str
    x: float
    y: float
    dx: float
    dy: float
    cope_mm: float = 0.0
    drag_mm: float = 0.0
    turned_deg: float = 0.0  # about z
    overlap_mm3: float = 0.0  # of it that lies in a piece it runs into, such as the casting or a riser

    @property
    def volume_mm3(self) -> float:
        """Metal in it that is in no other piece [mm³]."""
        return self.dx * self.dy * (self.cope_mm + self.drag_mm) - self.overlap_mm3

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y [mm]."""
        return (self.x - self.dx / 2, self.y - self.dy / 2, self.x + self.dx / 2, self.y + self.dy / 2)


@dataclass(frozen=True)
class Circle:
    """A circle on the plate: middle, diameter at the plate, and at its other end, height [mm], what it is."""

    name: str
    x: float
    y: float
    diameter: float
    height_mm: float
    side: str  # "cope", "drag" or "plate"
    end_diameter: float | None = None
    foot_mm: float = 0.0  # height at which it begins, above the parting plane

    @property
    def volume_mm3(self) -> float:
        """Volume of the cylinder or cone [mm³]."""
        a, b = self.diameter / 2, (self.end_diameter or self.diameter) / 2
        return math.pi * self.height_mm / 3 * (a * a + a * b + b * b)


def disc_strip(radius: float, half_width: float) -> float:
    """Return the area [mm²] of a disc that lies within a strip through its centre: radius, half width [mm]."""
    a = min(half_width, radius)
    return 2.0 * (a * math.sqrt(radius * radius - a * a) + radius * radius * math.asin(a / radius))


@dataclass(frozen=True)
class Flask:
    """A flask: inside length and width, depth of cope and drag [mm]."""

    name: str
    length: float
    width: float
    cope: float
    drag: float


@dataclass(frozen=True)
class Impression:
    """One casting as the plate sees it, at pattern size [mm]."""

    name: str
    length_mm: float
    width_mm: float
    cope_mm: float  # height above the parting plane
    drag_mm: float  # depth below it
    mass_kg: float  # cold casting
    section_mm: float  # main wall
    hot_modulus_mm: float  # modulus of the spot that freezes last
    plan_area_mm2: float | None = None
    # outline on the side that faces the runner: (place along, from the middle; how far in from the side), rising;
    # empty for a casting whose outline is its rectangle
    edge: tuple[tuple[float, float], ...] = ()
    # how high the casting stands along that side, on the side of the parting where more of it lies: (place along,
    # height), rising; empty where that is everywhere the height of the casting
    wall: tuple[tuple[float, float], ...] = ()

    def wall_at(self, along_mm: float, span_mm: float) -> float:
        """Return the lowest height of the side that faces the runner over a span: its middle, its width [mm]."""
        if not self.wall:
            return max(self.cope_mm, self.drag_mm)
        xs, heights = [w[0] for w in self.wall], [w[1] for w in self.wall]
        ends = [interpolate(along_mm + k * span_mm / 2, xs, heights) for k in (-1, 1)]
        return min([*ends, *(h for x, h in self.wall if abs(x - along_mm) < span_mm / 2)])

    def inset(self, along_mm: float, span_mm: float) -> tuple[float, float]:
        """Return how far the outline lies in from the side that faces the runner: most and mean [mm].

        Args:
            along_mm: middle of the span, from the casting's middle [mm].
            span_mm: its width [mm].
        """
        if not self.edge:
            return 0.0, 0.0
        xs, depths = [e[0] for e in self.edge], [e[1] for e in self.edge]
        places = [along_mm + span_mm * (k / 16 - 0.5) for k in range(17)]
        read = [interpolate(x, xs, depths) for x in places]
        # corners of the outline inside the span count for the most, too
        corners = [d for x, d in self.edge if abs(x - along_mm) < span_mm / 2]
        return max([*read, *corners]), (sum(read) - (read[0] + read[-1]) / 2) / 16

    def __post_init__(self) -> None:
        """Refuse sizes that no casting has."""
        sizes = ("length_mm", "width_mm", "mass_kg", "section_mm", "hot_modulus_mm")
        faults = [
            Fault(self.name, k, f"{getattr(self, k):g}", "more than 0") for k in sizes if not getattr(self, k) > 0
        ]
        if self.cope_mm < 0 or self.drag_mm < 0 or self.cope_mm + self.drag_mm <= 0:
            read = f"{self.cope_mm:g} and {self.drag_mm:g} mm"
            faults.append(Fault(self.name, "height in cope and drag", read, "0 or more, together more than 0"))
        if faults:
            raise InputError(faults)


@dataclass(frozen=True)
class Practice:
    """What of the shop's practice the plate needs; lengths [mm]."""

    flasks: tuple[Flask, ...]
    flask: str | None = None  # by name; None takes the smallest that fits
    impressions: int = 2
    between_mm: float | None = None  # None: sand-cover table by mass
    to_flask_mm: float | None = None
    discharge: float = 0.65
    basin_above_cope_mm: float = 30.0
    pin_diameter_mm: float = 12.7
    pin_beyond_flask_mm: float = 32.0


def sand_margins(mass_kg: float) -> dict[str, float]:
    """Return the least sand [mm] by casting mass [kg], by place: cope_top, drag_bottom, flask_wall and so on.

    Raises:
        RequestError: heavier than the table (25 kg).

    Source: Chinese Foundry Handbook vol. 5 (memory).
    """
    for row in table("foundry")["sand_cover"]["rows"]:
        if mass_kg <= row["mass_upto"]:
            return {k: float(v) for k, v in row.items() if k != "mass_upto"}
    raise RequestError(f"a casting of {mass_kg:.1f} kg is heavier than the sand-cover table goes (25 kg)")


def choose_flask(
    need: tuple[float, float, float, float], flasks: Sequence[Flask], wanted: str | None, what: str
) -> Flask:
    """Return the flask to use.

    Args:
        need: length, width, cope and drag that are needed [mm].
        flasks: what is on the shelf.
        wanted: name of the flask to use, or None for the smallest (by plan area) that fits.
        what: name of the casting, for messages.

    Raises:
        RequestError: the plate is too large: by how much, and the next flask that fits.
        InputError: no flask of that name.
    """

    def lack(f: Flask) -> dict[str, float]:
        have = {"length": f.length, "width": f.width, "cope": f.cope, "drag": f.drag}
        return {k: want - got for (k, got), want in zip(have.items(), need, strict=True) if want > got + 1e-6}

    def short(f: Flask) -> list[str]:
        return [f"{k} {v:.1f} mm short" for k, v in lack(f).items()]

    fits = sorted((f for f in flasks if not short(f)), key=lambda f: (f.length * f.width, f.cope + f.drag, f.name))
    size = f"{need[0]:.0f} × {need[1]:.0f} mm, cope {need[2]:.0f}, drag {need[3]:.0f} mm"
    if wanted is None:
        if fits:
            return fits[0]
        near = min(flasks, key=lambda f: sum(lack(f).values()))
        raise RequestError(
            f"match plate of {what} needs {size}: no flask on the shelf fits; nearest is {near.name}: "
            f"{', '.join(short(near))}. Fewer impressions or a larger flask"
        )
    named = [f for f in flasks if f.name == wanted]
    if not named:
        allowed = "one of " + ", ".join(f.name for f in flasks)
        raise InputError(Fault("shop.toml", "mould.flask", repr(wanted), allowed))
    faults = short(named[0])
    if faults:
        following = f"next flask that fits: {fits[0].name}" if fits else "no flask on the shelf fits"
        raise RequestError(
            f"match plate of {what} needs {size} and is too large for flask {wanted}: {', '.join(faults)}; {following}"
        )
    return named[0]
