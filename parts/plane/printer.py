"""The paper of the shop's own printer, for templates, cards and cut plans."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from parts.plane.design import Design


def printer_paper(d: Design) -> str:
    """Return the paper of the shop's own printer: letter ("A") where the works is on inch sheets, else "A4"."""
    size = d.shop.paper.size
    ansi = d.spec.units == "inch" if size == "auto" else size.startswith("ANSI")
    return "A" if ansi else "A4"
