"""Take the harness; return what the hangar card shows, as values."""

from __future__ import annotations

from typing import NamedTuple

from docgen.basics.findings import Finding, Level
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.harness import Harness
from docgen.harness.model.results import SupplyFigures


class Act(NamedTuple):
    """What is switched, and what the builder says of how."""

    name: str
    how: str


class Pack(NamedTuple):
    """A pack with flights on a charge: of all that share a supply together and, of several, of it alone."""

    name: str
    cells: int
    capacity_mah: float
    full_v: float
    empty_v: float
    together: float | None
    alone: float | None
    place: str


class Supply(NamedTuple):
    """A supply with its currents, and where the fewest volts arrive at peak of what passes them on."""

    name: str
    working_a: float | None
    peak_a: float | None
    least_v: float | None
    least_at: str | None


class Channel(NamedTuple):
    """What the radio moves: its channel, and what it does without the radio."""

    number: int | None
    function: str
    port: str
    throw: str
    failsafe: str | None


class Port(NamedTuple):
    """A port with what is plugged in there, nothing where it is free."""

    name: str
    function: str | None
    far: str | None
    channel: int | None


class Ports(NamedTuple):
    """All ports of one piece of equipment."""

    equipment: str
    kind: str
    ports: tuple[Port, ...]


class Gear(NamedTuple):
    """A gear leg's strokes, and what its controller is set to."""

    name: str
    up_s: float | None
    down_s: float | None
    limit_s: float | None
    stop_a: float | None


class Antenna(NamedTuple):
    """An antenna of a receiver."""

    receiver: str
    name: str
    lies: str
    place: str


class Joint(NamedTuple):
    """A disconnect, how a hand gets there, and what locks it."""

    name: str
    access: str
    lock: str | None


class PlanPoint(NamedTuple):
    """A joint, or a cover with how a hand gets there: how far aft and right of the nose [mm]."""

    name: str
    cover: str | None
    aft_mm: float
    right_mm: float

    @property
    def is_joint(self) -> bool:
        """Tell joints from covers."""
        return self.cover is None


class HangarContent(NamedTuple):
    """What the card shows."""

    name: str
    marks: str
    description: str
    contact: str
    circuits: int
    cautions: tuple[Finding, ...]
    switching_on: tuple[Act, ...]
    switching_off: tuple[Act, ...]
    packs: tuple[Pack, ...]
    supplies: tuple[Supply, ...]
    channels: tuple[Channel, ...]
    ports: tuple[Ports, ...]
    gear: tuple[Gear, ...]
    antennas: tuple[Antenna, ...]
    joints: tuple[Joint, ...]
    plan: tuple[PlanPoint, ...]


def content(harness: Harness) -> HangarContent:
    """Return what the hangar card shows."""
    aircraft, equipment = harness.aircraft, harness.equipment.values()
    switched = [harness.equipment[name] for name in harness.results.switching_on]
    antennas = ((entry.name, antenna) for entry in equipment for antenna in entry.antennas)
    return HangarContent(
        name=aircraft.name,
        marks=aircraft.marks,
        description=aircraft.description,
        contact=aircraft.contact,
        circuits=len(harness.circuits),
        cautions=tuple(finding for finding in harness.findings if finding.level is Level.CAUTION),
        switching_on=tuple(Act(entry.name, entry.form.on) for entry in switched if entry.form.on),
        switching_off=tuple(Act(entry.name, entry.form.off) for entry in reversed(switched) if entry.form.off),
        packs=_packs(harness),
        supplies=tuple(_supply(harness, supply) for supply in harness.results.supplies),
        channels=_channels(harness),
        ports=tuple(_ports(entry) for entry in equipment if entry.ports and not entry.nameless),
        gear=tuple(
            Gear(entry.name, gear.up_s, gear.down_s, gear.limit_s, gear.stop_a)
            for entry in equipment
            if (gear := entry.form.gear) is not None
        ),
        antennas=tuple(
            Antenna(name, antenna.name, antenna.form.lies, antenna.form.place) for name, antenna in antennas
        ),
        joints=tuple(
            Joint(joint.name, harness.places[joint.halves[0].place].access, joint.shell.lock)
            for joint in harness.disconnects.values()
        ),
        plan=_plan(harness),
    )


def _packs(harness: Harness) -> tuple[Pack, ...]:
    lasts: dict[str, tuple[float | None, float | None]] = {}
    for supply in harness.results.supplies:
        if supply.endurance is not None:
            several = len(supply.packs) > 1
            for pack, alone in supply.endurance.alone.items():
                lasts[pack] = supply.endurance.together, alone if several else None
    packs = ((entry, entry.battery) for entry in harness.equipment.values() if entry.battery is not None)
    return tuple(
        Pack(
            entry.name,
            pack.cells,
            pack.capacity_mah,
            pack.full_v,
            pack.empty_v,
            *lasts.get(entry.name, (None, None)),
            entry.place,
        )
        for entry, pack in packs
    )


def _supply(harness: Harness, supply: SupplyFigures) -> Supply:
    arriving = [
        (stage.peak_v, stage.name)
        for stage in supply.stages
        if stage.peak_v is not None and stage.name not in supply.packs and _judged_at_peak(harness, stage.name)
    ]
    return Supply(supply.name, supply.working_a, supply.peak_a, *min(arriving, default=(None, None)))


def _judged_at_peak(harness: Harness, name: str) -> bool:
    load = harness.equipment[name].load
    return load is None or load.stall_a is None


def _channels(harness: Harness) -> tuple[Channel, ...]:
    """Return what the radio moves by channel, then what has none."""
    forms = ((circuit, circuit.form) for circuit in harness.circuits.values())
    channels = [
        Channel(form.channel, circuit.label, circuit.start.text, form.throw, form.failsafe)
        for circuit, form in forms
        if form.channel is not None or form.throw or form.failsafe
    ]
    return tuple(sorted(channels, key=lambda channel: (channel.number is None, channel.number or 0)))


def _ports(entry: Equipment) -> Ports:
    ports = (
        Port(port.name, None, None, None)
        if port.circuit is None
        else Port(port.name, port.circuit.label, port.far_text, port.circuit.form.channel)
        for port in entry.ports
    )
    return Ports(entry.name, entry.kind, tuple(ports))


def _plan(harness: Harness) -> tuple[PlanPoint, ...]:
    """Return joints and covers that have coordinates; a cover is a place with an access where no joint lies."""
    joints = [(joint.name, harness.places[joint.halves[0].place]) for joint in harness.disconnects.values()]
    of_joints = {half.place for joint in harness.disconnects.values() for half in joint.halves}
    covers = [place for place in harness.places.values() if place.access and place.name not in of_joints]
    points = [PlanPoint(name, None, *place.point_mm[:2]) for name, place in joints if place.point_mm is not None]
    points += [
        PlanPoint(place.name, place.access, *place.point_mm[:2]) for place in covers if place.point_mm is not None
    ]
    return tuple(points)
