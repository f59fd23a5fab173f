"""`planewright schema`: JSON Schema of the spec."""

from __future__ import annotations

from parts.commands.show import print_json


def run_schema() -> None:
    """Print the JSON Schema of a plane's spec: one branch a kind, told apart by plane.kind."""
    from pydantic import TypeAdapter

    from parts.plane import kinds

    specs = [kinds.of(kind, "spec").Spec for kind in kinds.KINDS]
    union = specs[0]
    for spec in specs[1:]:
        union = union | spec
    schema = TypeAdapter(union).json_schema()
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "planewright spec of one hand plane"
    print_json(schema)
