"""Design rules of a low-angle plane that only the models can judge: validity, stock, draft, interference."""

from __future__ import annotations

from parts.body.low_angle.proof import prove, prove_toe_piece
from parts.low_angle.cap import cap_finished
from parts.low_angle.proof import stock_points
from parts.low_angle.setting import NOMINAL, Setting
from parts.plane.low_angle.design import LowAngleDesign
from parts.plane.low_angle.models import ON_TOE_PIECE, Models
from parts.plane.rules import solids
from parts.plane.solid_checks import DESIGN, MEETING, valid_solids
from shared.cad.cast_proof import least_draft, least_stock, outside_casting
from shared.findings import Finding, judge

LATERAL = 0.9  # of what the blade can be turned, looked at each way
NEARLY = 0.97  # of the way out until the blade meets the mouth's front
MOVES = {"blade", "depth wheel"}


def settings(d: LowAngleDesign) -> dict[str, Setting]:
    """Return the settings looked at: as set, and each adjuster at its ends."""
    travel, turn = d.adjuster.travel, LATERAL * d.lateral.degrees
    way = d.body.toe_way
    # farther than this the blade could not go: it meets the front of the mouth
    out = Setting(blade_travel=-NEARLY * d.out_most, opening=None if way is None else way.opening_most)
    found = {
        "as set": NOMINAL,
        "blade drawn back": Setting(blade_travel=travel),
        "blade pushed out, mouth at its widest": out,
        # turned, a corner of the edge comes ahead: the mouth is opened for it
        "blade turned to the right": Setting(lateral=turn, opening=out.opening),
        "blade turned to the left": Setting(lateral=-turn, opening=out.opening),
    }
    if way is not None:
        found["mouth open"] = Setting(opening=way.opening_most)
        # the edge itself stands in the way of a mouth shut to nothing
        found["mouth shut, blade drawn back"] = Setting(blade_travel=travel, opening=way.opening_least)
    return found


def check_solids(d: LowAngleDesign, models: Models) -> list[Finding]:
    """Return what the models show.

    Args:
        d: the plane.
        models: its solids.
    """
    return [
        valid_solids(models),
        *solids.body(d, prove(d.body, models.body_casting, models.body)),
        *_cap(d, models),
        solids.pattern(d, models),
        *_toe_piece(d, models),
        *_interference(d, models),
    ]


def _cap(d: LowAngleDesign, models: Models) -> list[Finding]:
    size, casting = d.lever_cap, models.lever_cap_casting
    outside = outside_casting(cap_finished(size, casting), casting)
    stock = {name: least_stock(casting, point, out) for name, (point, out) in stock_points(size).items()}
    thin, least = min((v, k) for k, v in stock.items())
    draft = least_draft(casting, "z", size.underside_q)
    return [
        Finding(
            "S05",
            "lever_cap",
            "finished lever cap inside its casting, stock on every machined face",
            judge(outside <= 1e-3 and thin >= size.stock - 1e-3),
            f"{outside:.4f} mm³ outside; least stock {thin:.2f} mm, on the {least}",
            f"0; {size.stock:.2f} mm",
            "metal cannot be machined on",
            DESIGN,
            solids.MORE_STOCK,
        ),
        Finding(
            "S06",
            "lever_cap",
            "draft on every wall of the lever cap",
            judge(draft >= size.outside_draft - 0.01),
            f"{draft:.2f} deg",
            f"{size.outside_draft:g} deg",
            "a pattern without draft tears the mould",
            DESIGN,
            solids.LESS_DRAFT,
        ),
    ]


def _toe_piece(d: LowAngleDesign, models: Models) -> list[Finding]:
    if d.body.toe_way is None:
        return []
    places = prove_toe_piece(d.body, models.body)
    shared = max(p.shared_mm3 for p in places)
    off = max(abs(p.edge_x + p.opening) for p in places)
    return [
        Finding(
            "S08",
            "toe_piece",
            "toe piece slides free and sets the mouth it says",
            judge(shared <= MEETING and off <= 1e-3),
            f"shares {shared:.3f} mm³ at most with the body; mouth off by {off:.4f} mm at most, "
            f"at {len(places)} places",
            f"{MEETING:g} mm³; 0.001 mm",
            "a piece that binds, or does not reach its ends, sets no mouth",
            DESIGN,
            "lower body.toe_piece.opening_most",
        )
    ]


def _moved(setting: Setting) -> set[str]:
    """Return the names of what a setting moves."""
    moved = {"toe piece", *ON_TOE_PIECE} if setting.opening is not None else set()
    return moved | (MOVES if setting.blade_travel or setting.lateral else set())


def _interference(d: LowAngleDesign, models: Models) -> list[Finding]:
    moved = [_moved(setting) for setting in settings(d).values()]

    def looked_at(setting: int, pair: frozenset[str]) -> bool:
        # what has not moved since the first setting was looked at there
        return setting == 0 or bool(pair & moved[setting])

    placed = ((name, models.at(s)) for name, s in settings(d).items())
    return solids.interference(d.spec.plane.kind, placed, looked_at)
