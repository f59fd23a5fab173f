"""`planewright build`: models and papers of one plane or all, with progress and a closing table."""

from __future__ import annotations

from pathlib import Path

import typer
from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeElapsedColumn
from rich.table import Table

from parts.commands.load import all_specs, load_designs, shop_path
from parts.commands.outputs import output_folder
from parts.plane.built_folder import check_target
from parts.plane.checks import check_design
from parts.plane.design import Design
from parts.plane.headline import HEADLINE
from parts.plane.parts_list import check_only, check_only_of
from parts.plane.worker import Job, Outcome, Workshop
from shared.errors import EXIT_CHECK_FAILED, EXIT_FINE, Fault, InputError
from shared.files import check_writable


def _one_folder_each(designs: list[Design]) -> None:
    seen: dict[str, Design] = {}
    faults = []
    for d in designs:
        other = seen.setdefault(d.loaded.folder, d)
        if other is not d:
            allowed = f"a name whose folder differs from that of {other.loaded.source.path} ({d.loaded.folder}/)"
            faults.append(d.loaded.source.fault("plane.name", allowed))
    if faults:
        raise InputError(faults)


def _can_be_built(designs: list[Design], out: Path, only: str | None) -> None:
    """Refuse a part that a plane has not got, and a folder that no build has made."""
    faults: list[Fault] = []
    for d in designs:
        try:
            if only is not None:
                check_only_of(d.spec.plane.kind, only, d.loaded.source.path)
            check_target(out / d.loaded.folder)
        except InputError as err:
            faults += err.faults
    if faults:
        raise InputError(faults)


def run_build(specs: list[Path], to: str, only: str | None, jobs: int, shop: Path | None, quick: bool = False) -> None:
    """Build planes; every spec is read and checked before the first model is made.

    Args:
        specs: the planes; none means every plane in specs/.
        to: folder that gets a folder a plane, as written.
        only: one part only, or None.
        jobs: processes side by side.
        shop: the works' practice, or None for shop.toml beside each spec.
        quick: leave out what comes after the models and their first papers.
    """
    chosen = specs or all_specs(Path("specs"))
    if only is not None:
        check_only(only)
    out = output_folder("--out", to)
    designs = load_designs(chosen, shop)
    _one_folder_each(designs)
    _can_be_built(designs, out, only)
    # only now: a process that is ended while it starts another one leaves that one's complaint on the screen
    workshop = Workshop(min(jobs, len(chosen)), whole=only is None)
    try:
        refused = _refuse(designs)
        todo = [d for d in designs if d.loaded.folder not in refused]
        outcomes = _build(todo, workshop, out, only, shop, quick) if todo else []
    finally:
        workshop.close()
    _report(outcomes)
    codes = [o.exit_code for o in outcomes] + ([EXIT_CHECK_FAILED] if refused else [])
    if max(codes, default=EXIT_FINE) != EXIT_FINE:
        raise typer.Exit(max(codes))


def _build(
    todo: list[Design], workshop: Workshop, out: Path, only: str | None, shop: Path | None, quick: bool
) -> list[Outcome]:
    check_writable(out)
    work = []
    for d in todo:
        spec, folder = Path(d.loaded.source.path), d.loaded.folder
        work.append(Job(folder, spec, shop_path(spec, shop), out / folder, only, _rack_beside(spec), quick))
    return _with_progress(work, workshop)


def _rack_beside(spec: Path) -> Path | None:
    rack = spec.parent / "rack.csv"
    return rack if rack.is_file() else None


def _refuse(designs: list[Design]) -> set[str]:
    refused = set()
    for d in designs:
        failed = [f for f in check_design(d) if f.verdict == "failed"]
        for f in failed:
            typer.echo(
                f"{d.loaded.source.path}: {f.code} {f.rule}: {f.value}, limit {f.limit}: {f.why}. {f.change}", err=True
            )
        if failed:
            refused.add(d.loaded.folder)
            typer.echo(f"{d.loaded.source.path}: not built; see planewright check {d.loaded.source.path}", err=True)
    return refused


def _with_progress(work: list[Job], workshop: Workshop) -> list[Outcome]:
    console = Console(stderr=True)
    columns = (
        TextColumn("{task.fields[plane]:<12}"),
        BarColumn(28),
        TextColumn("{task.description}"),
        TimeElapsedColumn(),
    )
    with Progress(*columns, console=console, transient=True) as bar:
        tasks: dict[str, TaskID] = {
            job.name: bar.add_task("waiting", total=1, plane=job.name, start=False) for job in work
        }

        def on_step(job: Job, step: str, done: int, total: int) -> None:
            bar.start_task(tasks[job.name])
            bar.update(tasks[job.name], description=step, completed=done, total=total)

        return workshop.run(work, on_step)


def _report(outcomes: list[Outcome]) -> None:
    good = [o for o in outcomes if o.exit_code == EXIT_FINE]
    for o in outcomes:
        if o.exit_code != EXIT_FINE:
            typer.echo(f"{o.job.spec}: {o.message}", err=True)
    if not good:
        return
    table = Table(title="The ten numbers that matter", title_justify="left")
    table.add_column("", no_wrap=True)
    for o in good:
        table.add_column(o.summary["name"], justify="right", no_wrap=True)
    for label, key in HEADLINE:
        table.add_row(label, *(str(o.summary["headline"].get(key, "-")) for o in good))
    console = Console()
    wide = max(console.width, 30 + 27 * len(good))
    Console(width=wide).print(table)
    for o in good:
        took = ", ".join(f"{label} {seconds:.1f} s" for label, seconds in o.summary["time"].items())
        console.print(f"{o.job.target}/  {o.summary['files']} files  ({took})", soft_wrap=True, highlight=False)
        for note in o.summary["notes"]:
            console.print(f"  note: {note}", soft_wrap=True, highlight=False)
