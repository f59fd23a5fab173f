"""The kinds of plane. Each kind is a package that composes the parts into one plane; this is all that names them.

Such a package has these modules, each loaded only when asked for:

- `spec`: `Spec`, the sections of a spec of this kind;
- `design`: `design(loaded, shop)`, every size resolved (fields of `parts.plane.design.Design`);
- `numbers`: `plane_numbers(d)`; `checks`: `check_design(d)`;
- `models`: `Models(d)`, the solids (a `parts.plane.models.PlaneModels`); `solid_checks`: `check_solids(d, models)`;
- `solid_numbers`: `add_solid_numbers(d, models, numbers)`;
- `patterns`: `pattern_list(d)`; `castings`: `cast_parts(d, models)`;
- `steps`: `STEPS`, what a build does, and `AHEAD`, which models a second process builds.
"""

from __future__ import annotations

from importlib import import_module
from types import ModuleType

KINDS = {"bench": "parts.plane.bench", "low-angle": "parts.plane.low_angle"}


def of(kind: str, module: str) -> ModuleType:
    """Return a module of the package that composes planes of a kind.

    Args:
        kind: a key of `KINDS`.
        module: one of the modules named above.
    """
    return import_module(f"{KINDS[kind]}.{module}")
