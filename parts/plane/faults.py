"""What no single key of a spec can see: sizes that cannot stand together, each said at its own line."""

from __future__ import annotations

from typing import Any

from parts.blade.heat_treat import heat_treat_plan
from parts.plane.spec import LoadedSpec
from shared.errors import Fault, InputError
from shared.units import both_units


class Refusals:
    """Faults as they are found, one a key: the first rule broken says enough."""

    def __init__(self, loaded: LoadedSpec[Any]) -> None:
        self._source = loaded.source
        self._units = loaded.spec.units
        self._found: dict[str, Fault] = {}

    def say(self, key: str, allowed: str, hint: str = "") -> None:
        """Add a fault: the key, what is allowed, and a hint."""
        self._found.setdefault(key, self._source.fault(key, allowed, hint))

    def more_than(self, key: str, value: float, most: float, why: str) -> None:
        """Refuse a length [mm] over the most that stands together with the rest."""
        if value > most + 1e-9:
            self.say(key, f"at most {both_units(most, self._units)}: {why}")

    def less_than(self, key: str, value: float, least: float, why: str) -> None:
        """Refuse a length [mm] under the least that stands together with the rest."""
        if value < least - 1e-9:
            self.say(key, f"at least {both_units(least, self._units)}: {why}")

    @property
    def faults(self) -> list[Fault]:
        """What was found."""
        return list(self._found.values())

    def stop(self) -> None:
        """Raise what was found.

        Raises:
            InputError: one fault a key.
        """
        if self._found:
            raise InputError(self.faults)


def temper_faults(loaded: LoadedSpec[Any]) -> list[Fault]:
    """Return what is wrong with hardness and cold treatment for the steel asked, at its line of the spec."""
    blade = loaded.spec.blade
    try:
        heat_treat_plan(blade.steel, blade.hardness, blade.thickness, cold_c=blade.cold_treatment)
    except InputError as err:
        fault = err.faults[0]
        key = "blade.cold_treatment" if "set point" in fault.key else "blade.hardness"
        return [loaded.source.fault(key, fault.allowed, fault.hint)]
    return []
