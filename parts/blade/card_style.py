"""Colours and lettering of the blade card's pictures."""

from __future__ import annotations

from typing import Any

INK, STEEL, METAL, MARK, BAND = "#222222", "#c9d1d8", "#e6e0d4", "#8c3b2e", "#e9d9a8"
STYLE: Any = {"font.size": 9, "svg.hashsalt": "planewright", "svg.fonttype": "none", "font.family": "DejaVu Sans"}
