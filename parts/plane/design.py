"""From spec and practice to every resolved size of one plane, whatever its kind. Arithmetic only; no CAD kernel."""

from __future__ import annotations

from typing import Any, Literal, Protocol

from parts.blade.size import BladeSize
from parts.handle.size import KnobSize, ToteSize
from parts.plane import kinds
from parts.plane.placing import TotePlace
from parts.plane.shop import ShopSpec
from parts.plane.spec import LoadedSpec
from shared.casting.alloy import Alloy
from shared.casting.contraction import Contraction


class Design(Protocol):
    """What every kind of plane has, resolved; each kind adds its own."""

    @property
    def loaded(self) -> LoadedSpec[Any]:
        """The spec with its text."""

    @property
    def spec(self) -> Any:
        """The spec: sections `plane`, `body`, `bed`, `blade`, `handle` and `units` whatever the kind."""

    @property
    def shop(self) -> ShopSpec:
        """The works' practice."""

    @property
    def body(self) -> Any:
        """The body's sizes."""

    @property
    def blade(self) -> BladeSize:
        """The blade's sizes."""

    @property
    def orientation(self) -> Literal["bevel-down", "bevel-up"]:
        """Which side the bevel is on: "bevel-down" or "bevel-up"."""

    @property
    def datum_height(self) -> float:
        """Height of the milled seat that sets the bed, above the sole [mm]."""

    @property
    def tote(self) -> ToteSize | None:
        """The tote's sizes; None on a plane held without one."""

    @property
    def tote_at(self) -> TotePlace | None:
        """Where the tote stands."""

    @property
    def knob(self) -> KnobSize:
        """The knob's sizes."""

    @property
    def knob_x(self) -> float:
        """Where the knob stands [mm]."""

    @property
    def rod_diameter(self) -> float:
        """Thread of the rods through tote and knob, major diameter [mm]."""

    @property
    def body_alloy(self) -> Alloy:
        """The body's metal."""

    @property
    def cap_alloy(self) -> Alloy:
        """The lever cap's metal."""

    @property
    def contraction(self) -> Contraction:
        """Contraction of the body's casting."""

    @property
    def master(self) -> Contraction | None:
        """Contraction of the metal that the working pattern is cast in."""


def design(loaded: LoadedSpec[Any], shop: ShopSpec) -> Design:
    """Resolve one plane.

    Args:
        loaded: the spec with its text.
        shop: the works' practice.

    Raises:
        InputError: sizes that cannot stand together, one fault each.
        RequestError: a handle in which too little wood would be left.
    """
    resolved: Design = kinds.of(loaded.spec.plane.kind, "design").design(loaded, shop)
    return resolved
