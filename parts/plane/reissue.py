"""Which papers of a plane's output folder must be issued again when parts change, by the names that files have."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path, PurePosixPath

WOOD = ("tote", "knob")
# beginnings of paths (without the ending) that do not start with a part's name -> the parts they speak of;
# () stands for the whole plane. The first that fits counts.
SPEAKS_OF: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("step/match-plate", ("body-pattern", "frog-pattern", "lever-cap-pattern")),
    ("pdf/match-plate", ("body-pattern", "frog-pattern", "lever-cap-pattern")),
    ("dxf/match-plate", ("body-pattern", "frog-pattern", "lever-cap-pattern")),
    ("lists/pattern", ("body-pattern", "frog-pattern", "lever-cap-pattern")),
    ("lists/hardware", ("hardware",)),
    ("cards/blade", ("blade", "blade-card")),
    ("cards/mouth-stack", ("blade", "blade-card")),
    ("cards/pour", ("body-casting", "frog-casting", "lever-cap-casting")),
    ("cards/melt", ("body-casting", "frog-casting", "lever-cap-casting")),
    ("cards/wood", WOOD),
    ("cut-plan/", WOOD),
)
BELONGS_TO = {"cam-lever": "lever-cap"}  # beginning of a file's name -> the part whose piece it is
STAGES = ("casting", "pattern", "master")
MODELS, PICTURES = "step/", "pictures/plane"  # papers that show models and say no number


def speaks_of(path: str, parts: Iterable[str]) -> tuple[str, ...]:
    """Return what a file speaks of: parts, or stages of them such as "body-casting"; empty for the whole plane.

    Args:
        path: path in the output folder.
        parts: names of the parts of a plane.
    """
    for begin, what in SPEAKS_OF:
        if path.startswith(begin):
            return what
    stem = PurePosixPath(path).stem
    stem = next((part + stem.removeprefix(piece) for piece, part in BELONGS_TO.items() if stem.startswith(piece)), stem)
    fits = [part for part in parts if stem == part or stem.startswith(f"{part}-")]
    if not fits:
        return ()
    part = max(fits, key=len)
    stage = stem.removeprefix(part).strip("-").split("-")[0]
    return (f"{part}-{stage}",) if stage in STAGES else (part,)


def to_reissue(
    files: Iterable[str], parts: list[str], changed: list[str], same_casting: set[str], models: set[str] | None = None
) -> list[str]:  # fmt: skip
    """Return the papers to issue again; one whose name says nothing is issued again with any change.

    Args:
        files: paths in the output folder.
        parts: every part of the plane.
        changed: the parts that changed, and cards such as "blade-card".
        same_casting: the parts whose casting, and so whose pattern, did not.
        models: the parts whose models changed, "plane" for their assembly; None stands for all that changed.
    """
    if not changed:
        return []
    stale = set(changed)
    stale |= {f"{part}-{stage}" for part in changed if part not in same_casting for stage in STAGES}
    found = []
    for path in files:
        what = speaks_of(path, parts)
        if (not what or stale & set(what)) and (models is None or _shows(path, what, parts, models)):
            found.append(path)
    return found


def _shows(path: str, what: tuple[str, ...], parts: list[str], models: set[str]) -> bool:
    """Return whether a paper says more than models, or shows one that changed."""
    if not path.startswith((MODELS, PICTURES)):
        return True
    shown = [part for part in parts if any(name == part or name.startswith(f"{part}-") for name in what)]
    return bool(models & set(shown or ["plane"]))


def built_files(folder: Path) -> list[str]:
    """Return the papers in an output folder, sorted; none where it was never built."""
    return sorted(p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file())
