"""The form of equipment in harness.yaml: its ports, leads, currents and figures."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import BeforeValidator, Field, model_validator

from docgen.basics.findings import Refused
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

    volts_v: PositiveVoltageV = Field(alias="volts")
    headroom_v: VoltageV = Field(default=0, alias="headroom")
    rating_a: CurrentA | None = Field(default=None, alias="rating")
    efficiency: PositiveRatio | None = None


class PortGroup(Form):
    """Ports of one kind."""

    plug: PlugName
    names: NameList
    contacts: Gender | None = None
    lead: LengthMm | None = None
    lead_wire: WireName | None = None
    rating: CurrentA | None = None
    output: Output | None = None


class Current(Form):
    """What it draws, and how long of a flight it works; what is unsaid is not computed."""

    idle_a: CurrentA | None = Field(default=None, alias="idle")
    working_a: CurrentA | None = Field(default=None, alias="working")
    stall_a: CurrentA | None = Field(default=None, alias="stall")
    runs_s: TimeS | None = Field(default=None, alias="runs")


class Volts(Form):
    """What it needs and bears [V]."""

    least: VoltageV | None = None
    most: VoltageV | None = None

    @model_validator(mode="after")
    def _most_is_more(self) -> Self:
        if self.least is not None and self.most is not None and self.most < self.least:
            raise Refused("value", "it bears less than it needs.", "Remedy one of the two.", ("most",))
        return self


class Battery(Form):
    """A pack's figures."""

    cells: Annotated[int, whole(1, 100)]
    capacity_mah: ChargeMah = Field(alias="capacity")
    full_v: PositiveVoltageV = Field(alias="full")
    empty_v: PositiveVoltageV = Field(alias="empty")
    resistance_ohm: ResistanceOhm | None = Field(default=None, alias="resistance")
    rating_a: CurrentA | None = Field(default=None, alias="rating")

    @model_validator(mode="after")
    def _full_is_more(self) -> Self:
        if self.full_v < self.empty_v:
            raise Refused("value", "a full pack gives less than an empty one.", "Remedy one of the two.", ("full",))
        return self


class Gear(Form):
    """Strokes timed on the bench, and what the controller is set to."""

    up_s: TimeS | None = Field(default=None, alias="up")
    down_s: TimeS | None = Field(default=None, alias="down")
    limit_s: TimeS | None = Field(default=None, alias="limit")
    stop_a: CurrentA | None = Field(default=None, alias="stop")


class Antenna(Entry):
    """One antenna of a receiver."""

    place: PlaceName
    lies: Annotated[str, one_of("lengthwise", "crosswise", "upright", "sloping")]
    lead_mm: LengthMm = Field(alias="lead")
    diameter_mm: PositiveLengthMm = Field(default=COAX_DIAMETER_MM, alias="diameter")
    band: Text = ""


class Equipment(Entry):
    """Whatever has wires on it."""

    kind: Annotated[str, one_of(*KINDS_OF_EQUIPMENT)]
    place: PlaceName
    ports: Annotated[list[PortGroup], BeforeValidator(as_list)] = []
    lead: LengthMm | None = None
    plug: PlugName | None = None
    lead_wire: WireName | None = None
    lead_colours: dict[Text, Colour] = {}
    plug_at: PlaceName | None = None
    current: Current | None = None
    runs: TimeS | None = None
    volts: Volts | None = None
    output: Output | None = None
    fed_by: NameList = []
    isolates: YesNo = False
    battery: Battery | None = None
    rating_a: PositiveCurrentA | None = Field(default=None, alias="rating")
    on: Text = ""
    off: Text = ""
    out: Annotated[str, one_of("on", "off")] = "off"
    stop: Text = ""
    stopped: Text = ""
    drives: dict[Text, NameList] = {}
    most_heat_c: TemperatureC | None = Field(default=None, alias="most_heat")
    gear: Gear | None = None
    antennas: dict[Text, Antenna] = {}
    mass: MassG | None = None

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
