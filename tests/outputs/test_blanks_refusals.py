"""`planewright blanks`, wrong rack or impossible order: one clear message, its exit code, nothing written."""

import pytest

HEAD = "board,species,thickness_in,width_in,length_in,grade,moisture_percent,defects_in\n"
GOOD = "G1,black-cherry,2,8,96,FAS,7,\n"

CASES = {
    "defect off the board": (
        HEAD + "A1,black-cherry,2,6,96,FAS,7,90 5 2 1.5\n", 1, 2,
        ("rack.csv:2: defects_in", "90 5 2 1.5", "it ends at 92 by 6.5"),
    ),
    "duplicate board names": (
        HEAD + GOOD + GOOD, 1, 2, ("rack.csv:3: board", "'G1'", "first on line 2"),
    ),
    "unknown species": (
        HEAD + "A1,black-chery,2,6,96,FAS,7,\n", 1, 2, ("rack.csv:2: species", "black-chery", "nearest: black-cherry"),
    ),
    "a word for a size": (
        HEAD + "A1,black-cherry,2,wide,96,FAS,7,\n", 1, 2, ("rack.csv:2: width_in", "'wide'", "6-1/2"),
    ),
    "zero quantity": (HEAD + GOOD, 0, 2, ("--quantity", "0", "1 or more")),
    "every board thinner than the tote": (
        HEAD + "A1,black-cherry,1,8,96,FAS,7,\nA2,black-cherry,0.75,8,96,FAS,7,\n", 1, 1,
        ("blank tote needs a thickness of", "every board of black-cherry is thinner",
         "thickest is board A1, 1.00 in [25.4 mm], of which 0.94 in [23.8 mm]", "buy 5/4"),
    ),
    "every board thinner than the knob only": (
        HEAD + "A1,black-cherry,5/4,8,96,FAS,7,\n", 1, 1,
        ("blank knob needs a thickness of", "thickest is board A1, 1.25 in [31.8 mm]", "buy 7/4"),
    ),
    "a blank that fits no board": (
        HEAD + "A1,black-cherry,2,2,96,FAS,7,\nA2,black-cherry,2,3,96,FAS,7,\n", 1, 1,
        ("blank tote", "fits no board of black-cherry", "nearest is board A2, which has width 2.88 in [73.0 mm]"),
    ),
    "no board of the wood": (
        HEAD + "A1,white-oak,2,8,96,FAS,7,\n", 1, 1, ("no board of black-cherry on the rack; it holds white-oak",),
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", list(CASES))
def test_one_clear_message_and_nothing_written(run, tmp_path, case):
    text, quantity, code, said = CASES[case]
    rack = tmp_path / "rack.csv"
    rack.write_text(text, encoding="utf-8")
    more = ("--leftovers", tmp_path / "left.csv", "--papers", tmp_path / "papers")
    done = run("blanks", "specs/heron.toml", "--quantity", quantity, "--rack", rack, *more)
    assert done.returncode == code, done.stderr
    for words in said:
        assert words in done.stderr
    assert "Traceback" not in done.stderr and done.stdout == ""
    faults = [
        line for line in done.stderr.splitlines() if "black-cherry" in line or "rack.csv:" in line or "--q" in line
    ]
    assert len(faults) == 1 or case == "every board thinner than the tote"  # there the knob is too thick as well
    assert [p.name for p in tmp_path.iterdir()] == ["rack.csv"]


def test_a_thin_board_among_good_ones_is_named_and_left_on_the_rack(run, tmp_path):
    rack, left = tmp_path / "rack.csv", tmp_path / "left.csv"
    rack.write_text(HEAD + GOOD + "T1,black-cherry,1/2,8,96,FAS,7,\n", encoding="utf-8")
    done = run("blanks", "specs/heron.toml", "--quantity", 1, "--rack", rack, "--leftovers", left)
    assert done.returncode == 0, done.stderr
    assert "set aside: board T1 is thinner than any blank: 0.50 in [12.7 mm]; the tote needs" in done.stdout
    assert "T1,black-cherry" in left.read_text(encoding="utf-8")
