"""Which paper and scale are tried first, and which need no trial. Paper mm."""

from __future__ import annotations

from collections.abc import Sequence

from shared.drawing.arrange import Arranged, Rect, arrange
from shared.drawing.packing import MARGIN
from shared.drawing.paper import Paper, scale_factor
from shared.drawing.view import View
from shared.errors import GeometryError


def wishes(papers: Sequence[Paper], scales: Sequence[str]) -> list[tuple[Paper, str]]:
    """Return paper and scale, the best first.

    A step up in paper counts like a step down in scale, and half as much again beyond A3 and ANSI B, which most offices
    can print; a step of enlargement over 1:1 is worth half of it. Between equals the larger scale wins.
    """
    full = sum(scale_factor(s) > 1.0 for s in scales)
    out = []
    for i, s in enumerate(scales):
        cost = 0.0
        for n, p in enumerate(papers):
            if n:
                cost += 1.0 if max(p.width, p.height) < 440.0 else 1.5
            out.append((cost + (i - full if i >= full else 0.5 * (i - full)), i, p, s))
    return [(p, s) for _, _, p, s in sorted(out, key=lambda x: x[:2])]


class Arranger:
    """The views arranged at each scale asked for, once; a scale at which an annotation has no place gives None."""

    def __init__(self, views: Sequence[View]) -> None:
        self.views = views
        self.made: dict[tuple[int, float], Arranged | None] = {}
        self.refused: GeometryError | None = None

    def __call__(self, scale: str) -> list[Arranged] | None:
        """Return the views at a scale such as "1:2", or None."""
        out = []
        for i, v in enumerate(self.views):
            k = scale_factor(v.scale or scale)
            if (i, k) not in self.made:
                try:
                    self.made[(i, k)] = arrange(v, k)
                except GeometryError as err:
                    self.made[(i, k)], self.refused = None, err
            made = self.made[(i, k)]
            if made is None:
                return None
            out.append(made)
        return out


def may_fit(page: Paper, scale: str, views: Sequence[View], cores: Sequence[Rect]) -> bool:
    """Whether the bare views would fit, one by one: placing annotations takes longer than asking this first."""
    u0, v0, u1, v1 = page.frame
    for v, core in zip(views, cores, strict=True):
        k = scale_factor(v.scale or scale)
        if k * (core[2] - core[0]) > u1 - u0 - 2 * MARGIN or k * (core[3] - core[1]) > v1 - v0 - 2 * MARGIN:
            return False
    return True
