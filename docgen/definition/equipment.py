"""The form of equipment in harness.yaml: its ports, leads, currents and figures."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import BeforeValidator, Field, model_validator

from docgen.basics.findings import Refused
from docgen.definition import shapes
from docgen.definition.fields import (
    ChargeMah,
    Colour,
    CurrentA,
    Entry,
    Form,
    Gender,
    LengthMm,
    MassG,
    NameList,
    PlaceName,
    PlugName,
    PositiveCurrentA,
    PositiveLengthMm,
    PositiveRatio,
    PositiveVoltageV,
    ResistanceOhm,
    TemperatureC,
    Text,
    TimeS,
    VoltageV,
    WireName,
    YesNo,
    as_list,
    one_of,
    whole,
)

KINDS_OF_EQUIPMENT = (
    "receiver",
    "battery",
    "power switch",
    "power unit",
    "regulator",
    "servo",
    "speed controller",
    "motor",
    "engine unit",
    "pump",
    "valve",
    "gear controller",
    "gear leg",
    "brake",
    "light controller",
    "light",
    "smoke",
    "gyro",
    "sensor",
    "key",
    "servo controller",
    "fuse",
    "ignition",
    "other",
)
COAX_DIAMETER_MM = 1.2


class Output(Form):
    """A regulated outlet: it gives at most `volts_v`, and `headroom_v` less than what arrives."""

    volts_v: PositiveVoltageV = Field(alias="volts", description="What its outlets give at most.")
    headroom_v: VoltageV = Field(default=0, alias="headroom", description="How far they stay under what arrives.")
    rating_a: CurrentA | None = Field(
        default=None, alias="rating", description="The most that all outlets together may give."
    )
    efficiency: PositiveRatio | None = Field(
        default=None, description="Of a switching one, how much of the power comes out."
    )


class PortGroup(Form):
    """Ports of one kind."""

    plug: PlugName = Field(description="The plug of these ports, an entry of `plugs`.")
    names: NameList = Field(description="Names of the ports; `1..6` is a range.")
    contacts: Gender | None = Field(
        default=None, description="What the port itself carries, if it is not as the plug says."
    )
    lead: LengthMm | None = Field(default=None, description="Length of the lead that each of these ports came with.")
    lead_wire: WireName | None = Field(default=None, description="What that lead is made of, an entry of `wires`.")
    rating: CurrentA | None = Field(default=None, description="The most that these ports together may give.")
    output: Output | None = Field(default=None, description="What these ports give, where they are regulated.")


PortGroups = Annotated[list[PortGroup], BeforeValidator(as_list, json_schema_input_type=PortGroup | list[PortGroup])]


class Current(Form):
    """What it draws, and how long of a flight it works; what is unsaid is not computed."""

    idle_a: CurrentA | None = Field(
        default=None, alias="idle", description="What it draws on the ground; unsaid as working, or 0 with `runs`."
    )
    working_a: CurrentA | None = Field(default=None, alias="working", description="What it draws in flight.")
    stall_a: CurrentA | None = Field(
        default=None, alias="stall", description="What it draws when it is held fast; unsaid as working."
    )
    runs_s: TimeS | None = Field(
        default=None, alias="runs", description="How long of a flight it works; unsaid all of it."
    )
    typical: YesNo = Field(
        default=False,
        description="These currents are of `docgen new`: nobody measured yours.",
    )


class Volts(Form):
    """What it needs and bears [V]."""

    least: VoltageV | None = Field(default=None, description="The least that it works with.")
    most: VoltageV | None = Field(default=None, description="The most that it bears.")

    @model_validator(mode="after")
    def _most_is_more(self) -> Self:
        if self.least is not None and self.most is not None and self.most < self.least:
            raise Refused("value", "it bears less than it needs.", "Remedy one of the two.", ("most",))
        return self


class Battery(Form):
    """A pack's figures."""

    cells: Annotated[int, whole(1, 100)] = Field(description="How many cells are in series.")
    capacity_mah: ChargeMah = Field(alias="capacity", description="The charge that it holds.")
    full_v: PositiveVoltageV = Field(alias="full", description="Its volts when it is charged.")
    empty_v: PositiveVoltageV = Field(alias="empty", description="Its volts when it counts as empty.")
    resistance_ohm: ResistanceOhm | None = Field(
        default=None, alias="resistance", description="Its own resistance, if it is known."
    )
    rating_a: CurrentA | None = Field(
        default=None, alias="rating", description="The most that it may give, if that is known."
    )

    @model_validator(mode="after")
    def _full_is_more(self) -> Self:
        if self.full_v < self.empty_v:
            raise Refused("value", "a full pack gives less than an empty one.", "Remedy one of the two.", ("full",))
        return self


class Gear(Form):
    """Strokes timed on the bench, and what the controller is set to."""

    up_s: TimeS | None = Field(default=None, alias="up", description="How long it takes up, timed on the bench.")
    down_s: TimeS | None = Field(default=None, alias="down", description="How long it takes down, timed on the bench.")
    limit_s: TimeS | None = Field(
        default=None, alias="limit", description="After how long the controller switches it off."
    )
    stop_a: CurrentA | None = Field(
        default=None, alias="stop", description="At what current the controller switches it off."
    )


class Antenna(Entry):
    """One antenna of a receiver."""

    place: PlaceName = Field(description="The place where its tip lies.")
    lies: Annotated[str, one_of("lengthwise", "crosswise", "upright", "sloping")] = Field(
        description="Which way it lies."
    )
    lead_mm: LengthMm = Field(alias="lead", description="Length of its coax, all of it.")
    diameter_mm: PositiveLengthMm = Field(
        default=COAX_DIAMETER_MM, alias="diameter", description="Outside diameter of its coax."
    )
    band: Text = Field(default="", description="Its band, where a receiver has several.")


class Equipment(Entry):
    """Whatever has wires on it."""

    model_config = shapes.rules(
        shapes.needs("lead", "plug"),
        shapes.where(shapes.said("ports"), lead=False, plug=False),
        shapes.where(shapes.word("kind", "battery"), required=["battery"]),
        shapes.where(shapes.other_word("kind", "key"), out=False),
        shapes.where(shapes.other_word("kind", "fuse"), rating=False),
    )

    kind: Annotated[str, one_of(*KINDS_OF_EQUIPMENT)] = Field(description="What it is.")
    place: PlaceName = Field(description="The place where it sits.")
    ports: PortGroups = Field(default=[], description="A group of ports with one plug, or a list of groups.")
    lead: LengthMm | None = Field(default=None, description="Length of the one lead that came on it.")
    plug: PlugName | None = Field(default=None, description="The plug on that lead, an entry of `plugs`.")
    lead_wire: WireName | None = Field(default=None, description="What that lead is made of, an entry of `wires`.")
    lead_colours: dict[Text, Colour] = Field(
        default={}, description="Colours of that lead by role, where they differ from the harness."
    )
    plug_at: PlaceName | None = Field(default=None, description="The place where its plug lies; unsaid its own.")
    current: Current | None = Field(default=None, description="What it draws; what is unsaid is not computed.")
    runs: TimeS | None = Field(default=None, description="How long of a flight it works; may stand in `current` too.")
    volts: Volts | None = Field(default=None, description="What it needs and bears.")
    output: Output | None = Field(default=None, description="What its outlets give, where they are regulated.")
    fed_by: NameList = Field(default=[], description="The ports that feed it, where not all do.")
    isolates: YesNo = Field(default=False, description="Whether it keeps its feeds apart.")
    battery: Battery | None = Field(default=None, description="The figures of a pack.")
    rating_a: PositiveCurrentA | None = Field(
        default=None, alias="rating", description="Of a fuse, the current that it bears."
    )
    on: Text = Field(default="", description="How it is switched on, and seen to be, in words.")
    off: Text = Field(default="", description="How it is switched off, and seen to be, in words.")
    out: Annotated[str, one_of("on", "off")] = Field(
        default="off", description="What a key does when it is pulled out."
    )
    stop: Text = Field(default="", description="How what it drives is stopped, in words.")
    stopped: Text = Field(default="", description="How one sees that its supply may go, in words.")
    drives: dict[Text, NameList] = Field(default={}, description="Of a controller, which input works which outlets.")
    most_heat_c: TemperatureC | None = Field(
        default=None, alias="most_heat", description="The hottest air that it bears."
    )
    gear: Gear | None = Field(default=None, description="Strokes of a gear leg, or what a gear controller is set to.")
    antennas: dict[Text, Antenna] = Field(default={}, description="Of a receiver, its antennas by name.")
    mass: MassG | None = Field(default=None, description="What it weighs, for the balance.")

    @model_validator(mode="after")
    def _one_way_to_say_ports(self) -> Self:
        if self.ports and (self.lead is not None or self.plug is not None):
            what = "both `ports` and a `lead` or `plug` of its own are said."
            raise Refused("value", what, "Say the lead on its ports.")
        if self.lead is not None and self.plug is None:
            raise Refused("missing", "the `plug` on its lead is not said.", "Add `plug:`.")
        names = [name for group in self.ports for name in group.names]
        if len(set(names)) < len(names):
            raise Refused("name", "two ports have one name.", "Give each port its own name.")
        if self.kind == "battery" and self.battery is None:
            do = "Add `battery:` with cells, capacity, full, empty."
            raise Refused("missing", "a battery says nothing of its cells.", do)
        if self.kind != "key" and "out" in self.model_fields_set:
            raise Refused("value", "only a key is pulled out.", "Delete `out:`, or call it a key.", ("out",))
        if self.kind != "fuse" and self.rating_a is not None:
            do = "Put `rating:` into a group of ports, `output:` or `battery:`."
            raise Refused("value", "only a fuse has a rating of its own.", do, ("rating",))
        return self
