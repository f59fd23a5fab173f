"""First article: contraction by axis from measured castings."""

from pathlib import Path

import numpy as np
import pytest

from shared.casting.first_article import Measurement, analyse, read_measurements
from shared.errors import InputError, RequestError

TRUE = {"x": 0.0102, "y": 0.0085, "z": 0.0121}


def _simulate(
    rng: np.random.Generator, noise_mm: float, features: int, castings: int, odd: float = 0.0
) -> list[Measurement]:
    found = []
    for axis, s in TRUE.items():
        for f in range(features):
            size = float(rng.uniform(30, 350))
            own = float(rng.normal(0, noise_mm))  # a feature's own restraint, the same on every casting
            if odd and axis == "x" and f == 0:
                own += odd
            for c in range(castings):
                cast = size + own + float(rng.normal(0, 0.02))
                found.append(Measurement(str(c), f"{axis}{f}", axis, size * (1 + s), cast))
    return found


def test_exact_sizes_give_the_exact_contraction() -> None:
    result = analyse(_simulate(np.random.default_rng(1), 0.0, 6, 3))
    for a in result.axes:
        assert a.contraction == pytest.approx(TRUE[a.axis], abs=1e-4)
    assert not result.disagreeing


def test_interval_covers_the_truth_as_often_as_it_says() -> None:
    """300 intervals at 90 %: between 85 and 95 % of them hold the true value (three standard deviations)."""
    hits = total = 0
    for seed in range(100):
        for a in analyse(_simulate(np.random.default_rng(seed), 0.15, 3, 3), 0.90).axes:
            assert a.low is not None and a.high is not None
            hits += a.low <= TRUE[a.axis] <= a.high
            total += 1
    assert 0.848 < hits / total < 0.952


def test_an_odd_feature_is_named_and_left_out() -> None:
    result = analyse(_simulate(np.random.default_rng(7), 0.05, 7, 4, odd=1.5), grades={"x0": 9})
    assert [f.feature for f in result.disagreeing] == ["x0"]
    assert "does not follow" in result.disagreeing[0].note
    assert "of grade 9" in result.disagreeing[0].note
    # the rest have no grade to be judged by
    assert not any("grade" in f.note for f in result.features if f.feature != "x0")
    x = next(a for a in result.axes if a.axis == "x")
    assert x.contraction == pytest.approx(TRUE["x"], abs=4e-4)
    assert result.disagreeing[0].residual_mm == pytest.approx(-1.5, abs=0.3)


def test_false_alarms_are_rare() -> None:
    alarms = sum(len(analyse(_simulate(np.random.default_rng(s), 0.1, 6, 2)).disagreeing) > 0 for s in range(60))
    assert alarms <= 8  # 180 axes at 1 % each; 8 is far out


def test_one_feature_is_judged_by_its_castings_and_one_size_gives_no_interval() -> None:
    sizes = [Measurement(str(i), "length", "x", 252.5, 250.0 + d) for i, d in enumerate((-0.1, 0.0, 0.1))]
    (axis,) = analyse(sizes).axes
    assert axis.basis == "castings of one feature"
    assert axis.contraction == pytest.approx(0.01, abs=1e-5)
    # t(0.975, 2) = 4.3027, sd of the residuals 0.101, √Σc² = 433.01
    assert axis.high is not None and axis.high - axis.contraction == pytest.approx(4.3027 * 0.101 / 433.01, rel=1e-3)
    (single,) = analyse(sizes[1:2]).axes
    assert single.low is None


def test_lines_for_the_shop_file() -> None:
    lines = analyse(_simulate(np.random.default_rng(3), 0.02, 5, 3)).shop_lines("ductile-iron-65-45-12")
    assert lines[0] == "[contraction.ductile-iron-65-45-12]"
    assert lines[1].startswith('x = "1.0') and lines[1].endswith(' %"')


def test_csv_in_inches(tmp_path: Path) -> None:
    path = tmp_path / "first.csv"
    path.write_text("casting,feature,axis,pattern_in,casting_in\nA1,length,X,14.14,14.0\n")
    (m,) = read_measurements(path)
    assert m.axis == "x"
    assert m.casting_mm == pytest.approx(355.6)
    assert m.contraction == pytest.approx(0.01)


def test_inch_fractions_are_read_as_elsewhere(tmp_path: Path) -> None:
    path = tmp_path / "first.csv"
    path.write_text('casting,feature,axis,pattern_in,casting_in\nA1,length,x,8-23/32,"219.1 mm"\n')
    (m,) = read_measurements(path)
    assert m.pattern_mm == pytest.approx((8 + 23 / 32) * 25.4)
    assert m.casting_mm == pytest.approx(219.1)


def test_a_row_that_comes_twice_is_refused_with_both_lines(tmp_path: Path) -> None:
    path = tmp_path / "first.csv"
    rows = "1,length,x,252.5,250\n2,length,x,252.5,250\n1,width,y,60.6,60\n1,length,x,252.5,250.1\n"
    path.write_text("casting,feature,axis,pattern_mm,casting_mm\n" + rows)
    with pytest.raises(InputError) as err:
        read_measurements(path)
    (fault,) = err.value.faults
    assert fault.where.endswith("first.csv:5")
    assert "line 2 and line 5" in str(fault)


def test_every_bad_cell_is_one_fault_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "first.csv"
    path.write_text(
        "casting,feature,axis,pattern_mm,casting_mm\nA1,length,x,252.5,long\nA1,,y,60,59\nA1,w,q,60,59\nA1,w,y,60,5.9\nA1,w\n"
    )
    with pytest.raises(InputError) as err:
        read_measurements(path)
    where = {(f.where.rsplit(":", 1)[1], f.key) for f in err.value.faults}
    assert {("2", "casting_mm"), ("3", "feature"), ("4", "axis"), ("5", "casting_mm"), ("6", "pattern_mm")} <= where


@pytest.mark.parametrize("text", ["", "casting,feature\n", "casting,feature,axis,pattern_mm,casting_mm\n"])
def test_files_without_content(tmp_path: Path, text: str) -> None:
    path = tmp_path / "first.csv"
    path.write_text(text)
    with pytest.raises(InputError):
        read_measurements(path)
    with pytest.raises(InputError):
        read_measurements(tmp_path / "none.csv")


def test_requests_that_cannot_be_met() -> None:
    one = Measurement("a", "f", "x", 101.0, 100.0)
    with pytest.raises(RequestError):
        analyse([])
    with pytest.raises(RequestError, match="two axes"):
        analyse([one, Measurement("a", "f", "y", 101.0, 100.0)])
    with pytest.raises(InputError):
        analyse([one], confidence=1.0)
