"""Records behave as frozen dataclasses without equality do."""

from __future__ import annotations

import pickle
from functools import cached_property
from typing import ClassVar

import pytest

from shared.record import Record, replace


class Point(Record):
    """A record for the tests."""

    x: float
    y: float = 2.0
    kind: ClassVar[str] = "point"

    @cached_property
    def total(self) -> float:
        return self.x + self.y


class Named(Point):
    """Adds a field to one that has a default."""

    name: str = "origin"


class Positive(Record):
    """Judges its own values."""

    size: float

    def __post_init__(self) -> None:
        if self.size <= 0:
            raise ValueError("size")


def test_fields_by_place_and_by_name() -> None:
    for p in (Point(1.0), Point(x=1.0), Point(1.0, 2.0), Point(1.0, y=2.0)):
        assert (p.x, p.y, p.total) == (1.0, 2.0, 3.0)
    n = Named(1.0, name="toe")
    assert (n.x, n.y, n.name, n.kind) == (1.0, 2.0, "toe", "point")


@pytest.mark.parametrize(
    ("args", "kwargs"), [((), {}), ((1.0, 2.0, 3.0), {}), ((1.0,), {"x": 2.0}), ((1.0,), {"z": 2.0}), ((), {"y": 1.0})]
)
def test_wrong_fields_are_refused(args: tuple[float, ...], kwargs: dict[str, float]) -> None:
    with pytest.raises(TypeError):
        Point(*args, **kwargs)


def test_never_changes() -> None:
    p = Point(1.0)
    with pytest.raises(AttributeError):
        p.x = 2.0  # type: ignore[misc]
    with pytest.raises(AttributeError):
        del p.x


def test_replace_gives_another() -> None:
    p = Point(1.0)
    q = replace(p, y=5.0)
    assert (q.x, q.y, p.y) == (1.0, 5.0, 2.0)
    with pytest.raises(TypeError):
        replace(p, z=1.0)


def test_identity_is_equality_and_it_can_be_a_key() -> None:
    p = Point(1.0)
    assert p == p and p != Point(1.0)
    assert {p: 1}[p] == 1


def test_survives_pickle() -> None:
    p = pickle.loads(pickle.dumps(Named(3.0)))
    assert (p.x, p.name) == (3.0, "origin")


def test_post_init_runs() -> None:
    with pytest.raises(ValueError, match="size"):
        Positive(0.0)
