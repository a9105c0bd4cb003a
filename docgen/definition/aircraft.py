"""The form of aircraft.yaml: the airframe, its places and the runs between them."""

from __future__ import annotations

import re
from typing import Annotated, Any, Self

from pydantic import BeforeValidator, Field, model_validator

from docgen.basics.findings import Refused, shown
from docgen.definition.fields import (
    Date,
    Entry,
    Form,
    LengthMm,
    Name,
    OffsetMm,
    PlaceName,
    PositiveLengthMm,
    Ratio,
    TemperatureC,
    Text,
    TimeS,
    one_of,
    whole,
)


def _read_web_address(value: Any) -> str:
    if not isinstance(value, str) or not re.fullmatch(r"https?://[!-~]{1,300}", value):
        shown_value = shown(value) if isinstance(value, str) else "this"
        raise Refused("value", f"{shown_value} is not a web address.", "Write it like `https://hangar.example/wren`.")
    return value


class Aircraft(Entry):
    """What the aircraft is, and the state that the paper shows."""

    name: Text
    description: Text
    marks: Text
    revision: Text
    date: Date
    record: Annotated[str, BeforeValidator(_read_web_address)] | None = None
    contact: Text = ""


class At(Form):
    """Coordinates from the nose datum [mm]; what is unsaid is 0."""

    aft: OffsetMm = 0
    left: OffsetMm | None = None
    right: OffsetMm | None = None
    up: OffsetMm = 0

    @model_validator(mode="after")
    def _one_side(self) -> Self:
        if self.left is not None and self.right is not None:
            raise Refused("value", "both left and right are said.", "Say one of them.")
        return self

    @property
    def point_mm(self) -> tuple[float, float, float]:
        """Return (aft, right, up) [mm]."""
        return self.aft, self.right if self.right is not None else -(self.left or 0), self.up


class Place(Entry):
    """A named point in the airframe."""

    assembly: Name
    at: At | None = None
    access: Text = ""
    slack: LengthMm = 0
    heat: TemperatureC | None = None


class Run(Entry):
    """A way that a wire can be laid between two places of one assembly."""

    between: Annotated[list[PlaceName], Field(min_length=2, max_length=2)]
    length: PositiveLengthMm | None = None
    edges: Annotated[str, one_of("sharp")] | None = None
    dressed: Annotated[str, one_of("grommet", "edge trim", "tube")] | None = None
    heat: TemperatureC | None = None
    hinge: PositiveLengthMm | None = None


class Flight(Entry):
    """How long a flight is and what must be left of the charge."""

    time_s: TimeS = Field(alias="time")
    reserve: Ratio
    flights: Annotated[int, whole(1, 1000)] = 1
    ground_s: TimeS = Field(default=0, alias="ground")
