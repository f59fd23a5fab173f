"""`planewright first-article` and what a pattern maker and founder read, as a user runs it."""

import csv
import io
import json
import shutil

import pytest

HERON = "specs/heron.toml"


def filled(text, contraction):
    """Return the sheet with castings that contract alike along an axis; lever cap and lever stay unmeasured."""
    sheet = list(csv.DictReader(io.StringIO(text)))
    out = io.StringIO()
    writer = csv.DictWriter(out, sheet[0])
    writer.writeheader()
    for row in sheet:
        if row["part"] in ("body", "frog"):
            row["casting_in"] = f"{float(row['pattern_in']) / (1 + contraction[row['axis']]):.5f}"
        writer.writerow(row)
    return out.getvalue()


def test_from_sheet_to_pattern(run, tmp_path):
    empty = run("first-article", HERON, "--template")
    assert empty.returncode == 0
    sheet, shop = tmp_path / "first.csv", tmp_path / "shop.toml"
    sheet.write_text(filled(empty.stdout, {"x": 0.0095, "y": 0.0104, "z": 0.0112}))
    shutil.copy("specs/shop.toml", shop)
    done = run("first-article", HERON, sheet, "--shop", shop, "--write")
    assert done.returncode == 0, done.stderr
    for line in ('x = "0.950 %"', 'y = "1.040 %"', 'z = "1.120 %"', "left out of it: none", "at 95%"):
        assert line in done.stdout
    rows = json.loads(run("pattern", HERON, "--shop", shop, "--json").stdout)["body"]["rows"]
    length = next(r for r in rows if r["feature"] == "length over all")
    assert length["pattern_mm"] == pytest.approx(length["casting_mm"] * 1.0095)
    again = run("first-article", HERON, sheet, "--shop", shop, "--write", "--json")
    assert again.returncode == 1
    assert "stands there already" in again.stderr
    axes = json.loads(again.stdout)["ductile-iron-65-45-12"]["axes"]
    assert axes["x"]["contraction"] == pytest.approx(0.0095, abs=1e-5)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "the filled sheet, or --template"),
        (("nowhere.csv",), "read nothing there; allowed: a readable CSV file"),
        (("specs/rack.csv",), "columns casting, feature, axis"),
        (("--template", "--json"), "--template alone"),
        (("x.csv", "--confidence", "120%"), "less than 100%"),
    ],
)
def test_bad_input_is_one_message(run, words, said):
    done = run("first-article", HERON, *words)
    assert done.returncode == 2
    assert said in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert done.stdout == ""


def test_a_feature_that_is_not_on_the_sheet_is_refused_with_the_nearest(run, tmp_path):
    sheet = tmp_path / "first.csv"
    sheet.write_text("casting,feature,axis,pattern_in,casting_in\n1,lenght over all,x,14.14,14\n")
    done = run("first-article", HERON, sheet)
    assert done.returncode == 2
    assert "first.csv:2: feature: read 'lenght over all'" in done.stderr
    assert "did you mean 'length over all'?" in done.stderr
