"""`planewright schema`: JSON Schema of the spec."""

from __future__ import annotations

from parts.commands.show import print_json


def run_schema() -> None:
    """Print the JSON Schema of a plane's spec."""
    from parts.plane.spec import PlaneSpec

    schema = PlaneSpec.model_json_schema()
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "planewright spec of one hand plane"
    print_json(schema)
