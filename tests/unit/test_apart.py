"""What is advised where the models of two parts share space: every key it names is one of the plane's kind."""

import re
from pathlib import Path

import pytest

from parts.plane.casting_findings import THICKER
from parts.plane.design import design
from parts.plane.rules import solids
from parts.plane.rules.apart import ELSE, ROOM, room_for
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec

ROOT = Path(__file__).parents[2]
SPEC = {"bench": "heron", "low-angle": "wren"}
KEY = re.compile(r"\b(?:body|blade|bed|chipbreaker|lever_cap|frog|handle|adjuster)\.[a-z_.]*[a-z]")


def has(section, key):
    for bit in key.split("."):
        fields = type(section).model_fields if hasattr(type(section), "model_fields") else {}
        if not hasattr(section, bit) and bit not in fields:
            return False
        section = getattr(section, bit)
    return True


@pytest.mark.parametrize("kind", ROOM)
def test_every_key_that_is_named_is_one_of_the_kinds(kind):
    spec = design(load_spec(ROOT / "specs" / f"{SPEC[kind]}.toml"), load_shop(None)).spec
    for text in [*(change for _, change in ROOM[kind]), ELSE]:
        keys = KEY.findall(text)
        assert keys, text
        for key in keys:
            assert has(spec, key), key


@pytest.mark.parametrize("kind", ROOM)
def test_each_pair_is_told_what_moves_the_one_that_stands_first(kind):
    names = [part for part, _ in ROOM[kind]]
    for i, part in enumerate(names):
        for other in [*names[i:], "body"]:
            assert room_for(kind, [(f"{other} right", f"{part} left")]) == ROOM[kind][i][1]
    assert room_for(kind, [("body", "unknown")]) == ELSE
    assert room_for(kind, []) == ""
    assert room_for(kind, [("tote", "blade"), ("blade", "tote")]) == ROOM[kind][0][1]


def test_walls_and_stock_name_keys_that_exist():
    spec = design(load_spec(ROOT / "specs" / "heron.toml"), load_shop(None)).spec
    for text in THICKER.values():
        assert all(has(spec, key) for key in KEY.findall(text))
    shop = load_shop(None)
    for text in (solids.MORE_STOCK, solids.LESS_DRAFT):
        for key in re.findall(r"casting\.([a-z_]+)", text):
            assert hasattr(shop.casting, key)
