"""Arithmetic of sand casting: sizes, tolerances, gating, freezing, melt and quantities. It knows no part."""
