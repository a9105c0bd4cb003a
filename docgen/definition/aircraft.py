"""The form of aircraft.yaml: the airframe, its places and the runs between them."""

from __future__ import annotations

import re
from typing import Annotated, Any, Self

from pydantic import AfterValidator, BeforeValidator, Field, ValidationInfo, model_validator

from docgen.basics.findings import Refused, shown
from docgen.basics.units import LENGTH_MM, parse_quantity
from docgen.definition.fields import (
    Date,
    Entry,
    Form,
    LengthMm,
    Name,
    Named,
    OffsetMm,
    PlaceName,
    PositiveLengthMm,
    Ratio,
    TemperatureC,
    Text,
    TimeS,
    YesNo,
    more_than_nothing,
    names_of,
    one_of,
    text_of,
    whole,
)

_MOST_ADDRESS = 300
_WEB_ADDRESS = re.compile(r"(https?://)([^/?#]+)([^?#]*)(.*)", re.IGNORECASE)


def _read_web_address(value: Any) -> str:
    """Read where the record stands; scheme and host are the same in capitals (RFC 3986, 6.2.2.1)."""
    match = _WEB_ADDRESS.fullmatch(value) if isinstance(value, str) else None
    if match and "@" in match.group(2):
        do = "Leave out what stands before the `@`: links on cards can be read by anyone, a password too."
        raise Refused("value", "the address holds a user.", do)
    if not match or not re.fullmatch(rf"[!-~]{{1,{_MOST_ADDRESS}}}", match.group()):
        shown_value = shown(value) if isinstance(value, str) else "this"
        raise Refused("value", f"{shown_value} is not a web address.", "Write it like `https://hangar.example/wren`.")
    scheme, host, path, more = match.groups()
    if more:
        do = f"Leave out the `{more[0]}` and all behind it: the names of the record's files are added at the end."
        raise Refused("value", f"{shown(value)} is no folder on the web.", do)
    return f"{scheme.lower()}{host.lower()}{path}"


def _read_revision(value: Any) -> str:
    """Read under which letters and figures a state is issued: they are a folder's name too."""
    if not isinstance(value, str) or not re.fullmatch(r"[A-Za-z0-9]{1,20}", value):
        raise Refused("value", "this is no revision.", "Write letters and figures, 20 at most, like `A`.")
    return value


Point = tuple[float, float, float]
"""Aft, right and up from the nose datum [mm]."""


class Aircraft(Entry):
    """What the aircraft is, and the state that the paper shows; name, marks and revision stand in every foot."""

    name: Annotated[str, text_of(60)]
    description: Text
    marks: Annotated[str, text_of(20)]
    revision: Annotated[str, BeforeValidator(_read_revision)]
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
    def point_mm(self) -> Point:
        """Return where it is."""
        return self.aft, self.right if self.right is not None else -(self.left or 0), self.up


class Place(Named, Entry):
    """A named point in the airframe; `across_mm` is how far apart two things on it lie."""

    assembly: Name
    at: At | None = None
    access: Text = ""
    slack_mm: LengthMm = Field(default=0, alias="slack")
    across_mm: LengthMm | None = Field(default=None, alias="across")
    heat_c: TemperatureC | None = Field(default=None, alias="heat")

    @property
    def point_mm(self) -> Point | None:
        """Return its coordinates, if they are said."""
        return self.at.point_mm if self.at is not None else None


NO_SLEEVE = "none"


def _sleeve_or_none(name: str, info: ValidationInfo) -> str:
    return name if name == NO_SLEEVE else names_of(info).check(name, "sleeves")


def _read_opening(text: Any) -> tuple[float, ...]:
    """Read what an opening is wide: the diameter of a round one, both sides of a rectangle [mm]."""
    sides = re.split(r"\s*[x×]\s*", text) if isinstance(text, str) else []
    if not 1 <= len(sides) <= 2:
        raise Refused("value", "this is no opening.", "Write `14 mm`, or the sides: `20 mm x 8 mm`.")
    return tuple(more_than_nothing(parse_quantity(side, LENGTH_MM)) for side in sides)


OpeningMm = Annotated[tuple[float, ...], BeforeValidator(_read_opening)]


class Run(Entry):
    """A route that a wire can be laid between two places of one assembly."""

    between: Annotated[list[PlaceName], Field(min_length=2, max_length=2)]
    length: PositiveLengthMm | None = None
    edges: Annotated[str, one_of("sharp")] | None = None
    dressed: Annotated[str, one_of("grommet", "edge trim", "tube")] | None = None
    heat: TemperatureC | None = None
    hinge: PositiveLengthMm | None = None
    hole_mm: OpeningMm | None = Field(default=None, alias="hole")
    closed: YesNo = False
    sleeve: Annotated[Text, AfterValidator(_sleeve_or_none)] | None = None

    @model_validator(mode="after")
    def _says_why_none(self) -> Self:
        if self.sleeve == NO_SLEEVE and not self.note:
            do = "Add `note:` with the reason, or leave `sleeve:` out."
            raise Refused("missing", "why it goes without a sleeve is not said.", do)
        return self


class Flight(Entry):
    """How long a flight is and what must be left of the charge."""

    time_s: TimeS = Field(alias="time")
    reserve: Ratio
    flights: Annotated[int, whole(1, 1000)] = 1
    ground_s: TimeS = Field(default=0, alias="ground")
