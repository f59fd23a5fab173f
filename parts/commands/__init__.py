"""The front door: one small module a command. Importing it loads no CAD kernel."""

from __future__ import annotations


def main() -> None:
    """Run the command line and leave with its exit code."""
    from parts.commands.app import run

    raise SystemExit(run())
