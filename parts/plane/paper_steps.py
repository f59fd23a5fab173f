"""Steps of a build that come after the models, the same for every kind of plane: foundry, sheets, book."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from parts.plane.run import Run, Step


def _proofs(run: Run) -> None:
    from parts.plane.casting_proof import casting_proofs

    casting_proofs(run.models)


def _proof_papers(run: Run) -> None:
    from parts.plane.casting_proof_papers import casting_proof_papers

    casting_proof_papers(run)


def casting_steps(parts: Mapping[str, str]) -> list[Step]:
    """Return the steps of the castings: proof, match plates, meshes; a second process does them.

    Args:
        parts: cast part -> the part of `build --only` it belongs to.
    """
    from parts.plane.match_plate_papers import plate_step
    from parts.plane.pattern_papers import mesh_step

    def step(label: str, part: str, heading: str, do: object) -> Step:
        return Step(label, part, heading, do, second=True, given=True, paper=True)  # type: ignore[arg-type]

    return [
        step("proof of the castings", "plane", "castings", _proofs),
        *(step(f"match plate of the {n}", p, "match plates", plate_step(n)) for n, p in parts.items()),
        *(step(f"meshes of the {n}'s pattern", p, "patterns", mesh_step(n)) for n, p in parts.items()),
        step("papers of the castings' proof", "plane", "castings", _proof_papers),
    ]


def handed_over(cast: Iterable[str]) -> tuple[str, ...]:
    """Return what the second process computes that the sheets of the first need, besides models.

    Args:
        cast: names of the cast parts.
    """
    per_part = ("proof of {}", "foundry part {}", "match plate {}")
    return ("rack plan", *(key.format(name) for name in cast for key in per_part))


def sheet_steps(early: tuple[str, ...], late: tuple[str, ...], needs: tuple[str, ...]) -> list[Step]:
    """Return the steps that draw the sheets, those first that need nothing of the second process.

    Args:
        early: parts of `build --only` whose sheets, but for match plates, need only models of the first process.
        late: the others.
        needs: models that these need.
    """
    from parts.plane.sheet_papers import packets, sheets_of
    from parts.plane.template_papers import templates

    return [
        *(Step(f"sheets: {part}", part, "sheets", sheets_of(part, False), paper=True) for part in early),
        *(Step(f"sheets: {part}", part, "sheets", sheets_of(part), needs=needs, paper=True) for part in late),
        *(Step(f"plates: {part}", part, "sheets", sheets_of(part, True), needs=needs, paper=True) for part in early),
        Step("packets", "plane", "sheets", packets, needs=needs, paper=True),
        Step("templates", "plane", "sheets", templates, needs=needs, paper=True),
    ]


def _book(run: Run) -> None:
    from parts.plane.book import book

    book(run, run.sheets)


def book_steps(needs: tuple[str, ...]) -> list[Step]:
    """Return the step that makes the book, when all else is there."""
    return [Step("book", "plane", "book", _book, needs=needs, paper=True, last=True)]
