"""The book's pictures, cards, lists and files, read from a plane's folder and its design."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import TYPE_CHECKING

from parts.plane.blade_card import card_of
from parts.plane.pattern_list import CastPart, pattern_list
from shared.book.content import Entry, FileEntry, Group, Paper, Picture
from shared.units import both_units, inch_fraction

if TYPE_CHECKING:
    from parts.plane.run import Run

PICTURE_MEDIA = {".png": "image/png", ".svg": "image/svg+xml"}
TOLD = {("cards", "blade"), ("lists", "pattern")}  # made from the design, line by line, below
FOLDERS = (("cards", "Card: {}"), ("lists", "List: {}"), ("castings", "Castings: {}"), ("cut-plan", "Cut plan: {}"))
SHOWN = (("pictures", "{}"), ("cards", "{}"), ("cut-plan", "cut plan: {}"), ("castings", "casting of the {}"))
WORDS_ONLY = ("cut-plan/plan.png",)  # a page of text, which its list tells
PATTERN_HEAD = (
    "feature",
    "finished",
    "stock",
    "draft",
    "casting",
    "on the shrink rule",
    "contraction",
    "pattern",
    "master",
)


def _title(path: Path) -> str:
    return path.stem.replace("-", " ").replace("_", " ")


def pictures(work: Path, folder: str, told: str = "{}") -> tuple[Picture, ...]:
    """Return every picture of a folder of the output, the whole plane first; `told` is what each is called."""
    found = sorted((work / folder).glob("*"), key=lambda p: (p.stem != "plane", p.name))
    return tuple(
        Picture(told.format(_title(p)), p.read_bytes(), p.relative_to(work).as_posix(), PICTURE_MEDIA[p.suffix])
        for p in found
        if p.suffix in PICTURE_MEDIA
    )


def every_picture(work: Path) -> tuple[Picture, ...]:
    """Return every picture of the output, those of the whole plane first."""
    found = (p for folder, told in SHOWN for p in pictures(work, folder, told))
    return tuple(p for p in found if p.path not in WORDS_ONLY)


def papers(run: Run) -> tuple[Paper, ...]:
    """Return the cards and lists that the output holds."""
    made: list[Paper] = []
    if (run.work / "cards" / "blade.txt").is_file():
        made.append(_blade_card(run))
    if (run.work / "lists" / "pattern.txt").is_file():
        made += [_pattern(run, part) for part in pattern_list(run.design)]
    for folder, title in FOLDERS:
        made += _text_papers(run.work, folder, title)
    return tuple(made)


def _blade_card(run: Run) -> Paper:
    card = card_of(run.design)
    head = Group("", tuple(Entry(r.label, r.value, r.how, r.source) for r in card.identity))
    groups = tuple(
        Group(s.name, tuple(Entry(r.label, r.value, r.how, r.source) for r in s.rows), s.notes) for s in card.sections
    )
    return Paper(
        "Blade card",
        groups=(head, *groups),
        warnings=card.warnings,
        pictures=pictures(run.work, "cards"),
        files=("cards/blade.txt",),
    )


def _pattern(run: Run, part: CastPart) -> Paper:
    units = run.design.spec.units

    def both(mm: float | None) -> str:
        return "" if mm is None else both_units(mm, units)

    rows = [
        (
            r.feature,
            _plan_size(r.finished_mm, units),
            both(r.allowance_mm),
            both(r.draft_mm),
            both(r.casting_mm),
            f"{r.shrink_rule(units)} {'in' if units == 'inch' else 'mm'}",
            f"{100 * r.contraction:.3f} %",
            both(r.pattern_mm),
            both(r.master_mm),
        )
        for r in part.rows
    ]
    columns = [i for i in range(len(PATTERN_HEAD)) if any(row[i] for row in rows)]
    return Paper(
        f"Pattern maker's list: {part.part.replace('_', ' ')}",
        header=tuple(PATTERN_HEAD[i] for i in columns),
        rows=tuple(tuple(row[i] for i in columns) for row in rows),
        files=("lists/pattern.txt", "lists/pattern.csv"),
    )


def _plan_size(mm: float, units: str) -> str:
    """Return a finished size in both units, the inch as a fraction, which is how a pattern maker reads it."""
    metric, inch = f"{mm:.2f} mm", f"{inch_fraction(mm)} in"
    return f"{inch} ({metric})" if units == "inch" else f"{metric} ({inch})"


def _text_papers(work: Path, folder: str, title: str) -> list[Paper]:
    """Return the other texts and tables of a folder: the text where there is one, else the table."""
    made = []
    for stem in sorted({p.stem for p in (work / folder).glob("*") if p.suffix in (".txt", ".csv")}):
        if (folder, stem) in TOLD:
            continue
        text, table = work / folder / f"{stem}.txt", work / folder / f"{stem}.csv"
        rows = [] if text.is_file() else _read_table(table)
        shown = tuple(p for p in pictures(work, folder) if p.path not in WORDS_ONLY)
        made.append(
            Paper(
                title.format(stem.replace("-", " ")),
                header=rows[0] if rows else (),
                rows=tuple(rows[1:]),
                plain=text.read_text(encoding="utf-8") if text.is_file() else "",
                pictures=shown if folder == "cut-plan" else (),
                files=tuple(p.relative_to(work).as_posix() for p in sorted((work / folder).glob(f"{stem}.*"))),
            )
        )
    return made


def _read_table(path: Path) -> list[tuple[str, ...]]:
    with path.open(encoding="utf-8", newline="") as file:
        return [tuple(row) for row in csv.reader(file)]


def files(work: Path, leave_out: tuple[str, ...]) -> tuple[FileEntry, ...]:
    """Return every file of the output, sorted by path."""
    paths = sorted(p for p in work.rglob("*") if p.is_file() and p.name not in leave_out)
    return tuple(FileEntry(p.relative_to(work).as_posix(), p.stat().st_size) for p in paths)
