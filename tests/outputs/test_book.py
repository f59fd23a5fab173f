"""The plane book in a real browser: headless Chromium opens it as a user would."""

import io
import shutil

import numpy as np
import pytest

from shared.book.page import page
from tests.book_samples import ODD_NAME, sample

sync_api = pytest.importorskip("playwright.sync_api", reason="the playwright package is not installed")
CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium on this machine")


@pytest.fixture(scope="module")
def browser():
    with sync_api.sync_playwright() as p:
        opened = p.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu"])
        yield opened
        opened.close()


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    path = tmp_path_factory.mktemp("book") / "book.html"
    path.write_text(page(sample(ODD_NAME, "word " * 400)), encoding="utf-8")
    return path


@pytest.fixture
def opened(browser, book, request):
    """A page of the book; whatever it asks for or complains of is collected and fails the test."""
    how = getattr(request, "param", {})
    context = browser.new_context(**{"viewport": {"width": 1050, "height": 760}, "reduced_motion": "reduce", **how})
    tab = context.new_page()
    trouble = []
    tab.on("console", lambda m: trouble.append(m.text) if m.type == "error" else None)
    tab.on("pageerror", lambda e: trouble.append(str(e)))
    tab.on("request", lambda r: trouble.append(r.url) if not r.url.startswith(("file:", "data:", "blob:")) else None)
    tab.goto(book.as_uri())
    tab.wait_for_selector("html[data-view=ready]")
    yield tab
    context.close()
    assert trouble == []


def drawn(tab):
    """Pixels of the 3-D view as an array."""
    from PIL import Image

    tab.wait_for_function("() => new Promise((r) => requestAnimationFrame(() => requestAnimationFrame(() => r(true))))")
    return np.asarray(Image.open(io.BytesIO(tab.locator("canvas").screenshot())).convert("RGB")).astype(int)


def red(pixels):
    return int(((pixels[..., 0] > 60) & (pixels[..., 0] > 2.2 * pixels[..., 2])).sum())


def blue(pixels):
    return int(((pixels[..., 2] > 60) & (pixels[..., 2] > 1.6 * pixels[..., 0])).sum())


def test_view_is_drawn_and_a_click_hides_a_part(opened):
    before = drawn(opened)
    assert red(before) > 5000
    assert blue(before) > 2000
    opened.get_by_label("upper").click()
    after = drawn(opened)
    assert blue(after) == 0
    assert red(after) > red(before)
    assert "1 of 2 parts shown" in opened.locator("#said").inner_text()
    opened.get_by_role("button", name="Hide all").click()
    assert red(drawn(opened)) == 0
    opened.get_by_role("button", name="Show all").click()
    assert abs(blue(drawn(opened)) - blue(before)) < 50


def test_a_part_clicked_in_the_view_says_its_name_and_delete_hides_it(opened):
    pixels = drawn(opened)
    rows, columns = np.nonzero((pixels[..., 2] > 60) & (pixels[..., 2] > 1.6 * pixels[..., 0]))
    opened.locator("canvas").click(position={"x": float(np.median(columns)), "y": float(np.median(rows))})
    assert opened.locator("#said").inner_text() == "2 upper"
    opened.keyboard.press("Delete")
    assert not opened.get_by_label("upper").is_checked()
    assert blue(drawn(opened)) == 0


def test_slider_takes_it_apart_by_keyboard(opened):
    before = drawn(opened)
    opened.get_by_label("Taken apart").focus()
    for _ in range(3):
        opened.keyboard.press("ArrowRight")
    assert opened.get_by_label("Taken apart").input_value() == "3"
    opened.keyboard.press("End")
    apart = drawn(opened)
    gap = np.abs(apart - before).sum(axis=2) > 60
    assert gap.sum() > 2000


def test_keys_turn_and_views_and_reset_come_back(opened):
    start = drawn(opened)
    opened.locator("canvas").focus()
    opened.keyboard.press("ArrowLeft")
    opened.keyboard.press("ArrowUp")
    opened.keyboard.press("+")
    assert (np.abs(drawn(opened) - start).sum(axis=2) > 60).sum() > 2000
    opened.keyboard.press("4")
    top = drawn(opened)
    assert blue(top) < red(top)
    opened.keyboard.press("0")
    assert (np.abs(drawn(opened) - start).sum(axis=2) > 60).sum() < 200


def test_stage_shows_only_what_is_cast(opened):
    opened.get_by_role("radio", name="casting").check()
    assert blue(drawn(opened)) == 0
    assert opened.get_by_label("upper").is_disabled()
    assert "1 of 1 parts shown" in opened.locator("#said").inner_text()


def test_numbers_open_and_are_found(opened):
    opened.get_by_text("2 numbers").click()
    entry = opened.locator('[id="n-blade.edge_deg"]')
    assert not entry.locator("dl").first.is_visible()
    entry.locator("summary").focus()
    opened.keyboard.press("Enter")
    assert entry.get_by_text("the rule of the works").is_visible()
    opened.get_by_label("Find a number").fill("EDGE angle")
    assert entry.is_visible()
    assert not opened.locator('[id="n-blade.length_mm"]').is_visible()
    assert opened.locator("#numbers output").inner_text() == "1 of 2"
    opened.get_by_label("Find a number").fill("")
    opened.locator(".facts a").click()
    assert entry.get_by_text("v + k").is_visible()


def test_failed_check_is_open_and_says_what_to_change(opened):
    assert opened.get_by_text("raise body.width").is_visible()
    assert not opened.get_by_text("own trials").is_visible()


def test_sheet_is_enlarged_and_shut_by_escape(opened):
    opened.get_by_role("button", name="Enlarge sheet: body").click()
    assert opened.locator("#large-picture").evaluate("(i) => i.complete && i.naturalWidth > 0")
    opened.keyboard.press("Escape")
    assert not opened.locator("#large").is_visible()
    opened.get_by_role("button", name="Enlarge picture: rear").click()
    assert opened.locator("#large-title").inner_text() == "rear"
    opened.get_by_role("button", name="Close").click()
    opened.get_by_role("button", name="Enlarge template: cheek").focus()
    opened.keyboard.press("Enter")
    assert opened.locator("#large-title").inner_text() == "Template: cheek"


@pytest.mark.parametrize(
    "opened", [{"viewport": {"width": 320, "height": 640}, "has_touch": True, "is_mobile": True}], indirect=True
)
def test_phone_has_no_sideways_scroll_and_is_touched(opened):
    opened.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
    assert opened.evaluate("document.documentElement.scrollWidth") == 320
    # no table hides a column beyond the edge: its cells stand one below the other, each with its heading
    wide = "[...document.querySelectorAll('.wide, pre')].filter((e) => e.scrollWidth > e.clientWidth + 1).length"
    assert opened.evaluate(wide) == 0
    mass, size = (opened.locator(f"#parts tbody tr:first-child [data-label='{n}']") for n in ("mass each", "size"))
    assert mass.bounding_box()["y"] > size.bounding_box()["y"] + 10
    heading = "(e) => getComputedStyle(e, '::before').content"
    assert mass.evaluate(heading) == '"mass each"'
    opened.get_by_label("upper").tap()
    assert not opened.get_by_label("upper").is_checked()
    small = opened.evaluate(
        "[...document.querySelectorAll('button, .stages span')].filter((b) => b.offsetHeight && b.offsetHeight < 34)"
        ".length"
    )
    assert small == 0


def test_print_opens_everything_and_leaves_the_controls_out(opened, tmp_path):
    pypdfium2 = pytest.importorskip("pypdfium2", reason="the pypdfium2 package is not installed")
    opened.pdf(path=str(tmp_path / "book.pdf"), format="A4")
    document = pypdfium2.PdfDocument(str(tmp_path / "book.pdf"))
    text = " ".join(" ".join(p.get_textpage().get_text_range() for p in document).split())
    assert text.count("3.748 lb") == 1
    for words in ("own trials", "the rule of the works", "a note", "the picture at the front stands for it"):
        assert words in text, words
    for words in ("Hide all", "Taken apart", "Find a number"):
        assert words not in text, words
    assert len(document) < 8


def test_without_webgl_a_sentence_says_so_and_the_pictures_remain(browser, book):
    tab = browser.new_page()
    tab.add_init_script("HTMLCanvasElement.prototype.getContext = () => null")
    tab.goto(book.as_uri())
    assert tab.get_by_text("The 3-D view needs JavaScript and WebGL").is_visible()
    assert not tab.locator("#viewer").is_visible()
    assert tab.locator(".front img").is_visible()
    tab.close()
