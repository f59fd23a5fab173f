"""The rack file: read with every fault said, and written back."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from parts.handle.rack import Board, Defect, parse_rack, read_rack, write_rack
from shared.errors import InputError

HEAD = "board,species,thickness_in,width_in,length_in,grade,moisture_percent,defects_in\n"


def test_reads_comments_fractions_and_defects():
    boards = parse_rack("# invented\n" + HEAD + "A1,black-cherry,5/4,6-1/2,96,FAS,7,10 0 2 1; 50.5 2 1 1.5\n")
    assert boards[0].thickness_mm == pytest.approx(31.75) and boards[0].width_mm == pytest.approx(165.1)
    assert boards[0].usable_thickness_mm == pytest.approx(30.1625)
    assert boards[0].defects[1] == Defect(50.5 * 25.4, 50.8, 25.4, 1.5 * 25.4)


def test_metric_columns():
    text = HEAD.replace("_in", "_mm") + "A1,sugar-maple,30,150,2400,1C,8,\n"
    assert parse_rack(text)[0].length_mm == 2400
    assert parse_rack(text)[0].usable_thickness_mm == 30  # no standard thickness: taken as measured


def test_every_fault_is_said_with_file_row_column_value_and_what_is_allowed():
    rows = [
        "A1,black-chery,1.25,6,96,FAS,7,",
        "A1,black-cherry,x,6,96,FAS,7,",
        "A3,black-cherry,1.25,-6,96,FAS,7,95 0 2 1",
        "A4,black-cherry,1.25,6,96,Prime,700,1 2 3",
        "A5,black-cherry,1.25,6,96,FAS,7,90 5 2 1.5",
        "A6,black-cherry,1.25,6,96,FAS,7,-1 0 2 1",
        "A7,black-cherry",
    ]
    with pytest.raises(InputError) as err:
        parse_rack(HEAD + "\n".join(rows), "rack.csv")
    said = [str(f) for f in err.value.faults]
    expected = [
        ("rack.csv:2", "species", "black-chery", "nearest: black-cherry"),
        ("rack.csv:3", "board", "A1", "first on line 2"),
        ("rack.csv:3", "thickness_in", "'x'", "such as"),
        ("rack.csv:4", "width_in", "'-6'", "0.7874"),
        ("rack.csv:5", "grade", "Prime", "FAS"),
        ("rack.csv:5", "moisture_percent", "700", "100"),
        ("rack.csv:5", "defects_in", "'1 2 3'", "x y dx dy"),
        ("rack.csv:6", "defects_in", "90 5 2 1.5", "it ends at 92 by 6.5"),
        ("rack.csv:7", "defects_in", "-1 0 2 1", "0 or more"),
        ("rack.csv:8", "row", "2 cells", "8 cells"),
    ]
    assert len(said) == len(expected)
    for line, bits in zip(said, expected, strict=True):
        assert all(b in line for b in bits), (line, bits)


@pytest.mark.parametrize(
    "text", ["", "# only a comment\n", HEAD, "board,species\nA,b\n", HEAD.replace("grade", "grad")]
)
def test_a_file_without_boards_or_columns_is_refused(text):
    with pytest.raises(InputError):
        parse_rack(text)


def test_a_missing_file_is_refused(tmp_path):
    with pytest.raises(InputError, match="readable CSV"):
        read_rack(tmp_path / "none.csv")


def test_the_demo_rack():
    boards = read_rack("specs/rack.csv")
    assert len(boards) >= 36
    assert {round(b.thickness_mm / 25.4, 2) for b in boards} >= {1.0, 1.25, 1.5, 2.0}
    assert sum(bool(b.defects) for b in boards) >= 10


sizes = st.integers(2, 60).map(lambda n: n * 25.4 / 4)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(sizes, st.booleans()), min_size=1, max_size=5), st.sampled_from(["in", "mm"]))
def test_written_racks_read_back(rows, unit):
    boards = [
        Board(f"B{n}", "white-oak", 50.8, 100 + w, 2000 + w, "FAS", 7.5, (Defect(10, 5, w, 20),) if d else ())
        for n, (w, d) in enumerate(rows)
    ]
    back = parse_rack(write_rack(boards, "left over", unit))
    for a, b in zip(boards, back, strict=True):
        assert (a.name, a.species, a.grade) == (b.name, b.species, b.grade)
        assert a.length_mm == pytest.approx(b.length_mm, abs=0.01)
        assert len(a.defects) == len(b.defects)
