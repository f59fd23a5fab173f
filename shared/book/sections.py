"""The book's other chapters, each a function of the book that returns its markup."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import PurePosixPath
from urllib.parse import quote

from shared.book.content import Book, FileEntry, Group, Paper, Picture, SheetFile
from shared.book.html import Child, Markup, join, tag
from shared.book.numbers_section import filter_field, terms
from shared.book.parts_section import EMPTY, data_uri
from shared.book.wording import Wording, signs
from shared.findings import Finding

LONG = 700  # characters of a description that stand open
MARK = {"passed": "✓", "warning": "!", "failed": "✕"}


def link(path: str, words: str = "", **more: str) -> Markup:
    """Return a link to a file beside the book, its path written so that any character is safe."""
    return tag("a", words or path, href=quote(path), **more)


def counts(findings: Sequence[Finding]) -> str:
    """Return how many checks passed, warned and failed, in words."""
    n = {v: sum(f.verdict == v for f in findings) for v in MARK}
    said = [f"{n['failed']} failed"] if n["failed"] else []
    said += [f"{n['warning']} warning{'s' if n['warning'] > 1 else ''}"] if n["warning"] else []
    return ", ".join([*said, f"{n['passed']} passed"])


def figure(picture: Picture, **more: str) -> Markup:
    """Return a picture with its title, linked to its file."""
    image = tag("img", src=data_uri(picture.data, picture.media), alt=picture.title)
    caption = tag("figcaption", link(picture.path, picture.title))
    return tag("figure", image, caption, id=picture_id(picture), **more)


def picture_id(picture: Picture) -> str:
    """Return the name by which a page's links find a picture."""
    return f"picture-{picture.path}"


def _in_two(value: str) -> Markup:
    """Return a value with what stands in brackets, the other unit, on a line of its own."""
    first, bracket, other = value.partition(" (")
    return join(first, tag("small", "(" + other) if bracket else None)


def cover(book: Book) -> Markup:
    """Return the front: what it is, the picture, the numbers that matter."""
    identity = terms(
        [
            ("Revision", book.revision),
            ("Kind", book.kind),
            ("Works", book.works),
            ("Checks", tag("a", counts(book.findings), href="#checks") if book.findings else ""),
            ("Spec", tag("code", book.spec_sha256[:12], title=book.spec_sha256)),
            ("Made by", book.version),
        ],
        class_="identity",
    )
    about: Child = None
    if len(book.description) > LONG:
        start = tag("summary", tag("span", book.description[:280].rstrip() + " …"), tag("b", "Read all of it"))
        about = tag("details", start, tag("p", book.description), class_="about", dir="auto")
    elif book.description:
        about = tag("p", book.description, class_="about", dir="auto")
    facts = [
        tag(
            "div",
            tag("dt", tag("a", f.label, href=f"#n-{f.key}") if f.key else f.label),
            tag("dd", _in_two(book.wording.say(f.value))),
        )
        for f in book.facts
    ]
    words = tag("div", tag("p", "Plane book", class_="kicker"), tag("h1", book.name, dir="auto"), about, identity)
    front = figure(book.pictures[0], class_="front") if book.pictures else None
    return tag("header", tag("div", words, front, class_="cover"), tag("dl", facts, class_="facts"), id="front")


def pictures(book: Book) -> Markup:
    """Return the pictures but the first, which stands on the cover; each can be enlarged."""
    lead = tag("p", "Click a picture to enlarge it.", class_="on-screen")
    return join(lead, tag("div", [_enlarging(p) for p in book.pictures[1:]], class_="pictures"))


def _enlarging(picture: Picture) -> Markup:
    image = tag("img", src=data_uri(picture.data, picture.media), alt=picture.title)
    button = tag("button", image, type="button", class_="zoom", aria_label=f"Enlarge picture: {picture.title}")
    return tag("figure", button, tag("figcaption", link(picture.path, picture.title)), id=picture_id(picture))


def checks(book: Book) -> Markup:
    """Return every finding: failed first, then warnings, then what passed."""
    order, w = list(MARK)[::-1], book.wording
    rows = []
    for f in sorted(book.findings, key=lambda f: order.index(f.verdict)):
        value = w.say(f.value)
        head = tag(
            "summary",
            tag("span", MARK[f.verdict], class_="mark", aria_hidden="true"),
            tag("span", w.plain(f.rule), class_="rule"),
            tag("span", value, class_="figure"),
            tag("span", f.verdict, class_="verdict"),
        )
        body = terms(
            [
                ("Value", value),
                ("Limit", w.say(f.limit)),
                ("Why", w.say(f.why)),
                ("Source", w.plain(f.source)),
                ("What to change", signs(f.change)),  # as it is written into the spec
                ("Check", f"{f.code}, {f.part.replace('_', ' ')}"),
            ]
        )
        rows.append(tag("details", head, body, class_=f"check {f.verdict}", open=f.verdict != "passed"))
    lead = tag("p", f"{counts(book.findings)}. Each opens to its limit, reason and source.")
    return join(lead, filter_field("check-list", "Find a check"), tag("div", rows, id="check-list"))


def _svg_uri(svg: str) -> str:
    # a picture of its own: its ids and styles cannot meet those of another sheet, and nothing in it can run
    return "data:image/svg+xml," + quote(svg, safe=" !$()*+,-./:;=?@[]^_`{|}~'")


def _file_links(paths: Sequence[str]) -> Markup:
    links = [link(p, f"{PurePosixPath(p).suffix[1:].upper()}", title=p) for p in paths if p]
    return tag("span", [join(" ", one) for one in links], class_="files-of") if links else Markup()


def sheets(found: Sequence[SheetFile], what: str = "sheet", style: str = "sheets") -> Markup:
    """Return every sheet or template, as `what` says, as a picture with links to its files."""
    rows = []
    for s in found:
        rows.append(tag("figure", _sheet_picture(s, what), tag("figcaption", s.title, _file_links([s.pdf, s.dxf]))))
    return tag("div", rows, class_=style)


def _sheet_picture(s: SheetFile, what: str) -> Markup:
    if s.svg_text is None:
        return tag("p", "This sheet has no picture: open its PDF or DXF.", class_="empty")
    image = tag("img", src=_svg_uri(s.svg_text), alt=f"{what.capitalize()}: {s.title}")
    return tag("button", image, type="button", class_="zoom", aria_label=f"Enlarge {what}: {s.title}")


def _group(group: Group, w: Wording) -> Markup:
    rows = []
    for e in group.entries:
        source = tag("small", w.plain(e.source)) if e.source else None
        how = tag("p", w.say(e.how)) if e.how else None
        rows.append(tag("div", tag("dt", w.plain(e.label)), tag("dd", tag("b", w.say(e.value)), how, source)))
    notes = [tag("p", w.say(n)) for n in group.notes]
    return join(
        tag("h4", group.name) if group.name else None, tag("dl", rows, class_="entries") if rows else None, notes
    )


def _table(paper: Paper, w: Wording) -> Markup:
    heads = [h.replace("_", " ") for h in paper.header]
    head = tag("thead", tag("tr", [tag("th", h, scope="col") for h in heads]))
    body = []
    for row in paper.rows:
        cells = [
            tag("td", _in_two(w.plain(c)), class_="figure" if _is_figure(c) else None, data_label=h) if c else EMPTY
            for h, c in zip(heads, row, strict=True)
        ]
        body.append(tag("tr", cells))
    table = tag("table", head, tag("tbody", body), class_="stacks")
    return tag("div", table, class_="wide", tabindex=0, role="region", aria_label=paper.title)


def _is_figure(cell: str) -> bool:
    return cell.lstrip("~-+ ")[:1].isdigit()


def papers(book: Book) -> Markup:
    """Return cards and lists, each folded under its title; pictures that the book shows elsewhere are linked."""
    rows, w = [], book.wording
    shown = {p.path for p in book.pictures}
    for p in book.papers:
        warnings = [tag("li", w.say(said)) for said in p.warnings]
        inside: list[Child] = [tag("ul", warnings, class_="warnings") if warnings else None]
        inside += [_group(g, w) for g in p.groups]
        inside += [_table(p, w) if p.rows else None, tag("pre", w.plain(p.plain), tabindex=0) if p.plain else None]
        linked = [tag("a", f.title, href=f"#{quote(picture_id(f))}") for f in p.pictures if f.path in shown]
        own = [figure(f) for f in p.pictures if f.path not in shown]
        inside.append(tag("div", own, class_="pictures") if own else None)
        files_of = tag("p", "Files: ", _file_links(p.files)) if p.files else None
        links = tag("p", "Pictures: ", [join(", " if i else None, a) for i, a in enumerate(linked)]) if linked else None
        rows.append(tag("details", tag("summary", tag("h3", p.title)), files_of, links, inside, class_="fold paper"))
    return join(rows)


def size_text(size: int) -> str:
    """Return a file's size in words."""
    return f"{size} bytes" if size < 1000 else (f"{size / 1000:.1f} kB" if size < 1e6 else f"{size / 1e6:.2f} MB")


def files(book: Book) -> Markup:
    """Return every file of the output with its size."""
    folders: dict[str, list[FileEntry]] = {}
    for f in book.files:
        folders.setdefault(f.path.rpartition("/")[0], []).append(f)
    rows = []
    for folder, found in sorted(folders.items()):
        rows.append(tag("tr", tag("th", f"{folder}/" if folder else "here", scope="colgroup", colspan=2)))
        rows += [
            tag("tr", tag("td", link(f.path, f.path.rpartition("/")[2])), tag("td", size_text(f.size), class_="figure"))
            for f in found
        ]
    size = size_text(sum(f.size for f in book.files))
    total = tag("p", f"{len(book.files)} files, {size}. Links work while the book stands in its folder.")
    return join(total, tag("table", tag("tbody", rows), class_="files"))


def cautions(book: Book) -> Markup:
    """Return where the work can hurt."""
    return tag("ul", [tag("li", book.wording.say(c)) for c in book.cautions], class_="cautions")
