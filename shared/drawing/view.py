"""One view of a sheet and what is written on it. Points and values in model mm of the view's own (u, v), angles deg.

Nothing is placed here: the engine (`arrange`) finds the place of every text. A dimension whose points are not as far
apart as its value says is refused at once, so that no sheet states another number than is drawn.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from shared.drawing.annotations import (
    Angular,
    Annotation,
    Balloon,
    Datum,
    DetailMark,
    Leader,
    Linear,
    Round,
    SectionMark,
)
from shared.drawing.content import DimRow, Frame, Row, TextRow, Texture
from shared.drawing.dimtext import DimText, Tolerance, degrees, length
from shared.drawing.lettering import wrap
from shared.drawing.marks import heading
from shared.drawing.primitives import Hatch, Line, Primitive, Projection, bounds
from shared.errors import Fault, GeometryError, InputError
from shared.profile import Profile
from shared.segments import Point

SAME = 1e-3  # mm: the value of a dimension and what is drawn may differ by this much
SAME_ANGLE = 1e-3  # deg
WIDE = 80.0  # mm on paper: a longer line of a leader wraps
SIDES = {"h": ("above", "below"), "v": ("left", "right")}


@dataclass
class View:
    """A view: what is drawn in it by layer, and its annotations. Made by `SheetPlan.view`."""

    name: str
    unit: str
    layers: list[tuple[str, list[Primitive | Profile]]] = field(default_factory=list)
    label: str = ""
    scale: str | None = None
    of: View | None = None
    place: str = "free"
    notes: list[Annotation] = field(default_factory=list)
    text_height: float = 2.5

    # ---- drawing ------------------------------------------------------------------------------------------------

    def draw(self, items: Projection | Iterable[Primitive | Profile], layer: str = "OUTLINE") -> View:
        """Add a projection, or primitives and outlines [mm] on a layer of `shared.drawing.sheet.LAYERS`."""
        if isinstance(items, Projection):
            for name, some in (("SMOOTH", items.smooth), ("HIDDEN", items.hidden), ("OUTLINE", items.visible)):
                self.layers.append((name, list(some)))
        else:
            self.layers.append((layer, list(items)))
        return self

    def hatch(self, outer: Profile, holes: Sequence[Profile] = (), angle: float = 45.0, spacing: float = 2.5) -> View:
        """Hatch a cut face: outline and holes [mm], angle of the lines [deg], their spacing on paper [mm]."""
        return self.draw([Hatch(outer, tuple(holes), angle, spacing)], "HATCH")

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Extent of all that is drawn (u_min, v_min, u_max, v_max) [mm].

        Raises:
            GeometryError: the view is empty.
        """
        every: list[Primitive] = []
        for _, items in self.layers:
            for i in items:
                every += i.segments if isinstance(i, Profile) else [i]
        if not every:
            raise GeometryError("sheet", f"view {self.name}", "nothing is drawn in it")
        return bounds(every)

    # ---- dimensions ---------------------------------------------------------------------------------------------

    def _says(self, what: str, value: float, drawn: float, slack: float = SAME) -> None:
        if not math.isfinite(value) or abs(value - drawn) > slack:
            raise GeometryError("sheet", f"{what} in view {self.name}", "it would state another number than is drawn",
                                value=value, drawn=round(drawn, 6))  # fmt: skip

    def _side(self, way: str, side: str) -> str:
        if side not in SIDES[way]:
            raise InputError(Fault("sheet", f"side of a dimension in view {self.name}", repr(side),
                                   " or ".join(SIDES[way])))  # fmt: skip
        return side

    def dim_h(self, a: Point, b: Point, value: float, tol: Tolerance = None, *, side: str = "below",
              at: float | None = None, prefix: str = "", suffix: str = "", basic: bool = False,
              reference: bool = False, places: tuple[int, int] | None = None) -> View:  # fmt: skip
        """Dimension the distance along u between two points [mm].

        Args:
            a: one point.
            b: the other.
            value: what the sheet says [mm].
            tol: plus-minus [mm], (upper, lower) deviations [mm], or a class such as "H7".
            side: "above" or "below" the view.
            at: v of the dimension line [mm] for one inside the view; None stacks it outside.
            prefix: before the number, such as "2× " or "Ø".
            suffix: after it.
            basic: theoretically exact, in a box.
            reference: for information, in parentheses.
            places: decimals of inch and of mm.

        Raises:
            GeometryError: the points are not `value` apart within 1e-3 mm.
        """
        self._says("dimension", value, abs(b[0] - a[0]))
        text = self._text(value, tol, prefix, suffix, basic, reference, places)
        self.notes.append(Linear("h", a, b, value, text, self._side("h", side), at))
        return self

    def dim_v(self, a: Point, b: Point, value: float, tol: Tolerance = None, *, side: str = "left",
              at: float | None = None, prefix: str = "", suffix: str = "", basic: bool = False,
              reference: bool = False, places: tuple[int, int] | None = None) -> View:  # fmt: skip
        """Dimension the distance along v; `side` "left" or "right", `at` the line's u [mm]; the rest as in `dim_h`."""
        self._says("dimension", value, abs(b[1] - a[1]))
        text = self._text(value, tol, prefix, suffix, basic, reference, places)
        self.notes.append(Linear("v", a, b, value, text, self._side("v", side), at))
        return self

    def dim_aligned(self, a: Point, b: Point, value: float, tol: Tolerance = None, *, prefix: str = "",
                    suffix: str = "", basic: bool = False, reference: bool = False,
                    places: tuple[int, int] | None = None) -> View:  # fmt: skip
        """Dimension the true distance between two points [mm], parallel to them; see `dim_h`."""
        self._says("dimension", value, math.dist(a, b))
        text = self._text(value, tol, prefix, suffix, basic, reference, places)
        self.notes.append(Linear("aligned", a, b, value, text, ""))
        return self

    def angle(self, vertex: Point, a: Point, b: Point, value: float, tol: Tolerance = None, *, prefix: str = "",
              suffix: str = "", basic: bool = False, reference: bool = False, places: int = 1) -> View:  # fmt: skip
        """Dimension the angle [deg] from direction vertex-a to vertex-b, the lesser of the two ways round.

        Raises:
            GeometryError: the drawn angle differs by more than 1e-3 deg, or a leg has no length.
        """
        if min(math.dist(vertex, a), math.dist(vertex, b)) < SAME:
            raise GeometryError("sheet", f"angle in view {self.name}", "a leg has no length", value=value)
        turn = (heading(vertex, b) - heading(vertex, a)) % 360.0
        if turn > 180.0:
            a, b, turn = b, a, 360.0 - turn
        self._says("angle", value, turn, SAME_ANGLE)
        text = degrees(value, tol, prefix=prefix, suffix=suffix, basic=basic, reference=reference, places=places,
                       height=self.text_height)  # fmt: skip
        self.notes.append(Angular(vertex, a, b, value, text))
        return self

    def radius(self, centre: Point, on: Point, value: float, tol: Tolerance = None, *, prefix: str = "",
               suffix: str = "", frames: Sequence[Frame] = (),
               places: tuple[int, int] | None = None) -> View:  # fmt: skip
        """Dimension a radius [mm]: centre and a point on the arc; `prefix` stands before the R ("4× ")."""
        self._says("radius", value, math.dist(centre, on))
        text = self._text(value, tol, f"{prefix}R", suffix, False, False, places)
        self.notes.append(Round("radius", centre, on, value, text, tuple(frames)))
        return self

    def diameter(self, centre: Point, on: Point, value: float, tol: Tolerance = None, *, prefix: str = "",
                 suffix: str = "", more: Sequence[str] = (), frames: Sequence[Frame] = (), fixed: bool = False,
                 places: tuple[int, int] | None = None) -> View:  # fmt: skip
        """Dimension a circle's diameter [mm] by a leader.

        Args:
            centre: its centre.
            on: a point of the circle; the leader ends there or, unless `fixed`, anywhere on the circle.
            value: diameter [mm].
            tol: as for `dim_h`.
            prefix: before the Ø, such as "4× ".
            suffix: after the number, such as " THRU".
            more: further lines below (thread, depth, counterbore).
            frames: tolerance frames below.
            fixed: keep the leader at `on` (an arc that is not a whole circle).
            places: decimals of inch and of mm.
        """
        self._says("diameter", value, 2 * math.dist(centre, on))
        text = self._text(value, tol, f"{prefix}Ø", suffix, False, False, places)
        rows: tuple[Row, ...] = (*(TextRow(t, self.text_height) for t in more), *frames)
        self.notes.append(Round("diameter", centre, on, value, text, rows, not fixed))
        return self

    def _text(self, value: float, tol: Tolerance, prefix: str, suffix: str, basic: bool, reference: bool,
              places: tuple[int, int] | None) -> DimText:  # fmt: skip
        return length(value, self.unit, tol, prefix=prefix, suffix=suffix, basic=basic, reference=reference,
                      places=places, height=self.text_height)  # fmt: skip

    # ---- notes, tolerances and signs ----------------------------------------------------------------------------

    def length_row(self, value: float, tol: Tolerance = None, **how: str | bool | tuple[int, int]) -> DimRow:
        """Return a length [mm] as a row for `leader`, in both units (for thread calls and depths)."""
        return DimRow(length(value, self.unit, tol, height=self.text_height, **how))  # type: ignore[arg-type]

    def leader(self, point: Point, text: str | Sequence[str | Row], *, end: str = "arrow",
               toward: float | None = None) -> View:  # fmt: skip
        """Write text (a line, lines, or rows) with a line to a point [mm]; `toward` prefers a direction [deg].

        A line longer than 80 mm on paper wraps.
        """
        lines = [text] if isinstance(text, str) else list(text)
        rows: list[Row] = []
        for t in lines:
            if isinstance(t, str):
                rows += [TextRow(s, self.text_height) for s in wrap(t, self.text_height, WIDE)]
            else:
                rows.append(t)
        if not rows:
            raise InputError(Fault("sheet", f"leader in view {self.name}", "no text", "a line of text or more"))
        self.notes.append(Leader(point, tuple(rows), end, toward))
        return self

    def datum(self, letter: str, point: Point, *, toward: float | None = None) -> View:
        """Mark a datum feature on an edge or extension at a point [mm], out of the material `toward` [deg]."""
        self.notes.append(Datum(letter, point, toward))
        return self

    def frame(self, symbol: str, value: float, datums: Sequence[str] = (), *, diameter: bool = False,
              modifier: str = "", note: str = "") -> Frame:  # fmt: skip
        """Return a tolerance frame (value [mm]) to hang below a diameter or to give to `leader`."""
        return Frame(symbol, value, tuple(datums), diameter, modifier, note, self.unit)

    def tolerance_frame(self, point: Point, symbol: str, value: float, datums: Sequence[str] = (), *,
                        diameter: bool = False, modifier: str = "", note: str = "",
                        toward: float | None = None) -> View:  # fmt: skip
        """Point a tolerance frame at a feature; symbol of `symbols.TOLERANCED`, value [mm], datum letters."""
        one = self.frame(symbol, value, datums, diameter=diameter, modifier=modifier, note=note)
        self.notes.append(Leader(point, (one,), "arrow", toward))
        return self

    def surface(self, point: Point, ra_um: float, *, process: str = "machined", note: str = "",
                toward: float | None = None) -> View:  # fmt: skip
        """Point a surface texture at an edge: Ra [um]; process "machined", "as cast" or ""."""
        self.notes.append(Leader(point, (Texture(ra_um, process, note, self.unit),), "arrow", toward))
        return self

    def balloon(self, number: int | str, point: Point) -> View:
        """Put a part's number in a circle, with a line to a point [mm] of the part."""
        self.notes.append(Balloon(str(number), point))
        return self

    def section_marks(self, a: Point, b: Point, letter: str, look: float) -> View:
        """Mark a cutting plane from a to b [mm], both ends outside the outline; arrows look in a direction [deg]."""
        self.notes.append(SectionMark(a, b, letter, look))
        return self

    def detail_mark(self, centre: Point, radius: float, letter: str, toward: float = 45.0) -> View:
        """Draw the thin circle [mm] about what a detail view shows, its letter toward a direction [deg]."""
        self.notes.append(DetailMark(centre, radius, letter, toward))
        return self

    def centre_line(self, a: Point, b: Point) -> View:
        """Draw an axis or a plane of symmetry from a to b [mm]."""
        return self.draw([Line(a, b)], "CENTRE")

    def centre_marks(self, centres: Iterable[tuple[Point, float]], past: float = 2.0) -> View:
        """Draw crosses on circles: each a centre and a radius [mm]; the lines reach `past` [mm] beyond it."""
        lines: list[Primitive | Profile] = []
        for (u, v), r in centres:
            lines += [Line((u - r - past, v), (u + r + past, v)), Line((u, v - r - past), (u, v + r + past))]
        return self.draw(lines, "CENTRE")
