"""What the kinds of plane say they consist of is there, in every kind."""

import re
from importlib.util import find_spec
from pathlib import Path

import pytest

from parts.plane import kinds

NAMED = re.findall(r"[-;] `(\w+)`:", kinds.__doc__ or "")
PARTS = Path(kinds.__file__).parent


def test_modules_are_named_once():
    assert len(NAMED) == len(set(NAMED)) > 10


@pytest.mark.parametrize("kind", kinds.KINDS)
def test_every_named_module_stands_in_every_kind(kind):
    assert [name for name in NAMED if find_spec(f"{kinds.KINDS[kind]}.{name}") is None] == []


def test_every_module_asked_for_is_named():
    asked = {m for f in PARTS.rglob("*.py") for m in re.findall(r'kinds\.of\([^)]*, "(\w+)"\)', f.read_text())}
    assert asked and asked <= set(NAMED)
