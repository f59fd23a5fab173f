"""Immutable records of named fields, as frozen dataclasses are, without the code that each of those compiles at start.

A plane's sizes are some sixty such classes; compiling them took a seventh of a quick command's time.
"""

from __future__ import annotations

from typing import Any, ClassVar, Self, TypeVar, dataclass_transform

__all__ = ["Record", "Value", "replace"]

T = TypeVar("T")


@dataclass_transform(frozen_default=True, eq_default=False)
class Record:
    """Base of a record: annotated names are its fields, in order; a value in the class is a field's default.

    Two records are equal only when they are the same one. `__post_init__`, where there is one, runs last.

    Raises:
        TypeError: a field without default is missing, given twice, or not one of the record's.
        AttributeError: a field is set or deleted later.
    """

    _fields: ClassVar[tuple[str, ...]] = ()

    def __init_subclass__(cls) -> None:
        own = [k for k, t in cls.__annotations__.items() if not str(t).startswith("ClassVar")]
        cls._fields = (*cls._fields, *(k for k in own if k not in cls._fields))

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        names = self._fields
        values = self.__dict__
        values.update(zip(names, args, strict=False))
        if kwargs.keys() & values.keys() or len(args) > len(names):
            raise TypeError(f"{type(self).__name__}: too many values, or one given twice")
        values.update(kwargs)
        if len(values) != len(names) or kwargs:
            self._complete()
        post = getattr(self, "__post_init__", None)
        if post is not None:
            post()

    def _complete(self) -> None:
        values = self.__dict__
        unknown = values.keys() - set(self._fields)
        missing = [n for n in self._fields if n not in values and not hasattr(type(self), n)]
        if unknown or missing:
            raise TypeError(f"{type(self).__name__}: no field {sorted(unknown)}, or none given for {missing}")
        for name in self._fields:
            if name not in values:
                values[name] = getattr(type(self), name)

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError(f"{type(self).__name__}.{name} cannot be set: a record never changes")

    def __delattr__(self, name: str) -> None:
        raise AttributeError(f"{type(self).__name__}.{name} cannot be deleted: a record never changes")

    def __replace__(self, **changes: Any) -> Self:
        return type(self)(**{n: changes.pop(n, self.__dict__[n]) for n in self._fields}, **changes)


@dataclass_transform(frozen_default=True, eq_default=True)
class Value(Record):
    """Base of a record that equals another one of its class with the same values."""

    def __eq__(self, other: object) -> bool:
        return self is other or (type(other) is type(self) and self.__dict__ == other.__dict__)

    def __hash__(self) -> int:
        values = self.__dict__
        return hash((type(self), *(values[n] for n in self._fields)))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(f'{n}={self.__dict__[n]!r}' for n in self._fields)})"


def replace(record: T, **changes: Any) -> T:
    """Return a copy of a record, or of a dataclass, with some fields changed.

    Raises:
        TypeError: a name that is no field.
    """
    if isinstance(record, Record):
        return record.__replace__(**changes)
    import dataclasses

    return dataclasses.replace(record, **changes)  # type: ignore[type-var]
