"""Take the harness; return the last parts of first power-up: packs, joints, linkages, range, first run, flights."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from docgen.harness.electrical.switching import ENGINES, MOTORS
from docgen.harness.model.harness import Harness
from docgen.harness.model.losses import Function
from docgen.harness.model.results import SupplyFigures
from docgen.paperwork.field.aboard import OF_ENGINES, Aboard, gyros, of_engines
from docgen.paperwork.field.power_gear import LEGS, doors
from docgen.paperwork.field.power_parts import Part, Step, amps_text

_BETWEEN = ("power switch", "fuse", "key")  # pack and what it feeds
UNDER_V = 0.3  # a charged pack soon gives less than full, and meters differ: common practice, no source
_RUNS = "starts, idles, runs up, stops"


def running(harness: Harness, there: Aboard) -> Iterator[Part]:
    """Walk what is done with packs, then with engines and motors, then after the first flights."""
    yield _packs(harness, there)
    yield _shaken(harness)
    yield _linkages(harness)
    off = " and ".join(["motor"] * there.motor + ["engine"] * there.engine)
    says = "as the maker of the radio says" + (f", {off} off" if off else "")
    distance = [Step("range", says, "m", reads=True)]
    yield Part("Range", "", distance * there.receiver)
    yield from _first_run(harness, there)
    yield _after(harness)


def _packs(harness: Harness, there: Aboard) -> Part:
    steps = []
    for supply in (one for one in harness.results.supplies if not _is_of_drives(harness, one)):
        lowest = _lowest(harness, supply)
        several = len(supply.packs) > 1
        alone = supply.packs if several else ()
        steps += [Step(pack, "alone, every stick stirred", lowest, True, (f"alone {pack}",)) for pack in alone]
        steps.append(
            Step(
                "both" if len(supply.packs) == 2 else "all" if several else supply.packs[0],
                "all on it working, sticks stirred",
                lowest,
                reads=True,
                of=tuple(f"lowest {pack}" for pack in supply.packs),
            )
        )
    return Part(
        "Packs, charged, one supply after another",
        "Bench supply away. Volts at what is named, in a free port or from the wires' side of its plug: as worked out "
        f"of charged packs, less {UNDER_V} V.",
        steps,
        caution=there.made_safe,
        stop="it is under what is said: a contact, a wire or a pack is too weak.",
    )


def _is_of_drives(harness: Harness, supply: SupplyFigures) -> bool:
    """Tell whether packs feed nothing but motors and engines, and what these work, which run later."""
    fed = {harness.equipment[stage.name].kind for stage in supply.stages if stage.name not in supply.packs}
    return not fed.isdisjoint(MOTORS) and fed <= {*MOTORS, *OF_ENGINES, *_BETWEEN}


def _lowest(harness: Harness, supply: SupplyFigures) -> str:
    """Say the fewest volts of charged packs, all working, where most is lost of what passes supply on and is probed.

    Behind a regulator the volts may be fewer, yet it hides what is lost before it.
    """
    arriving, ends = [], {one.load for one in harness.losses.functions}
    for name in (stage.name for stage in supply.stages if stage.name not in supply.packs):
        volts = harness.results.charged_v.get(name)
        full = [harness.results.rest[one].full_v for one in _into(harness, name) if one in harness.results.rest]
        if volts is not None and full and _passes(harness, name, ends) and _is_probed(harness, name):
            arriving.append((volts - max(full), volts, name))
    if not arriving:
        return ""
    _, volts, name = min(arriving)
    return f"≥ {volts - UNDER_V:.1f} V {name}"


def _into(harness: Harness, name: str) -> list[str]:
    circuits = (port.circuit for port in harness.equipment[name].ports if port.circuit is not None)
    return [one.name for one in circuits if one.poles and any(end.name == name for end in one.loads)]


def _passes(harness: Harness, name: str, ends: Collection[str]) -> bool:
    load = harness.equipment[name].load
    return name not in ends and (load is None or load.stall_a is None)


def _is_probed(harness: Harness, name: str) -> bool:
    """Tell whether a meter gets to what arrives: in a free port of a receiver, or at the plug of a lead of ours."""
    entry = harness.equipment[name]
    leads = (lead for circuit in _into(harness, name) for lead in harness.circuits[circuit].cut_leads)
    if any(lead.ends[1].name == name for lead in leads):
        return True
    free = (port.connector for port in entry.ports if port.circuit is None and entry.kind == "receiver")
    return any({"positive", "negative"} <= set(connector.roles.values()) for connector in free)


def _shaken(harness: Harness) -> Part:
    steps = [Step(name, "shaken: nothing twitches", of=(f"joint {name}",)) for name in harness.disconnects]
    keys = [entry for entry in harness.equipment.values() if entry.kind == "key"]
    does = {"on": "its lead pulled out: all stays on", "off": "pulled: what it switches is off"}
    steps += [Step(key.name, does[key.form.out], of=(f"circuit {circuit_of(harness, key.name)}",)) for key in keys]
    title = "Joints and keys, all on" if keys else "Joints, all on"
    return Part(title, "", steps, stop="something twitches: what shaking cures is not mended. No flight.")


def circuit_of(harness: Harness, key: str) -> str:
    """Return the circuit of a key."""
    for circuit in harness.circuits.values():
        if key in (circuit.start.name, *(end.name for end in circuit.loads)):
            return circuit.name
    return key


def _linkages(harness: Harness) -> Part:
    steps = [Step("linkages on", "centre, then both ends: nothing binds, current back to idle", reads=True)]
    steps *= any(entry.kind == "servo" for entry in harness.equipment.values())
    moved = [Step("doors", "gear up, then down: no leg meets a door")] * bool(doors(harness))
    tilted = gyros(harness)
    does = "aircraft tilted, turned each way: surfaces move against it"
    steps += [*moved, *(Step(name, does, of=(f"gyro {name}",)) for name in tilted)]
    stop = "a surface moves with the aircraft: reversed in the gyro. No flight." if tilted else ""
    return Part("Linkages", "", steps, caution=f"{LEGS}." if moved else "", stop=stop)


def _first_run(harness: Harness, there: Aboard) -> Iterator[Part]:
    ends = {one.load for one in harness.losses.functions}
    engines = {name: some for name, some in of_engines(harness).items() if name not in ends}
    worked = [one for some in engines.values() for one in some]
    functions = (one for one in harness.losses.functions if one not in worked)
    driven = [one for one in functions if harness.equipment[one.load].kind in MOTORS]
    steps = [_engine(name, some) for name, some in engines.items()]
    for one in driven:
        feeder = next((harness.circuits[name].start.name for name in one.circuits), one.load)
        load = harness.equipment[one.load].load or (
            harness.equipment[feeder].load if feeder in harness.equipment else None
        )
        amps = f"≤ {amps_text(load.stall_a)}" if load is not None and load.stall_a is not None else ""
        steps.append(Step(one.label, _does(harness, one), amps, reads=True, of=(f"load {one.load}",)))
    yield Part(
        "First run, held",
        "Outdoors, by the maker's instructions and the club's rules.",
        steps,
        caution=_run_caution(there),
        stop="it shakes, smells, or does not stop: throttle lowest, then its supply off.",
    )
    both = [
        Step("range, running", "as before, aircraft held", "m", reads=True),
        Step("fail-safe, running", "transmitter off: it stops or idles"),
    ]
    yield Part("Running, held", "", both * bool(steps and there.receiver), caution=_run_caution(there))


def _engine(unit: str, works: Sequence[Function]) -> Step:
    """Return the step in which an engine runs, with what its unit works."""
    does = f"with {', '.join(one.label for one in works)}: {_RUNS}" if works else _RUNS
    return Step(unit, does, reads=True, of=(f"engine {unit}", *(f"load {one.load}" for one in works)))


def _does(harness: Harness, one: Function) -> str:
    """Say what is seen of what drives: an engine has no way to turn but one."""
    is_engine = harness.equipment[one.load].kind in ENGINES
    return _RUNS if is_engine else "turns the right way, runs up, stops"


def _run_caution(there: Aboard) -> str:
    said = ["Aircraft held and restrained, nobody before or beside it"]
    said += [f"clear of {there.clear_of}"] if there.clear_of else []
    said += ["fuel: an extinguisher at hand"] if there.engine else []
    return "; ".join(said) + "."


def _after(harness: Harness) -> Part:
    steps = []
    for supply in harness.results.supplies:
        for pack in supply.packs:
            mah = supply.endurance.flight_mah.get(pack) if supply.endurance is not None else None
            share = len(supply.packs) if supply.endurance is not None and supply.endurance.add_up else 1
            should = f"{mah / share:.0f} mAh" if mah is not None else ""
            does = "charge put back a flight; plug not warm"
            steps.append(Step(pack, does, should, reads=True, of=(f"charge {pack}",)))
        regulated = [stage.name for stage in supply.stages if stage.outputs]
        steps += [Step(name, "not hot", of=(f"warmth {name}",)) for name in regulated]
    return Part("After the first flights", "More than is said: something binds, or draws more.", steps)
