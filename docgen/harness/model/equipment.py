"""Whatever has wires on it: its ports with what is plugged in, its antennas and its figures. Values only."""

from __future__ import annotations

from docgen.basics.frozen import frozen
from docgen.definition import equipment as equipment_forms
from docgen.definition.equipment import Battery, Current, Output
from docgen.harness.model.airframe import Route
from docgen.harness.model.circuits import Circuit, End, ends_text
from docgen.harness.model.parts import Connector

_SWITCH_OTHERS = (
    "receiver",
    "power switch",
    "power unit",
    "regulator",
    "speed controller",
    "engine unit",
    "gear controller",
    "light controller",
)


@frozen(slots=True)
class PortUse:
    """One port of equipment, the circuit plugged in there, if any, and the `far` ends of that.

    Ports of one `group` share its rating; `output` is set where they are regulated.
    """

    name: str
    connector: Connector
    gender: str
    group: int
    rating_a: float | None
    output: Output | None
    circuit: Circuit | None
    far: tuple[End, ...]

    @property
    def far_text(self) -> str:
        """Say where the circuit goes from here."""
        return ends_text(self.far)


@frozen(slots=True)
class Antenna:
    """One antenna of a receiver; without a `route` no runs lead to its place."""

    name: str
    form: equipment_forms.Antenna
    route: Route | None


@frozen(slots=True)
class Equipment:
    """Whatever has wires on it; `form` is what the builder wrote of it."""

    name: str
    form: equipment_forms.Equipment
    kind: str
    place: str
    ports: tuple[PortUse, ...]
    nameless: bool
    load: Current | None
    least_v: float | None
    most_v: float | None
    battery: Battery | None
    antennas: tuple[Antenna, ...]

    @property
    def has_card(self) -> bool:
        """Tell whether what is plugged in where is worth a card: of named ports, and of all that switches others."""
        return bool(self.ports) and (not self.nameless or self.kind in _SWITCH_OTHERS)
