"""The form of parts.yaml: what the harness is made of."""

from __future__ import annotations

import math
from itertools import combinations
from typing import Annotated, Self

from pydantic import Field, model_validator

from docgen.basics.findings import Refused, listed
from docgen.basics.gauges import takes_gauge
from docgen.basics.units import decimal
from docgen.definition import shapes
from docgen.definition.fields import (
    Colour,
    Date,
    Form,
    GaugeField,
    Gender,
    Join,
    Key,
    LengthMm,
    LinearMassGPerM,
    LinearResistanceOhmPerM,
    Named,
    NameList,
    OffsetMm,
    PositiveCurrentA,
    PositiveLengthMm,
    Ratio,
    ResistanceOhm,
    SpoolLengthMm,
    TemperatureC,
    Text,
    WireAndColourField,
    YesNo,
    one_of,
)

# What the outline of a shell is: of a D its wide side is where the key points.
SHAPES = ("rectangle", "D", "round")
MOST_OUTLINE_MM = (88.0, 60.0)  # what a card of 93 × 124 mm has room for below its title, true to size
LEAST_PITCH_MM = 0.8  # no contact that is crimped by hand is narrower; common practice, no source
_SAME_MM = 0.01
_Pair = Field(min_length=2, max_length=2)


class Part(Named):
    """What any part may say besides its own figures."""

    note: Text = Field(default="", description="Any text about the part.")
    source: Text = Field(default="", description="Where its figures come from.")


class WirePart(Part):
    """A single wire."""

    gauge: GaugeField = Field(description="Its size.")
    diameter_mm: PositiveLengthMm = Field(alias="diameter", description="Its outside diameter over the insulation.")
    resistance_ohm_per_m: LinearResistanceOhmPerM = Field(
        alias="resistance", description="Its resistance by length, at 20 °C."
    )
    mass_g_per_m: LinearMassGPerM | None = Field(default=None, alias="mass", description="What it weighs by length.")
    limit_c: TemperatureC | None = Field(
        default=None, alias="limit", description="The heat that its insulation stands."
    )
    current_a: PositiveCurrentA | None = Field(
        default=None, alias="current", description="The current that it may carry, working."
    )
    sold_mm: tuple[SpoolLengthMm, ...] = Field(
        default=(), alias="sold", description="The lengths that its spools are sold in."
    )

    def stands(self, heat_c: float | None) -> bool:
        """Tell whether its limit is over a heat; one that says none is not judged."""
        return heat_c is None or self.limit_c is None or self.limit_c > heat_c


class LeadPart(Part):
    """What a circuit is wired with: wires by role."""

    wires: dict[Text, WireAndColourField] = Field(description="Wire and colour of each role.")
    lay_mm: PositiveLengthMm | None = Field(
        default=None, alias="lay", description="Where it is twisted, the way of one turn."
    )
    bought: Annotated[str, one_of("twisted", "flat", "cable")] | None = Field(
        default=None, description="Where it comes as one, how that looks."
    )
    jacket_mm: PositiveLengthMm | None = Field(
        default=None, alias="diameter", description="Of a cable, the outside diameter of its jacket."
    )
    reverses: YesNo = Field(default=False, description="Whether it is a motor's pair, whose current goes both ways.")
    supplies: YesNo = Field(
        default=False, description="Whether it supplies its load, with names of its own for the roles."
    )

    @model_validator(mode="after")
    def _some_wires(self) -> Self:
        if not self.wires:
            raise Refused("missing", "the lead has no wires.", "Name a wire for each role.")
        return self


class ContactPart(Part):
    """One mated contact of a plug or shell: what it carries, adds, and how its wire is stripped and crimped."""

    rating_a: PositiveCurrentA = Field(alias="rating", description="The current that it may carry, working.")
    brief_a: PositiveCurrentA | None = Field(
        default=None, alias="brief", description="The current that it may carry for at most 10 s."
    )
    resistance_ohm: ResistanceOhm = Field(alias="resistance", description="What a mated contact adds.")
    strip_mm: LengthMm | None = Field(default=None, alias="strip", description="How much of the wire is stripped.")
    takes: Annotated[tuple[GaugeField, ...], _Pair] | None = Field(
        default=None, description="The two sizes of wire between which it takes all."
    )
    over_mm: LengthMm | None = Field(default=None, alias="over", description="The largest insulation that it takes.")
    join: Join = Field(default="crimp", description="How wire and contact are joined.")

    def fits(self, wire: WirePart) -> bool:
        """Tell whether it is crimped on a wire, by the gauges that it takes and its largest insulation."""
        fits = self.over_mm is None or wire.diameter_mm <= self.over_mm
        return fits and (self.takes is None or takes_gauge(self.takes, wire.gauge))


class PlugPart(Part):
    """The plug of a port: which contact carries which role; its contacts lie in one row, `pitch` apart.

    `key` is where it is at the mating face of the half with the pins.
    """

    contacts: dict[Text, Text] = Field(description="The role of each contact.")
    equipment: Gender = Field(description="What the half on equipment carries.")
    contact: ContactPart = Field(description="What each of its contacts is like.")
    size: Annotated[list[PositiveLengthMm], _Pair] = Field(description="Width and height of its body, seen end on.")
    pitch: PositiveLengthMm | None = Field(default=None, description="How far apart its contacts are.")
    key: Key | None = Field(default=None, description="Where its key is, at the mating face of the pins.")
    checked: Date | None = Field(default=None, description="The day when it was held against the printed pattern.")
    retainer: YesNo = Field(default=False, description="Whether a mated pair wants a clip.")
    lock: Text = Field(default="", description="How it holds and opens, in words.")

    @model_validator(mode="after")
    def _one_contact_a_role(self) -> Self:
        if not self.contacts:
            raise Refused("missing", "the plug has no contacts.", "Name a role for each contact.")
        if len(set(self.contacts.values())) < len(self.contacts):
            raise Refused("value", "two contacts carry one role.", "Name each role once.")
        return self


class Pitch(Form):
    """How far apart the contacts of a block are."""

    across: PositiveLengthMm = Field(description="From one contact to the next in a row.")
    down: PositiveLengthMm = Field(description="From one row to the next.")


class ShellPart(Part):
    """A multi-contact connector, as seen at the mating face of the half with the pins."""

    model_config = shapes.rules(
        {"oneOf": [{"required": ["rows"]}, {"required": ["at"]}]},
        shapes.needs("rows", "pitch"),
        shapes.where(shapes.word("shape", "D"), required=["key"]),
    )

    rows: list[NameList] | None = Field(default=None, description="Contacts by row, at the mating face of the pins.")
    pitch: Pitch | None = Field(default=None, description="How far apart the contacts of rows are.")
    at: dict[Text, Annotated[list[OffsetMm], _Pair]] | None = Field(
        default=None, description="Each contact's place from the centre, right and up, where there are no rows."
    )
    outline: Annotated[list[PositiveLengthMm], _Pair] = Field(
        description="Width and height of what is seen at the mating face."
    )
    shape: Annotated[str, one_of(*SHAPES)] = Field(default="rectangle", description="What that outline is.")
    key: Key | None = Field(default=None, description="Where its key is, at the mating face of the pins.")
    contact: ContactPart = Field(description="What each of its contacts is like.")
    checked: Date | None = Field(default=None, description="The day when it was held against the printed pattern.")
    retainer: YesNo = Field(default=False, description="Whether a mated pair wants a clip.")
    lock: Text = Field(default="", description="How it holds and opens, in words.")

    @model_validator(mode="after")
    def _rows_or_at(self) -> Self:
        if (self.rows is None) == (self.at is None):
            raise Refused("missing", "contacts are given by `rows` or by `at`.", "Give one of the two.")
        if self.rows is not None and self.pitch is None:
            raise Refused("missing", "`rows` need a `pitch`.", "Say how far apart contacts are, across and down.")
        if self.shape == "D" and self.key is None:
            raise Refused("missing", "a D needs its `key`.", "Say where its wide side is: up, down, left or right.")
        names = [name for row in self.rows for name in row] if self.rows else list(self.at or {})
        if len(set(names)) < len(names) or not names:
            raise Refused("value", "a contact is named twice, or none is.", "Name each contact once.")
        self._check_drawing()
        return self

    def _check_drawing(self) -> None:
        """Refuse a pattern that no card can show: too large, contacts outside the outline or upon each other."""
        width, height = self.outline
        if width > MOST_OUTLINE_MM[0] or height > MOST_OUTLINE_MM[1]:
            what = f"an outline of {decimal(width)} × {decimal(height)} mm fits no card."
            most = " × ".join(decimal(side) for side in MOST_OUTLINE_MM)
            do = f"Measure it again: at most {most} mm. A long one lies on its side, with its contacts and its key."
            raise Refused("value", what, do, ("outline",))
        if self.shape == "round" and abs(width - height) > _SAME_MM:
            do = "Give it twice, as width and height."
            raise Refused("value", "a round outline has one diameter.", do, ("outline",))
        at = self.places_mm
        outside = [name for name, place in at.items() if not self._holds(place)]
        if outside:
            named = f"contact {outside[0]} lies" if len(outside) == 1 else f"contacts {listed(outside)} lie"
            what = f"{named} outside the outline."
            do = "Measure the outline, and the places of the contacts from its middle, again."
            raise Refused("value", what, do, ("at", outside[0]) if self.at else ("outline",))
        for (one, here), (other, there) in combinations(at.items(), 2):
            if math.dist(here, there) < LEAST_PITCH_MM:
                what = f"contacts {one} and {other} are nearer to each other than {decimal(LEAST_PITCH_MM)} mm."
                raise Refused("value", what, "Measure their places again.", ("at", other) if self.at else ("pitch",))

    def _holds(self, place: tuple[float, float]) -> bool:
        half_width, half_height = (side / 2 + _SAME_MM for side in self.outline)
        if self.shape == "round":
            return math.hypot(*place) <= half_width
        return abs(place[0]) <= half_width and abs(place[1]) <= half_height

    @property
    def places_mm(self) -> dict[str, tuple[float, float]]:
        """Return where the contacts are: from the middle, right and up [mm].

        Numbers stand in their order, letters as written. A shell of rows is laid out around its middle by its pitch.
        """
        if self.at is not None:
            at = {name: (right, up) for name, (right, up) in self.at.items()}
        else:
            rows, pitch = self.rows or [], self.pitch
            assert pitch is not None
            at = {
                name: ((i - (len(row) - 1) / 2) * pitch.across, ((len(rows) - 1) / 2 - j) * pitch.down)
                for j, row in enumerate(rows)
                for i, name in enumerate(row)
            }
        numbered = all(name.isascii() and name.isdigit() for name in at)
        return dict(sorted(at.items(), key=lambda item: int(item[0]))) if numbered else at


class SleevePart(Part):
    """Protection over wires: bundles that it fits, by how much it shortens at those two, heat that it stands."""

    kind: Text = Field(description="What it is, in words.")
    fits_mm: Annotated[tuple[LengthMm, ...], _Pair] = Field(
        alias="fits", description="The thinnest and the thickest bundle that it fits."
    )
    shortening: Annotated[tuple[Ratio, ...], _Pair] = Field(
        default=(0.0, 0.0), description="By how much it shortens at those two."
    )
    limit_c: TemperatureC = Field(alias="limit", description="The heat that it stands.")
    mass_g_per_m: LinearMassGPerM | None = Field(default=None, alias="mass", description="What it weighs by length.")
    splits: YesNo = Field(default=False, description="Whether it can be put on a finished lead.")


class TubePart(Part):
    """Heat-shrink tubing: inside diameter as supplied and recovered, wall when recovered."""

    expanded_mm: PositiveLengthMm = Field(alias="expanded", description="Its inside diameter as supplied.")
    recovered_mm: PositiveLengthMm = Field(
        alias="recovered", description="Its inside diameter when it is shrunk onto nothing."
    )
    wall_mm: LengthMm = Field(alias="wall", description="Its wall when it is shrunk.")
    clear: YesNo = Field(default=False, description="Whether print can be read through it.")
    colour: Colour | None = Field(default=None, description="Its colour.")
    limit_c: TemperatureC | None = Field(default=None, alias="limit", description="The heat that it stands.")

    def stands(self, heat_c: float | None) -> bool:
        """Tell whether it stands a heat; one that says no limit is not judged."""
        return heat_c is None or self.limit_c is None or self.limit_c >= heat_c


PART_SECTIONS: dict[str, type[Part]] = {
    "wires": WirePart,
    "leads": LeadPart,
    "plugs": PlugPart,
    "shells": ShellPart,
    "sleeves": SleevePart,
    "tubes": TubePart,
}
