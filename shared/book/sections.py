"""The book's other chapters, each a function of the book that returns its markup."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import PurePosixPath
from urllib.parse import quote

from shared.book.content import Book, FileEntry, Group, Paper, Picture, SheetFile
from shared.book.html import Child, Markup, join, tag
from shared.book.parts_section import data_uri
from shared.explain import Explanation, explain
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


def _terms(pairs: Sequence[tuple[str, Child]], **attributes: str) -> Markup:
    rows = [tag("div", tag("dt", term), tag("dd", said)) for term, said in pairs if said not in ("", None)]
    return tag("dl", rows, **attributes)


def figure(picture: Picture, **more: str) -> Markup:
    """Return a picture with its title, linked to its file."""
    image = tag("img", src=data_uri(picture.data, picture.media), alt=picture.title)
    return tag("figure", image, tag("figcaption", link(picture.path, picture.title)), **more)


def _in_two(value: str) -> Markup:
    """Return a value with what stands in brackets, the other unit, on a line of its own."""
    first, bracket, other = value.partition(" (")
    return join(first, tag("small", "(" + other) if bracket else None)


def cover(book: Book) -> Markup:
    """Return the front: what it is, the picture, the numbers that matter."""
    identity = _terms(
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
        tag("div", tag("dt", tag("a", f.label, href=f"#n-{f.key}") if f.key else f.label), tag("dd", _in_two(f.value)))
        for f in book.facts
    ]
    words = tag("div", tag("p", "Plane book", class_="kicker"), tag("h1", book.name, dir="auto"), about, identity)
    front = figure(book.pictures[0], class_="front") if book.pictures else None
    return tag("header", tag("div", words, front, class_="cover"), tag("dl", facts, class_="facts"), id="front")


def pictures(book: Book) -> Markup:
    """Return the pictures but the first, which stands on the cover."""
    return tag("div", [figure(p) for p in book.pictures[1:]], class_="pictures")


def filter_field(target: str, words: str) -> Markup:
    """Return a field that narrows a list; shown only when scripts run."""
    field = tag("input", type="search", id=f"find-{target}", data_filter=target, autocomplete="off", spellcheck="false")
    said = tag("output", for_=f"find-{target}")
    return tag("p", tag("label", words, for_=f"find-{target}"), field, said, class_="filter", hidden=True)


def checks(book: Book) -> Markup:
    """Return every finding: failed first, then warnings, then what passed."""
    order = list(MARK)[::-1]
    rows = []
    for f in sorted(book.findings, key=lambda f: order.index(f.verdict)):
        head = tag(
            "summary",
            tag("span", MARK[f.verdict], class_="mark", aria_hidden="true"),
            tag("span", f.rule, class_="rule"),
            tag("span", f.value, class_="figure"),
            tag("span", f.verdict, class_="verdict"),
        )
        body = _terms(
            [
                ("Value", f.value),
                ("Limit", f.limit),
                ("Why", f.why),
                ("Source", f.source),
                ("What to change", f.change),
                ("Check", f"{f.code}, {f.part.replace('_', ' ')}"),
            ]
        )
        rows.append(tag("details", head, body, class_=f"check {f.verdict}", open=f.verdict != "passed"))
    lead = tag("p", f"{counts(book.findings)}. Each opens to its limit, reason and source.")
    return join(lead, filter_field("check-list", "Find a check"), tag("div", rows, id="check-list"))


def _number(e: Explanation) -> Markup:
    head = tag(
        "summary",
        tag("span", e.meaning, class_="rule"),
        tag("span", e.value, class_="figure"),
        tag("code", e.name),
    )
    put_in = [tag("div", tag("dt", tag("code", n)), tag("dd", v)) for n, v in e.values]
    body = _terms(
        [
            ("Formula", tag("span", e.formula, class_="formula")),
            ("Put in", tag("dl", put_in, class_="put-in") if put_in else ""),
            ("Source", e.source),
            ("Decided by", e.decided_by),
        ]
    )
    return tag("details", head, body, class_="number", id=f"n-{e.name}")


def numbers(book: Book) -> Markup:
    """Return every number, part by part, each opening to what `explain` tells of it."""
    parts = []
    for part, found in book.numbers.items():
        rows = [_number(explain(part, n)) for n in found]
        title = tag("h3", part.replace("_", " "))
        parts.append(tag("details", tag("summary", title, tag("small", f"{len(rows)} numbers")), rows, class_="fold"))
    lead = tag(
        "p",
        "Each opens to its formula, the values put in and its source, as ",
        tag("code", "planewright explain"),
        " prints them.",
    )
    return join(lead, filter_field("number-list", "Find a number"), tag("div", parts, id="number-list"))


def _svg_uri(svg: str) -> str:
    # a picture of its own: its ids and styles cannot meet those of another sheet, and nothing in it can run
    return "data:image/svg+xml," + quote(svg, safe=" !$()*+,-./:;=?@[]^_`{|}~'")


def _file_links(paths: Sequence[str]) -> Markup:
    links = [link(p, f"{PurePosixPath(p).suffix[1:].upper()}", title=p) for p in paths if p]
    return tag("span", [join(" ", one) for one in links], class_="files-of") if links else Markup()


def sheets(book: Book) -> Markup:
    """Return every sheet as a picture with links to its files."""
    rows = []
    for s in book.sheets:
        rows.append(tag("figure", _sheet_picture(s), tag("figcaption", s.title, _file_links([s.pdf, s.dxf]))))
    return tag("div", rows, class_="sheets")


def _sheet_picture(s: SheetFile) -> Markup:
    if s.svg_text is None:
        return tag("p", "This sheet has no picture: open its PDF or DXF.", class_="empty")
    image = tag("img", src=_svg_uri(s.svg_text), alt=f"Sheet: {s.title}")
    return tag("button", image, type="button", class_="zoom", aria_label=f"Enlarge sheet: {s.title}")


def _group(group: Group) -> Markup:
    rows = []
    for e in group.entries:
        source = tag("small", e.source) if e.source else None
        rows.append(
            tag("div", tag("dt", e.label), tag("dd", tag("b", e.value), tag("p", e.how) if e.how else None, source))
        )
    notes = [tag("p", n) for n in group.notes]
    return join(
        tag("h4", group.name) if group.name else None, tag("dl", rows, class_="entries") if rows else None, notes
    )


def _table(paper: Paper) -> Markup:
    head = tag("thead", tag("tr", [tag("th", h.replace("_", " "), scope="col") for h in paper.header]))
    body = []
    for row in paper.rows:
        body.append(tag("tr", [tag("td", _in_two(c), class_="figure" if _is_figure(c) else None) for c in row]))
    return tag(
        "div", tag("table", head, tag("tbody", body)), class_="wide", tabindex=0, role="region", aria_label=paper.title
    )


def _is_figure(cell: str) -> bool:
    return cell.lstrip("~-+ ")[:1].isdigit()


def papers(book: Book) -> Markup:
    """Return cards and lists, each folded under its title."""
    rows = []
    for p in book.papers:
        inside: list[Child] = [tag("ul", [tag("li", w) for w in p.warnings], class_="warnings") if p.warnings else None]
        inside += [_group(g) for g in p.groups]
        inside += [_table(p) if p.rows else None, tag("pre", p.plain, tabindex=0) if p.plain else None]
        inside.append(tag("div", [figure(f) for f in p.pictures], class_="pictures") if p.pictures else None)
        head = tag("summary", tag("h3", p.title))
        rows.append(
            tag(
                "details",
                head,
                tag("p", "Files: ", _file_links(p.files)) if p.files else None,
                inside,
                class_="fold paper",
            )
        )
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
    return tag("ul", [tag("li", c) for c in book.cautions], class_="cautions")
