"""Every table of outside facts says where it comes from."""

import pytest

from shared.tables import table, table_names

KNOWN = ("seen", "memory", "common practice", "computed", "invented", "derived", "own estimate")


def tables_in(node, path=""):
    """Yield (path, table) of the lowest tables that hold values."""
    for key, value in node.items():
        if isinstance(value, dict):
            yield from tables_in(value, f"{path}.{key}" if path else key)
    if any(not isinstance(v, dict) for v in node.values()):
        yield path, node


def inherits(name, path, key):
    """Return the value of a key on the table or the nearest table above it."""
    node, found = table(name), table(name).get(key)
    for bit in path.split(".") if path else []:
        node = node[bit]
        found = node.get(key, found)
    return found


@pytest.mark.parametrize("name", table_names())
def test_every_table_has_source_and_knowledge(name):
    bad = []
    for path, node in tables_in(table(name)):
        if path in ("", "meta"):
            continue
        for key in ("source", "known"):
            if not inherits(name, path, key) and key not in node:
                bad.append(f"{path}: no {key}")
        known = str(node.get("known", inherits(name, path, "known") or ""))
        if known and not known.startswith(KNOWN):
            bad.append(f"{path}: known = {known!r}")
    assert not bad


def test_there_are_tables():
    assert {"alloys", "foundry", "steel", "fits", "wood", "hand"} <= set(table_names())
