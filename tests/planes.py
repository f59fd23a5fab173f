"""The shipped planes with their models, made once a process: building a body takes seconds."""

from functools import cache
from pathlib import Path

from parts.plane.design import Design, design
from parts.plane.models import PlaneModels, models_of
from parts.plane.shop import load_shop
from parts.plane.spec import load_spec

SPECS = Path(__file__).parents[1] / "specs"


@cache
def designed(name: str) -> Design:
    return design(load_spec(SPECS / f"{name}.toml"), load_shop(SPECS / "shop.toml"))


@cache
def made(name: str) -> PlaneModels:
    """Return the models of a shipped plane; a test that changes them must make its own."""
    return models_of(designed(name), settle=lambda one: one)
