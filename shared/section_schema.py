"""The JSON Schema of spec sections, by way of pydantic models with the same fields."""

from __future__ import annotations

import types
import typing
from functools import reduce
from operator import or_
from typing import Annotated, Any, Literal

import pydantic

from shared.section import REQUIRED, After, FieldInfo, Read, Section, fields_of


def json_schema(model: type[Section]) -> dict[str, Any]:
    """Return the JSON Schema of one section with all that it holds."""
    return pydantic_model(model).model_json_schema()


def json_schema_of_any(models: list[type[Section]]) -> dict[str, Any]:
    """Return the JSON Schema of a file that is one of several sections."""
    union: Any = reduce(or_, [pydantic_model(m) for m in models])
    return pydantic.TypeAdapter(union).json_schema()


_made: dict[type[Section], type[pydantic.BaseModel]] = {}  # so that a section used twice is one definition


def pydantic_model(model: type[Section]) -> type[pydantic.BaseModel]:
    """Return the pydantic model with a section's fields, ranges and descriptions."""
    if model not in _made:
        _made[model] = _make(model)
    return _made[model]


def _make(model: type[Section]) -> type[pydantic.BaseModel]:
    fields: dict[str, Any] = {name: (_type(info.annotation), _info(info)) for name, info in fields_of(model).items()}
    made: type[pydantic.BaseModel] = pydantic.create_model(  # type: ignore[call-overload]
        model.__name__, __config__=pydantic.ConfigDict(extra="forbid", frozen=True), __doc__=model.__doc__, **fields
    )
    return made


def _info(info: FieldInfo) -> Any:
    extra: dict[str, Any] = {"description": info.description} if info.description else {}
    if info.default_factory is not None:
        return pydantic.Field(default_factory=info.default_factory, **extra, **info.limits)
    default = info.default
    if isinstance(default, Section):
        default = _as_pydantic(default)
    elif isinstance(default, tuple):
        default = tuple(_as_pydantic(d) if isinstance(d, Section) else d for d in default)
    default = ... if default is REQUIRED else default
    return pydantic.Field(default, validate_default=info.validate_default, **extra, **info.limits)


def _as_pydantic(section: Section) -> pydantic.BaseModel:
    values = {k: _as_pydantic(v) if isinstance(v, Section) else v for k, v in section.__dict__.items()}
    return pydantic_model(type(section)).model_construct(None, **values)


def _type(said: Any) -> Any:
    if isinstance(said, type) and issubclass(said, Section):
        return pydantic_model(said)
    origin, args = typing.get_origin(said), typing.get_args(said)
    if origin is Annotated:
        marks = [m for mark in args[1:] for m in _marks(mark)]
        return Annotated[_type(args[0]), *marks] if marks else _type(args[0])
    if origin in (typing.Union, types.UnionType):
        return typing.Union[tuple(_type(a) for a in args)]  # noqa: UP007  made from a list
    if origin is tuple:
        return tuple[_type(args[0]), ...]  # type: ignore[misc]
    if origin is dict:
        return dict[args[0], _type(args[1])]  # type: ignore[misc, valid-type]
    if said is bool:
        return pydantic.StrictBool
    return said if origin is not Literal else Literal[args]


def _marks(mark: Any) -> list[Any]:
    if isinstance(mark, Read):
        return [pydantic.BeforeValidator(mark.function), pydantic.WithJsonSchema(mark.schema)]
    if isinstance(mark, After):
        choices = [] if mark.choices is None else [pydantic.WithJsonSchema({"type": "string", "enum": mark.choices()})]
        return [pydantic.AfterValidator(mark.function), *choices]
    if isinstance(mark, FieldInfo):
        return [pydantic.Field(**mark.limits)]
    return []
