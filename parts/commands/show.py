"""What the commands share: reading options, printing numbers for people or as JSON."""

from __future__ import annotations

import json
from typing import Any

import typer

from shared import units
from shared.errors import Fault, InputError
from shared.explain import format_value
from shared.numbers import Numbers
from shared.units import Kind, QuantityError

MOST = 100_000  # more than any works makes in one batch; far above, plans would take for ever


def read_option(option: str, text: str, kind: Kind, low: float | None = None, high: float | None = None) -> float:
    """Read a quantity given on the command line; a bare number is refused.

    Args:
        option: name of the option, for the message.
        text: as written.
        kind: which quantity.
        low: the value must be greater than this [inside unit], or None.
        high: the value must not be greater than this [inside unit], or None.

    Returns:
        The value in the kind's inside unit.

    Raises:
        InputError: unreadable, of another kind, bare, or out of range.
    """
    try:
        value = units.parse(text, kind)
    except QuantityError as err:
        raise InputError(Fault("command line", option, repr(text), err.allowed)) from None
    if (low is not None and value <= low) or (high is not None and value > high):
        bounds = [f"more than {_bound(low, kind)}"] if low is not None else []
        bounds += [f"at most {_bound(high, kind)}"] if high is not None else []
        raise InputError(Fault("command line", option, repr(text), " and ".join(bounds)))
    return value


def _bound(value: float, kind: Kind) -> str:
    return f"{100 * value:g} %" if kind.inside == "fraction" else f"{value:g} {kind.inside}"


def read_count(option: str, text: str) -> int:
    """Read a whole number from 1 to `MOST` given on the command line.

    Raises:
        InputError: no whole number, or out of range.
    """
    digits = text.strip()
    if not digits.isascii() or not digits.isdigit() or len(digits) > 99 or not 1 <= int(digits) <= MOST:
        raise option_fault(option, text, f"a whole number, 1 or more, at most {MOST}")
    return int(digits)


def option_fault(option: str, read: object, allowed: str, hint: str = "") -> InputError:
    """Return the error for a command-line option whose value is not allowed."""
    return InputError(Fault("command line", option, repr(read), allowed, hint))


def print_json(data: Any) -> None:
    """Print one JSON object on stdout and nothing else."""
    typer.echo(json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False))


def print_numbers(numbers: Numbers, as_json: bool, title: str = "") -> None:
    """Print a list of numbers: as JSON, or one line each with its meaning, formula and source below."""
    if as_json:
        print_json(numbers.as_json())
        return
    if title:
        typer.echo(title)
    width = max((len(n.key) for n in numbers), default=0)
    for n in numbers:
        typer.echo(f"  {n.key:<{width}}  {format_value(n)}")
        typer.echo(f"  {'':<{width}}    {n.meaning}: {n.formula}  [{n.source}]")
