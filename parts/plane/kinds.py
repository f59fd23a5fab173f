"""The kinds of plane. Each kind is a package that composes the parts into one plane; this is all that names them.

Such a package has these modules, each loaded only when asked for:

- `spec`: `Spec`, the sections of a spec of this kind; `PARTS`, what of it a build can do alone;
- `design`: `design(loaded, shop)`, every size resolved (fields of `parts.plane.design.Design`);
- `numbers`: `plane_numbers(d)`; `checks`: `check_design(d)`;
- `models`: `Models(d)`, the solids (a `parts.plane.models.PlaneModels`); `solid_checks`: `check_solids(d, models)`;
- `patterns`: `pattern_list(d)`;
- `moulding`: `MAKERS`, how each cast part lies in its mould;
- `casting_marks`: `MARKS`, the places of each casting by which the proof says where something is;
- `reuse`: `cast_pieces(d)`, the castings as two revisions of a plane compare them;
- `side`: `shapes(d)`, the plane seen from its right side; `weight`: `weight(d)`, by arithmetic;
- `sheets`: `sheet_set(run)`, every drawing sheet and card;
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
