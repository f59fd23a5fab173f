"""Flat drawing: primitives, their clean-up, and DXF files. Knows no solid and no part."""
