"""Sections of a spec file: typed fields with ranges, all faults found at once.

Reading is done by pydantic-core, the validating engine of pydantic, from schemas written down here: pydantic's own
layer on top of it takes longer to load than every quick command may take. That layer is loaded only to write the JSON
Schema (`shared.section_schema`), and the tests compare what both accept.
"""

from __future__ import annotations

import sys
import types
import typing
from collections.abc import Callable, Mapping
from typing import Annotated, Any, ClassVar, Literal, Self

from pydantic_core import SchemaValidator

REQUIRED: Any = ...


class FieldInfo:
    """What is known of one field: default, range or lengths where they count, description."""

    __slots__ = ("annotation", "default", "default_factory", "description", "limits", "validate_default")

    def __init__(
        self,
        default: Any,
        default_factory: Callable[[], Any] | None,
        description: str,
        validate_default: bool,
        limits: dict[str, Any],
    ) -> None:
        self.default = default
        self.default_factory = default_factory
        self.description = description
        self.validate_default = validate_default
        self.limits = limits
        self.annotation: Any = None

    @property
    def required(self) -> bool:
        """Whether a spec must give it."""
        return self.default is REQUIRED and self.default_factory is None


def Field(  # noqa: N802  read like a type
    default: Any = REQUIRED,
    *,
    default_factory: Callable[[], Any] | None = None,
    description: str = "",
    validate_default: bool = False,
    **limits: Any,
) -> Any:
    """Say more of a field.

    Args:
        default: its value where a spec says nothing; `...` where it must.
        default_factory: makes the default instead.
        description: what it is, for the JSON Schema.
        validate_default: read the default as a spec's own value.
        limits: ge, le (int), min_length, max_length (str).
    """
    return FieldInfo(default, default_factory, description, validate_default, limits)


class Read:
    """Marks a type whose values are read by a function of value and context; `schema` is its JSON Schema."""

    def __init__(self, function: Callable[[Any, Any], Any], schema: dict[str, Any]) -> None:
        self.function = function
        self.schema = schema


class After:
    """Marks a type whose values a function judges once read; `choices` lists what is allowed, for the JSON Schema."""

    def __init__(self, function: Callable[[Any], Any], choices: Callable[[], list[str]] | None = None) -> None:
        self.function = function
        self.choices = choices


class Section:
    """A table of a spec file: unknown keys are refused, values never change after reading.

    Raises:
        pydantic_core.ValidationError: with every fault of the values given.
    """

    __slots__ = ("__dict__", "__pydantic_extra__", "__pydantic_fields_set__", "__pydantic_private__")
    _validator: ClassVar[SchemaValidator | None] = None

    def __init_subclass__(cls) -> None:
        cls._validator = None

    def __init__(self, **values: Any) -> None:
        validator_of(type(self)).validate_python(values, self_instance=self)

    def check_whole(self) -> None:
        """Judge the fields together; raises PydanticCustomError."""

    @classmethod
    def model_validate(cls, values: Any, context: Mapping[str, Any] | None = None) -> Self:
        """Return the section that values of a file make."""
        made: Self = validator_of(cls).validate_python(values, context=context)
        return made

    @classmethod
    def model_json_schema(cls) -> dict[str, Any]:
        """Return the JSON Schema; loads pydantic."""
        from shared.section_schema import json_schema

        return json_schema(cls)

    def model_copy(self, *, update: Mapping[str, Any] | None = None) -> Self:
        """Return a copy with some values changed; they are taken as they are."""
        new = object.__new__(type(self))
        object.__setattr__(new, "__dict__", {**self.__dict__, **(update or {})})
        return new

    def model_dump(self) -> dict[str, Any]:
        """Return the values as plain dicts and lists."""
        return {k: _plain(v) for k, v in self.__dict__.items()}

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError(f"{type(self).__name__}.{name} cannot be set: a spec never changes after reading")

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and self.__dict__ == other.__dict__

    def __hash__(self) -> int:
        return hash((type(self), *self.__dict__.values()))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(f'{k}={v!r}' for k, v in self.__dict__.items())})"

    def __getstate__(self) -> dict[str, Any]:
        return self.__dict__

    def __setstate__(self, state: dict[str, Any]) -> None:
        object.__setattr__(self, "__dict__", state)


def _plain(value: Any) -> Any:
    if isinstance(value, Section):
        return value.model_dump()
    if isinstance(value, dict):
        return {k: _plain(v) for k, v in value.items()}
    return [_plain(v) for v in value] if isinstance(value, list | tuple) else value


def fields_of(model: type[Section]) -> dict[str, FieldInfo]:
    """Return a section's fields in order, those of its bases first."""
    found: dict[str, FieldInfo] = {}
    for cls in reversed(model.__mro__):
        if not (issubclass(cls, Section) and cls is not Section):
            continue
        for name, said in cls.__annotations__.items():
            if isinstance(said, str):
                said = eval(said, vars(sys.modules[cls.__module__]))
            default = cls.__dict__.get(name, REQUIRED)
            info = default if isinstance(default, FieldInfo) else FieldInfo(default, None, "", False, {})
            info.annotation = said
            found[name] = info
    return found


def validator_of(model: type[Section]) -> SchemaValidator:
    """Return what reads a section, made when first asked for."""
    if model._validator is None:
        # a core schema is a plain dict; its typed form would have to be loaded
        model._validator = SchemaValidator(_model(model))  # type: ignore[arg-type]
    return model._validator


def _model(model: type[Section]) -> dict[str, Any]:
    fields = {name: {"type": "model-field", "schema": _field(info)} for name, info in fields_of(model).items()}
    schema = {
        "type": "model",
        "cls": model,
        "schema": {"type": "model-fields", "fields": fields, "model_name": model.__name__, "extra_behavior": "forbid"},
        "config": {"title": model.__name__, "extra_fields_behavior": "forbid"},
    }
    if model.check_whole is Section.check_whole:
        return schema
    return {"type": "function-after", "function": {"type": "no-info", "function": _whole}, "schema": schema}


def _whole(made: Section) -> Section:
    made.check_whole()
    return made


def _field(info: FieldInfo) -> dict[str, Any]:
    schema = _core(info.annotation, info.limits)
    if info.default_factory is not None:
        return {"type": "default", "schema": schema, "default_factory": info.default_factory}
    if info.default is REQUIRED:
        return schema
    return {
        "type": "default", "schema": schema, "default": info.default, "validate_default": info.validate_default
    }  # fmt: skip


_SIMPLE = {str: "str", int: "int", float: "float"}


def _core(said: Any, limits: dict[str, Any]) -> dict[str, Any]:
    """Return the core schema of a field's type."""
    if said is bool:
        return {"type": "bool", "strict": True}  # "yes" and 1 are no TOML booleans
    if said in _SIMPLE:
        return {"type": _SIMPLE[said], **limits}
    if isinstance(said, type) and issubclass(said, Section):
        return _model(said)
    origin, args = typing.get_origin(said), typing.get_args(said)
    if origin is Annotated:
        return _annotated(args[0], args[1:], limits)
    if origin in (typing.Union, types.UnionType):
        (kept,) = [a for a in args if a is not type(None)]
        return {"type": "nullable", "schema": _core(kept, limits)}
    if origin is Literal:
        return {"type": "literal", "expected": list(args)}
    if origin is tuple:
        return {"type": "tuple", "items_schema": [_core(args[0], limits)], "variadic_item_index": 0}
    if origin is dict:
        return {"type": "dict", "keys_schema": _core(args[0], {}), "values_schema": _core(args[1], limits)}
    raise TypeError(f"a spec field cannot be of type {said}")


def _annotated(base: Any, marks: tuple[Any, ...], limits: dict[str, Any]) -> dict[str, Any]:
    for mark in marks:
        if isinstance(mark, Read):
            return {"type": "function-plain", "function": {"type": "with-info", "function": mark.function}}
        if isinstance(mark, FieldInfo):
            limits = {**limits, **mark.limits}
    schema = _core(base, limits)
    for mark in marks:
        if isinstance(mark, After):
            schema = {"type": "function-after", "function": {"type": "no-info", "function": mark.function},
                      "schema": schema}  # fmt: skip
    return schema
