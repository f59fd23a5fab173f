"""An upper bound for interlocked plans: no nest puts more face of pieces on a board than the board has.

Pieces stand a kerf and their allowances apart, so outlines grown by half of that never overlap. A linear program then
shares grown faces out among the boards, in parts if need be: what it gives no real plan can beat, straight or nested.
"""

from __future__ import annotations

import math
from itertools import pairwise, product

import numpy as np

from parts.handle.blanks import Blank, WoodPractice
from parts.handle.cutplan.grid import EPS, GridBoard, Instance
from parts.handle.cutplan.master import MATCH_WORTH_BF, Master


def least_face_mm2(blank: Blank, practice: WoodPractice) -> float:
    """Return the least face [mm2] that a piece keeps for itself, sawn by outline or as a rectangle.

    Source: Brunn and Minkowski: an outline of area A grown all round by r covers A + 2 r sqrt(pi A) + pi r2 or more.
    """
    box = blank.length_mm * blank.width_mm
    if not blank.outline:
        return box
    points = blank.outline
    pairs = zip(points, [*points[1:], *points[:1]], strict=True)
    bare = abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2
    r = practice.bandsaw_allowance_mm + practice.kerf_bandsaw_mm / 2
    return min(box, bare + 2 * r * math.sqrt(math.pi * bare) + math.pi * r * r)


def clear_face_mm2(board: GridBoard, practice: WoodPractice) -> float:
    """Return the face [mm2] between trimmed ends and jointed edges, defects taken out, half a kerf over at the rim."""
    p, half = practice, practice.kerf_bandsaw_mm / 2
    x0, y0 = p.end_trim_mm - half, p.edge_clearance_mm - half
    x1, y1 = board.board.length_mm - x0, board.board.width_mm - y0
    if x1 <= x0 or y1 <= y0:
        return 0.0
    c = p.defect_clearance_mm
    spots = [
        (max(x0, d.x - c), max(y0, d.y - c), min(x1, d.x + d.dx + c), min(y1, d.y + d.dy + c))
        for d in board.board.defects
    ]
    spots = [s for s in spots if s[0] < s[2] and s[1] < s[3]]
    xs = sorted({v for s in spots for v in (s[0], s[2])})
    ys = sorted({v for s in spots for v in (s[1], s[3])})
    covered = sum(
        (xb - xa) * (yb - ya)
        for xa, xb in pairwise(xs)
        for ya, yb in pairwise(ys)
        if any(s[0] <= xa and xb <= s[2] and s[1] <= ya and yb <= s[3] for s in spots)
    )
    return (x1 - x0) * (y1 - y0) - covered


def area_bound(inst: Instance, master: Master) -> float:
    """Return what no plan of the instance can be worth more than, by face alone [bf, as the master plan counts].

    Args:
        inst: orders and boards of one wood.
        master: the master plan, for the worth of sets and of matched sets and the boards' weights.
    """
    from scipy.optimize import linprog
    from scipy.sparse import coo_array

    n_o, n_k, n_b = len(inst.orders), len(inst.kinds), len(inst.boards)
    faces = [least_face_mm2(inst.orders[k.order].blanks[k.blank], inst.practice) for k in inst.kinds]
    thick = [b.board.usable_thickness_mm + EPS for b in inst.boards]
    # unknowns: sets of each order, matched sets by board, pieces by board
    pieces = [(b, i) for b, i in product(range(n_b), range(n_k)) if inst.kinds[i].thickness_mm <= thick[b]]
    matched = [
        (b, o)
        for b, o in product(range(n_b), range(n_o))
        if master.match
        and len(inst.kinds_of(o)) > 1
        and all(inst.kinds[i].thickness_mm <= thick[b] for i in inst.kinds_of(o))
    ]
    at = {piece: c for c, piece in enumerate(pieces, n_o + len(matched))}
    cost = [-master.set_worth] * n_o + [-MATCH_WORTH_BF] * len(matched)
    cost += [faces[i] * inst.boards[b].bf_per_mm2 * float(master.weights[b]) for b, i in pieces]
    entries = [(i, kind.order, 1.0) for i, kind in enumerate(inst.kinds)]
    for (b, i), c in at.items():
        entries += [(i, c, -1.0), (n_k + b, c, faces[i])]
    row = n_k + n_b
    entries += [(row + o, o, -1.0) for o in range(n_o)]
    row_of_pair = row + n_o
    for c, (b, o) in enumerate(matched, n_o):
        entries.append((row + o, c, 1.0))
        for i in inst.kinds_of(o):
            entries += [(row_of_pair, c, 1.0), (row_of_pair, at[b, i], -1.0)]
            row_of_pair += 1
    limit = np.zeros(row_of_pair)
    limit[n_k : n_k + n_b] = [b.copies * clear_face_mm2(b, inst.practice) for b in inst.boards]
    r, c_, v = zip(*entries, strict=True)
    matrix = coo_array((v, (r, c_)), shape=(row_of_pair, len(cost))).tocsr()
    bounds = [(0.0, float(o.quantity)) for o in inst.orders] + [(0.0, None)] * (len(cost) - n_o)
    got = linprog(cost, A_ub=matrix, b_ub=limit, bounds=bounds, method="highs-ds")
    if got.status != 0:
        raise AssertionError(f"area bound: {got.message}")
    return -float(got.fun)
