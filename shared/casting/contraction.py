"""Pattern maker's contraction: pattern = casting × (1 + s), s per unit length of the casting."""

from __future__ import annotations

from collections.abc import Mapping

from shared import units
from shared.casting.alloy import Alloy
from shared.errors import Fault, InputError
from shared.record import Value
from shared.tables import table
from shared.units import QuantityError

CONVENTION = "convention: n/d in per foot makes the pattern 1 + n/(12 d) times the casting"


def parse_contraction(text: object, where: str = "contraction", key: str = "allowance") -> float:
    """Read a contraction written "1/8 in/ft", "1.04 %" or "10.4 mm/m".

    Returns:
        The contraction as a fraction [-].

    Raises:
        InputError: unreadable, or outside 0 to 5 %.
    """
    try:
        value = units.parse(text, units.RATIO_PER_LENGTH)
    except QuantityError as err:
        raise InputError(Fault(where, key, repr(text), err.allowed)) from None
    if not 0.0 <= value <= 0.05:
        raise InputError(Fault(where, key, repr(text), "0 to 5 % (0.6 in/ft)"))
    return value


def pattern_size(casting_mm: float, contraction: float) -> float:
    """Return the pattern's size [mm].

    Args:
        casting_mm: size of the cold casting [mm].
        contraction: contraction of the cast alloy [-].
    """
    return casting_mm * (1.0 + contraction)


def casting_size(pattern_mm: float, contraction: float) -> float:
    """Return the cold casting's size [mm] that a pattern makes (inverse of `pattern_size`)."""
    return pattern_mm / (1.0 + contraction)


def master_size(casting_mm: float, contraction: float, pattern_contraction: float) -> float:
    """Return the size of the master [mm] from which a cast working pattern is moulded.

    The two factors multiply; adding the two allowances is smaller by their product.

    Args:
        casting_mm: size of the cold casting [mm].
        contraction: contraction of the cast alloy [-].
        pattern_contraction: contraction of the metal the working pattern is cast in [-].
    """
    return casting_mm * (1.0 + contraction) * (1.0 + pattern_contraction)


class Contraction(Value):
    """Contraction along the frame's x (length), y (width) and z (height) [-]."""

    x: float
    y: float
    z: float
    source: str = "alloy table"
    low: float | None = None  # least and most to expect [-], None when measured
    high: float | None = None

    @classmethod
    def uniform(cls, value: float, source: str = "alloy table") -> Contraction:
        """Return the same contraction [-] along all axes."""
        return cls(value, value, value, source)

    def along(self, axis: str) -> float:
        """Return the contraction [-] along "x", "y" or "z"; "n" (no fixed axis) gives the mean.

        Raises:
            ValueError: another axis.
        """
        if axis == "n":
            return (self.x + self.y + self.z) / 3.0
        if axis not in ("x", "y", "z"):
            raise ValueError(f"axis is 'x', 'y', 'z' or 'n', not {axis!r}")
        return float(getattr(self, axis))

    @property
    def factors(self) -> tuple[float, float, float]:
        """Scale factors pattern/casting along x, y, z [-]."""
        return (1.0 + self.x, 1.0 + self.y, 1.0 + self.z)

    @property
    def volume_factor(self) -> float:
        """Pattern volume over casting volume [-]."""
        return (1.0 + self.x) * (1.0 + self.y) * (1.0 + self.z)

    @property
    def is_uniform(self) -> bool:
        """Whether all axes contract alike (a solid may then be scaled as a whole)."""
        return self.x == self.y == self.z

    def times(self, other: Contraction) -> Contraction:
        """Return the double contraction of this alloy on top of the pattern metal's."""
        return Contraction(
            (1 + self.x) * (1 + other.x) - 1,
            (1 + self.y) * (1 + other.y) - 1,
            (1 + self.z) * (1 + other.z) - 1,
            f"{self.source}, times {other.source}",
        )


def grey_iron_by_length(length_mm: float, cored: bool = False) -> float:
    """Return grey iron's contraction [-] by pattern length [mm]: long castings contract less.

    Source: AFS Cast Metals Handbook (1944) as reprinted by Heine, Loper and Rosenthal (memory).
    """
    rows = table("foundry")["contraction_by_length"]["cored" if cored else "open"]
    for row in rows:
        if row["upto_mm"] < 0 or length_mm <= row["upto_mm"]:
            return float(row["contraction"])
    raise AssertionError("the last row has no upper end")


def alloy_contraction(
    metal: Alloy,
    length_mm: float | None = None,
    cored: bool = False,
    annealed: bool = False,
    measured: Mapping[str, float] | None = None,
    where: str = "shop.toml",
) -> Contraction:
    """Return the contraction to build a pattern with.

    Args:
        metal: the cast alloy.
        length_mm: largest size of the casting [mm]; only grey iron's table goes by it.
        cored: whether a core restrains the casting.
        annealed: whether the castings get a full ferritising anneal, which grows ductile iron.
        measured: the shop's own values [-]: {"all": s} or any of {"x": s, "y": s, "z": s}; they win over the table.
        where: for messages.

    Raises:
        InputError: annealed asked of an alloy that has no such value.
    """
    value, source = metal.contraction, f"alloy table, {metal.id}"
    low, high = metal.contraction_low, metal.contraction_high
    if annealed:
        if metal.contraction_annealed is None:
            allowed = f"false: no annealed contraction is known for {metal.name}"
            raise InputError(Fault(where, "annealed", "true", allowed))
        # EN 12890 guide (memory): 0 to 0.8 % after the anneal
        value, source, low, high = metal.contraction_annealed, source + ", annealed", 0.0, 0.008
    elif metal.family == "grey-iron" and length_mm is not None:
        value = grey_iron_by_length(length_mm, cored)
        source += f", by length {length_mm:.0f} mm"
    given = dict(measured or {})
    if not given:
        return Contraction(value, value, value, source, low, high)
    base = given.get("all", value)
    return Contraction(
        given.get("x", base), given.get("y", base), given.get("z", base), f"measured by the shop ({where})"
    )


def counter_bow(length_mm: float, per_metre_mm: float) -> float:
    """Return how far a pattern is bowed against the casting's expected bow [mm] at mid-length.

    A constant curvature bows with the square of the length.

    Args:
        length_mm: length of the pattern [mm].
        per_metre_mm: bow that the shop has seen on one metre [mm].
    """
    return per_metre_mm * (length_mm / 1000.0) ** 2
