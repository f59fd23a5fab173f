"""Views that keep together in third angle: each beside the one it is aligned with. Paper mm."""

from __future__ import annotations

from dataclasses import dataclass

from shared.drawing.arrange import Arranged, Rect
from shared.errors import GeometryError
from shared.segments import Point

CLEAR = 5.0  # mm between two views of a group that are not neighbours


@dataclass(frozen=True)
class PlacedView:
    """A view on the page: where its origin stands [mm]."""

    arranged: Arranged
    at: Point

    @property
    def rect(self) -> Rect:
        """Its extent on the page, annotations included [mm]."""
        return moved(self.arranged.rect, self.at)


def moved(r: Rect, by: Point) -> Rect:
    """Return a rectangle moved by an offset [mm]."""
    return r[0] + by[0], r[1] + by[1], r[2] + by[0], r[3] + by[1]


def wide(a: Arranged) -> float:
    """Return the width of a view with its annotations [mm]."""
    return a.rect[2] - a.rect[0]


def high(a: Arranged) -> float:
    """Return its height [mm]."""
    return a.rect[3] - a.rect[1]


def clusters(views: list[Arranged], gap: float) -> list[list[PlacedView]]:
    """Return views in groups that keep together, each placed about its group's lower left corner, largest first."""
    by_view = {id(a.view): a for a in views}
    groups: dict[int, list[PlacedView]] = {}
    where: dict[int, tuple[int, Point]] = {}
    todo = list(views)
    while todo:
        ready = [a for a in todo if a.view.of is None or id(a.view.of) in where]
        if not ready:
            raise GeometryError("sheet", "layout", "a view is placed by one that is not on the sheet",
                                view=todo[0].view.name)  # fmt: skip
        for a in ready:
            todo.remove(a)
            if a.view.of is None:
                key, at = id(a.view), (0.0, 0.0)
            else:
                key, parent_at = where[id(a.view.of)]
                at = _beside(a, by_view[id(a.view.of)], parent_at, gap, groups[key])
            where[id(a.view)] = key, at
            groups.setdefault(key, []).append(PlacedView(a, at))
    out = []
    for group in groups.values():
        low = min(p.rect[0] for p in group), min(p.rect[1] for p in group)
        out.append([PlacedView(p.arranged, (p.at[0] - low[0], p.at[1] - low[1])) for p in group])
    return sorted(out, key=lambda g: -sum(wide(p.arranged) * high(p.arranged) for p in g))


def _beside(a: Arranged, parent: Arranged, at: Point, gap: float, group: list[PlacedView]) -> Point:
    """Return where a view stands, aligned with its parent and clear of the others of its group."""
    far = gap
    while True:
        match a.view.place:
            case "above":
                here = at[0], at[1] + parent.rect[3] + far - a.rect[1]
            case "below":
                here = at[0], at[1] + parent.rect[1] - far - a.rect[3]
            case "right":
                here = at[0] + parent.rect[2] + far - a.rect[0], at[1]
            case _:
                here = at[0] + parent.rect[0] - far - a.rect[2], at[1]
        mine = moved(a.rect, here)
        if not any(_meet(mine, p.rect, CLEAR) for p in group):
            return here
        far += 5.0


def _meet(a: Rect, b: Rect, gap: float) -> bool:
    return a[0] < b[2] + gap and a[2] > b[0] - gap and a[1] < b[3] + gap and a[3] > b[1] - gap
