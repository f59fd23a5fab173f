"""One self-contained HTML page from a book: style, scripts, pictures and surfaces inside, nothing fetched."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Callable
from importlib import resources

from shared.book import sections
from shared.book.content import Book
from shared.book.html import Markup, join, tag
from shared.book.numbers_section import numbers
from shared.book.packing import pack_shapes
from shared.book.parts_section import parts_table, view_section

SCRIPTS = ("surfaces.js", "camera.js", "viewer.js", "page.js")


def _asset(name: str) -> str:
    return resources.files("shared.book").joinpath(name).read_text(encoding="utf-8")


def _chapters(book: Book) -> list[tuple[str, str, Callable[[], Markup]]]:
    """Return the chapters that this book has: id, title, content."""
    every: list[tuple[str, str, bool, Callable[[], Markup]]] = [
        ("view", "3-D view", bool(book.shapes), lambda: view_section(book, pack_shapes(book.shapes))),
        ("pictures", "Pictures", len(book.pictures) > 1, lambda: sections.pictures(book)),
        ("parts", "Parts", bool(book.parts), lambda: parts_table(book)),
        ("checks", "Checks", bool(book.findings), lambda: sections.checks(book)),
        ("numbers", "Numbers", bool(book.numbers), lambda: numbers(book)),
        ("sheets", "Sheets", bool(book.sheets), lambda: sections.sheets(book.sheets)),
        (
            "templates",
            "Templates",
            bool(book.templates),
            lambda: sections.sheets(book.templates, "template", "pictures"),
        ),
        ("cards", "Cards and lists", bool(book.papers), lambda: sections.papers(book)),
        ("cautions", "Cautions", bool(book.cautions), lambda: sections.cautions(book)),
        ("notes", "Notes of this build", bool(book.notes), lambda: tag("ul", [tag("li", n) for n in book.notes])),
        ("files", "Files", bool(book.files), lambda: sections.files(book)),
    ]
    return [(name, title, make) for name, title, there, make in every if there]


def _policy(script: str) -> str:
    """Return the rule that keeps the page from fetching anything and from running any other script."""
    digest = base64.b64encode(hashlib.sha256(script.encode("utf-8")).digest()).decode("ascii")
    return (
        f"default-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src 'sha256-{digest}'; "
        "base-uri 'none'; form-action 'none'"
    )


def page(book: Book) -> str:
    """Return the whole page as text; the same book gives the same text."""
    script = "(() => {\n" + "\n".join(_asset(name) for name in SCRIPTS) + "\n})();\n"
    chapters = _chapters(book)
    head = tag(
        "head",
        tag("meta", charset="utf-8"),
        tag("meta", http_equiv="Content-Security-Policy", content=_policy(script)),
        tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
        tag("meta", name="color-scheme", content="light dark"),
        tag("title", f"{book.name}, revision {book.revision}: plane book"),
        tag("link", rel="icon", href="data:,"),
        tag("style", Markup(_asset("style.css"))),
    )
    contents = [tag("li", tag("a", title, href=f"#{name}")) for name, title, _ in chapters]
    nav = tag(
        "nav",
        tag("p", tag("a", book.name, href="#front", dir="auto"), class_="home"),
        tag("ol", contents),
        aria_label="Contents",
    )
    body = [
        tag("section", tag("h2", title, id=f"h-{name}"), make(), id=name, aria_labelledby=f"h-{name}")
        for name, title, make in chapters
    ]
    dialog = tag(
        "dialog",
        tag("form", tag("b", id="large-title"), tag("button", "Close", value="close"), method="dialog"),
        tag("div", tag("img", id="large-picture", alt=""), class_="large", tabindex=0),
        id="large",
        aria_labelledby="large-title",
    )
    foot = tag(
        "footer",
        tag("p", f"{book.name}, revision {book.revision}, spec {book.spec_sha256[:12]}. {book.works}."),
    )
    skip = tag("a", "To the content", href="#main", class_="skip")
    main = tag("main", sections.cover(book), body, foot, id="main")
    whole = tag(
        "html",
        head,
        tag("body", skip, tag("div", nav, main, class_="sheet"), dialog, tag("script", Markup(script))),
        lang="en",
    )
    return join(Markup("<!DOCTYPE html>\n"), whole, "\n")
