"""`planewright schema`: JSON Schema of the spec."""

from __future__ import annotations

from typing import Any

from parts.commands.show import print_json
from shared.fields import RANGE
from shared.units import to_inch


def run_schema() -> None:
    """Print the JSON Schema of a plane's spec: one branch a kind, told apart by plane.kind."""
    from parts.plane import kinds
    from shared.section_schema import json_schema_of_any

    schema = json_schema_of_any([kinds.of(kind, "spec").Spec for kind in kinds.KINDS])
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "planewright spec of one hand plane"
    schema["type"] = "object"
    for table in schema["$defs"].values():
        for key in table.get("properties", {}).values():
            _say_range(key)
    print_json(schema)


def _say_range(key: dict[str, Any]) -> None:
    """Put the allowed range into a key's description, which is what an editor shows."""
    span = next((o[RANGE] for o in (key, *key.get("anyOf", ())) if RANGE in o), None)
    if span is None:
        return
    low, high, unit = span
    inches = f" ({to_inch(low):.4g} to {to_inch(high):.4g} in)" if unit == "mm" else ""
    said = f"{low:g} to {high:g} {unit}".rstrip() + inches
    what = str(key.get("description", ""))
    if f"{low:g}" not in what:
        key["description"] = f"{what}; {said}" if what else said
