"""How wide a text is and where it breaks, by the very widths the PDF is set with. Heights are capital heights [mm].

The face is Helvetica (Arial in the DXF: the same widths), a little narrowed. A character it does not have is set in the
wide-coverage face that comes with matplotlib, so that no name is lost. Knows no drawing.
"""

from __future__ import annotations

import functools
import unicodedata
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

FACE = "Helvetica"
WIDE_FACE = "SheetWide"
DXF_FONT = "arial.ttf"
NARROW = 0.9  # width factor of every text
CAPITAL = 0.718  # height of a capital per em of Helvetica (its font metrics file)
BELOW = 0.30  # how far brackets and tails reach below the foot of a text, per capital height
ABOVE = 1.04  # and above


@dataclass(frozen=True)
class Run:
    """A stretch of text in one face."""

    face: str
    text: str


@functools.cache
def register() -> None:
    """Make the wide-coverage face known to the PDF library, once."""
    from reportlab.pdfbase import pdfmetrics, ttfonts

    found = find_spec("matplotlib")
    assert found is not None
    assert found.origin is not None
    file = Path(found.origin).parent / "mpl-data" / "fonts" / "ttf" / "DejaVuSans.ttf"
    pdfmetrics.registerFont(ttfonts.TTFont(WIDE_FACE, str(file)))


def clean(text: str) -> str:
    """Return a text as one line that a drawing can hold: no control characters, the letter Ø for a diameter sign."""
    flat = "".join(" " if unicodedata.category(c) in ("Cc", "Zl", "Zp") else c for c in text)
    return flat.replace("⌀", "Ø").replace("\u03bc", "\u00b5")


def _plain(c: str) -> bool:
    try:
        c.encode("cp1252")
    except UnicodeEncodeError:
        return False
    return True


@functools.lru_cache(maxsize=4096)
def runs(text: str) -> tuple[Run, ...]:
    """Return a text as stretches in one face each."""
    out: list[Run] = []
    for c in text:
        face = FACE if _plain(c) else WIDE_FACE
        if out and out[-1].face == face:
            out[-1] = Run(face, out[-1].text + c)
        else:
            out.append(Run(face, c))
    return tuple(out)


@functools.lru_cache(maxsize=8192)
def _em_width(text: str) -> float:
    from reportlab.pdfbase import pdfmetrics

    stretches = runs(text)
    if any(r.face == WIDE_FACE for r in stretches):
        register()
    return sum(float(pdfmetrics.stringWidth(r.text, r.face, 1000.0)) for r in stretches) / 1000.0


def width(text: str, height: float) -> float:
    """Return the width [mm] of a text of a capital height [mm]."""
    return _em_width(text) * height / CAPITAL * NARROW


def wrap(text: str, height: float, room: float) -> list[str]:
    """Break a text into lines.

    Args:
        text: words; a line feed breaks, too.
        height: capital height [mm].
        room: width of a line [mm].

    Returns:
        Lines that fit; a word wider than a line is cut and carried on.
    """
    out: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for word in clean(paragraph).split():
            for piece in _pieces(word, height, room):
                longer = f"{line} {piece}" if line else piece
                if line and width(longer, height) > room:
                    out.append(line)
                    line = piece
                else:
                    line = longer
        out.append(line)
    return out


def _pieces(word: str, height: float, room: float) -> list[str]:
    if width(word, height) <= room:
        return [word]
    out, piece = [], ""
    for c in word:
        if piece and width(piece + c, height) > room:
            out.append(piece)
            piece = ""
        piece += c
    return [*out, piece]
