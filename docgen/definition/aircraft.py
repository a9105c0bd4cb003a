"""The form of aircraft.yaml: the airframe, its places and the runs between them."""

from __future__ import annotations

import re
from typing import Annotated, Any, Self

from pydantic import AfterValidator, Field, ValidationInfo, model_validator

from docgen.basics.findings import Refused, shown
from docgen.basics.units import LENGTH_MM, parse_quantity
from docgen.definition import shapes
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
    Read,
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
from docgen.definition.folder_names import check_folder_name

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
    return check_folder_name(value)


Point = tuple[float, float, float]
"""Aft, right and up from the nose datum [mm]."""


class Aircraft(Entry):
    """What the aircraft is, and the state that the paper shows; name, marks and revision stand in every foot."""

    name: Annotated[str, text_of(60)] = Field(description="What the aircraft is called; 60 characters at most.")
    description: Text = Field(description="What it is, in a line.")
    marks: Annotated[str, text_of(20)] = Field(description="Its registration or other marks; 20 characters at most.")
    revision: Annotated[str, Read(_read_revision, shape=shapes.text("[A-Za-z0-9]{1,20}", examples=["A"]))] = Field(
        description="Letters and figures of the state that the paper shows, like `A`."
    )
    date: Date = Field(description="The day of that revision.")
    record: Annotated[str, Read(_read_web_address, shape=shapes.WEB_ADDRESS)] | None = Field(
        default=None, description="Where the record will stand on the web; without it cards have no code."
    )
    contact: Text = Field(default="", description="Whom to call when the aircraft is found.")


class At(Form):
    """Coordinates from the nose datum [mm]; what is unsaid is 0."""

    model_config = shapes.rules({"not": {"required": ["left", "right"]}})

    aft: OffsetMm = Field(default=0, description="Behind the nose datum; before it with a minus.")
    left: OffsetMm | None = Field(default=None, description="Left of the middle.")
    right: OffsetMm | None = Field(default=None, description="Right of the middle.")
    up: OffsetMm = Field(default=0, description="Above the datum; below it with a minus.")

    @model_validator(mode="after")
    def _one_side(self) -> Self:
        if self.left is not None and self.right is not None:
            raise Refused("value", "both left and right are said.", "Say one of them.")
        return self

    @property
    def point_mm(self) -> Point:
        """Return where it is."""
        return self.aft, self.right if self.right is not None else -(self.left or 0), self.up


def _check_assembly(name: str) -> str:
    """Check the name of an assembly: what is printed of it alone goes to a folder beside these two."""
    return check_folder_name(name, "record", "rework")


class Place(Named, Entry):
    """A named point in the airframe; `across_mm` is how far apart two things on it lie."""

    assembly: Annotated[Name, AfterValidator(_check_assembly)] = Field(
        description="The part of the airframe that it is in, which comes off as one."
    )
    at: At | None = Field(default=None, description="Where it is, measured from the nose datum.")
    access: Text = Field(default="", description="How a hand gets there.")
    slack_mm: LengthMm = Field(
        default=0,
        alias="slack",
        description="Added to each lead that ends there, where what sits there lifts out with its wires on.",
    )
    across_mm: LengthMm | None = Field(
        default=None, alias="across", description="How far apart two things on this place lie."
    )
    heat_c: TemperatureC | None = Field(default=None, alias="heat", description="How hot the air gets there.")

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


OpeningMm = Annotated[tuple[float, ...], Read(_read_opening, shape=shapes.OPENING)]


class Run(Entry):
    """A route that a wire can be laid between two places of one assembly."""

    model_config = shapes.rules(shapes.where(shapes.word("sleeve", NO_SLEEVE), required=["note"]))

    between: Annotated[list[PlaceName], Field(min_length=2, max_length=2)] = Field(
        description="The two places that it leads between, both in one assembly."
    )
    length: PositiveLengthMm | None = Field(
        default=None, description="Its length, measured along the way with a string."
    )
    edges: Annotated[str, one_of("sharp")] | None = Field(
        default=None, description="Whether the way passes sharp edges."
    )
    dressed: Annotated[str, one_of("grommet", "edge trim", "tube")] | None = Field(
        default=None, description="How its sharp edges are dealt with, so that no sleeve is needed."
    )
    heat: TemperatureC | None = Field(default=None, description="How hot it gets along the way.")
    hinge: PositiveLengthMm | None = Field(
        default=None, description="The radius round which the wires bend there in use."
    )
    hole_mm: OpeningMm | None = Field(
        default=None, alias="hole", description="The tightest opening on the way: a diameter, or two sides."
    )
    closed: YesNo = Field(
        default=False, description="Whether no hand reaches between its ends once the airframe is closed."
    )
    sleeve: Annotated[Text, AfterValidator(_sleeve_or_none)] | None = Field(
        default=None, description="Another sleeve than the program's, or `none` with the reason in `note`."
    )

    @model_validator(mode="after")
    def _says_why_none(self) -> Self:
        if self.sleeve == NO_SLEEVE and not self.note:
            do = "Add `note:` with the reason, or leave `sleeve:` out."
            raise Refused("missing", "why it goes without a sleeve is not said.", do)
        return self


class Flight(Entry):
    """How long a flight is and what must be left of the charge."""

    time_s: TimeS = Field(alias="time", description="How long a flight is.")
    reserve: Ratio = Field(description="The share of the charge that must be left after the last flight.")
    flights: Annotated[int, whole(1, 1000)] = Field(default=1, description="How many flights are flown on one charge.")
    ground_s: TimeS = Field(
        default=0, alias="ground", description="How long it is switched on, on the ground, in all for each flight."
    )
