"""What belongs to the radio: fail-safe and antennas."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

from docgen.basics.findings import Finding, listed, shown
from docgen.basics.units import millimetres
from docgen.definition.model import Where
from docgen.harness.model.circuits import Circuit
from docgen.harness.model.harness import Antenna, Equipment, Harness

_ROUNDING_MM = 0.05
_STOPPED = ("idle", "off")
# What must stop when the radio is lost, and what its fail-safe may say.
_MUST_STOP = {
    "engine unit": "`failsafe: off` or `failsafe: idle`",
    "speed controller": "`failsafe: off` or `failsafe: idle`",
    "smoke": "`failsafe: off`",
}
_SIGNAL_COMES_FROM = ("receiver", "power unit")
_AXES = ("lengthwise", "crosswise", "upright")


def find_failsafe(harness: Harness, where: Where) -> list[Finding]:
    """Return a caution for each engine unit, speed controller and smoke that no circuit sets to off or idle.

    Common practice, no source: without the radio an engine and a smoke pump go to off or idle, never hold.
    """
    findings = []
    for name, equipment in harness.equipment.items():
        if equipment.kind not in _MUST_STOP:
            continue
        circuits = [circuit for circuit in harness.circuits.values() if _commands(harness, circuit, name)]
        if any(circuit.form.failsafe in _STOPPED for circuit in circuits):
            continue
        said = [f"{shown(circuit.name)} says {circuit.form.failsafe}" for circuit in circuits if circuit.form.failsafe]
        instead = f"; {listed(said)}" if said else ""
        sentence = f"nothing says off or idle for {shown(name)} ({equipment.kind}) when the radio is lost{instead}."
        channels = [circuit.name for circuit in circuits if circuit.form.channel is not None]
        commands = channels or [circuit.name for circuit in circuits]
        at = f"at {' or '.join(map(shown, commands))}" if commands else "at the circuit that commands it"
        do = f"Say {_MUST_STOP[equipment.kind]} {at}, and set it in every receiver."
        findings.append(Finding(where.key("equipment", name), "failsafe", sentence, do, ("equipment", name)))
    return findings


def _commands(harness: Harness, circuit: Circuit, name: str) -> bool:
    """Tell whether a circuit can command equipment: it ends there, or feeds the receiver that the signal comes from."""
    if any(end.is_port and end.name == name for end in circuit.loads):
        return True
    begins = circuit.start.is_port and circuit.start.name == name
    return begins and any(
        end.is_port and harness.equipment[end.name].kind in _SIGNAL_COMES_FROM for end in circuit.loads
    )


def find_antennas(harness: Harness, where: Where) -> list[Finding]:
    """Return cautions for antennas that lie alike, receivers on too few axes, and leads that are too short.

    Common practice, no source: one receiver's two at right angles, those of two on different axes.
    """
    findings: list[Finding] = []
    receivers = [equipment for equipment in harness.equipment.values() if equipment.antennas]
    for receiver in receivers:
        for index, antenna in enumerate(receiver.antennas):
            findings += _alike(where, receiver, antenna, receiver.antennas[:index])
            findings += _too_short(where, receiver, antenna)
    several = [receiver for receiver in receivers if len(receiver.antennas) >= 2]
    for first, second in itertools.combinations(several, 2):
        findings += _few_axes(where, first, second)
    return findings


def _alike(where: Where, receiver: Equipment, antenna: Antenna, before: tuple[Antenna, ...]) -> Iterator[Finding]:
    like = [other.name for other in before if other.lies == antenna.lies]
    if not like:
        return
    lie = "lies" if len(like) == 1 else "lie"
    sentence = (
        f"antenna {shown(antenna.name)} of {shown(receiver.name)} lies {antenna.lies}, "
        f"as {listed(map(shown, like))} {lie} too: they are deaf the same way."
    )
    taken = {other.lies for other in receiver.antennas}
    free = [axis for axis in _AXES if axis not in taken]
    do = f"Lay it {' or '.join(free)}, at right angles to the other." if free else "Lay each along an axis of its own."
    position = where.value("equipment", receiver.name, "antennas", antenna.name, "lies")
    yield Finding(position, "antennas", sentence, do, ("equipment", receiver.name))


def _too_short(where: Where, receiver: Equipment, antenna: Antenna) -> Iterator[Finding]:
    name, route = antenna.name, antenna.route
    what = f"antenna {shown(name)} of {shown(receiver.name)}"
    if route is None:
        sentence = f"no runs lead from {shown(receiver.place)} to {shown(antenna.place)}, where {what} lies."
        do = "Add the run that is missing to `runs:`, or correct its `place:`."
    elif route.length_mm > antenna.lead_mm + _ROUNDING_MM:
        sentence = (
            f"the lead of {what} is {millimetres(antenna.lead_mm)} mm, its place lies {millimetres(route.length_mm)} "
            f"mm away along the runs: {millimetres(route.length_mm - antenna.lead_mm)} mm short."
        )
        do = f"Fit one with a lead of {math.ceil(route.length_mm - _ROUNDING_MM)} mm at least, or let it lie nearer."
    else:
        return
    position = where.value("equipment", receiver.name, "antennas", name, "lead")
    yield Finding(position, "antennas", sentence, do, ("antennas", f"{receiver.name} {name}"))


def _few_axes(where: Where, first: Equipment, second: Equipment) -> Iterator[Finding]:
    axes = list(dict.fromkeys(antenna.lies for antenna in (*first.antennas, *second.antennas)))
    if len(axes) >= 3:
        return
    sentence = (
        f"the antennas of {shown(first.name)} and {shown(second.name)} all lie {' or '.join(axes)}: "
        f"{3 - len(axes)} short of three axes."
    )
    free = [axis for axis in _AXES if axis not in axes]
    do = f"Lay one of those of {shown(second.name)} {' or '.join(free)}."
    if len(axes) == 1:
        do = f"Lay one antenna of each another way: {' or '.join(free)}, so that there are three."
    position = where.value("equipment", second.name, "antennas")
    yield Finding(position, "antennas", sentence, do, ("equipment", second.name))
