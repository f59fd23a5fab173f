"""Every resolved size of a chipbreaker, in the blade frame (see parts.blade.size)."""

from __future__ import annotations

from parts.chipbreaker.spec import ChipbreakerSpec
from shared.record import Record

GAP = 0.5
WIDTH_LESS = 0.3  # than the blade, whose width may itself be 0.19 mm under (h11): it must not stand out beside it [mm]
THREAD_BREAK = 0.2  # depth of the break on both mouths of the tapped hole, by 45 deg [mm]; common practice


class ChipbreakerSize(Record):
    """Resolved chipbreaker [mm, deg]; positions are s in the blade frame, as set on the blade."""

    width: float
    thickness: float
    setback: float
    edge_angle: float
    gap: float  # under the spring bend
    hump_rise: float  # of the hump above the plate's top
    hump_at: float  # s of the hump's highest line, where the lever cap presses
    seat_from: float  # s from which it lies on the blade again
    end: float  # s of its upper end
    screw_at: float
    screw_thread_major: float
    screw_tap_drill: float
    cap_screw_at: float  # opening that the lever-cap screw's head passes
    cap_screw_opening: tuple[float, float]  # length along s, width along y
    yoke_at: float
    yoke_window: tuple[float, float]  # length along s, width along y
    corner_radius: float

    @property
    def screw_mouth(self) -> float:
        """Diameter of the break on both mouths of the tapped hole [mm]: no wider, the plate is thin for its thread."""
        return self.screw_tap_drill + 2 * THREAD_BREAK

    @property
    def plate_top(self) -> float:
        """q of the plate's upper face along the spring bend [mm]."""
        return self.gap + self.thickness

    @property
    def hump_top(self) -> float:
        """q of the hump's highest line [mm]."""
        return self.plate_top + self.hump_rise


def chipbreaker_size(
    spec: ChipbreakerSpec,
    *,
    blade_width: float,
    hump_at: float,
    screw_at: float,
    screw_thread_major: float,
    screw_tap_drill: float,
    cap_screw_at: float,
    cap_screw_opening: tuple[float, float],
    yoke_at: float,
    yoke_window: tuple[float, float],
) -> ChipbreakerSize:
    """Resolve the chipbreaker from its section and the stations along the blade [mm]."""
    return ChipbreakerSize(
        width=blade_width - WIDTH_LESS,
        thickness=spec.thickness,
        setback=spec.setback,
        edge_angle=spec.edge_angle,
        gap=GAP if spec.gap is None else spec.gap,
        hump_rise=1.2,
        hump_at=hump_at,
        seat_from=screw_at - 9.0,
        end=screw_at + 14.0,
        screw_at=screw_at,
        screw_thread_major=screw_thread_major,
        screw_tap_drill=screw_tap_drill,
        cap_screw_at=cap_screw_at,
        cap_screw_opening=cap_screw_opening,
        yoke_at=yoke_at,
        yoke_window=yoke_window,
        corner_radius=round(blade_width * 0.16, 1),
    )
