"""Limits and finishes of a blade, read by its drawing, its cards, the reckoning and the inspection sheet alike.

What a small works holds without trouble: common practice, no source, unless a class of ISO 286 is named.
"""

from __future__ import annotations

THICKNESS_TOL_MM = 0.05  # plus/minus
LENGTH_TOL_MM = 0.5  # plus/minus, of a new blade
WIDTH_CLASS = "h11"  # of the width, ISO 286
ANGLE_TOL_DEG = 0.5  # plus/minus, of a ground or honed bevel
CAMBER_TOL_MM = 0.03  # plus/minus, in the blade's face
SQUARE_MM = 0.05  # of the cutting edge to the right side, over the width
FACE_FLAT_MM = 0.01  # of the face (bevel up: the flat) over its first FACE_FIRST_MM
FACE_FIRST_MM = 30.0
BACK_PARALLEL_MM = {"bevel-down": 0.02, "bevel-up": 0.05}  # to the face, by orientation
# surface textures Ra, micrometres
FACE_RA = 0.4
BACK_RA = 0.8
SIDE_RA = 1.6
EDGE_RA = 0.1
BEVEL_RA = {"bevel-down": 0.8, "bevel-up": 0.4}
