"""Tables of outside facts, one TOML file a field, each table with its source.

Every table carries `source`, `known` ("seen", "memory", "common practice", "computed", "invented") and `units`.
"""

from __future__ import annotations

from functools import cache
from importlib import resources
from typing import Any

import tomli  # the standard library's parser, compiled: tables are read at every start


@cache
def table(name: str) -> dict[str, Any]:
    """Return the table file `shared/tables/<name>.toml`, read once.

    Raises:
        FileNotFoundError: no such table file.
    """
    return tomli.loads(resources.files("shared.tables").joinpath(f"{name}.toml").read_text(encoding="utf-8"))


def table_names() -> list[str]:
    """Return the names of all table files, sorted."""
    files = resources.files("shared.tables").iterdir()
    return sorted(f.name.removesuffix(".toml") for f in files if f.name.endswith(".toml"))
