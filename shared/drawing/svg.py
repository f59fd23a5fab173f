"""A sheet as a small SVG picture for a web page: text as text, widths fixed so that any sans-serif face fits."""

from __future__ import annotations

from pathlib import Path as File
from xml.sax.saxutils import escape

from shared.drawing import lettering
from shared.drawing.ink import Area, Path, Words, ink, pen
from shared.drawing.sheet import Sheet
from shared.segments import Point

FONTS = "Helvetica,Arial,'Liberation Sans',sans-serif"


def svg_text(sheet: Sheet, shown: tuple[float, float, float, float] | None = None) -> str:
    """Return the drawing as SVG in mm.

    Args:
        sheet: the drawing.
        shown: what of it is seen (u_min, v_min, u_max, v_max) [mm]; None takes its paper.

    Raises:
        ValueError: the drawing has no paper, and nothing is asked for.
    """
    if shown is None and sheet.paper is None:
        raise ValueError("a drawing without paper has no page size")
    u0, v0, u1, h = shown or (0.0, 0.0, sheet.paper.width, sheet.paper.height)  # type: ignore[union-attr]
    w, tall = u1 - u0, h - v0

    def at(p: Point) -> str:
        return f"{_n(p[0])} {_n(h - p[1])}"

    strokes: dict[str, list[str]] = {}
    fills: dict[str, list[str]] = {}
    texts: dict[str, list[str]] = {}
    for x in ink(sheet):
        if isinstance(x, Path):
            d = f"M{at(x.start)}"
            for p in x.pieces:
                d += "C" + " ".join(at(q) for q in p) if isinstance(p[0], tuple) else f"L{at(p)}"  # type: ignore[arg-type]
            strokes.setdefault(x.layer, []).append(d)
        elif isinstance(x, Area):
            fills.setdefault(x.layer, []).append("M" + "L".join(at(p) for p in x.corners) + "Z")
        else:
            texts.setdefault(x.layer, []).append(_words(x, h))
    out = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{_n(u0)} 0 {_n(w)} {_n(tall)}" '
           f'width="{_n(w)}mm" height="{_n(tall)}mm" '
           f'font-family="{FONTS}" fill="none" stroke-linejoin="round" style="white-space:pre">',
           f'<rect x="{_n(u0)}" width="{_n(w)}" height="{_n(tall)}" fill="#fff"/>']  # fmt: skip
    for layer, paths in strokes.items():
        colour, width, dashes = pen(layer)
        dash = f' stroke-dasharray="{" ".join(_n(d) for d in dashes)}"' if dashes else ' stroke-linecap="round"'
        out.append(f'<path stroke="{colour}" stroke-width="{_n(width)}"{dash} d="{"".join(paths)}"/>')
    for layer, paths in fills.items():
        out.append(f'<path fill="{pen(layer)[0]}" d="{"".join(paths)}"/>')
    for layer, rows in texts.items():
        out.append(f'<g fill="{pen(layer)[0]}">{"".join(rows)}</g>')
    return "\n".join([*out, "</svg>", ""])


def _words(x: Words, high: float) -> str:
    wide = lettering.width(x.text, x.height)
    anchor = {0.0: "", 0.5: ' text-anchor="middle"', 1.0: ' text-anchor="end"'}[x.share]
    u, v = _n(x.at[0]), _n(high - x.at[1])
    turn = f' transform="rotate({_n(-x.angle)} {u} {v})"' if x.angle else ""
    size = _n(x.height / lettering.CAPITAL)
    return (f'<text x="{u}" y="{v}" font-size="{size}" textLength="{_n(wide)}" lengthAdjust="spacingAndGlyphs"'
            f'{anchor}{turn}>{escape(x.text)}</text>')  # fmt: skip


def _n(x: float) -> str:
    text = f"{x:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def write_svg(path: File, sheet: Sheet) -> None:
    """Write the drawing as an SVG file; see `svg_text`."""
    path.write_text(svg_text(sheet), encoding="utf-8")
