"""The lever cap's leaf spring as arithmetic: a bowed leaf that the cam presses flat on the chipbreaker.

The leaf hangs loosely under the cap on one rivet (its hole has play), so it carries as a beam on two feet with the
cam in the middle. Free, its middle stands a bow above its feet; shut, it lies flat. The force is then stiffness times
bow, whatever else gives a little, and whoever sets the lever-cap screw can feel and see it: the screw is right when
the lever just presses the leaf flat.
"""

from __future__ import annotations

E_MPA = 205_000.0  # spring steel, from memory
YIELD_MPA = 1200.0  # hardened and tempered carbon strip, about 48 HRC: common practice, no source (memory)
ALLOWED_SHARE = 0.75  # of the yield, for a spring worked by hand: common practice, no source
FORCE_AIM_N = 350.0  # at the cam: common practice, no source ("some hundreds of newtons")


def stiffness(width: float, thickness: float, half_span: float) -> float:
    """Return the leaf's stiffness at its middle [N/mm]: 48 E I / L^3, I = w t^3 / 12, L twice the half span.

    Args:
        width: of the leaf [mm].
        thickness: of the strip [mm].
        half_span: from the cam to each foot [mm].
    """
    return 48 * E_MPA * (width * thickness**3 / 12) / (2 * half_span) ** 3


def stress(force: float, width: float, thickness: float, half_span: float) -> float:
    """Return the greatest bending stress [MPa] under a force [N] at the middle: 3 F L / (2 w t^2). Sizes as above."""
    return 3 * force * 2 * half_span / (2 * width * thickness**2)


def allowed_force(width: float, thickness: float, half_span: float) -> float:
    """Return the force [N] at which the stress reaches its allowed share of the yield. Sizes as above."""
    return ALLOWED_SHARE * YIELD_MPA / stress(1.0, width, thickness, half_span)


def bow_for(width: float, thickness: float, half_span: float) -> float:
    """Return the free bow [mm] that gives the aimed force when pressed flat, less where the stress would be too high.

    Sizes as in `stiffness`.
    """
    force = min(FORCE_AIM_N, allowed_force(width, thickness, half_span))
    return force / stiffness(width, thickness, half_span)
