"""Clear boards: as many totes as spyrrow's strip packing of the same outlines finds in 60 s.

Run by hand: python tests/bench/bench_against_spyrrow.py [seconds]. For each board the product's own interlocked plan is
made, searched as any small rack is; spyrrow is then asked for one tote more. It gets the same room, the outlines grown
by shaping allowance and half a kerf, the same turns off the grain, end for end, with all of one hand and with half of
them turned over. It wins when its strip is no longer than the board.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

import spyrrow
from shapely import affinity
from shapely.geometry import Polygon

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from parts.commands.load import load_design
from parts.handle.blanks import Blank, WoodPractice
from parts.handle.cutplan.model import Order
from parts.handle.cutplan.plan import plan_boards
from parts.handle.rack import Board
from parts.plane.wood import handle_blanks

MM = 25.4
SIZES_IN = ((5.0, 72.0), (6.5, 48.0), (7.0, 96.0), (8.25, 48.5), (10.25, 60.0))


def ours(blank: Blank, board: Board, practice: WoodPractice) -> tuple[int, float, float]:
    """Return totes, how far they reach along the board [mm] and processor seconds."""
    began = time.process_time()
    plan = plan_boards([Order("tote", board.species, 500, (blank,))], [board], practice)["interlocked"]
    laid = [p for b in plan.boards for p in b.placements]
    return len(laid), max(p.x + p.dx for p in laid), time.process_time() - began


def theirs(blank: Blank, board: Board, practice: WoodPractice, count: int, over: bool, seconds: int) -> float:
    """Return the length [mm] that spyrrow needs for a number of totes on a board's width."""
    p = practice
    grown = Polygon(blank.outline).buffer(p.bandsaw_allowance_mm + p.kerf_bandsaw_mm / 2, quad_segs=4).simplify(0.05)
    turns = [base + lean for base in (0.0, 180.0) for lean in (-p.grain_tolerance_deg, 0.0, p.grain_tolerance_deg)]
    hands = [(grown, count - count // 2), (affinity.scale(grown, 1, -1, origin=(0, 0)), count // 2)]
    if not over:
        hands = [(grown, count)]
    items = [spyrrow.Item(str(n), list(shape.exterior.coords), many, turns) for n, (shape, many) in enumerate(hands)]
    height = board.width_mm - 2 * p.edge_clearance_mm + p.kerf_bandsaw_mm
    instance = spyrrow.StripPackingInstance("totes", height, items)
    config = spyrrow.StripPackingConfig(early_termination=False, total_computation_time=seconds, num_workers=2, seed=1)
    return instance.solve(config).width


def main() -> int:
    """Compare board by board; 1 when spyrrow finds more on any."""
    seconds = int(sys.argv[1]) if len(sys.argv) > 1 else 60
    design = load_design(Path("specs/heron.toml"), None)
    blank, practice = handle_blanks(design)[0], design.shop.wood_practice()
    beaten = False
    for width, length in SIZES_IN:
        board = Board("B", "black-cherry", 2 * MM, width * MM, length * MM, "FAS", 7.0)
        count, reach, took = ours(blank, board, practice)
        room = board.length_mm - 2 * practice.end_trim_mm + practice.kerf_bandsaw_mm
        print(f"{width} x {length} in: {count} totes, to {reach:.0f} of {board.length_mm:.0f} mm, {took:.1f} s CPU")
        for over in (False, True):
            need = theirs(blank, board, practice, count + 1, over, seconds)
            beaten |= need <= room
            hands = "half turned over" if over else "one hand"
            print(f"  spyrrow, {count + 1} totes, {hands}, {seconds} s: {need:.0f} mm of {room:.0f} mm", flush=True)
    print("spyrrow finds more" if beaten else "never fewer than spyrrow")
    return int(beaten)


if __name__ == "__main__":
    sys.exit(main())
