"""The command line: every command's name, options and help. The work is done in the modules it calls.

Those are imported inside each command, so that `--help` answers at once.
"""

from __future__ import annotations

import os
import sys
from copy import copy
from pathlib import Path
from typing import Annotated, Any

import typer

from parts.commands.options import JsonFlag, ShopOpt, SpecArg, SpecArgs
from shared.errors import EXIT_BAD_INPUT, EXIT_FINE, PlanewrightError, in_words

# no plug-in of other people's packages has a say in how a spec is read; looking for them costs a third of the start
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")

RECKON_HELP = "The ready reckoner: one shop question, no spec."

NEXT_STEPS = """
What to do next:
  planewright build specs/heron.toml     models and papers of one plane into output/heron/
  planewright check specs/heron.toml     every design rule, at once
  planewright numbers specs/heron.toml   every derived number
  planewright --help                     all commands
"""

app = typer.Typer(
    name="planewright",
    help="One TOML spec per hand plane in; numbers, models, patterns, blanks and papers for every shop out.",
    no_args_is_help=False,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)

# typer may carry its own copy of the command-line library; its base error is found through the class it exports
COMMAND_LINE_ERROR: Any = typer.BadParameter.__mro__[2]


@app.command()
def build(
    specs: Annotated[
        list[Path] | None, typer.Argument(metavar="[SPEC...]", help="planes to build; none: every plane in specs/")
    ] = None,
    out: Annotated[str, typer.Option("--out", metavar="PATH", help="folder that gets a folder a plane")] = "output",
    only: Annotated[str | None, typer.Option("--only", help="one part only, such as body, frog or tote")] = None,
    jobs: Annotated[int, typer.Option("--jobs", min=1, max=16, help="planes built side by side")] = 1,
    quick: Annotated[
        bool, typer.Option("--quick", help="models, profiles, lists, numbers; no sheets, proofs, cut plan, book")
    ] = False,
    shop: ShopOpt = None,
) -> None:
    """Build all models and papers of a plane.

    Example: planewright build specs/heron.toml
    """
    from parts.commands.build import run_build

    run_build(specs or [], out, only, jobs, shop, quick)


@app.command()
def check(
    spec: SpecArg,
    solids: Annotated[bool, typer.Option("--solids", help="build the models too and check them")] = False,
    as_json: JsonFlag = False,
    shop: ShopOpt = None,
) -> None:
    """Apply every design rule: passed, warning or failed, with value, limit and reason.

    Example: planewright check specs/heron.toml
    """
    from parts.commands.check import run_check

    run_check(spec, solids, as_json, shop)


@app.command()
def numbers(
    specs: SpecArgs,
    part: Annotated[str | None, typer.Option("--part", help="one part only, such as blade or bedding")] = None,
    solids: Annotated[bool, typer.Option("--solids", help="add masses and whatever only the models tell")] = False,
    family: Annotated[bool, typer.Option("--family", help="only the sizes that tell siblings apart")] = False,
    picture: Annotated[
        Path | None, typer.Option("--picture", help="with --family: draw them to one scale (PNG, SVG or PDF)")
    ] = None,
    as_json: JsonFlag = False,
    shop: ShopOpt = None,
) -> None:
    """Print every derived number; several specs stand side by side.

    Example: planewright numbers specs/heron.toml --part bedding
    """
    if family or picture is not None:
        from parts.commands.family import run_family

        run_family(specs, family, part, solids, picture, as_json, shop)
        return
    from parts.commands.numbers import run_numbers

    run_numbers(specs, part, solids, as_json, shop)


@app.command()
def explain(
    spec: SpecArg,
    number: Annotated[str, typer.Argument(metavar="PART.NUMBER", help="such as blade.cutting_angle_deg")],
    as_json: JsonFlag = False,
    shop: ShopOpt = None,
) -> None:
    """Explain one number: meaning, formula, the values put in, source.

    Example: planewright explain specs/heron.toml bedding.unsupported_length_mm
    """
    from parts.commands.numbers import run_explain

    run_explain(spec, number, as_json, shop)


@app.command()
def pattern(
    spec: SpecArg,
    shrink_rule: Annotated[
        Path | None, typer.Option("--shrink-rule", metavar="FILE.pdf", help="also write the shrink rules at true size")
    ] = None,
    as_json: JsonFlag = False,
    shop: ShopOpt = None,
) -> None:
    """Print the pattern maker's list: finished, allowance, draft, casting, contraction, pattern and master sizes.

    Example: planewright pattern specs/heron.toml --shrink-rule rules.pdf
    """
    from parts.commands.pattern import run_pattern

    run_pattern(spec, as_json, shop, shrink_rule)


@app.command()
def pour(
    spec: SpecArg,
    quantity: Annotated[str, typer.Option("--quantity", metavar="N", help="good planes wanted")],
    as_json: JsonFlag = False,
    shop: ShopOpt = None,
) -> None:
    """Plan the pour: moulds, heats, ladles, masses, gating and stress relief. Builds the models for the masses.

    Example: planewright pour specs/heron.toml --quantity 100
    """
    from parts.commands.pour import run_pour
    from parts.commands.show import read_count

    run_pour(spec, read_count("--quantity", quantity), as_json, shop)


@app.command()
def blanks(
    spec: SpecArg,
    quantity: Annotated[str, typer.Option("--quantity", metavar="N", help="planes to make handles for")],
    rack: Annotated[Path | None, typer.Option("--rack", help="the boards on the rack (CSV); none: footage")] = None,
    leftovers: Annotated[Path | None, typer.Option("--leftovers", help="write what is left as a new rack file")] = None,
    papers: Annotated[
        str | None, typer.Option("--papers", metavar="FOLDER", help="folder for drawings: PNG, PDF and 1:1 DXF")
    ] = None,
    as_json: JsonFlag = False,
    shop: ShopOpt = None,
) -> None:
    """Plan the cuts of tote and knob blanks on real boards.

    Example: planewright blanks specs/heron.toml --quantity 12 --rack specs/rack.csv
    """
    from parts.commands.blanks import run_blanks
    from parts.commands.show import read_count

    run_blanks(spec, read_count("--quantity", quantity), rack, leftovers, papers, as_json, shop)


@app.command()
def edge(
    spec: SpecArg,
    quantity: Annotated[
        str | None, typer.Option("--quantity", metavar="N", help="blades to make: adds bars to buy and nitrogen")
    ] = None,
    as_json: JsonFlag = False,
    shop: ShopOpt = None,
) -> None:
    """Print the blade card: grinding, honing, camber and heat treatment.

    Example: planewright edge specs/heron.toml
    """
    from parts.commands.edge import run_edge
    from parts.commands.show import read_count

    run_edge(spec, None if quantity is None else read_count("--quantity", quantity), as_json, shop)


@app.command()
def new(
    name: Annotated[str, typer.Argument(metavar="NAME", help="what the new plane is called")],
    like: Annotated[Path, typer.Option("--like", metavar="SPEC", help="the sibling it is sized from")],
    length: Annotated[str, typer.Option("--length", metavar="L", help='of the body, such as "17-1/2 in" or 445mm')],
    blade_width: Annotated[str, typer.Option("--blade-width", metavar="W", help='such as "2-1/4 in" or 57mm')],
    kind: Annotated[str | None, typer.Option("--kind", help="kind wanted; the sibling must be of it")] = None,
    out: Annotated[Path | None, typer.Option("--out", help="file to write; default: beside the sibling")] = None,
    as_json: JsonFlag = False,
    shop: ShopOpt = None,
) -> None:
    """Size a new plane from a sibling by stated rules and write its spec, each size with its reason.

    Example: planewright new Plover --like specs/heron.toml --length "17-1/2 in" --blade-width "2-1/4 in"
    """
    from parts.commands.new import run_new

    run_new(name, like, length, blade_width, kind, out, as_json, shop)


@app.command()
def diff(
    old: Annotated[Path, typer.Argument(metavar="OLD", help="the plane as it was")],
    new_spec: Annotated[Path, typer.Argument(metavar="NEW", help="the plane as it will be, of the same kind")],
    solids: Annotated[bool, typer.Option("--solids", help="judge castings in stock by the models too")] = False,
    out: Annotated[Path, typer.Option("--out", help="folder of the outputs, for the papers")] = Path("output"),
    as_json: JsonFlag = False,
    shop: ShopOpt = None,
) -> None:
    """Say what differs: keys, numbers, parts, papers to issue again, patterns and castings that still serve.

    Example: planewright diff specs/heron.toml specs/heron-b.toml
    """
    from parts.commands.diff import run_diff

    run_diff(old, new_spec, out, solids, as_json, shop)


@app.command("first-article")
def first_article(
    spec: SpecArg,
    measured: Annotated[Path | None, typer.Argument(metavar="[MEASURED.csv]", help="the filled sheet")] = None,
    template: Annotated[bool, typer.Option("--template", help="print the sheet to fill in (CSV)")] = False,
    confidence: Annotated[str, typer.Option("--confidence", help="of the intervals")] = "95%",
    write: Annotated[bool, typer.Option("--write", help="add what was found to shop.toml, its comments kept")] = False,
    as_json: JsonFlag = False,
    shop: ShopOpt = None,
) -> None:
    """Find the shop's real contraction by axis from measured castings, and the lines for shop.toml.

    Example: planewright first-article specs/heron.toml --template > first.csv
    """
    from parts.commands.first_article import run_first_article

    run_first_article(spec, measured, template, confidence, write, as_json, shop)


@app.command()
def schema() -> None:
    """Print the JSON Schema of the spec, for editors.

    Example: planewright schema > .planewright.schema.json
    """
    from parts.commands.schema import run_schema

    run_schema()


def _reckon(asked: bool) -> typer.Typer:
    """Return the reckoner; its questions are only loaded when one is asked, since they would slow every other start."""
    group = typer.Typer(help=RECKON_HELP, rich_markup_mode=None, no_args_is_help=True)
    if not asked:
        group.callback()(_nothing)
        return group
    from parts.commands import reckon_foundry, reckon_steel, reckon_wood

    for module in (reckon_steel, reckon_foundry, reckon_wood):
        module.register(group)
    return group


def _nothing() -> None:
    """Stand in for the reckoner in the list of commands."""


@app.callback(invoke_without_command=True)
def _front(
    ctx: typer.Context,
    version: Annotated[bool, typer.Option("--version", help="print the version and leave")] = False,
) -> None:
    if version:
        from shared.version import VERSION

        typer.echo(f"planewright {VERSION}")
        raise typer.Exit
    if ctx.invoked_subcommand is None:
        typer.echo(ctx.get_help())
        typer.echo(NEXT_STEPS)


def _asked(words: list[str]) -> typer.Typer:
    """Return the program with only the command that is asked for, or with all where none is.

    Reading every command's options takes longer than most answers.
    """
    here = copy(app)
    one = [c for c in app.registered_commands if c.callback and [c.name or c.callback.__name__] == words[:1]]
    here.registered_commands = one or app.registered_commands
    here.registered_groups = []
    if not one:
        here.add_typer(_reckon("reckon" in words[:1]), name="reckon", help=RECKON_HELP)
    return here


def run(argv: list[str] | None = None) -> int:
    """Run one command line.

    Args:
        argv: the words after the program's name; None takes this process's own.

    Returns:
        The exit code: 0 fine, 1 a check failed, 2 bad input, 3 a model could not be built.
    """
    words = sys.argv[1:] if argv is None else argv
    command = typer.main.get_command(_asked(words))
    try:
        code = command.main(args=argv, prog_name="planewright", standalone_mode=False)
    except typer.Abort:
        print("stopped", file=sys.stderr)
        return 130
    except COMMAND_LINE_ERROR as err:
        print(f"planewright: {err.format_message()}", file=sys.stderr)
        where = getattr(err, "ctx", None)
        path = where.command_path if where is not None else "planewright"
        print(f"What to do next: {path} --help shows the options and an example.", file=sys.stderr)
        return EXIT_BAD_INPUT
    except PlanewrightError as err:
        print(f"{err}", file=sys.stderr)
        return err.exit_code
    except BrokenPipeError:
        return EXIT_FINE
    except OSError as err:
        print(f"{err.filename or 'the output'}: cannot be written or read: {in_words(err)}", file=sys.stderr)
        return EXIT_BAD_INPUT
    return code if isinstance(code, int) else EXIT_FINE
