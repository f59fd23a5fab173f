"""The quiet colours of models and pictures, as sRGB shares 0 to 1."""

from __future__ import annotations

Colour = tuple[float, float, float]

GREY = (0.62, 0.64, 0.66)
IRON = (0.47, 0.50, 0.52)
MACHINED = (0.72, 0.74, 0.75)
STEEL = (0.80, 0.82, 0.83)
BRONZE = (0.69, 0.55, 0.36)
BRASS = (0.77, 0.66, 0.42)
WOOD = (0.55, 0.35, 0.24)
# by eye, from boards as they are sold; other woods are shown as WOOD
WOODS = {
    "black-cherry": WOOD,
    "sugar-maple": (0.83, 0.70, 0.52),
    "yellow-birch": (0.80, 0.66, 0.48),
    "american-beech": (0.75, 0.58, 0.42),
    "white-oak": (0.71, 0.57, 0.40),
    "black-walnut": (0.36, 0.25, 0.19),
}
PAPER = (0.985, 0.982, 0.975)
INK = (0.13, 0.15, 0.17)
