"""Guillotine layouts against the literature's optima.

Data: ESICUP/datasets, commit 5fba5c4f, CC0-1.0. cgcut: Christofides and Whitlock (1977); gcut: Beasley (1985);
wang: Wang (1983); CW1: PackLib. Optima without rotation unless said; (length, width, most pieces, value).
"""

import pytest

from parts.handle.cutplan.guillotine import Item, solve_layout

# fmt: off
INSTANCES = {
    "cgcut1": ((15, 10), 244, [
        (8, 4, 2, 66), (3, 7, 1, 35), (8, 2, 3, 24), (3, 4, 5, 17), (3, 3, 2, 11), (3, 2, 2, 8), (2, 1, 1, 2),
    ]),
    "cgcut2": ((40, 70), 2892, [
        (21, 22, 1, 582), (31, 13, 1, 403), (9, 35, 3, 315), (9, 24, 3, 216), (30, 7, 2, 210), (11, 13, 3, 143),
        (10, 14, 1, 140), (14, 8, 3, 110), (12, 8, 3, 94), (13, 7, 3, 90),
    ]),
    "gcut1": ((250, 250), 56460, [
        (167, 184, None, 30728), (114, 118, None, 13452), (167, 152, None, 25384), (83, 140, None, 11620),
        (70, 86, None, 6020), (143, 166, None, 23738), (120, 160, None, 19200), (66, 148, None, 9768),
        (87, 141, None, 12267), (69, 165, None, 11385),
    ]),
    "gcut2": ((250, 250), 60536, [
        (120, 133, None, 15960), (135, 186, None, 25110), (86, 75, None, 6450), (103, 73, None, 7519),
        (66, 85, None, 5610), (135, 97, None, 13095), (91, 175, None, 15925), (131, 176, None, 23056),
        (71, 176, None, 12496), (153, 72, None, 11016), (87, 148, None, 12876), (168, 107, None, 17976),
        (118, 90, None, 10620), (140, 109, None, 15260), (132, 159, None, 20988), (152, 93, None, 14136),
        (135, 68, None, 9180), (121, 158, None, 19118), (68, 94, None, 6392), (155, 76, None, 11780),
    ]),
    "gcut5": ((500, 500), 246000, [
        (198, 205, None, 40590), (179, 155, None, 27745), (364, 236, None, 85904), (272, 147, None, 39984),
        (352, 145, None, 51040), (343, 245, None, 84035), (132, 174, None, 22968), (164, 250, None, 41000),
        (282, 356, None, 100392), (342, 151, None, 51642),
    ]),
    "wang_40x70": ((40, 70), 2721, [
        (31, 43, 1, 1333), (30, 41, 1, 1230), (29, 39, 1, 1131), (28, 38, 1, 1064), (27, 37, 1, 999),
        (26, 36, 1, 936), (25, 35, 2, 875), (24, 34, 2, 816), (33, 23, 3, 759), (22, 32, 2, 704), (31, 21, 3, 651),
        (29, 18, 3, 522), (17, 27, 2, 459), (16, 25, 4, 400), (15, 24, 2, 360), (15, 24, 1, 360), (23, 14, 4, 322),
        (21, 12, 3, 252), (19, 11, 4, 209), (9, 17, 1, 153),
    ]),
    "CW1": ((125, 105), 6402, [
        (42, 41, 3, 283), (28, 65, 1, 256), (28, 63, 2, 221), (31, 38, 3, 704), (69, 24, 2, 648), (35, 35, 6, 298),
        (47, 55, 2, 442), (78, 22, 1, 640), (33, 30, 8, 534), (77, 47, 1, 406), (35, 41, 4, 469), (55, 34, 2, 186),
        (72, 66, 1, 291), (37, 64, 3, 665), (48, 26, 6, 399), (51, 21, 1, 456), (58, 40, 2, 201), (44, 22, 6, 424),
        (41, 61, 2, 414), (59, 36, 2, 629), (25, 30, 4, 362), (47, 23, 1, 376), (56, 65, 2, 414), (29, 64, 1, 693),
        (78, 58, 1, 456),
    ]),
}
# fmt: on


def items_of(rows):
    return [Item(str(n), le, w, count, float(value)) for n, (le, w, count, value) in enumerate(rows)]


def check(layout, stock, rows, rotate=False):
    """Every piece on the board, none overlapping, counts kept, and separable by edge-to-edge cuts."""
    assert sum(rows[int(p.name)][3] for p in layout.placements) == layout.value
    for n, row in enumerate(rows):
        assert row[2] is None or sum(p.name == str(n) for p in layout.placements) <= row[2]
    boxes = [(p.x, p.y, p.x + p.length, p.y + p.width) for p in layout.placements]
    assert all(a >= 0 and b >= 0 and c <= stock[0] and d <= stock[1] for a, b, c, d in boxes)
    if not rotate:
        assert all((p.length, p.width) == rows[int(p.name)][:2] for p in layout.placements)
    assert separable(boxes)


def separable(boxes):
    if len(boxes) < 2:
        return True
    for axis in (0, 1):
        for cut in sorted({b[axis] for b in boxes})[1:]:
            before = [b for b in boxes if b[axis + 2] <= cut]
            after = [b for b in boxes if b[axis] >= cut]
            if len(before) + len(after) == len(boxes) and before and after:
                return separable(before) and separable(after)
    return False


@pytest.mark.parametrize("name", list(INSTANCES))
def test_published_optimum(name):
    stock, optimum, rows = INSTANCES[name]
    layout = solve_layout(*stock, items_of(rows))
    assert layout.optimal and layout.value == optimum
    check(layout, stock, rows)


@pytest.mark.parametrize(("name", "optimum"), [("gcut1", 58136), ("gcut2", 60611), ("gcut5", 246000)])
def test_published_optimum_with_rotation(name, optimum):
    stock, _, rows = INSTANCES[name]
    layout = solve_layout(*stock, items_of(rows), rotate=True)
    assert layout.optimal and layout.value == optimum
    check(layout, stock, rows, rotate=True)


@pytest.mark.parametrize(("name", "optimum"), [("cgcut1", 249), ("cgcut2", 3076)])
def test_published_optimum_without_count_limits(name, optimum):
    """Own exact solver of the data's keeper."""
    stock, _, rows = INSTANCES[name]
    free = [Item(str(n), le, w, None, float(v)) for n, (le, w, _, v) in enumerate(rows)]
    layout = solve_layout(*stock, free)
    assert layout.optimal and layout.value == optimum
