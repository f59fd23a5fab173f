"""Packets and templates of a whole build: pages, revision and text on each, true size."""

from functools import cache

import pypdf
import pytest

from parts.plane.sheet_papers import SHOPS

MM = 72 / 25.4  # points


@cache
def pages(path):
    return pypdf.PdfReader(path).pages


@cache
def texts(path):
    return [page.extract_text() for page in pages(path)]


@pytest.mark.parametrize("shop", SHOPS)
def test_each_page_of_a_packet_says_what_it_is(built, shop):
    folder, _ = built
    found = texts(folder / "pdf" / f"packet-{shop}.pdf")
    assert len(found) >= 3
    for i, text in enumerate(found, 1):
        assert f"Heron revision A · {shop} packet · page {i} of {len(found)}" in text
        assert "Larch Lane Plane Works" in text


def test_every_sheet_is_in_a_packet_and_has_its_files(built):
    folder, _ = built
    sheets = {p.stem for p in (folder / "pdf").glob("*.pdf") if not p.stem.startswith("packet-")}
    assert {"body", "body-casting", "body-pattern", "frog", "tote", "knob", "card-pour", "inspection"} <= sheets
    numbers = set()
    for shop in SHOPS:
        for text in texts(folder / "pdf" / f"packet-{shop}.pdf"):
            numbers |= {word for word in text.split() if word.startswith("heron-")}
    assert {f"heron-{s}" for s in sheets} <= numbers
    for stem in sheets - {"blade"}:
        names = {p.name for p in (folder / "dxf").glob(f"{stem}*.dxf")}
        assert names & {f"{stem}.dxf", f"{stem}-sheet.dxf"}, stem
    assert {"blade.dxf", "blade-sheet.dxf"} <= {p.name for p in (folder / "dxf").iterdir()}


def test_the_inspection_sheet_has_limits_and_room_to_write(built):
    text = "".join(texts(built[0] / "pdf" / "inspection.pdf"))
    for word in ("measured", "initials", "at most 0.0010 [0.025]", "44.9° to 45.1°", "61 to 63 HRC", "[4.10 to 4.13]"):
        assert word in text


def test_the_pour_card_is_the_pour_plan(built):
    text = " ".join("".join(texts(built[0] / "pdf" / "card-pour.pdf")).split())
    for word in ("100 good planes", "choke", "sprue at its base", "carbon equivalent", "Zinc fume", "treated at"):
        assert word in text


def bars(page):
    """Return the lengths [mm] of level lines drawn on a page, by the operators of its content."""
    found, at, scale = [], (0.0, 0.0), 1.0
    for operands, operator in pypdf.generic.ContentStream(page.get_contents(), page.pdf).operations:
        if operator == b"m":
            at = tuple(map(float, operands))
        elif operator == b"l" and abs(float(operands[1]) - at[1]) < 1e-3:
            found.append(abs(float(operands[0]) - at[0]) * scale / MM)
        elif operator == b"cm":
            # words along a line stand a quarter turn round
            assert [float(x) for x in operands[:4]] in ([1, 0, 0, 1], [0, 1, -1, 0]), "nothing is scaled"
    return found


TEMPLATES = ("tote-side", "knob-profile", "cheek", "blade", "body-pattern-plan", "body-pattern-side")


@pytest.mark.parametrize("stem", TEMPLATES)
def test_templates_are_at_true_size(built, stem):
    found = pages(built[0] / "templates" / f"{stem}.pdf")
    for i, page in enumerate(found, 1):
        size = sorted(float(x) / MM for x in page.mediabox[2:])
        assert size == pytest.approx([215.9, 279.4], abs=0.01)
        assert any(abs(b - 100.0) < 1e-3 for b in bars(page)), "the bar that proves the print"
        text = page.extract_text()
        assert "Heron revision A · spec " in text and f"· {stem} ·" in text and f"page {i} of {len(found)}" in text


def test_the_pattern_plan_template_is_at_pattern_size(built):
    """The long sides less their corners, against the pattern's length in numbers.json."""
    import json

    folder, _ = built
    body = json.loads((folder / "numbers.json").read_text())["body"]
    from parts.body.walls import envelope
    from parts.plane.design import design
    from parts.plane.shop import load_shop
    from parts.plane.spec import load_spec

    d = design(load_spec("specs/heron.toml"), load_shop("specs/shop.toml"))
    straight = body["pattern_length_mm"] - 2 * envelope(d.body).corner * (1 + body["contraction"])
    lengths = [b for page in pages(folder / "templates" / "body-pattern-plan.pdf") for b in bars(page)]
    assert any(b == pytest.approx(straight, abs=0.01) for b in lengths)


def test_shrink_rules_are_written_by_a_build_and_by_the_command(built, run, tmp_path):
    names = {p.name for p in (built[0] / "templates").glob("shrink-rule-*.pdf")}
    assert {"shrink-rule-ductile-iron-65-45-12.pdf", "shrink-rule-ductile-iron-65-45-12-master.pdf",
            "shrink-rule-manganese-bronze-c86500.pdf"} <= names  # fmt: skip
    done = run("pattern", "specs/heron.toml", "--shrink-rule", tmp_path / "rules.pdf")
    assert done.returncode == 0, done.stderr
    assert len(pages(tmp_path / "rules.pdf")) >= len(names)
    assert "Contraction 1.000 %" in "".join(texts(tmp_path / "rules.pdf"))
    bad = run("pattern", "specs/heron.toml", "--shrink-rule", tmp_path / "none" / "rules.pdf")
    assert bad.returncode == 2 and "--shrink-rule" in bad.stderr and not bad.stdout
