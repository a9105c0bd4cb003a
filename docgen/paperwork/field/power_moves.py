"""Take the harness; return the parts of first power-up in which things move, engines and motors still made safe."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from docgen.harness.electrical.switching import MOTORS
from docgen.harness.model.circuits import Circuit
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.harness import Harness
from docgen.harness.model.losses import Function
from docgen.paperwork.field.aboard import Aboard, of_engines
from docgen.paperwork.field.power_gear import LEGS, gear
from docgen.paperwork.field.power_parts import MORE, Part, Step, amps_text, idle_a, limit_a, more_text

_DOES = {
    "light": "comes on",
    "smoke": "runs",
    "pump": "runs",
    "valve": "opens and shuts",
    "brake": "holds its wheel, lets go",
    "gear leg": "up, down, way clear",
    "gyro": "gets ready",
    "sensor": "shows at the transmitter",
}

_ON = ("light", "smoke", "pump", "other")  # what the meter is read of while it is on, of all else at rest


def moving(harness: Harness, there: Aboard) -> Iterator[Part]:
    """Walk what moves: each circuit alone, gear, regulators, receivers, fail-safe."""
    yield _each(harness, there)
    yield gear(harness)
    yield _regulators(harness)
    yield _receivers(harness, there)
    yield _failsafe(harness, there)


def signals(harness: Harness, there: Aboard, drives: Sequence[Step], heard: Collection[str]) -> Part:
    """Return the part in which units that feed or move others hear the receiver, if they are not `heard` later.

    What drives is fed here, each in the row in which it follows if it has one.
    """
    fed = {step.name: step for step in drives}
    steps = [
        follows(circuit, fed.pop(circuit.loads[0].name, None))
        for circuit in heard_by_units(harness)
        if f"circuit {circuit.name}" not in heard
    ]
    says = "Transmitter on; the unit's own light or sound shows it."
    several = len(harness.results.supplies) > 1
    if several and drives:
        says += " Radio and unit are both fed: what has a limit by a bench supply in place of its pack, limited so, "
        says += f"volts as before; the other by a second one or its pack; {MORE}."
    elif several:
        says += " Radio and unit are both fed: a second limited supply, or the pack of one of them."
    elif drives:
        says += f" Bench supply limited as said; {MORE}."
    stop = "it is at its limit, or hot: off." if drives else ""
    return Part("Signals to units", says, [*fed.values(), *steps], caution=there.made_safe, stop=stop)


def heard_by_units(harness: Harness) -> Iterator[Circuit]:
    """Walk the circuits that carry nothing but signals to what is no function, keys and commons left out."""
    ends = {one.load for one in harness.losses.functions}
    for circuit in harness.circuits.values():
        hear = {end.name for end in circuit.loads if end.is_port}
        if not circuit.poles and hear and ends.isdisjoint(hear) and not _is_key(harness, circuit):
            yield circuit


def follows(circuit: Circuit, feed: Step | None = None) -> Step:
    """Return the step in which a unit is seen to hear its signal, with what feeds it if that is done there."""
    does, of = f"{circuit.load_text} follows{_channel(circuit)}", f"circuit {circuit.name}"
    if feed is None:
        return Step(circuit.label, does, of=(of,))
    return Step(circuit.label, f"{feed.does}; {does}", feed.should, reads=True, of=(*feed.of, of))


def _is_key(harness: Harness, circuit: Circuit) -> bool:
    names = (circuit.start.name, *(end.name for end in circuit.loads))
    return any(name in harness.equipment and harness.equipment[name].kind == "key" for name in names)


def _channel(circuit: Circuit) -> str:
    return f" channel {circuit.form.channel}" if circuit.form.channel is not None else ""


def _each(harness: Harness, there: Aboard) -> Part:
    run_later = {one.load for some in of_engines(harness).values() for one in some}
    steps = [
        _one(harness, one)
        for one in harness.losses.functions
        if harness.equipment[one.load].kind not in MOTORS and one.load not in run_later
    ]
    return Part(
        "Each circuit, one by one",
        "Linkages off. Plug in one, bench supply limited as said: the idle of all and its own most. It moves the right "
        f"way; {MORE}, at rest again (else it binds), of what comes on or runs while it does. Limits: common practice.",
        steps,
        caution=f"{LEGS}." if there.gear else "",
        stop="it is at its limit at rest, or hot: off; see what the fault finder says of it alone.",
    )


def _one(harness: Harness, one: Function) -> Step:
    entry = harness.equipment[one.load]
    circuits = [harness.circuits[name] for name in one.circuits]
    moved = next((circuit for circuit in circuits if circuit.form.channel is not None), circuits[0])
    gear = entry.form.gear
    stall = gear.stop_a if gear is not None and gear.stop_a is not None else _most_a(entry)
    idle = _idle_behind(harness, one.load)
    does = ", ".join(filter(None, (_what(entry, moved), f"limit {amps_text(limit_a(idle, stall))}")))
    signals = tuple(f"circuit {circuit.name}" for circuit in circuits if not circuit.poles)
    more = more_text(_working_a(entry) if entry.kind in _ON else idle_a(entry))
    return Step(one.label, does, more, reads=True, of=(f"load {one.load}", *signals))


def _what(entry: Equipment, circuit: Circuit) -> str:
    does = circuit.form.throw or _DOES.get(entry.kind, "moves" if entry.kind == "servo" else "works")
    return ", ".join(filter(None, (does, _channel(circuit).strip())))


def _most_a(entry: Equipment) -> float:
    load = entry.load
    return (load.stall_a if load.stall_a is not None else load.working_a or 0.0) if load is not None else 0.0


def _working_a(entry: Equipment) -> float | None:
    return entry.load.working_a if entry.load is not None else None


def _idle_behind(harness: Harness, load: str) -> float:
    """Return what all on the same supply draws at rest [A]."""
    supply = next((one for one in harness.results.supplies if load in {stage.name for stage in one.stages}), None)
    names = [stage.name for stage in supply.stages] if supply is not None else []
    return sum(idle_a(harness.equipment[name]) or 0.0 for name in names)


def _regulators(harness: Harness) -> Part:
    steps = []
    for supply in harness.results.supplies:
        for stage in supply.stages:
            for outlets in stage.outputs:
                volts = harness.results.bench_v.get((stage.name, outlets.ports))
                if volts is not None:
                    ports = ", ".join(outlets.ports)
                    drop = f"; drop before it {stage.drop_v:.2f} V" if stage.drop_v is not None else ""
                    of = (f"regulator {stage.name} {ports}",)
                    should = f"{volts:.2f} V"
                    steps.append(Step(f"{stage.name} {ports}".strip(), f"all on it working{drop}", should, True, of))
    return Part("Regulators under load", "Read while all that hangs on it moves.", steps, stop="it sags or is hot.")


def _receivers(harness: Harness, there: Aboard) -> Part:
    receivers = [name for name, entry in harness.equipment.items() if entry.kind == "receiver"]
    losses = {loss.thing.name: loss for loss in harness.losses.losses if loss.thing.kind == "receiver"}
    steps = []
    for name in receivers if len(receivers) > 1 else ():
        others = [other for other in receivers if other != name]
        goes_on = [load for other in others if other in losses for load in losses[other].goes_on]
        moves = ", ".join(dict.fromkeys(harness.losses.labels(goes_on))) or "what is plugged in on it"
        steps.append(Step(name, f"{', '.join(others)} unplugged: {moves} still move", of=(f"alone {name}",)))
    return Part("Each receiver alone", "", steps, caution=there.made_safe)


def _failsafe(harness: Harness, there: Aboard) -> Part:
    receivers = [name for name, entry in harness.equipment.items() if entry.kind == "receiver"]
    steps = []
    for circuit in harness.circuits.values():
        if circuit.form.failsafe is not None or circuit.form.channel is not None:
            own = circuit.start.name in receivers
            boxes = tuple(name for name in receivers if not own or name == circuit.start.name)
            does = circuit.form.failsafe or "as you set it"
            steps.append(Step(circuit.label, does, of=(f"failsafe {circuit.name}",), boxes=boxes))
    each = " A box for each receiver, the other unplugged." if len(receivers) > 1 else ""
    return Part("Fail-safe, transmitter off", f"Each does what is said.{each}", steps, caution=there.made_safe)
