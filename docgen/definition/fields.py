"""The kinds of values that the builder's files hold, as field types that read text."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Collection
from dataclasses import dataclass, field
from typing import Annotated, Any, NamedTuple, Self

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, PrivateAttr, ValidationInfo

from docgen.basics import units
from docgen.basics.colours import parse_colour
from docgen.basics.findings import Refused, listed, meant, shown
from docgen.basics.gauges import Gauge, parse_gauge
from docgen.definition import shapes

MOST_NAME = 100  # characters; what stands in every foot has less room (`aircraft.py`)
_MOST_RANGE = 200
_MOST_DIGITS = 9
_RANGES = f"Write {_MOST_RANGE} at most in one range."
_LEAST = 0.01  # what can be measured, in mm, mAh or A; less would only break sums
_MOST_OFFERS = 50  # looking for the nearest name takes a while; a file with more misses has other troubles


@dataclass
class Names:
    """The names that entries may refer to, by section, and the findings that they may accept.

    A section that could not be read is left out.
    """

    sections: dict[str, dict[str, None]]
    acceptable: Collection[str] = ()
    sought: int = 0

    def check(self, name: str, *sections: str) -> str:
        """Return `name` if one of the sections holds it; raises Refused `name` with the nearest offered."""
        if any(section not in self.sections or name in self.sections[section] for section in sections):
            return name
        known = [known for section in sections for known in self.sections[section]]
        self.sought += 1
        do = f"Known: {listed(known)}." if known else "Name one first."
        do = meant(name, known, do) if self.sought <= _MOST_OFFERS else do
        raise Refused("name", f"{shown(name)} is not in {' or '.join(sections)}.", do)


def check_name(text: str, more: str = "") -> str:
    """Check that a name is lower-case letters, digits and hyphens (and `more`); raises Refused `name`."""
    if not re.fullmatch(rf"[a-z0-9{more}-]+", text) or len(text) > MOST_NAME:
        plain = re.sub(r"[^a-z0-9]+", "-", text.lower()[:MOST_NAME]).strip("-")
        offer = f", like `{plain}`" if plain else ""
        do = f"Use lower-case letters, digits and hyphens, {MOST_NAME} at most{offer}."
        raise Refused("name", f"{shown(text)} is not a name.", do)
    return text


def _need_text(value: Any) -> str:
    if not isinstance(value, str):
        raise Refused("value", "something else stands where one value should.", "Write one value here.")
    return value


@dataclass(frozen=True)  # as that which it goes on from
class Read(BeforeValidator):
    """How a value is read, and what shape it has for an editor."""

    shape: shapes.Shape = field(default_factory=dict, compare=False)

    def __get_pydantic_json_schema__(self, *_: object) -> shapes.Shape:
        return dict(self.shape)


def _reader(parse: Callable[[str], Any], shape: shapes.Shape) -> Read:
    return Read(lambda value: parse(_need_text(value)), shape=shape)


def _quantity(quantity: units.Quantity) -> Read:
    return _reader(lambda text: units.parse_quantity(text, quantity), shapes.quantity(quantity))


def more_than_nothing(value: float) -> float:
    """Return a measured value; raises Refused `value` for nothing."""
    if value < _LEAST:
        raise Refused("value", "this can't be nothing.", "Give the measured value.")
    return value


LengthMm = Annotated[float, _quantity(units.LENGTH_MM)]
PositiveLengthMm = Annotated[float, _quantity(units.LENGTH_MM), AfterValidator(more_than_nothing)]
OffsetMm = Annotated[float, _quantity(units.OFFSET_MM)]
SpoolLengthMm = Annotated[float, _quantity(units.SPOOL_MM), AfterValidator(more_than_nothing)]
CurrentA = Annotated[float, _quantity(units.CURRENT_A)]
PositiveCurrentA = Annotated[float, _quantity(units.CURRENT_A), AfterValidator(more_than_nothing)]
ChargeMah = Annotated[float, _quantity(units.CHARGE_MAH), AfterValidator(more_than_nothing)]
VoltageV = Annotated[float, _quantity(units.VOLTAGE_V)]
PositiveVoltageV = Annotated[float, _quantity(units.VOLTAGE_V), AfterValidator(more_than_nothing)]
ResistanceOhm = Annotated[float, _quantity(units.RESISTANCE_OHM)]
TemperatureC = Annotated[float, _quantity(units.TEMPERATURE_C)]
Ratio = Annotated[float, _quantity(units.RATIO)]
PositiveRatio = Annotated[float, _quantity(units.RATIO), AfterValidator(more_than_nothing)]
TimeS = Annotated[float, _quantity(units.TIME_S)]
MassG = Annotated[float, _quantity(units.MASS_G)]
LinearMassGPerM = Annotated[float, _quantity(units.LINEAR_MASS_G_PER_M)]
LinearResistanceOhmPerM = Annotated[float, _quantity(units.LINEAR_RESISTANCE_OHM_PER_M)]
GaugeField = Annotated[Gauge, _reader(parse_gauge, shapes.GAUGE)]
Colour = Annotated[str, _reader(parse_colour, shapes.COLOUR)]
Name = Annotated[str, _reader(check_name, shapes.ENTRY_NAME)]
Text = Annotated[str, Read(_need_text, shape=shapes.SCALAR)]


def text_of(most: int) -> Read:
    """Return the reader of a text that pages have room for up to so many characters."""

    def read(text: str) -> str:
        if len(text) > most:
            raise Refused("value", f"{shown(text)} has {len(text)} characters.", f"Write {most} at most.")
        return text

    return _reader(read, shapes.text(maxLength=most))


def _yes_or_no(text: str) -> bool:
    if text not in ("yes", "no"):
        raise Refused("value", f"{shown(text)} is neither yes nor no.", "Write yes or no.")
    return text == "yes"


YesNo = Annotated[bool, _reader(_yes_or_no, shapes.words("yes", "no"))]


def one_of(*choices: str) -> Read:
    """Return the reader of a word out of a few."""

    def read(text: str) -> str:
        if text not in choices:
            do = meant(text, choices, f"Write one of: {', '.join(choices)}.")
            raise Refused("value", f"{shown(text)} is none of {listed(choices, 30)}.", do)
        return text

    return _reader(read, shapes.words(*choices))


Gender = Annotated[str, one_of("pins", "sockets")]
Key = Annotated[str, one_of("up", "down", "left", "right")]
Join = Annotated[str, one_of("crimp", "solder")]


def whole(least: int, most: int) -> Read:
    """Return the reader of a bare whole number."""
    return _reader(lambda text: units.parse_whole(text, least, most), shapes.whole(least, most))


def _read_date(text: str) -> str:
    try:
        if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
            return datetime.date.fromisoformat(text).isoformat()
    except ValueError:
        pass
    raise Refused("value", f"{shown(text)} is not a day.", "Write it like `2026-04-18`.")


Date = Annotated[str, _reader(_read_date, shapes.DAY)]


def _expand(value: Any) -> list[str]:
    if not isinstance(value, list):
        return _expand_range(_need_text(value))
    names: list[str] = []
    for index, item in enumerate(value):
        try:
            names += _expand_range(_need_text(item))
        except Refused as refused:
            refused.path = (index,)
            raise
    return names


def expand_ranges(value: Any) -> list[str]:
    """Read contact or port names: one, or a list, where `1..16` is a range; raises Refused."""
    names = _expand(value)
    seen: set[str] = set()
    for name in names:
        if name in seen:
            raise Refused("value", f"{shown(name)} stands twice in one list.", "Name each once.")
        seen.add(name)
    return names


def _expand_range(text: str) -> list[str]:
    match = re.fullmatch(r"(\d+)\.\.(\d+)", text)
    if match:
        least, most = match.groups()
        if max(len(least), len(most)) > _MOST_DIGITS:
            raise Refused("value", f"{shown(text)} is a range of too many numbers.", _RANGES)
        first, last = int(least), int(most)
        if last < first:
            what = f"{shown(text)} is a range that ends before it begins."
            raise Refused("value", what, "Write the lower number first.")
        if last - first >= _MOST_RANGE:
            raise Refused("value", f"{shown(text)} is a range of {last - first + 1} numbers.", _RANGES)
        return [str(number) for number in range(first, last + 1)]
    if " " in text or "," in text or ".." in text:
        do = "Names here hold no blanks, commas or ranges of letters."
        raise Refused("name", f"{shown(text)} is not one name.", do)
    return [text]


NameList = Annotated[list[str], Read(expand_ranges, shape=shapes.NAMES)]
PinnedContacts = Annotated[list[str], Read(_expand, shape=shapes.NAMES)]


def names_of(info: ValidationInfo) -> Names:
    """Return the names that stand in all files, which come as the context of a validation."""
    assert isinstance(info.context, Names)
    return info.context


def known(*sections: str) -> AfterValidator:
    """Return the check that a name stands in one of the sections."""

    def check(name: str, info: ValidationInfo) -> str:
        return names_of(info).check(name, *sections)

    return AfterValidator(check)


PlaceName = Annotated[Text, known("places")]
WireName = Annotated[Text, known("wires")]
LeadName = Annotated[Text, known("leads")]
TubeName = Annotated[Text, known("tubes")]
PlugName = Annotated[Text, known("plugs")]
DisconnectName = Annotated[Text, known("disconnects")]
CircuitName = Annotated[Text, known("circuits")]


class WireAndColour(NamedTuple):
    """One conductor: an entry of `wires` and its colour."""

    wire: str
    colour: str


def _read_wire_and_colour(value: Any, info: ValidationInfo) -> WireAndColour:
    parts = _need_text(value).split()
    if len(parts) != 2:
        raise Refused("value", f"{shown(value)} is not a wire and its colour.", "Write it like `pvc-22 RD`.")
    return WireAndColour(names_of(info).check(parts[0], "wires"), parse_colour(parts[1]))


WireAndColourField = Annotated[WireAndColour, Read(_read_wire_and_colour, shape=shapes.WIRE_AND_COLOUR)]


def _acceptable(name: str, info: ValidationInfo) -> str:
    choices = names_of(info).acceptable
    if name not in choices:
        do = meant(name, choices, f"Cautions and notes can be: {listed(choices, 30)}.")
        raise Refused("name", f"{shown(name)} is no finding that can be accepted.", do)
    return name


def as_list(value: Any) -> Any:
    """Return a list, of one where one item stands alone."""
    return value if isinstance(value, list) else [value]


class Form(BaseModel):
    """A mapping of the builder's files: unknown keys are refused, nothing can be changed."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True, defer_build=True)


class Named(Form):
    """A form that knows the name below which it is written."""

    _name: str = PrivateAttr("")

    @property
    def name(self) -> str:
        """Return what it is called."""
        private = self.__pydantic_private__  # asking for `_name` looks for a field first, which takes ten times as long
        return str(private["_name"]) if private is not None else ""

    def named(self, name: str) -> Self:
        """Give it its name, once it is read."""
        self._name = name
        return self


class Entry(Form):
    """A mapping that findings may stand on: it bears a note, and reasons for living with findings."""

    note: Text = Field(default="", description="Any text; it stands in the record and on the card of that thing.")
    accept: dict[Annotated[Text, AfterValidator(_acceptable)], Text] = Field(
        default={}, description="Findings that you live with, each with the reason."
    )
