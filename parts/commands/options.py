"""Arguments and options that several commands have."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

SpecArg = Annotated[Path, typer.Argument(metavar="SPEC", help="the plane's TOML file, such as specs/heron.toml")]
SpecArgs = Annotated[list[Path], typer.Argument(metavar="SPEC...", help="one plane or several")]
JsonFlag = Annotated[bool, typer.Option("--json", help="print one JSON object and nothing else")]
ShopOpt = Annotated[
    Path | None, typer.Option("--shop", help="the works' practice; default: shop.toml beside the spec, if there")
]
