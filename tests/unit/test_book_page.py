"""The plane book's page as text: nothing lost, nothing fetched, the same bytes twice; colours one can read."""

import base64
import html
import json
import re
import zlib
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import numpy as np
import pytest

from shared.book.content import Paper
from shared.book.explode import GAP, Loose, Way, explode
from shared.book.html import tag
from shared.book.packing import octahedral, pack_shapes
from shared.book.page import page
from shared.explain import explain, explanation_text
from shared.numbers import Numbers
from tests.book_samples import ODD_NAME, box, numbers, sample

VOID = {"meta", "link", "input", "img", "br", "hr"}


class Outline(HTMLParser):
    """Checks that elements nest; collects text, ids and addresses."""

    def __init__(self):
        super().__init__()
        self.open, self.text, self.ids, self.links, self.attrs = [], [], [], [], []

    def handle_starttag(self, name, attrs):
        if name not in VOID:
            self.open.append(name)
        self.attrs += attrs
        self.ids += [v for k, v in attrs if k == "id"]
        self.links += [v for k, v in attrs if k in ("href", "src")]

    def handle_endtag(self, name):
        assert self.open.pop() == name

    def handle_data(self, data):
        if self.open and self.open[-1] not in ("script", "style"):
            self.text.append(data)


def read(text):
    outline = Outline()
    outline.feed(text)
    assert outline.open == []
    return outline


def test_elements_nest_and_ids_stand_once():
    outline = read(page(sample()))
    assert len(outline.ids) == len(set(outline.ids))
    for link in outline.links:
        if link.startswith("#"):
            assert link[1:] in outline.ids


def test_odd_name_and_long_description_are_whole():
    long = "A <b>very</b> long & odd story 鷺. " * 400
    outline = read(page(sample(ODD_NAME, long)))
    shown = "".join(outline.text)
    assert long in shown
    # a control character cannot stand in HTML: its visible sign does
    assert ODD_NAME.replace("\x07", "␇") in shown
    assert "\x07" not in page(sample(ODD_NAME, long))


@pytest.mark.parametrize("odd", ["</script><script>alert(1)</script>", '"><img src=x onerror=alert(1)>', "]]>-->"])
def test_a_name_cannot_become_markup(odd):
    plain, outline = read(page(sample("Heron"))), read(page(sample(odd)))
    assert [k for k, _ in outline.attrs] == [k for k, _ in plain.attrs]
    assert odd in "".join(outline.text)
    data = re.search(r'<script type="application/json" id="shapes">(.*?)</script>', page(sample(odd)))[1]
    assert json.loads(data)["shapes"][0]["name"] == "1 lower"


def test_nothing_is_fetched():
    text = page(sample())
    assert "default-src 'none'" in html.unescape(text)
    for link in read(text).links:
        assert link.startswith(("#", "data:")) or not re.match(r"[a-z]+:|/", link)
    assert "pictures/rear%20%232.png" in text


def test_same_book_same_bytes():
    assert page(sample()).encode() == page(sample()).encode()


def test_everything_is_told():
    shown = html.unescape(" ".join(read(page(sample())).text))
    for words in ("edge angle", "raise body.width", "own trials", "a note", "125.92", "line <two>", "Hot metal hurts.",
                  "no rack", "1.2 kB", "2.50 MB", "This sheet has no picture", "3.748 lb",
                  "Numbered as on the sheet."):  # fmt: skip
        assert words in shown, words


def test_book_and_terminal_tell_a_number_alike():
    shown = " ".join(" ".join(read(page(sample())).text).split())
    for number in numbers()["blade"]:
        e = explain("blade", number)
        text = explanation_text(e)
        for part in (e.name, e.value, e.meaning, e.formula, e.source, e.decided_by, *(v for _, v in e.values)):
            assert part in text
            assert sample().wording.say(part) in shown
    assert explanation_text(explain("blade", numbers()["blade"]["length_mm"])) == (
        "blade.length_mm = 190.500 mm (7.5000 in)\n  meaning: from the edge to the top\n  formula: as set\n"
        "    length = 190.5\n    word = x < y\n  source:  the spec <A>"
    )


def test_lengths_angles_and_masses_lead_with_the_unit_of_the_spec():
    shown = " ".join(" ".join(read(page(sample())).text).split())
    assert "7.5000 in (190.500 mm)" in shown
    assert "25° or more" in shown
    assert " deg " not in shown.replace("blade.edge_deg ", "")
    metric = " ".join(" ".join(read(page(replace(sample(), units="mm"))).text).split())
    assert "190.500 mm (7.5000 in)" in metric
    assert "0.04 in (1 mm)" in shown  # a check that the program says in millimetres alone
    assert "0.04 in" not in metric


def test_parts_stand_under_the_numbers_given_and_every_cell_knows_its_heading():
    text = page(sample())
    rows = re.search(r'<table class="parts stacks">.*?</table>', text, re.S)[0]
    assert re.findall(r'class="count">(.*?)<', rows) == ["1", "2"]
    assert 'data-label="size"' in rows
    assert 'data-label="mass each"' in rows
    assert 'href="pdf/lower.pdf"' in rows
    # what the 3-D view says of a part that is clicked
    said = json.loads(re.search(r'<script type="application/json" id="shapes">(.*?)</script>', text)[1])
    assert [s["name"] for s in said["shapes"]] == ["1 lower", "2 upper"]


def test_a_number_that_is_a_list_of_lines_is_told_line_by_line():
    n = Numbers("bedding")
    lines = [
        {"name": "pin in lever", "hole_limits_mm": [4.0, 4.012], "riveted": True},
        {"name": "bed", "tolerance": 0.1, "unit": "deg"},
    ]
    n.add("fits", lines, "what sits where", "as set")
    n.add("closes", True, "it closes", "as set")
    text = page(replace(sample(), numbers={"bedding": n}))
    shown = html.unescape(" ".join(" ".join(read(text).text).split()))
    assert "hole limits 0.1575, 0.1580 in (4.000, 4.012 mm)" in shown
    assert "riveted yes" in shown
    assert "tolerance 0.1°" in shown
    assert "True" not in shown


def test_a_picture_stands_once_and_its_card_points_to_it():
    book = sample()
    card = Paper("Blade card", pictures=(book.pictures[1],))
    text = page(replace(book, papers=(card,)))
    assert text.count(base64.b64encode(book.pictures[1].data).decode("ascii")) == 2  # with the cover's, which is alike
    assert 'id="picture-pictures/rear #2.png"' in text
    assert 'href="#picture-pictures/rear%20%232.png"' in text


def test_controls_are_written_by_name():
    assert tag("input", type="checkbox", checked=True, hidden=False, data_part=0, aria_label='"') == (
        '<input type="checkbox" checked data-part="0" aria-label="&quot;">'
    )


def test_packed_surface_comes_back():
    """Read as surfaces.js reads it: planes of bytes, differences summed."""
    surface = box((1.0, -2.0, 3.0), (11.0, 5.0, 4.5))
    shape = sample().shapes[0]
    said, packed = pack_shapes([type(shape)("s", "g", (0, 0, 0), (0, 0, 0), {"finished": surface})])
    head, data = json.loads(said)["surfaces"][0], np.frombuffer(zlib.decompress(base64.b64decode(packed)), np.uint8)
    at = 0

    def column(count, width, summed):
        nonlocal at
        planes = data[at : at + count * width].reshape(width, count).astype(np.int64)
        at += count * width
        values = sum(p << (8 * i) for i, p in enumerate(planes))
        return np.cumsum(values) % 256**width if summed else values

    place = np.column_stack([column(head["corners"], 2, True) for _ in range(3)])
    back = np.array(head["low"]) + np.array(head["span"]) * place / 65535
    np.testing.assert_allclose(back, surface.vertices, atol=10.0 / 65535 + 1e-4)
    shares = np.column_stack([column(head["corners"], 1, True) for _ in range(2)]).astype(np.uint8).view(np.int8) / 127
    z = 1 - np.abs(shares).sum(axis=1)
    np.testing.assert_allclose(z[z > 0.5], 1.0)
    first = column(head["triangles"], 3, True)
    corners = [first, *((first + column(head["triangles"], 3, False)) % 2**24 for _ in range(2))]
    np.testing.assert_array_equal(np.column_stack(corners), surface.triangles)
    first = column(head["edges"], 3, True)
    np.testing.assert_array_equal((first + column(head["edges"], 3, False)) % 2**24, surface.edges[:, 1])
    assert at == len(data)


def test_octahedral_normals_are_within_a_degree():
    rng = np.random.default_rng(1)
    n = rng.normal(size=(2000, 3))
    n /= np.linalg.norm(n, axis=1, keepdims=True)
    p = octahedral(n) / 127
    z = 1 - np.abs(p).sum(axis=1)
    folded = (1 - np.abs(p[:, ::-1])) * np.where(p >= 0, 1, -1)
    back = np.column_stack([np.where(z[:, None] < 0, folded, p), z])
    back /= np.linalg.norm(back, axis=1, keepdims=True)
    assert (back * n).sum(axis=1).min() > np.cos(np.radians(1.0))


def test_pieces_come_apart_and_the_base_stays():
    up = (0.0, 0.0, 1.0)
    base, plate = box((-50, -20, 0), (50, 20, 10)), box((-20, -10, 10), (20, 10, 14))
    lid, rod = box((-20, -10, 14), (20, 10, 18)), box((-2, -2, 2), (2, 2, 22))
    pieces = [
        Loose("base", "base", base),
        Loose("lid", "top", lid),
        Loose("plate", "top", plate),
        Loose("rod", "screws", rod, up),
    ]
    gone = explode(pieces, {"base": Way((), up), "top": Way(("base",), up)}, up)
    assert gone["base"] == (0.0, 0.0, 0.0)
    assert gone["plate"][2] == pytest.approx(GAP)
    # the lid clears the plate wherever that went; the rod leaves along its axis and clears most of its host
    assert gone["lid"][2] == pytest.approx(gone["plate"][2] + GAP)
    assert gone["rod"][:2] == (0.0, 0.0)
    assert gone["rod"][2] > GAP
    assert explode(pieces, {"base": Way((), up), "top": Way(("base",), up)}, up) == gone
    assert explode([], {}, up) == {}


def _luminance(colour):
    shares = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in shares]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("scheme", [0, 1], ids=["light", "dark"])
def test_words_stand_out_from_what_they_stand_on(scheme):
    """WCAG 2.2, success criterion 1.4.3 (AA): contrast of text 4.5 to 1 or more."""
    style = (Path(__file__).parents[2] / "shared" / "book" / "style.css").read_text()
    blocks = re.findall(r":root \{(.*?)\}", style, re.S)[:2]
    colours = dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", blocks[scheme]))
    for ink in ("ink", "soft", "accent", "passed", "warning", "failed"):
        for ground in ("paper", "card", "tint", "well"):
            a, b = sorted((_luminance(colours[ink]), _luminance(colours[ground])))
            assert (b + 0.05) / (a + 0.05) >= 4.5, (ink, ground)
