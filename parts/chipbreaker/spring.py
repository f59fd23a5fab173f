"""The chipbreaker as a spring: does its edge close on the blade along the whole width, and how hard."""

from __future__ import annotations

from dataclasses import dataclass

from shared.errors import Fault, InputError
from shared.numbers import COMMON_PRACTICE, Numbers
from shared.tables import table

#: Modulus and yield of the chipbreaker's steel [MPa]; handbook figures for cold rolled steel, from memory.
E_MPA = 205_000.0
YIELD_MPA = 350.0
#: How far its leading edge is out of straight before it is pressed down [mm]; common practice, no source.
EDGE_ERROR_MM = 0.02


@dataclass(frozen=True)
class Spring:
    """What the spring bend does once the screw is tight."""

    screw_force: float  # of the closed bend at the edge [N]
    cap_share: float  # of the lever cap's force that reaches the edge [N]
    line_force: float  # both, per width [N/mm]
    closing_force: float  # needed to press the edge straight [N/mm]
    closing_deflection: float  # of the bend that gives it without the cap [mm]
    stress: float  # greatest bending stress from the bend [MPa]
    yield_stress: float

    @property
    def closes(self) -> bool:
        """True when the edge lies on the blade along its whole width."""
        return self.line_force >= self.closing_force * (1 - 1e-12)

    @property
    def takes_a_set(self) -> bool:
        """True when closing the bend would bend it for good."""
        return self.stress > self.yield_stress


def spring(
    width: float,
    thickness: float,
    reach: float,
    deflection: float,
    *,
    edge_error: float = EDGE_ERROR_MM,
    cap_force: float = 0.0,
    cap_from_seat: float = 0.0,
    E: float = E_MPA,
    yield_stress: float = YIELD_MPA,
) -> Spring:
    """Return the chipbreaker's spring.

    Along the blade it is a cantilever from its upper seat to its edge: the screw closes the bend by `deflection`, so
    the edge presses with E*w*t^3*d/(4*L^3); a lever cap of force P at a from the seat adds P*a^2*(3L - a)/(2*L^3), the
    reaction of a propped cantilever. Across the blade a hollow edge (error f over the width) is a beam that a line
    force q = 384*E*I*f/(5*w^4) presses straight, I = (L/3)*t^3/12, since a strip at s from the seat moves s/L of the
    edge's way.

    Args:
        width: chipbreaker width w [mm].
        thickness: thickness t in the bend [mm].
        reach: edge to seat L, along the blade [mm].
        deflection: how far the edge is pushed up from its free place when the screw is tight [mm].
        edge_error: hollow of the leading edge over the width [mm].
        cap_force: force of the lever cap on the chipbreaker [N].
        cap_from_seat: distance of that force from the seat [mm].
        E: modulus of elasticity [MPa].
        yield_stress: stress at which it stays bent [MPa].

    Raises:
        InputError: a size that is not above 0, or the cap's force outside the reach.

    Source: beam theory.
    """
    for key, value in (("width", width), ("thickness", thickness), ("reach", reach)):
        if value <= 0:
            raise InputError(Fault("chipbreaker", key, f"{value:g} mm", "more than 0 mm"))
    if deflection < 0 or not 0 <= cap_from_seat <= reach:
        raise InputError(
            Fault(
                "chipbreaker",
                "spring",
                f"deflection {deflection:g} mm, cap at {cap_from_seat:g} mm",
                f"a deflection of 0 mm or more, the cap at 0 to {reach:g} mm",
            )
        )
    per_mm = E * thickness**3 / (4 * reach**3)  # line force per deflection, [N/mm per mm]
    inertia = reach / 3 * thickness**3 / 12
    closing = 384 * E * inertia * edge_error / (5 * width**4)
    screw = per_mm * deflection * width
    cap = cap_force * cap_from_seat**2 * (3 * reach - cap_from_seat) / (2 * reach**3)
    return Spring(
        screw_force=screw,
        cap_share=cap,
        line_force=(screw + cap) / width,
        closing_force=closing,
        closing_deflection=closing / per_mm,
        stress=1.5 * E * thickness * deflection / reach**2,
        yield_stress=yield_stress,
    )


def equivalent_cutting_angle(setback: float) -> float | None:
    """Return the cutting angle without breaker that works like a breaker this close [deg], or None when not measured.

    Measured at setbacks of 0.1 and 0.2 mm only, on a 45 degree bed with a 45 degree breaker edge; nothing outside.

    Args:
        setback: edge to breaker [mm].

    Source: van der Heiden (2014), table `chipbreaker`.
    """
    data = table("steel")["chipbreaker"]
    (s1, s2), (a1, a2) = data["equivalence_setback_mm"], data["equivalence_cutting_angle_deg"]
    if not s1 - 1e-9 <= setback <= s2 + 1e-9:
        return None
    return float(a1 + (a2 - a1) * (setback - s1) / (s2 - s1))


def chipbreaker_numbers(
    *,
    face_angle: float,
    edge_angle: float,
    setback: float,
    width: float,
    thickness: float,
    reach: float,
    deflection: float,
    edge_error: float = EDGE_ERROR_MM,
    cap_force: float = 0.0,
    cap_from_seat: float = 0.0,
) -> Numbers:
    """Return every number of the chipbreaker.

    Args:
        face_angle: the blade's face at the edge to the sole, the cutting angle [deg].
        edge_angle: leading edge to the blade's face [deg].
        setback: cutting edge to leading edge [mm].
        width: chipbreaker width [mm].
        thickness: thickness in the bend [mm].
        reach: leading edge to upper seat [mm].
        deflection: closing of the bend by the screw [mm].
        edge_error: hollow of the leading edge over the width [mm].
        cap_force: lever cap's force [N].
        cap_from_seat: its distance from the seat [mm].

    Raises:
        InputError: sizes without meaning.
    """
    s = spring(
        width,
        thickness,
        reach,
        deflection,
        edge_error=edge_error,
        cap_force=cap_force,
        cap_from_seat=cap_from_seat,
    )
    out = Numbers("chipbreaker")
    beam = "beam theory; modulus and yield of cold rolled steel from memory"
    out.add("setback_mm", setback, "cutting edge to leading edge, along the face", "as set", {}, "the spec")
    out.add("edge_angle_deg", edge_angle, "leading edge to the blade's face", "as ground", {}, "the spec")
    out.add(
        "chip_meets_angle_deg",
        face_angle + edge_angle,
        "slope to the sole of the edge that the chip runs into",
        "cutting angle + edge angle",
        {"cutting": face_angle, "edge_angle": edge_angle},
    )
    alike = equivalent_cutting_angle(setback) if abs(face_angle - 45) < 0.5 and abs(edge_angle - 45) <= 5 else None
    if alike is not None:
        out.add(
            "equivalent_cutting_angle_deg",
            alike,
            "cutting angle without a chipbreaker that works alike",
            "between 60 deg at 0.1 mm and 55 deg at 0.2 mm",
            {"setback": setback},
            str(table("steel")["chipbreaker"]["source"]),
        )
    out.add(
        "spring_force_n",
        s.screw_force,
        "force of the closed bend on the leading edge",
        "E*w*t^3*d/(4*L^3)",
        {"E_mpa": E_MPA, "w": width, "t": thickness, "d": deflection, "L": reach},
        beam,
    )
    out.add(
        "edge_force_n_per_mm",
        s.line_force,
        "force on the leading edge per width, with the lever cap's share",
        "(spring force + P*a^2*(3L - a)/(2*L^3))/w",
        {"P": cap_force, "a": cap_from_seat, "L": reach, "w": width},
        beam,
    )
    out.add(
        "closing_force_n_per_mm",
        s.closing_force,
        "force per width that presses a hollow leading edge onto the blade",
        "384*E*(L/3)*(t^3/12)*f/(5*w^4)",
        {"f": edge_error, "E_mpa": E_MPA, "L": reach, "t": thickness, "w": width},
        beam + f"; hollow of {edge_error:g} mm: {COMMON_PRACTICE}",
    )
    out.add(
        "closing_deflection_mm",
        s.closing_deflection,
        "bend to be closed by the screw for that without the lever cap",
        "closing force*4*L^3/(E*t^3)",
        {"L": reach, "t": thickness},
        beam,
    )
    out.add("closes", s.closes, "the edge lies on the blade along its whole width", "edge force >= closing force")
    out.add(
        "spring_stress_mpa",
        s.stress,
        "bending stress at the seat",
        "1.5*E*t*d/L^2",
        {"t": thickness, "d": deflection, "L": reach, "yield_mpa": YIELD_MPA},
        beam,
    )
    out.add("takes_a_set", s.takes_a_set, "closing the bend would bend it for good", "stress > yield", {}, beam)
    return out
