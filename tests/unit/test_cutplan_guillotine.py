"""The layout solver against every possible layout of small boards, and its kerf, rotation and input."""

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parts.handle.cutplan.guillotine import Item, solve_layout
from parts.handle.cutplan.piecelist import parse_pieces
from shared.errors import InputError


def by_trying_all(length, width, rows):
    """Best value by trying every cut of a board and every share of the counts between its halves."""

    @cache
    def best(le, w, counts):
        top = max((v for (a, b, _, v), n in zip(rows, counts, strict=True) if n and a <= le and b <= w), default=0)
        if not top:
            return 0
        shares = list(share(counts))
        for cut in range(1, le // 2 + 1):
            top = max(top, *(best(cut, w, one) + best(le - cut, w, two) for one, two in shares))
        for cut in range(1, w // 2 + 1):
            top = max(top, *(best(le, cut, one) + best(le, w - cut, two) for one, two in shares))
        return top

    def share(counts):
        if not counts:
            yield (), ()
            return
        for one, two in share(counts[1:]):
            for n in range(counts[0] + 1):
                yield (n, *one), (counts[0] - n, *two)

    return best(length, width, tuple(c for _, _, c, _ in rows))


piece = st.tuples(st.integers(1, 5), st.integers(1, 5), st.integers(1, 2), st.integers(1, 20))


@settings(max_examples=40, deadline=None)
@given(st.integers(3, 7), st.integers(3, 7), st.lists(piece, min_size=1, max_size=3))
def test_equals_the_best_of_all_layouts(length, width, rows):
    layout = solve_layout(length, width, [Item(str(n), a, b, c, v) for n, (a, b, c, v) in enumerate(rows)])
    assert layout.optimal
    assert layout.value == by_trying_all(length, width, rows)


def test_kerf_counts_between_pieces_only():
    four = [Item("a", 48.4, 48.4, None, 0)]
    assert len(solve_layout(100, 100, four, 3.2).placements) == 4
    assert len(solve_layout(99.9, 100, four, 3.2).placements) == 2


def test_rotation_only_where_allowed():
    tall = [Item("a", 10, 60, 4, 0)]
    assert solve_layout(60, 40, tall).placements == ()
    turned = solve_layout(60, 40, tall, rotate=True)
    assert len(turned.placements) == 4 and all(p.rotated and p.length == 60 for p in turned.placements)


def test_counts_are_shared_between_both_turns():
    layout = solve_layout(20, 20, [Item("a", 10, 5, 3, 0)], rotate=True)
    assert layout.optimal and layout.value == 150


def test_nothing_fits():
    assert solve_layout(10, 10, [Item("a", 11, 5, 1, 0)]).placements == ()


def test_piece_list():
    items = parse_pieces("# c\nname,length_mm,width_mm,count,value\na,10,5.5,3,0\nb,4,4,,7\n", "p.csv")
    assert items == [Item("a", 10, 5.5, 3, 0), Item("b", 4, 4, None, 7)]


def test_piece_list_faults_are_all_said():
    with pytest.raises(InputError) as err:
        parse_pieces("name,length_mm,width_mm,count,value\na,x,5,1,0\nb,5,-1,0,0\nc,5\nd,5,5,1.5,0\n", "p.csv")
    said = "\n".join(map(str, err.value.faults))
    assert [w in said for w in ("p.csv:2: length_mm", "p.csv:3: width_mm", "p.csv:3: count", "p.csv:4: row")] == [
        True
    ] * 4
    assert "p.csv:5: count" in said
    with pytest.raises(InputError, match="header"):
        parse_pieces("a,b\n1,2\n", "p.csv")
