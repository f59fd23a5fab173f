"""The spec reader accepts and refuses what pydantic itself does with the same fields."""

from __future__ import annotations

from typing import Annotated, Any, Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError as FullError
from pydantic_core import PydanticCustomError, ValidationError

from shared.fields import Angle, Field, HardnessHRC, Length, Section, Share, Temperature
from shared.section import After
from shared.section_schema import pydantic_model


def _short(name: str) -> str:
    if len(name) > 6:
        raise PydanticCustomError("quantity", "{allowed}", {"allowed": "six letters"})
    return name


class Inner(Section):
    """A section inside another."""

    angle: Angle(10, 60) = Field(description="bed to sole")  # type: ignore[valid-type]
    share: Share(0, 0.5) | None = None  # type: ignore[valid-type]


class Outer(Section):
    """All kinds of field."""

    name: Annotated[str, Field(min_length=1), After(_short)]
    kind: Literal["one", "two"] = "one"
    length: Length(5, 900)  # type: ignore[valid-type]
    count: int = Field(2, ge=1, le=12)
    flag: bool = True
    hard: HardnessHRC(45, 68) = Field("62 HRC", validate_default=True)  # type: ignore[valid-type]
    cold: Temperature(-273, 0) | None = None  # type: ignore[valid-type]
    inner: Inner = Inner(angle=45)
    many: tuple[Inner, ...] = ()
    by_name: dict[str, Inner] = Field(default_factory=dict)


class Ordered(Section):
    """Judged as a whole."""

    low: float = 0.0
    high: float = 1.0

    def check_whole(self) -> None:
        if self.low > self.high:
            raise PydanticCustomError("quantity", "{allowed}", {"allowed": "low not above high"})


VALUES = st.one_of(
    st.integers(-5, 1000), st.floats(-10, 1000), st.booleans(), st.none(), st.lists(st.integers(), max_size=2),
    st.sampled_from(["one", "two", "three", "", "62 HRC", "700 HV", "2-3/8 in", "60 mm", "12 deg", "4%", "-80 C",
                     "70 F", "nonsense", {"angle": 12}, {"angle": "3 deg"}, [{"angle": 45}],
                     {"a": {"angle": 20}}, {"x": 1}]),
)  # fmt: skip
KEYS = [*Outer.__annotations__, "unknown"]


@settings(deadline=None)
@given(st.dictionaries(st.sampled_from(KEYS), VALUES), st.sampled_from(["inch", "mm"]))
def test_same_faults_and_values_as_pydantic(data: dict[str, Any], units: str) -> None:
    context = {"units": units}
    full = pydantic_model(Outer)
    try:
        theirs = full.model_validate(data, context=context)
    except FullError as err:
        with pytest.raises(ValidationError) as mine:
            Outer.model_validate(data, context=context)
        assert [(e["type"], e["loc"]) for e in mine.value.errors()] == [(e["type"], e["loc"]) for e in err.errors()]
    else:
        assert Outer.model_validate(data, context=context).model_dump() == {
            k: list(v) if isinstance(v, tuple) else v for k, v in theirs.model_dump().items()
        }


def test_json_schema_is_pydantics_own() -> None:
    schema = Outer.model_json_schema()
    assert schema["additionalProperties"] is False
    assert set(schema["required"]) == {"name", "length"}
    assert schema["properties"]["length"]["x-range"] == [5, 900, "mm"]
    assert schema["$defs"]["Inner"]["properties"]["angle"]["description"] == "bed to sole"


def test_sections_never_change_and_can_be_compared() -> None:
    a = Outer(name="a", length="20 mm")
    with pytest.raises(AttributeError):
        a.length = 3.0
    b = a.model_copy(update={"length": 30.0})
    assert (a.length, b.length, b.hard) == (20.0, 30.0, 62.0)
    assert a == Outer(name="a", length="20 mm") and a != b


def test_a_section_judges_itself_whole() -> None:
    assert Ordered(high=2.0).high == 2.0
    with pytest.raises(ValidationError, match="low not above high"):
        Ordered(low=3.0)


def test_a_subclass_may_narrow_a_field() -> None:
    class Small(Outer):
        """Shorter."""

        length: Length(5, 50)  # type: ignore[valid-type]

    with pytest.raises(ValidationError):
        Small(name="a", length="60 mm")
    assert Small(name="a", length="40 mm").name == "a"
