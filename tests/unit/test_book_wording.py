"""The book's words: signs for units, the spec's own unit first, names for ids."""

import re
from pathlib import Path

import pytest

from parts.commands.load import load_design
from parts.plane.checks import check_design
from shared.book.wording import Wording, signs

SPECS = Path(__file__).parents[2] / "specs"
INCH = Wording("inch", {"ductile-iron-65-45-12": "Ductile iron 65-45-12", "black-cherry": "black cherry"})
METRIC = Wording("mm")

SAID = [
    # as the program says it, on an inch plane, on a metric plane
    ("45.0 deg", "45°", "45°"),
    ("±1.77 deg", "±1.77°", "±1.77°"),
    ("25 deg plus/minus 1 deg", "25° ±1°", "25° ±1°"),
    ("0.80 mm", "0.0315 in (0.80 mm)", "0.80 mm"),
    ("112 mm hand breadth", "4.41 in (112 mm) hand breadth", "112 mm hand breadth"),
    ("0.1 to 1.5 mm", "0.004 to 0.059 in (0.1 to 1.5 mm)", "0.1 to 1.5 mm"),
    ("±2 mm; 0.1 mm aft", "±0.08 in (±2 mm); 0.004 in (0.1 mm) aft", "±2 mm; 0.1 mm aft"),
    ("20 × 30 mm", "0.79 × 1.18 in (20 × 30 mm)", "20 × 30 mm"),
    ("5-7 mm off", "0.20-0.28 in (5-7 mm) off", "5-7 mm off"),
    ("0.003 mm", "0.00012 in (0.003 mm)", "0.003 mm"),
    ("4, 4.012 mm", "0.1575, 0.1580 in (4, 4.012 mm)", "4, 4.012 mm"),
    ("a bore (7.3 mm) free", "a bore (0.287 in [7.3 mm]) free", "a bore (7.3 mm) free"),
    ("0.0150 in (0.38 mm)", "0.0150 in (0.38 mm)", "0.38 mm (0.0150 in)"),
    ("153.344 mm (6.0372 in)", "6.0372 in (153.344 mm)", "153.344 mm (6.0372 in)"),
    ("0.7 of it (0.0105 in (0.27 mm))", "0.7 of it (0.0105 in [0.27 mm])", "0.7 of it (0.27 mm [0.0105 in])"),
    ("2.0 × 7.5 in [50.8 × 190.5 mm]", "2.0 × 7.5 in [50.8 × 190.5 mm]", "50.8 × 190.5 mm [2.0 × 7.5 in]"),
    ("~2-1/4 in (57.17 mm)", "~2-1/4 in (57.17 mm)", "57.17 mm (~2-1/4 in)"),
    ("2.61 kg (5.76 lb)", "5.76 lb (2.61 kg)", "2.61 kg (5.76 lb)"),
    ("0.1751 kg", "0.386 lb (0.1751 kg)", "0.1751 kg"),
    ("12 g", "0.42 oz (12 g)", "12 g"),
    ("tempered at 149 °C", "tempered at 300 °F (149 °C)", "tempered at 149 °C"),
    ("300 F (149 C), 2 h", "300 °F (149 °C), 2 h", "149 °C (300 °F), 2 h"),
    ("350 to 1000 F", "350 to 1000 °F", "177 to 538 °C (350 to 1000 °F)"),
    ("with C = 20 (272 C, 521 F)", "with C = 20 (272 °C, 521 °F)", "with C = 20 (272 °C, 521 °F)"),
    ("Ra 0.4 um", "Ra 16 µin [0.4 µm]", "Ra 0.4 µm [16 µin]"),
]


@pytest.mark.parametrize(("read", "inch", "metric"), SAID)
def test_the_spec_s_own_unit_leads(read, inch, metric):
    assert INCH.say(read) == inch
    assert METRIC.say(read) == metric


@pytest.mark.parametrize("read", [s for s, _, _ in SAID])
def test_words_said_once_are_not_changed_again(read):
    for w in (INCH, METRIC):
        assert w.say(w.say(read)) == w.say(read)


@pytest.mark.parametrize("same", [
    "1 in 10.5", "66 MPa", "7100 kg/m3", "98.6 mm²", "5.44 N/mm", "4 mm H7/m6", "0.2756 [7.00] H11", "A2, 62 HRC",
    "1/4-20 UNC", "spec 28606c5049b0", "1.04 d", "14 in", "±0.020 [0.50 mm]",
])  # fmt: skip
def test_what_has_no_second_unit_stays(same):
    assert INCH.say(same) == same


def test_ids_have_names_but_file_names_keep_theirs():
    assert INCH.say("alloy table, ductile-iron-65-45-12; as cast") == "alloy table, Ductile iron 65-45-12; as cast"
    assert INCH.plain("black-cherry") == "black cherry"
    for name in ("shrink-rule-ductile-iron-65-45-12.pdf", "ductile-iron-65-45-12.pdf", "templates/black-cherry"):
        assert INCH.plain(name) == name


def test_sources_get_signs_and_keep_their_sizes():
    assert signs("hardened at 1775 F; 30 mm; 10 degrees; 15.3 um/K") == "hardened at 1775 °F; 30 mm; 10°; 15.3 µm/K"


@pytest.mark.parametrize("name", ["heron", "heron-metric", "linnet", "crane", "wren", "wren-long"])
def test_no_size_of_a_check_is_written_into_another_one_s_brackets(name) -> None:
    d = load_design(SPECS / f"{name}.toml", None)
    wording = Wording(d.spec.units)
    for f in check_design(d):
        for said in (f.value, f.limit):
            text = wording.say(said)
            assert text.count("(") == text.count(")") and text.count("[") == text.count("]"), (f.code, text)
            assert not re.search(r"\([^)]*\(|\[[^]]*\[", text), (f.code, text)
