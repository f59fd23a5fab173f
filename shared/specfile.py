"""Reading TOML files into sections, with one message a fault: file, line, key, value read, values allowed."""

from __future__ import annotations

import difflib
import hashlib
import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

from pydantic_core import ValidationError

from shared.errors import Fault, InputError, in_words
from shared.section import Section, fields_of

M = TypeVar("M", bound=Section)
_TABLE = re.compile(r"^\s*\[\[?\s*([A-Za-z0-9_.\-\"' ]+?)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(r"^\s*([A-Za-z0-9_\-\"'.]+)\s*=")


@dataclass(frozen=True, eq=False, repr=False)
class SourceText:
    """The text a spec was read from: finds the line of a key and hashes the whole."""

    path: str
    text: str
    lines: dict[str, int] = field(default_factory=dict)
    data: dict[str, Any] = field(default_factory=dict)

    @property
    def sha256(self) -> str:
        """Hash of the text as read, line ends made equal."""
        return hashlib.sha256(self.text.replace("\r\n", "\n").encode()).hexdigest()

    def where(self, key: str) -> str:
        """Return file:line of a dotted key, of its table when the key itself is absent, else the file."""
        probe = key
        while probe:
            if probe in self.lines:
                return f"{self.path}:{self.lines[probe]}"
            probe = probe.rpartition(".")[0]
        return self.path

    def read_value(self, key: str) -> str:
        """Return the value written for a dotted key, as text; "nothing" when absent."""
        node: Any = self.data
        for bit in key.split("."):
            if isinstance(node, list) and bit.isdigit() and int(bit) < len(node):
                node = node[int(bit)]
            elif isinstance(node, dict) and bit in node:
                node = node[bit]
            else:
                return "nothing"
        return repr(node)

    def fault(self, key: str, allowed: str, hint: str = "", read: str | None = None) -> Fault:
        """Return a fault about one key of this file."""
        return Fault(self.where(key), key, self.read_value(key) if read is None else read, allowed, hint)


def _line_index(text: str) -> dict[str, int]:
    index: dict[str, int] = {}
    tables: dict[str, int] = {}  # of each list of tables, how many came
    table = ""
    for number, line in enumerate(text.splitlines(), 1):
        if m := _TABLE.match(line):
            table = m[1].replace('"', "").replace("'", "").replace(" ", "")
            index.setdefault(table, number)
            if line.lstrip().startswith("[["):
                tables[table] = tables.get(table, -1) + 1
                table = f"{table}.{tables[table]}"
                index.setdefault(table, number)
        elif m := _KEY.match(line):
            key = m[1].replace('"', "").replace("'", "")
            index.setdefault(f"{table}.{key}" if table else key, number)
    return index


def read_text(path: str | Path) -> SourceText:
    """Read one TOML file.

    Raises:
        InputError: the file is not there, not text, or not TOML.
    """
    name = str(path)
    try:
        text = Path(path).read_text(encoding="utf-8-sig")  # some editors begin a file with a byte order mark
    except FileNotFoundError:
        near = difflib.get_close_matches(Path(path).name, [p.name for p in Path(path).parent.glob("*.toml")], 1)
        hint = f"did you mean {Path(path).parent / near[0]}?" if near else ""
        raise InputError(Fault(name, "file", "nothing there", "a TOML file that exists", hint)) from None
    except IsADirectoryError:
        raise InputError(Fault(name, "file", "a folder", "a TOML file")) from None
    except (UnicodeDecodeError, OSError) as err:
        raise InputError(Fault(name, "file", in_words(err), "a readable TOML file in UTF-8")) from None
    return parse_text(name, text)


def parse_text(name: str, text: str) -> SourceText:
    """Read TOML from text.

    Args:
        name: what messages call it, such as the file's path.
        text: the TOML.

    Raises:
        InputError: it is not TOML.
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as err:
        line = re.search(r"line (\d+)", str(err))
        where = f"{name}:{line[1]}" if line else name
        allowed = "TOML: [table] lines and key = value lines"
        raise InputError(Fault(where, "file", f"no TOML ({err})", allowed)) from None
    return SourceText(name, text, _line_index(text), data)


def flat_keys(tables: Mapping[str, Any], above: str = "") -> Iterator[tuple[str, Any]]:
    """Give every key of nested tables with its value, the key dotted: `body.length`."""
    for key, value in tables.items():
        if isinstance(value, Mapping):
            yield from flat_keys(value, f"{above}{key}.")
        else:
            yield above + key, value


def _known_keys(model: type[Section], at: tuple[Any, ...]) -> list[str]:
    """Return the keys allowed in the table that `at` points into."""
    here: Any = model
    for bit in at:
        found = fields_of(here).get(str(bit)) if isinstance(here, type) and issubclass(here, Section) else None
        if found is None:
            return []
        here = _model_in(found.annotation)
        if here is None:
            return []
    return list(fields_of(here))


def _model_in(annotation: Any) -> type[Section] | None:
    if isinstance(annotation, type) and issubclass(annotation, Section):
        return annotation
    for arg in getattr(annotation, "__args__", ()):
        found = _model_in(arg)
        if found:
            return found
    return None


def _translate(error: Any, source: SourceText, model: type[Section]) -> Fault:
    # a union adds its branch's tag to the location; only real keys count
    loc = tuple(bit for bit in error["loc"] if not ("[" in str(bit) or str(bit).startswith("function")))
    key = ".".join(str(bit) for bit in loc)
    kind = error["type"]
    if kind == "extra_forbidden":
        known = _known_keys(model, loc[:-1])
        near = difflib.get_close_matches(str(loc[-1]), known, 1, 0.5)
        hint = f"did you mean {near[0]}?" if near else ""
        return source.fault(key, "one of " + ", ".join(known), hint)
    if kind == "missing":
        table = ".".join(str(bit) for bit in loc[:-1])
        return Fault(source.where(table) if table else source.path, key, "nothing", f"{key} is needed here")
    if kind == "literal_error":
        expected = str(error["ctx"]["expected"])
        choices = re.findall(r"'([^']*)'", expected) or re.findall(r"-?\d+", expected)
        near = difflib.get_close_matches(str(error["input"]), choices, 1, 0.4)
        return source.fault(key, "one of " + ", ".join(choices), f"did you mean {near[0]}?" if near else "")
    if kind == "choice":
        near = difflib.get_close_matches(str(error["input"]), error["ctx"]["choices"], 1, 0.4)
        return source.fault(key, error["ctx"]["allowed"], f"did you mean {near[0]}?" if near else "")
    if kind == "quantity":
        return source.fault(key, error["ctx"]["allowed"])
    if kind in ("model_type", "model_attributes_type", "dict_type"):
        return source.fault(key, f"a table: [{key}] and key = value lines under it")
    ctx = error.get("ctx", {})
    if kind.startswith(("greater", "less")):
        words = {"greater_than": "more than", "greater_than_equal": "at least", "less_than": "less than"}
        word = words.get(kind, "at most")
        limit = ctx.get("gt", ctx.get("ge", ctx.get("lt", ctx.get("le"))))
        return source.fault(key, f"{word} {limit}")
    return source.fault(key, _wanted(kind, ctx))


def _wanted(kind: str, ctx: dict[str, Any]) -> str:
    """Say what a plain field takes, by the kind of its fault."""
    if kind.startswith("string_too"):
        least, most = ctx.get("min_length"), ctx.get("max_length")
        count = most if least is None else least
        return f"{'at most' if least is None else 'at least'} {count} character{'s'[: count != 1]}"
    words = {
        "bool": "true or false",
        "int": "a whole number",
        "float": "a number",
        "finite": "a number",
        "string": "text in quotes",
        "tuple": "a list",
    }
    return words.get(kind.partition("_")[0], f"a value of another kind ({kind.replace('_', ' ')})")


def validate(source: SourceText, model: type[M], context: dict[str, Any] | None = None) -> M:
    """Turn a read file into its model.

    Args:
        source: the file as read.
        model: the section that is the whole file.
        context: extra context for the fields; `units` is taken from the file itself.

    Raises:
        InputError: with one fault for each thing wrong.
    """
    ctx = dict(context or {})
    given = source.data.get("units", "mm")
    ctx.setdefault("units", given if given in ("inch", "mm") else "mm")
    try:
        return model.model_validate(source.data, context=ctx)
    except ValidationError as err:
        seen: dict[str, Fault] = {}
        for e in err.errors():
            fault = _translate(e, source, model)
            seen.setdefault(f"{fault.where} {fault.key}", fault)
        raise InputError(list(seen.values())) from None
